//! SANE's program `scanimage`: what is asked of it and what its answers mean. Whoever may start
//! programs starts it.
//!
//! Its words and numbers are those of sane-backends 1.2 (manual page `scanimage(1)`; exit codes are
//! SANE's status codes, SANE standard 1.06, 4.2.7).

use crate::{PAGES_MAX, RESOLUTION_USUAL, ScanError, SheetPicture};

/// The longest list of devices or options that is read.
pub const LIST_BYTES_MAX: usize = 64 * 1024;
/// The most scanners that are told of. Own choice.
pub const SCANNERS_MAX: usize = 32;
/// The most options that are set.
const OPTIONS_MAX: usize = 16;
/// The longest name or value of an option, and of a device.
const TEXT_BYTES_MAX: usize = 255;

/// How `scanimage` is asked for its devices: a line each, parts parted by tabs.
pub const LIST_FORMAT: &str = "%d\t%v\t%m\t%t%n";

/// A scanner that the system knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FoundScanner {
    /// Its name at SANE, such as `epson2:libusb:001:004`.
    pub device: String,
    /// Maker and model, as the system tells them.
    pub about: String,
    /// True where it takes sheets one after the other and has no glass.
    pub is_sheetfed: bool,
}

/// What a scanner that was chosen is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScannerChoice {
    // Invariant: the device and the options are as `new` checks them.
    device: String,
    options: Vec<(String, String)>,
    feeds: bool,
    has_area: bool,
}

/// A choice that can't be one.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0:?} can't be a scanner's name, or the name or value of one of its options")]
pub struct NoSuchScanner(pub String);

impl ScannerChoice {
    /// A scanner by its name at SANE. `options` are set before each scan; `feeds` says that it takes
    /// sheets until none is left; `has_area`, that it can be told how large they are.
    ///
    /// # Errors
    /// [`NoSuchScanner`]: a name that isn't one, or that belongs to the program itself.
    pub fn new(
        device: String,
        options: Vec<(String, String)>,
        feeds: bool,
        has_area: bool,
    ) -> Result<Self, NoSuchScanner> {
        let is_text = |text: &str| {
            (1..=TEXT_BYTES_MAX).contains(&text.len()) && !text.chars().any(char::is_control)
        };
        if !is_text(&device) || device.starts_with('-') {
            return Err(NoSuchScanner(device));
        }
        for (at, (name, value)) in options.iter().enumerate() {
            let is_name = name.starts_with(|letter: char| letter.is_ascii_lowercase())
                && name
                    .bytes()
                    .all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
            if at >= OPTIONS_MAX || !is_name || !is_text(name) || OWN_OPTIONS.contains(&&**name) {
                return Err(NoSuchScanner(name.clone()));
            }
            if !is_text(value) {
                return Err(NoSuchScanner(value.clone()));
            }
        }
        Ok(Self { device, options, feeds, has_area })
    }

    /// Its name at SANE.
    pub fn device(&self) -> &str {
        &self.device
    }

    /// What is set before each scan, by name.
    pub fn options(&self) -> &[(String, String)] {
        &self.options
    }

    /// True where it takes sheets until none is left.
    pub const fn feeds(&self) -> bool {
        self.feeds
    }

    /// True where it can be told how large the sheets are.
    pub const fn has_area(&self) -> bool {
        self.has_area
    }

    /// The arguments of one run: pictures of sheets of this size in tenths of a millimetre, each into
    /// a file named by `pattern`, which has `%d` for the number. A scanner that doesn't feed takes
    /// one picture a run.
    pub fn arguments(&self, (width, length): (u32, u32), pattern: &str) -> Vec<String> {
        let mut words = vec!["--device-name".to_owned(), self.device.clone()];
        words.push("--format=pnm".to_owned());
        words.push(format!("--batch={pattern}"));
        words.push(format!("--batch-count={}", if self.feeds { PAGES_MAX } else { 1 }));
        words.extend(self.options.iter().map(|(name, value)| format!("--{name}={value}")));
        if self.has_area {
            for (name, tenths) in [("-l", 0), ("-t", 0), ("-x", width), ("-y", length)] {
                words.extend([name.to_owned(), format!("{}.{}", tenths / 10, tenths % 10)]);
            }
        }
        words
    }
}

