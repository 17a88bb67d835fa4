//! Printed reports as poppler and qpdf see them: every word is there and in order, nothing outside
//! the margins, nothing cut off, faces embedded.
#![expect(clippy::unwrap_used, reason = "a failed test panics")]

#[path = "support/poppler.rs"]
#[expect(unreachable_pub, reason = "shared by path with other tests")]
mod poppler;

use evenhand_print::{PrintError, Report, report};
use evenhand_rules::Micrometres;
use poppler::{Picture, file, has, pictures, read, run};

/// A page is clear at every edge by so much, as the report's header says.
const MARGIN: Micrometres = Micrometres(18_000);

fn texts<const N: usize>(texts: [&str; N]) -> Vec<String> {
    texts.map(str::to_owned).to_vec()
}

fn row(step: &str, outcome: &str, why: &str) -> (String, String, String) {
    (step.to_owned(), outcome.to_owned(), why.to_owned())
}

/// A report in English with every part. County and people are invented.
fn english() -> Report {
    let facts = [
        ("Election", "Quillbrook County general election, November 2, 2027"),
        ("Station", "Station 3, Saltmarsh Library"),
        ("When", "November 2, 2027, 8:04 p.m."),
        ("Polls closed by", "Augusta Ávila and José Lindqvist"),
    ];
    let counts = [("Ballots printed", 112), ("Ballots spoiled", 3), ("Sheets of paper left", 384)];
    Report {
        title: "Closing report".to_owned(),
        state: "TEST".to_owned(),
        facts: facts.map(|(label, value)| (label.to_owned(), value.to_owned())).to_vec(),
        counts: counts.map(|(label, count)| (label.to_owned(), count)).to_vec(),
        results: vec![
            row("Printer and scanner", "Passed", "186 ovals filled and read"),
            row("Sound in the left ear and in the right ear", "Failed", "nothing was heard"),
            row("Switches", "Skipped", ""),
        ],
        digest: Some((
            "Head of the event log".to_owned(),
            texts(["4f1d 90aa 0c3e 77b2", "e6c1 5508 d2f4 9b3a"]),
        )),
        notes: texts([
            "This is not certified equipment. Local election law and officials decide.",
            "Compare the digest with the one that was called out.",
        ]),
        signatures: texts(["Judge of election", "Second poll worker", "Observer"]),
    }
}

/// The same kind of report in another language, its words as given.
fn short(words: [&str; 10]) -> Report {
    let [title, state, label, value, count, step, outcome, digest, note, sign] =
        words.map(str::to_owned);
    Report {
        title,
        state,
        facts: vec![(label, value)],
        counts: vec![(count, 47)],
        results: vec![(step, outcome, String::new())],
        digest: Some((digest, texts(["4f1d 90aa 0c3e 77b2"]))),
        notes: vec![note],
        signatures: vec![sign],
    }
}

/// Unreviewed sentences, for the shape of the letters only.
fn spanish() -> Report {
    short([
        "Informe de cierre",
        "PRUEBA",
        "Elección",
        "Elecciones generales del condado de Quillbrook",
        "Boletas impresas",
        "Impresora y escáner",
        "Aprobado",
        "Resumen del registro",
        "¿Dudas? Llame a la oficina electoral: la ley local decide.",
        "Firma del juez electoral",
    ])
}

fn arabic() -> Report {
    short([
        "تقرير الإغلاق",
        "اختبار",
        "الانتخابات",
        "انتخابات مقاطعة كويلبروك العامة",
        "بطاقات الاقتراع المطبوعة",
        "الطابعة والماسح الضوئي",
        "ناجح",
        "بصمة السجل",
        "هذا الجهاز غير معتمد، والقرار لمسؤولي الانتخابات.",
        "توقيع قاضي الانتخابات",
    ])
}

fn khmer() -> Report {
    short([
        "របាយការណ៍បិទ",
        "សាកល្បង",
        "ការបោះឆ្នោត",
        "ការបោះឆ្នោតទូទៅ",
        "សន្លឹកឆ្នោតដែលបានបោះពុម្ព",
        "ម៉ាស៊ីនបោះពុម្ព",
        "ជាប់",
        "លេខសម្គាល់",
        "មន្ត្រីបោះឆ្នោតជាអ្នកសម្រេច។",
        "ហត្ថលេខា",
    ])
}

