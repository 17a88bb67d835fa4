//! The station's sealed election: which files are found, what verifying one has shown, and which is
//! chosen. Files are numbers and names, both given by whoever found them.
//!
//! Invariant: a file is chosen only after it was verified and a worker has said that its digest is
//! the office's.
//!
//! What it must not know: how a seal is verified, and where files lie.

use alloc::string::String;
use alloc::vec;
use alloc::vec::Vec;

use crate::{Arg, Line, Message, Named, Sheet};

/// Names on one screen, as of devices.
const NAMES_MAX: usize = 4;
/// Officials who are named on the screen; their number is always said (own choice).
const SIGNERS_SHOWN_MAX: usize = 4;

/// What verifying a sealed election has shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// The election's name.
    pub name: String,
    /// Its date.
    pub date: String,
    /// The officials who sealed it.
    pub signers: Vec<String>,
    /// The digest of the file as it is read aloud, a line each.
    pub digest: Vec<String>,
    /// That of the list of officials' keys that it was verified with: whoever could change that list
    /// could seal another election.
    pub keys_digest: Vec<String>,
}

/// Why a sealed election can't be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The file can't be read.
    Unread,
    /// It is no sealed election, or not a whole one.
    Damaged,
    /// A signature is not under these contents.
    Changed,
    /// It is signed with a key that this station doesn't trust.
    Untrusted,
    /// Too few officials have signed.
    TooFew,
    /// It is truly sealed, and this station can't use what is in it.
    Unusable,
}

/// Which election the station is to have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Election {
    /// None.
    None,
    /// The one that it has.
    Kept,
    /// The file of this number.
    Found(u16),
}