/// Options of the program itself, which no scanner may be given (`scanimage --help`, 1.2.1).
const OWN_OPTIONS: [&str; 22] = [
    "accept-md5-only",
    "all-options",
    "batch",
    "batch-count",
    "batch-double",
    "batch-increment",
    "batch-print",
    "batch-prompt",
    "batch-start",
    "buffer-size",
    "device-name",
    "dont-scan",
    "format",
    "formatted-device-list",
    "help",
    "icc-profile",
    "list-devices",
    "output-file",
    "progress",
    "test",
    "verbose",
    "version",
];

/// The scanners in an answer to [`LIST_FORMAT`]. Lines that are none are left out.
pub fn found_scanners(answer: &[u8]) -> Vec<FoundScanner> {
    let text = String::from_utf8_lossy(answer);
    let found = text.lines().filter_map(|line| {
        let mut parts = line.split('\t').map(str::trim);
        let device = parts.next().filter(|device| !device.is_empty())?.to_owned();
        let [vendor, model] = [parts.next()?, parts.next()?];
        let kind = parts.next()?;
        // SANE's own word for a maker that isn't known.
        let vendor = if vendor == "Noname" { "" } else { vendor };
        Some(FoundScanner {
            device,
            about: format!("{vendor} {model}").trim().to_owned(),
            is_sheetfed: kind.contains("sheetfed"),
        })
    });
    found.take(SCANNERS_MAX).collect()
}

/// Every way in which a scanner can be used, from the program's list of its options (`--all-options`):
/// grey at 200 dots in an inch where these can be set, once for each of its sources, and how the
/// source is called.
pub fn ways(found: &FoundScanner, answer: &[u8]) -> Vec<(String, ScannerChoice)> {
    let text = String::from_utf8_lossy(answer);
    let values_of = |name: &str| text.lines().find_map(|line| option(line, name));
    let mut common = Vec::new();
    if let Some(mode) = values_of("--mode").and_then(|values| grey(&values)) {
        common.push(("mode".to_owned(), mode));
    }
    if values_of("--resolution").is_some_and(|values| has_usual_resolution(&values)) {
        common.push(("resolution".to_owned(), RESOLUTION_USUAL.0.to_string()));
    }
    let has_area = ["-x", "-y"].iter().all(|name| values_of(name).is_some());
    let sources: Vec<String> = values_of("--source")
        .map(|values| values.split('|').map(str::to_owned).collect())
        .unwrap_or_default();
    let way = |source: Option<&String>| {
        let mut options = common.clone();
        options.extend(source.map(|source| ("source".to_owned(), source.clone())));
        let feeds = found.is_sheetfed || source.is_some_and(|source| is_feeder(source));
        let choice = ScannerChoice::new(found.device.clone(), options, feeds, has_area).ok()?;
        Some((source.cloned().unwrap_or_default(), choice))
    };
    if sources.is_empty() {
        return way(None).into_iter().collect();
    }
    sources.iter().filter_map(|source| way(Some(source))).collect()
}

/// The values of an option that can be set, in a line such as
/// `    --mode Lineart|Gray|Color [Gray]`.
fn option(line: &str, name: &str) -> Option<String> {
    let rest = line.strip_prefix("    ")?.strip_prefix(name)?.strip_prefix(' ')?;
    if rest.contains("[inactive]") || rest.contains("[read-only]") {
        return None;
    }
    // What is in brackets at the end is the value that is set now.
    let values = rest.rsplit_once(" [").map_or(rest, |(values, _)| values);
    Some(values.trim().to_owned())
}

/// The mode that gives shades of grey, whatever a scanner calls it.
fn grey(values: &str) -> Option<String> {
    let is_grey = |value: &&str| {
        let value = value.to_lowercase();
        value.contains("gray") || value.contains("grey")
    };
    values.split('|').find(is_grey).map(str::to_owned)
}

