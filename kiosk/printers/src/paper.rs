//! The paper that a document needs, in the names that print services know.

/// The paper of a document, all its sheets alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Paper {
    /// Width in thousandths of an inch.
    pub width_mil: u32,
    /// Length in thousandths of an inch.
    pub length_mil: u32,
    /// How many sides are printed: pages of the document.
    pub sides: u16,
}

impl Paper {
    /// The size by its self-describing name (PWG 5101.1, from memory: `na_letter` and `na_legal` are
    /// in its table; a custom name is `custom_`, a name of one's own, the size).
    pub fn media(self) -> String {
        let size = format!("{}x{}in", inches(self.width_mil), inches(self.length_mil));
        match (self.width_mil, self.length_mil) {
            (8_500, 11_000) => format!("na_letter_{size}"),
            (8_500, 14_000) => format!("na_legal_{size}"),
            (_, _) => format!("custom_ballot_{size}"),
        }
    }

    /// How its sides stand on sheets (RFC 8011, 5.2.8): fronts and backs in turn where there is more
    /// than one, turned like the pages of a book.
    pub const fn sides_keyword(self) -> &'static str {
        if self.sides > 1 { "two-sided-long-edge" } else { "one-sided" }
    }
}

/// Inches without zeros at the end.
fn inches(mil: u32) -> String {
    let (whole, part) = (mil / 1_000, mil % 1_000);
    if part == 0 {
        return whole.to_string();
    }
    format!("{whole}.{part:03}").trim_end_matches('0').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paper_has_its_standard_name() {
        let of = |length_mil| Paper { width_mil: 8_500, length_mil, sides: 1 }.media();
        assert_eq!(of(11_000), "na_letter_8.5x11in");
        assert_eq!(of(14_000), "na_legal_8.5x14in");
        assert_eq!(of(17_000), "custom_ballot_8.5x17in");
        assert_eq!(of(10_025), "custom_ballot_8.5x10.025in");
    }
}
