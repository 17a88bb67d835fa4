//! When something happened, as coarse as the log may know it.
//!
//! Invariant: what is stamped while polls are open holds a whole hour and nothing finer; the type
//! has no room for minutes then. Rounding is done where an entry is appended, so that no caller can
//! forget it.

use serde::{Deserialize, Serialize};

use crate::limits::{MINUTE_MAX, OFFSET_MINUTES_MAX};

/// A moment as the caller's clock gives it: seconds since 1970-01-01 00:00 UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment(pub u64);

/// How far local time is from UTC, in minutes, east positive. Given once for a log: a change to or
/// from summer time does not change it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "i32", into = "i32")]
pub struct Offset(
    // Invariant: within OFFSET_MINUTES_MAX of 0.
    i32,
);

impl Offset {
    /// UTC.
    pub const UTC: Self = Self(0);

    /// An offset of so many minutes; nothing where it is a day or more.
    pub fn minutes(minutes: i32) -> Option<Self> {
        (-OFFSET_MINUTES_MAX..=OFFSET_MINUTES_MAX).contains(&minutes).then_some(Self(minutes))
    }
}

impl TryFrom<i32> for Offset {
    type Error = &'static str;

    fn try_from(minutes: i32) -> Result<Self, &'static str> {
        Self::minutes(minutes).ok_or("local time is less than a day from UTC")
    }
}

impl From<Offset> for i32 {
    fn from(offset: Offset) -> Self {
        offset.0
    }
}

/// A time in the log: local, since 1970-01-01 00:00 local.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stamp {
    /// Whole minutes, while no polls are open.
    Minute(u32),
    /// Whole hours, while polls are open and in a visit.
    Hour(u32),
}

impl Stamp {
    /// The stamp of a moment. Before 1970 and after 9999 it is the first or last that can be.
    pub(crate) fn of(moment: Moment, offset: Offset, is_coarse: bool) -> Self {
        let utc = i64::try_from(moment.0 / 60).unwrap_or(i64::MAX);
        let local = utc.saturating_add(i64::from(offset.0)).max(0);
        let minute = u32::try_from(local).map_or(MINUTE_MAX, |minute| minute.min(MINUTE_MAX));
        if is_coarse { Self::Hour(minute / 60) } else { Self::Minute(minute) }
    }

    /// True for a time that can be: the year has four digits.
    pub(crate) fn is_possible(self) -> bool {
        match self {
            Self::Minute(minute) => minute <= MINUTE_MAX,
            Self::Hour(hour) => hour <= MINUTE_MAX / 60,
        }
    }

    /// True for a whole hour.
    pub fn is_coarse(self) -> bool {
        matches!(self, Self::Hour(_))
    }

    /// The hour, whichever it is: two stamps are compared by it where one is coarse.
    pub fn hour(self) -> u32 {
        match self {
            Self::Minute(minute) => minute / 60,
            Self::Hour(hour) => hour,
        }
    }

    /// True where this is earlier than what came before it, as far as both can be compared.
    pub(crate) fn is_before(self, earlier: Self) -> bool {
        match (self, earlier) {
            (Self::Minute(this), Self::Minute(that)) => this < that,
            _ => self.hour() < earlier.hour(),
        }
    }

    fn minute(self) -> u32 {
        match self {
            Self::Minute(minute) => minute,
            Self::Hour(hour) => hour.saturating_mul(60),
        }
    }

    /// The date, `2027-11-02`.
    pub fn date(self) -> String {
        let (year, month, day) = civil(self.minute() / (24 * 60));
        format!("{year:04}-{month:02}-{day:02}")
    }

    /// As a person reads it: `2027-11-02 08:15`, or `2027-11-02, hour 08` for a whole hour.
    pub fn plain(self) -> String {
        let (hour, minute) = (self.minute() / 60 % 24, self.minute() % 60);
        if self.is_coarse() {
            format!("{}, hour {hour:02}", self.date())
        } else {
            format!("{} {hour:02}:{minute:02}", self.date())
        }
    }

    /// As RFC 3339 has it, with the offset: `2027-11-02T08:15:00-06:00`.
    pub fn rfc3339(self, offset: Offset) -> String {
        let (hour, minute) = (self.minute() / 60 % 24, self.minute() % 60);
        let sign = if offset.0 < 0 { '-' } else { '+' };
        let (away, date) = (offset.0.unsigned_abs(), self.date());
        format!("{date}T{hour:02}:{minute:02}:00{sign}{:02}:{:02}", away / 60, away % 60)
    }
}

impl Moment {
    /// The whole minute, as RFC 3339 has it.
    pub fn rfc3339(self, offset: Offset) -> String {
        Stamp::of(self, offset, false).rfc3339(offset)
    }

    /// The whole minute, as a person reads it.
    pub fn plain(self, offset: Offset) -> String {
        Stamp::of(self, offset, false).plain()
    }

    /// The date.
    pub fn date(self, offset: Offset) -> String {
        Stamp::of(self, offset, false).date()
    }
}

/// Year, month and day of so many days since 1970-01-01, in the Gregorian calendar (the rule of
/// leap years: ISO 8601-1, 3.1.1.19; the test compares with another program).
fn civil(days: u32) -> (u32, u32, u32) {
    let (mut year, mut left) = (1970_u32, days);
    let leap =
        |year: u32| year.is_multiple_of(4) && !year.is_multiple_of(100) || year.is_multiple_of(400);
    loop {
        let length = if leap(year) { 366 } else { 365 };
        if left < length {
            break;
        }
        left = left.saturating_sub(length);
        year = year.saturating_add(1);
    }
    let february = if leap(year) { 29 } else { 28 };
    let mut month = 1;
    for length in [31, february, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] {
        if left < length {
            break;
        }
        left = left.saturating_sub(length);
        month = u32::saturating_add(month, 1);
    }
    (year, month, left.saturating_add(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// GNU date says the same of these moments (`date -u -d @N +%FT%R`, `TZ=UTC+6`, `TZ=UTC-5:45`);
    /// the test over the whole, `tests/tests/event_log.rs`, asks it of many more.
    #[test]
    fn times_are_those_of_the_calendar() {
        let west = Offset::minutes(-360).unwrap();
        let east = Offset::minutes(345).unwrap();
        for (seconds, offset, text) in [
            (0, Offset::UTC, "1970-01-01T00:00:00+00:00"),
            (951_782_399, Offset::UTC, "2000-02-28T23:59:00+00:00"),
            (951_782_400, Offset::UTC, "2000-02-29T00:00:00+00:00"),
            (1_825_250_459, west, "2027-11-03T08:00:00-06:00"),
            (1_825_250_459, east, "2027-11-03T19:45:00+05:45"),
            (253_402_300_799, Offset::UTC, "9999-12-31T23:59:00+00:00"),
            (u64::MAX, Offset::UTC, "9999-12-31T23:59:00+00:00"),
        ] {
            assert_eq!(Moment(seconds).rfc3339(offset), text);
        }
    }

    #[test]
    fn an_hour_holds_no_minutes() {
        let offset = Offset::minutes(-210).unwrap();
        let stamps: Vec<Stamp> =
            (0..60).map(|m| Stamp::of(Moment(1_825_248_600 + m * 60), offset, true)).collect();
        assert!(stamps.iter().all(|stamp| Some(stamp) == stamps.first()), "{stamps:?}");
        assert!(stamps.first().unwrap().rfc3339(offset).ends_with(":00:00-03:30"));
        assert_eq!(Offset::minutes(1440), None);
    }
}