/// Whether 200 is among `75|100|200dpi` or within `50..600dpi (in steps of 1)`.
fn has_usual_resolution(values: &str) -> bool {
    let usual = u32::from(RESOLUTION_USUAL.0);
    let number = |text: &str| {
        let digits: String = text.trim().chars().take_while(char::is_ascii_digit).collect();
        digits.parse::<u32>().ok()
    };
    if let Some((from, to)) = values.split_once("..") {
        return number(from).zip(number(to)).is_some_and(|(from, to)| (from..=to).contains(&usual));
    }
    values.split('|').any(|value| number(value) == Some(usual))
}

fn is_feeder(source: &str) -> bool {
    let source = source.to_lowercase();
    ["adf", "feeder", "duplex"].iter().any(|word| source.contains(word))
}

/// How a run of the program ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ended {
    /// Its exit code; none where it was ended from outside.
    pub code: Option<i32>,
    /// The last thing that it said.
    pub said: String,
    /// How many pictures came.
    pub pictures: usize,
}

impl Ended {
    /// Whether all is as it should be.
    ///
    /// # Errors
    /// [`ScanError::NoSheets`]: nothing lay ready. [`ScanError::Device`]: anything else, in the
    /// scanner's words.
    pub fn check(self) -> Result<(), ScanError> {
        let detail = match self.code {
            // "Out of documents" is how a feeder ends, and 0 is what the program makes of it.
            Some(0 | 7) if self.pictures > 0 => return Ok(()),
            Some(0 | 7) => return Err(ScanError::NoSheets),
            Some(3) => "it is busy".to_owned(),
            Some(6) => "paper is stuck in it".to_owned(),
            Some(8) => "its cover is open".to_owned(),
            Some(9) => "it does not answer".to_owned(),
            Some(11) => "this user may not use it".to_owned(),
            Some(_) | None => {
                let said: String =
                    self.said.chars().filter(|letter| !letter.is_control()).take(200).collect();
                if said.is_empty() { "it ended without a word".to_owned() } else { said }
            }
        };
        Err(ScanError::Device { detail })
    }
}

/// Leaves out the one empty side that a scanner of both sides sees where a ballot has an odd number
/// of them. Where the count differs otherwise, or that side isn't empty, all are given: it is for the
/// reader to refuse them.
pub fn without_empty_back(mut sides: Vec<SheetPicture>, printed: usize) -> Vec<SheetPicture> {
    let is_one_more = printed % 2 == 1 && printed.checked_add(1) == Some(sides.len());
    if is_one_more && let Some(at) = sides.iter().position(is_empty) {
        sides.remove(at);
    }
    sides
}

/// A side with hardly anything dark on it: fewer than one pixel in two thousand, where a ballot's
/// corner figures alone have more (own choice).
fn is_empty(side: &SheetPicture) -> bool {
    let pixels = side.picture.as_raw();
    let dark = pixels.iter().filter(|pixel| **pixel < DARK).count();
    dark < pixels.len() / 2_000
}

/// Darker than this is no paper. Own choice.
const DARK: u8 = 128;

#[cfg(test)]
mod tests {
    use image::{GrayImage, Luma};

    use super::*;

    fn found(is_sheetfed: bool) -> FoundScanner {
        let (device, about) = ("test:0".to_owned(), "tester".to_owned());
        FoundScanner { device, about, is_sheetfed }
    }

    #[test]
    fn a_list_of_devices_is_read() {
        let answer = b"pnm:0\tNoname\tPNM file reader\tvirtual device\n\
                       a:1\tAcme\tRapid 3\tsheetfed scanner\nrubbish\n\t\t\t\n";
        let found = found_scanners(answer);
        let about: Vec<&str> = found.iter().map(|one| one.about.as_str()).collect();
        assert_eq!(about, ["PNM file reader", "Acme Rapid 3"]);
        assert_eq!(found.iter().map(|one| one.is_sheetfed).collect::<Vec<_>>(), [false, true]);
        assert!(found_scanners(&[0xff; 100]).is_empty());
        let many = "a\tb\tc\td\n".repeat(1_000);
        assert_eq!(found_scanners(many.as_bytes()).len(), SCANNERS_MAX);
    }

