//! The election's streets as rows in which a worker finds a voter's ballot.
//!
//! The label is street, houses, precinct and code. Houses are told in numbers alone, so that no
//! sentence is needed: `1–99` is every house, `2, 4 … 98` are the even ones.

use evenhand_definitions::{StreetRow, StreetSide, Streets};
use evenhand_duty::{Entry, Houses, Side};
use evenhand_rules::{Language, Style};

/// A row for each part of a street and each style that it leads to.
pub(super) fn entries(streets: &Streets, styles: &[Style], language: &Language) -> Vec<Entry> {
    let of_row = |row: &StreetRow| {
        let houses = Houses {
            street: row.street.clone(),
            from: row.from,
            to: row.to,
            side: match row.side {
                StreetSide::All => Side::Both,
                StreetSide::Odd => Side::Odd,
                StreetSide::Even => Side::Even,
            },
        };
        let entry = |index: &u16| {
            let style = styles.get(usize::from(*index))?;
            let label = label(row, style, language);
            Some(Entry { label, style: *index, houses: Some(houses.clone()) })
        };
        row.styles.iter().filter_map(entry).collect::<Vec<_>>()
    };
    streets.rows().iter().flat_map(of_row).collect()
}

fn label(row: &StreetRow, style: &Style, language: &Language) -> String {
    let precinct = style.precinct.in_language(language);
    let party = style.party.as_ref().map(|party| party.in_language(language));
    let party = party.map(|party| format!(", {party}")).unwrap_or_default();
    format!("{} {}: {precinct}{party} ({})", row.street, numbers(row), style.code)
}

/// The houses' numbers: `14`, `1–99`, `2, 4`, `2, 4 … 98`.
fn numbers(row: &StreetRow) -> String {
    let (first, last) = row.ends().unwrap_or((row.from, row.to));
    let second = first.saturating_add(2);
    match row.side {
        _ if first == last => first.to_string(),
        StreetSide::All => format!("{first}–{last}"),
        StreetSide::Odd | StreetSide::Even if second == last => format!("{first}, {last}"),
        StreetSide::Odd | StreetSide::Even => format!("{first}, {second} … {last}"),
    }
}

#[cfg(test)]
mod tests {
    use evenhand_rules::Text;

    use super::*;

    fn row(from: u32, to: u32, side: StreetSide) -> StreetRow {
        let (street, code) = ("Mill Road".to_owned(), "7-A".to_owned());
        StreetRow { line: 2, street, from, to, side, code, styles: vec![0] }
    }

    #[test]
    fn houses_are_told_in_numbers() {
        for (from, to, side, told) in [
            (1, 99, StreetSide::All, "1–99"),
            (14, 14, StreetSide::All, "14"),
            (1, 99, StreetSide::Even, "2, 4 … 98"),
            (2, 98, StreetSide::Odd, "3, 5 … 97"),
            (1, 4, StreetSide::Odd, "1, 3"),
            (1, 2, StreetSide::Even, "2"),
        ] {
            assert_eq!(numbers(&row(from, to, side)), told);
        }
    }

    /// What a worker types for voters of the demo's split precinct finds one row, of the right style.
    #[test]
    fn an_address_finds_one_ballot() {
        let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../ballot-definitions");
        let folder = format!("{demo}/quillbrook-county-general-2027").into();
        let opened = crate::source::Source::Folder(folder).open().unwrap();
        let styles = &opened.loaded.election().styles;
        let entries = entries(&opened.streets, styles, &Language::new("en"));
        assert_eq!(entries.len(), opened.streets.rows().len());
        for (typed, code) in [
            ("300 her", "101-B"),
            ("298 HER", "101-A"),
            ("301 heron bend", "101-A"),
            ("her 1200", "101-B"),
            ("60 quarry", "102"),
            ("61 quarry", "103"),
            ("4998 state route 9", "101-B"),
            ("40 larkspur north", "102"),
        ] {
            let found = entries.iter().filter(|entry| entry.is_found_by(typed));
            let found: Vec<_> = found.map(|entry| &styles[usize::from(entry.style)].code).collect();
            assert_eq!(found, [code], "{typed}");
        }
        for nobody in ["99999 heron", "101-b", "precinct 101", "50 state route 9"] {
            assert!(!entries.iter().any(|entry| entry.is_found_by(nobody)), "{nobody}");
        }
    }

    #[test]
    fn a_label_has_street_houses_precinct_party_and_code() {
        let english = Language::new("en");
        let text = |words: &str| Text::new(vec![(english.clone(), words.to_owned())]);
        let style = Style {
            code: "7-A".to_owned(),
            units: Vec::new(),
            precinct: text("Precinct 7"),
            party: Some(text("Heron Party")),
            items: Vec::new(),
        };
        assert_eq!(
            label(&row(2, 98, StreetSide::Even), &style, &english),
            "Mill Road 2, 4 … 98: Precinct 7, Heron Party (7-A)"
        );
    }
}