/// Every text of a report, in the order in which it is read.
fn in_order(report: &Report) -> Vec<String> {
    let mut all = vec![report.title.clone(), report.state.clone()];
    all.extend(report.facts.iter().flat_map(|(label, value)| [label.clone(), value.clone()]));
    all.extend(report.counts.iter().flat_map(|(label, count)| [label.clone(), count.to_string()]));
    all.extend(report.results.iter().flat_map(|(a, b, c)| [a.clone(), b.clone(), c.clone()]));
    all.extend(report.digest.iter().flat_map(|(label, _)| [label.clone()]));
    all.extend(report.digest.iter().flat_map(|(_, lines)| lines.clone()));
    all.extend(report.notes.iter().chain(&report.signatures).cloned());
    all.retain(|text| !text.is_empty());
    all
}

/// What poppler takes out of a document in the order of the file, without spaces and marks of
/// direction: lines end where they are full, and poppler marks what is read from the right.
fn extracted(name: &str, bytes: &[u8]) -> String {
    let output = run("pdftotext", &["-raw", "-enc", "UTF-8"], &file(&format!("{name}.pdf"), bytes));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.txt"));
    joined(&String::from_utf8(read(&path)).unwrap())
}

fn joined(text: &str) -> String {
    let is_mark = |c: char| matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}');
    text.chars().filter(|c| !c.is_whitespace() && !is_mark(*c)).collect()
}

/// Finds each text after the one before. What is missing or out of place is named.
fn find_in_order(found: &str, texts: &[String]) -> Result<(), String> {
    let mut from = 0;
    for text in texts {
        let wanted = joined(text);
        let at = found[from..].find(&wanted).ok_or(format!("{text:?} isn't after {from}"))?;
        from += at + wanted.len();
    }
    Ok(())
}

#[test]
fn every_word_is_read_back_in_order() {
    if !has("pdftotext", "every_word_is_read_back_in_order") {
        return;
    }
    for (name, given) in
        [("report-en", english()), ("report-es", spanish()), ("report-km", khmer())]
    {
        let found = extracted(name, &report(&given).unwrap());
        let mut wanted = in_order(&given);
        find_in_order(&found, &wanted).unwrap_or_else(|why| panic!("{name}: {why} in {found}"));
        // The check itself refuses what isn't there and what comes too early.
        wanted.reverse();
        assert!(find_in_order(&found, &wanted).is_err());
        assert!(find_in_order(&found, &texts(["not in any report"])).is_err());
    }
}

/// The words that the file itself says its lines stand for (`ActualText`, ISO 32000-1, 14.9.4), with
/// qpdf taking the compression away.
fn stood_for(name: &str, bytes: &[u8]) -> String {
    let path = file(name, bytes);
    let output = run("qpdf", &["--qdf", "--object-streams=disable", "--replace-input"], &path);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let mut words = String::new();
    for part in String::from_utf8_lossy(&read(&path)).split("/ActualText<").skip(1) {
        let digits = part.split('>').next().unwrap().trim_start_matches("feff");
        let units = digits
            .as_bytes()
            .chunks(4)
            .map(|unit| u16::from_str_radix(std::str::from_utf8(unit).unwrap(), 16).unwrap());
        words.extend(char::decode_utf16(units).map(Result::unwrap));
    }
    joined(&words)
}

/// Poppler 22.12 takes the words of a line for its letters from left to right and turns them round,
/// so what it takes out of an Arabic line is the right words backwards; the file says them forwards.
#[test]
fn words_from_right_to_left_are_in_the_file_in_reading_order() {
    let name = "words_from_right_to_left_are_in_the_file_in_reading_order";
    if !has("qpdf", name) || !has("pdftotext", name) {
        return;
    }
    let bytes = report(&arabic()).unwrap();
    let said = stood_for("said-ar.pdf", &bytes);
    find_in_order(&said, &in_order(&arabic())).unwrap_or_else(|why| panic!("{why} in {said}"));
    let found = extracted("report-ar", &bytes);
    for word in [arabic().title, arabic().state, arabic().signatures.remove(0)] {
        let backwards: String = word.chars().rev().collect();
        assert!(found.contains(&joined(&backwards)), "{word} in {found}");
    }
    // The same way of looking at a page that is read from the left.
    let said = stood_for("said-en.pdf", &report(&english()).unwrap());
    find_in_order(&said, &in_order(&english())).unwrap_or_else(|why| panic!("{why} in {said}"));
}