    #[test]
    fn each_source_is_a_way() {
        let answer = b"    --mode Lineart|True Gray|Color [Lineart]\n\
                       \x20   --resolution 50..600dpi (in steps of 1) [50]\n\
                       \x20   --source Flatbed|ADF Front|ADF Duplex [Flatbed]\n\
                       \x20   -x 0..216mm (in steps of 1) [80]\n    -y 0..432mm [100]\n";
        let ways = ways(&found(false), answer);
        let names: Vec<(&str, bool)> =
            ways.iter().map(|(name, way)| (name.as_str(), way.feeds())).collect();
        assert_eq!(names, [("Flatbed", false), ("ADF Front", true), ("ADF Duplex", true)]);
        let words = ways.last().unwrap().1.arguments((2_159, 4_318), "p/%d.pnm").join(" ");
        assert_eq!(
            words,
            "--device-name test:0 --format=pnm --batch=p/%d.pnm --batch-count=32 --mode=True Gray \
             --resolution=200 --source=ADF Duplex -l 0.0 -t 0.0 -x 215.9 -y 431.8"
        );
    }

    #[test]
    fn what_cannot_be_set_is_left_alone() {
        let answer = b"    --mode Color [inactive]\n    --resolution 75|150|300dpi [75]\n\
                       --mode Gray [Gray]\n    --modes Gray [Gray]\n    -x 0..10mm [1]\n";
        let ways = ways(&found(true), answer);
        assert_eq!(ways.len(), 1);
        let way = &ways.first().unwrap().1;
        assert!(way.options().is_empty() && way.feeds() && !way.has_area());
    }

    #[test]
    fn no_option_of_the_program_passes_for_a_scanners() {
        let of = |name: &str, value: &str| {
            let options = vec![(name.to_owned(), value.to_owned())];
            ScannerChoice::new("a".to_owned(), options, false, false)
        };
        assert!(of("source", "ADF").is_ok());
        for (name, value) in [
            ("output-file", "x"),
            ("batch", "x"),
            ("-l", "0"),
            ("a b", "x"),
            ("A", "x"),
            ("", "x"),
            ("source", ""),
            ("source", "a\nb"),
        ] {
            assert!(of(name, value).is_err(), "{name} {value:?}");
        }
        for device in ["", "-L", "a\n", &"a".repeat(256)] {
            assert!(ScannerChoice::new(device.to_owned(), vec![], false, false).is_err());
        }
        let many = vec![("a".to_owned(), "b".to_owned()); 17];
        assert!(ScannerChoice::new("a".to_owned(), many, false, false).is_err());
    }

    #[test]
    fn an_end_is_told_as_what_it_is() {
        let end = |code, pictures| Ended { code, said: "said so".to_owned(), pictures }.check();
        assert_eq!(end(Some(0), 2), Ok(()));
        assert_eq!(end(Some(7), 2), Ok(()));
        assert_eq!(end(Some(7), 0), Err(ScanError::NoSheets));
        let detail = |result: Result<(), ScanError>| match result {
            Err(ScanError::Device { detail }) => detail,
            other => panic!("{other:?}"),
        };
        assert!(detail(end(Some(6), 1)).contains("stuck"));
        assert!(detail(end(Some(8), 0)).contains("cover"));
        assert_eq!(detail(end(Some(1), 0)), "said so");
        assert_eq!(detail(end(None, 3)), "said so");
    }

    #[test]
    fn only_an_empty_back_too_many_is_left_out() {
        let dpi = RESOLUTION_USUAL;
        let empty = || SheetPicture { picture: GrayImage::from_pixel(100, 100, Luma([250])), dpi };
        let full = || SheetPicture { picture: GrayImage::from_pixel(100, 100, Luma([0])), dpi };
        let left = |sides: Vec<SheetPicture>, printed| without_empty_back(sides, printed).len();
        assert_eq!(left(vec![full(), empty()], 1), 1);
        assert_eq!(left(vec![empty(), full()], 1), 1);
        assert_eq!(left(vec![full(), full()], 1), 2);
        assert_eq!(left(vec![full(), empty()], 2), 2);
        assert_eq!(left(vec![full(), empty(), empty()], 1), 3);
    }
}
