//! What troubles a printer, from the keywords with which it says so.

/// Why a printer prints nothing. The graver comes first: of several the first is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trouble {
    /// Paper is stuck.
    Jam,
    /// A cover or door is open.
    CoverOpen,
    /// There is no paper, or none of this size.
    NoPaper,
    /// Toner or ink is used up.
    NoInk,
    /// The printer isn't there, is switched off or can't be reached.
    Offline,
    /// It is stopped, and doesn't say why.
    Stopped,
    /// The document is refused.
    Refused,
}

/// Keywords without what says how grave they are (RFC 8011, 5.4.12; `offline` is what CUPS's own
/// programs for printers report, see its manual page `backend(7)`; `cups-missing-filter` from
/// memory).
const KEYWORDS: [(&str, Trouble); 17] = [
    ("media-jam", Trouble::Jam),
    ("cover-open", Trouble::CoverOpen),
    ("door-open", Trouble::CoverOpen),
    ("interlock-open", Trouble::CoverOpen),
    ("media-empty", Trouble::NoPaper),
    ("media-needed", Trouble::NoPaper),
    ("input-tray-missing", Trouble::NoPaper),
    ("toner-empty", Trouble::NoInk),
    ("marker-supply-empty", Trouble::NoInk),
    ("offline", Trouble::Offline),
    ("shutdown", Trouble::Offline),
    ("timed-out", Trouble::Offline),
    ("paused", Trouble::Stopped),
    ("moving-to-paused", Trouble::Stopped),
    ("output-area-full", Trouble::Stopped),
    ("stopped-partly", Trouble::Stopped),
    ("cups-missing-filter", Trouble::Refused),
];

impl Trouble {
    /// What a keyword of `printer-state-reasons` says; none where it is nothing that stops a sheet.
    /// A keyword that ends in `-warning` or `-report` doesn't, one that ends in neither may (RFC
    /// 8011, 5.4.12). That a printer is offline is reported as if it were nothing.
    pub(crate) fn of(keyword: &str) -> Option<Self> {
        if keyword == "offline-report" {
            return Some(Self::Offline);
        }
        if keyword.ends_with("-warning") || keyword.ends_with("-report") {
            return None;
        }
        let bare = keyword.strip_suffix("-error").unwrap_or(keyword);
        KEYWORDS.iter().find(|(known, _)| *known == bare).map(|(_, trouble)| *trouble)
    }

    /// True for the keyword with which a print service says that it has not reached the printer yet.
    pub(crate) fn is_connecting(keyword: &str) -> bool {
        keyword.strip_suffix("-report").unwrap_or(keyword) == "connecting-to-device"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_stops_a_sheet_is_trouble() {
        for (keyword, trouble) in [
            ("none", None),
            ("media-empty", Some(Trouble::NoPaper)),
            ("media-empty-error", Some(Trouble::NoPaper)),
            ("media-empty-warning", None),
            ("media-empty-report", None),
            ("media-low-error", None),
            ("media-jam-error", Some(Trouble::Jam)),
            ("offline-report", Some(Trouble::Offline)),
            ("connecting-to-device", None),
            ("toner-low-warning", None),
            ("", None),
            ("-error", None),
        ] {
            assert_eq!(Trouble::of(keyword), trouble, "{keyword}");
        }
        assert!(Trouble::is_connecting("connecting-to-device"));
    }
}