/// The shares of a page's ink, in pixels: outside the margins and inside.
fn ink(picture: &Picture) -> (usize, usize) {
    let margin = picture.pixels(MARGIN);
    let (mut outside, mut inside) = (0, 0);
    for y in 0..picture.height {
        for x in 0..picture.width {
            if picture.at(x, y) == 255 {
                continue;
            }
            let clear = |at: usize, end: usize| {
                let (near, far) = (pixel(at) + 1.0, pixel(end) - pixel(at));
                near < margin || far < margin
            };
            if clear(x, picture.width) || clear(y, picture.height) {
                outside += 1;
            } else {
                inside += 1;
            }
        }
    }
    (outside, inside)
}

#[expect(clippy::cast_precision_loss, reason = "pixels of a page")]
fn pixel(at: usize) -> f64 {
    at as f64
}

/// Words without a place to break, in every slot.
fn over_long() -> Report {
    let word = "W".repeat(120);
    let mut given = english();
    given.title = "W".repeat(40);
    given.state = "W".repeat(20);
    given.facts = vec![(word.clone(), word.clone()); 2];
    given.counts = vec![(word.clone(), u32::MAX)];
    given.results = vec![row(&word, &word, &word)];
    given.digest = Some((word.clone(), vec![word.clone()]));
    given.notes = vec![word.clone()];
    given.signatures = vec![word; 3];
    given
}

/// More rows than a page has.
fn long() -> Report {
    let mut given = english();
    let step = |at: usize| row(&format!("Step {at}"), "Passed", "as it should be");
    given.results = (1..=24).map(step).collect();
    given
}

#[test]
fn a_report_is_one_letter_page_with_clear_margins() {
    if !has("pdftoppm", "a_report_is_one_letter_page_with_clear_margins") {
        return;
    }
    for (name, given, expected) in [
        ("margins-en", english(), 1),
        ("margins-es", spanish(), 1),
        ("margins-ar", arabic(), 1),
        ("margins-km", khmer(), 1),
        ("margins-long", long(), 2),
        ("margins-over-long", over_long(), 3),
        ("margins-empty", Report::default(), 1),
    ] {
        let pages = pictures(&format!("{name}.pdf"), &report(&given).unwrap(), 100);
        assert_eq!(pages.len(), expected, "{name}");
        for page in &pages {
            // 8.5 by 11 in.
            assert_eq!((page.width, page.height), (850, 1100));
            let (outside, inside) = ink(page);
            assert_eq!(outside, 0, "{name}");
            assert!(inside > 100, "{name}: {inside}");
        }
    }
}

#[test]
fn a_long_report_goes_on_under_the_same_title() {
    if !has("pdftotext", "a_long_report_goes_on_under_the_same_title") {
        return;
    }
    let given = long();
    let found = extracted("report-long", &report(&given).unwrap());
    assert_eq!(found.matches("Closingreport").count(), 2);
    assert_eq!(found.matches("TEST").count(), 2);
    assert!(found.contains("1/2") && found.contains("2/2"), "pages are numbered");
    find_in_order(&found, &in_order(&given)).unwrap_or_else(|why| panic!("{why}"));
    let one = extracted("report-short", &report(&english()).unwrap());
    assert!(!one.contains("1/1"), "one page needs no number");
}

#[test]
fn words_that_are_too_wide_are_wrapped_and_none_is_lost() {
    if !has("pdftotext", "words_that_are_too_wide_are_wrapped_and_none_is_lost") {
        return;
    }
    let given = over_long();
    let found = extracted("report-over-long", &report(&given).unwrap());
    let letters = |text: &str| text.matches('W').count();
    let wanted: usize = in_order(&given).iter().map(|text| letters(text)).sum();
    let pages = 3;
    // Title and state come again on each page.
    assert_eq!(letters(&found), wanted + (pages - 1) * 60);
    assert!(found.contains("4294967295"), "the greatest count is whole");
}