/// What taking a row does.
pub(crate) enum ElectionPick {
    Chosen,
    More(u16),
    LookAgain,
    Check(u16),
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Look {
    Looking,
    Failed,
    Found(Vec<Named>),
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Choice {
    None,
    Kept,
    Found(u16, Sealed),
}

/// The elections that were found and the one that is chosen.
#[derive(Clone, Debug)]
pub struct Elections {
    has_one: bool,
    choice: Choice,
    look: Look,
    /// The file that is being verified, whatever the screen shows.
    running: Option<u16>,
    shown: Option<Result<(u16, Sealed), Refusal>>,
}

impl Refusal {
    /// What happened, and what to do.
    const fn messages(self) -> [Message; 2] {
        match self {
            Self::Unread => [Message::ElectionUnread, Message::ElectionUnreadDo],
            Self::Damaged => [Message::ElectionDamaged, Message::ElectionDamagedDo],
            Self::Changed => [Message::ElectionChanged, Message::ElectionChangedDo],
            Self::Untrusted => [Message::ElectionUntrusted, Message::ElectionUntrustedDo],
            Self::TooFew => [Message::ElectionTooFew, Message::ElectionTooFewDo],
            Self::Unusable => [Message::ElectionUnusable, Message::ElectionUnusableDo],
        }
    }
}

impl Elections {
    /// It is being looked for; `has_one` where the station has an election already.
    pub const fn looking(has_one: bool) -> Self {
        let choice = if has_one { Choice::Kept } else { Choice::None };
        Self { has_one, choice, look: Look::Looking, running: None, shown: None }
    }

    pub(crate) const fn chosen(&self) -> Election {
        match &self.choice {
            Choice::None => Election::None,
            Choice::Kept => Election::Kept,
            Choice::Found(number, _) => Election::Found(*number),
        }
    }

    /// The digest that was compared of the one that is chosen, as it was shown.
    pub(crate) fn chosen_digest(&self) -> Option<&[String]> {
        match &self.choice {
            Choice::Found(_, sealed) => Some(&sealed.digest),
            Choice::None | Choice::Kept => None,
        }
    }

    /// True where it is to be looked: not while that is being done.
    pub(crate) fn begin_look(&mut self) -> bool {
        let is_begun = self.look != Look::Looking;
        self.look = Look::Looking;
        is_begun
    }

    pub(crate) fn found(&mut self, found: Option<Vec<Named>>) {
        self.look = found.map_or(Look::Failed, Look::Found);
    }

    /// True where this file is to be verified now: one at a time, since each may be large.
    pub(crate) fn begin_check(&mut self, number: u16) -> bool {
        self.shown = None;
        let is_begun = self.running.is_none();
        if is_begun {
            self.running = Some(number);
        }
        is_begun
    }

    /// A file has been verified or refused. True where it is the one that is waited for.
    pub(crate) fn checked(
        &mut self,
        (number, awaited): (u16, Option<u16>),
        checked: Result<Sealed, Refusal>,
    ) -> bool {
        if self.running == Some(number) {
            self.running = None;
        }
        let is_awaited = awaited == Some(number);
        if is_awaited {
            self.shown = Some(checked.map(|sealed| (number, sealed)));
        }
        is_awaited
    }

    /// Takes what was verified and is shown.
    pub(crate) fn take_shown(&mut self) {
        if let Some(Ok((number, sealed))) = self.shown.take() {
            self.choice = Choice::Found(number, sealed);
        }
    }

    fn names(&self) -> &[Named] {
        match &self.look {
            Look::Found(names) => names,
            Look::Looking | Look::Failed => &[],
        }
    }

    fn skipped(page: u16) -> usize {
        usize::from(page).saturating_mul(NAMES_MAX)
    }

    /// Rows: the names of this page; the others, where there are some; none, or the one that the
    /// station has; look again.
    pub(crate) fn choosing(&self, page: u16) -> Sheet {
        let mut sheet = Sheet::blank(Message::ElectionHeading);
        sheet.lines = vec![Line::new(Message::ElectionLine), self.said(Message::DeviceNow)];
        sheet.lines.extend(match &self.look {
            Look::Looking => Some(Line::new(Message::DeviceLooking)),
            Look::Failed => Some(Line::new(Message::DeviceFailed)),
            Look::Found(names) => names.is_empty().then(|| Line::new(Message::ElectionNotFound)),
        });
        let names = self.names();
        let shown = names.iter().skip(Self::skipped(page)).take(NAMES_MAX);
        sheet.rows = shown.map(|one| plain(&one.name)).collect();
        if names.len() > NAMES_MAX {
            sheet.rows.push(Line::new(Message::DeviceMore));
        }
        let other = if self.has_one { Message::ElectionKeep } else { Message::DeviceNone };
        sheet.rows.push(Line::new(other));
        sheet.rows.push(Line::new(Message::DeviceLook));
        sheet.forward = Some(Line::new(Message::BarNext));
        sheet
    }

    pub(crate) fn pick(&mut self, page: u16, row: u16) -> ElectionPick {
        let names = self.names();
        let (count, skipped) = (names.len(), Self::skipped(page));
        let shown = count.saturating_sub(skipped).min(NAMES_MAX);
        let row = usize::from(row);
        let named = names.get(skipped.saturating_add(row)).filter(|_| row < shown);
        if let Some(named) = named {
            return ElectionPick::Check(named.number);
        }
        match (row.saturating_sub(shown), count > NAMES_MAX) {
            (0, true) => {
                let is_last = skipped.saturating_add(NAMES_MAX) >= count;
                ElectionPick::More(if is_last { 0 } else { page.saturating_add(1) })
            }
            (0, false) | (1, true) => {
                self.choice = if self.has_one { Choice::Kept } else { Choice::None };
                ElectionPick::Chosen
            }
            (_, _) => ElectionPick::LookAgain,
        }
    }

    /// What is chosen, in this message's words.
    pub(crate) fn said(&self, message: Message) -> Line {
        let name = match &self.choice {
            Choice::None => Arg::Message(Message::DeviceNone),
            Choice::Kept => Arg::Message(Message::ElectionKept),
            Choice::Found(_, sealed) => Arg::Text(sealed.name.clone()),
        };
        Line::new(message).with("name", name)
    }

    pub(crate) fn checking(&self, number: u16) -> Sheet {
        let mut sheet = Sheet::blank(Message::ElectionCheckingHeading);
        let name = self.names().iter().find(|one| one.number == number);
        sheet.lines.extend(name.map(|one| plain(&one.name)));
        sheet.lines.push(Line::new(Message::ElectionChecking));
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }

    /// The list of keys that verified it, to be compared too.
    pub(crate) fn shown_keys(&self) -> Sheet {
        match &self.shown {
            Some(Ok((_, sealed))) => comparing_keys(sealed),
            // Never shown: this screen comes with what was verified.
            Some(Err(_)) | None => Sheet::blank(Message::ElectionCheckingHeading),
        }
    }

    /// What verifying has shown: the election, to be compared, or why it is refused.
    pub(crate) fn shown(&self) -> Sheet {
        let mut sheet = match &self.shown {
            Some(Ok((_, sealed))) => comparing(sealed),
            Some(Err(refusal)) => {
                let mut sheet = Sheet::blank(Message::ElectionRefusedHeading);
                sheet.lines = refusal.messages().map(Line::new).into();
                sheet
            }
            // Never shown: this screen comes with what was verified.
            None => Sheet::blank(Message::ElectionCheckingHeading),
        };
        sheet.back = Some(Line::new(Message::BarBack));
        sheet
    }
}

fn comparing(sealed: &Sealed) -> Sheet {
    let mut sheet = Sheet::blank(Message::ElectionCompareHeading);
    let count = u32::try_from(sealed.signers.len()).unwrap_or(u32::MAX);
    let mut names: Vec<&str> =
        sealed.signers.iter().take(SIGNERS_SHOWN_MAX).map(String::as_str).collect();
    if sealed.signers.len() > SIGNERS_SHOWN_MAX {
        names.push("…");
    }
    sheet.lines = vec![
        Line::new(Message::HomeElection)
            .with("election", Arg::Text(sealed.name.clone()))
            .with("date", Arg::Text(sealed.date.clone())),
        Line::new(Message::ElectionSealedBy)
            .with("count", Arg::Number(count))
            .with("names", Arg::Text(names.join(", "))),
        Line::new(Message::ElectionCompare),
    ];
    sheet.lines.extend(sealed.digest.iter().map(|line| plain(line)));
    sheet.lines.push(Line::new(Message::ElectionDiffers));
    sheet.forward = Some(Line::new(Message::ElectionSame));
    sheet
}

fn comparing_keys(sealed: &Sealed) -> Sheet {
    let mut sheet = Sheet::blank(Message::KeysCompareHeading);
    sheet.lines = vec![Line::new(Message::KeysCompareLine), Line::new(Message::ElectionCompare)];
    sheet.lines.extend(sealed.keys_digest.iter().map(|line| plain(line)));
    sheet.lines.push(Line::new(Message::ElectionDiffers));
    sheet.back = Some(Line::new(Message::BarBack));
    sheet.forward = Some(Line::new(Message::ElectionSame));
    sheet
}

fn plain(text: &str) -> Line {
    Line::new(Message::Plain).with("text", Arg::Text(text.into()))
}