#[test]
fn what_no_page_can_hold_is_refused() {
    let mut too_long = english();
    too_long.notes = vec!["word ".repeat(2_000)];
    assert_eq!(report(&too_long).unwrap_err(), PrintError::TooLong, "a row over a page");
    let mut too_many = english();
    too_many.counts = vec![("Ballots".to_owned(), 1); 1_000];
    assert_eq!(report(&too_many).unwrap_err(), PrintError::TooLong, "over twenty pages");
    let mut title = english();
    title.title = "W".repeat(2_000);
    assert_eq!(report(&title).unwrap_err(), PrintError::TooLong, "a head over half a page");
    let mut letters = english();
    letters.facts = vec![("Thai".to_owned(), "ก".to_owned())];
    assert!(matches!(report(&letters).unwrap_err(), PrintError::Letter(_)));
    assert!(report(&letters).unwrap_err().to_string().contains("other letters"));
}

#[test]
fn equal_reports_give_equal_bytes_without_dates_or_ids() {
    let first = report(&english()).unwrap();
    report(&arabic()).unwrap();
    assert!(report(&english()).unwrap() == first);
    let mut other = english();
    other.counts[0].1 += 1;
    assert!(report(&other).unwrap() != first);
    for key in ["/CreationDate", "/ModDate", "/Producer", "/Creator", "/ID", "xmpmeta"] {
        let has = first.windows(key.len()).any(|part| part == key.as_bytes());
        assert!(!has, "{key} is in the file");
    }
}

#[test]
fn faces_are_embedded_and_qpdf_finds_nothing_wrong() {
    for (name, given, faces) in [
        ("faces-en.pdf", english(), 3),
        ("faces-es.pdf", spanish(), 3),
        ("faces-ar.pdf", arabic(), 4),
        ("faces-km.pdf", khmer(), 4),
        ("faces-long.pdf", long(), 3),
    ] {
        let path = file(name, &report(&given).unwrap());
        if has("pdffonts", "faces_are_embedded_and_qpdf_finds_nothing_wrong") {
            let table = String::from_utf8(run("pdffonts", &[], &path).stdout).unwrap();
            let rows: Vec<&str> = table.lines().skip(2).collect();
            assert_eq!(rows.len(), faces, "{name}: {table}");
            // The columns are: embedded, subset, with a map to Unicode.
            assert!(rows.iter().all(|row| row.contains("yes yes yes")), "{table}");
        }
        if has("qpdf", "faces_are_embedded_and_qpdf_finds_nothing_wrong") {
            let output = run("qpdf", &["--check"], &path);
            assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
            assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
        }
    }
}

/// A closing report has the most on it: it is one page, which a copy is counted as.
#[test]
fn a_closing_report_is_one_page() {
    let fact = |label: &str, value: &str| (label.to_owned(), value.to_owned());
    let closing = Report {
        title: "Votación cerrada".to_owned(),
        state: "PRUEBA".to_owned(),
        facts: vec![
            fact("Elección", "Elección general del condado de Quillbrook, 2027-11-02"),
            fact("Sellada por", "Tam Whitlock, Noor Haddad"),
            fact("Lugar", "Escuela primaria de Larkfield, gimnasio"),
            fact("Estación", "7"),
            fact("Cuándo", "2027-11-02 20:58"),
        ],
        counts: (0..12).map(|count| (format!("Hojas en la vida de la estación {count}"), count)).collect(),
        digest: Some((
            "Última línea del registro (4812 líneas)".to_owned(),
            vec!["B705 D895 BF4A 9ADA".to_owned(); 4],
        )),
        notes: vec![
            "Faltan 12 hojas. Cuente otra vez. Si sigue igual, anótelo en el informe.".to_owned(),
            "Este equipo no está certificado. La ley electoral local y sus funcionarios deciden qué se puede usar.".to_owned(),
            "Menos de 10 votantes terminaron aquí. Conviene invitar a otras personas a usar esta estación, para que ninguna boleta se distinga.".to_owned(),
        ],
        signatures: vec!["Quien dirige".to_owned(), "Segunda persona".to_owned()],
        ..Report::default()
    };
    let bytes = report(&closing).unwrap();
    assert!(String::from_utf8_lossy(&bytes).contains("/Count 1"), "it takes more than a page");
    // With twice the counts it isn't.
    let mut longer = closing;
    longer.counts.extend((0..12).map(|count| (format!("Hojas {count}"), count)));
    assert!(!String::from_utf8_lossy(&report(&longer).unwrap()).contains("/Count 1"));
}
