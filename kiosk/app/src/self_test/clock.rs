//! The clock: whether what it shows can be. Only a person with a watch can say that it is right.

use super::{Outcome, Why};

/// The year in which this program was built. Set by hand with each version that is given out: taken
/// from the machine that builds, it would make two builds of one source differ.
pub const BUILT: i32 = 2026;
/// So many days before the election a station may be tested without a question. Own choice: logic
/// and accuracy tests are made within that time.
pub const DAYS_BEFORE_MAX: i32 = 60;
/// And so many after it: a day of voting that ends after midnight, and the count. Own choice.
pub const DAYS_AFTER_MAX: i32 = 2;

const DAY_SECONDS: i64 = 24 * 60 * 60;
/// 1970-01-01 counted from 0000-03-01, and the days of 400 years: see [`days_of`].
const EPOCH: i64 = 719_468;
const ERA_DAYS: i64 = 146_097;

/// What was seen where the clock can be right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClockFigures {
    /// How many days the election's day is ahead; negative where it is over.
    pub days_ahead: i32,
}

/// Tests what the clock shows: `now` in seconds since 1970-01-01 00:00 UTC, the `offset` of local
/// time in minutes, east positive, the election's day as `YYYY-MM-DD`, and the year in which the
/// program was built ([`BUILT`]).
///
/// A clock that stands before that year fails. One that is further from the election than
/// [`DAYS_BEFORE_MAX`] and [`DAYS_AFTER_MAX`] gives caution: a person may be testing early.
pub fn clock(now: i64, offset: i32, election_day: &str, built: i32) -> Outcome<ClockFigures> {
    let local = now.saturating_add(i64::from(offset).saturating_mul(60));
    let today = local.div_euclid(DAY_SECONDS);
    let year = year_of(today);
    if year < i64::from(built) {
        let year = i32::try_from(year).unwrap_or(i32::MIN);
        return Outcome::Failed(Why::ClockBeforeProgram { year });
    }
    let Some(day) = parse(election_day) else { return Outcome::Failed(Why::ElectionDayUnknown) };
    let ahead = day.saturating_sub(today);
    let days_ahead = i32::try_from(ahead).unwrap_or(if ahead < 0 { i32::MIN } else { i32::MAX });
    if days_ahead > DAYS_BEFORE_MAX {
        return Outcome::Caution(Why::ElectionFarAhead { days: days_ahead });
    }
    if days_ahead < -DAYS_AFTER_MAX {
        return Outcome::Caution(Why::ElectionOver { days: days_ahead.saturating_neg() });
    }
    Outcome::Passed(ClockFigures { days_ahead })
}

/// The day of a date `YYYY-MM-DD`, counted from 1970-01-01; none where there is no such day.
fn parse(date: &str) -> Option<i64> {
    let mut parts = date.split('-');
    let mut number = |digits: usize| {
        let part = parts.next()?;
        let is_plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
        if is_plain { part.parse::<i64>().ok() } else { None }
    };
    let (year, month, day) = (number(4)?, number(2)?, number(2)?);
    if parts.next().is_some() || !(1..=12).contains(&month) || day < 1 {
        return None;
    }
    let next = if month == 12 { (year + 1, 1) } else { (year, month + 1) };
    let found = days_of(year, month) + day - 1;
    (found < days_of(next.0, next.1)).then_some(found)
}

/// The first day of a month, counted from 1970-01-01. Years are counted from March, so that the
/// leap day comes last; 153 days are five months from March on. (A known method; from memory, and
/// compared with GNU date by the test.)
const fn days_of(year: i64, month: i64) -> i64 {
    let (year, month) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
    let leaps = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
    year * 365 + leaps + (153 * month + 2) / 5 - EPOCH
}

/// The year of a day that is counted from 1970-01-01.
const fn year_of(day: i64) -> i64 {
    // Near by the mean length of a year, then the year in which the day truly is.
    let mut year = 1970 + day.saturating_mul(400).div_euclid(ERA_DAYS);
    while days_of(year, 1) > day {
        year -= 1;
    }
    while days_of(year + 1, 1) <= day {
        year += 1;
    }
    year
}

#[cfg(test)]
mod tests {
    #![expect(clippy::disallowed_methods, reason = "the test asks GNU date")]

    use std::io::Write as _;
    use std::process::{Command, Stdio};

    use super::*;

    /// Noon UTC of a day, as GNU date counts it.
    fn noon(dates: &[String]) -> Vec<i64> {
        let mut child = Command::new("date")
            .args(["-u", "-f", "-", "+%s"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let lines = [dates.join(" 12:00 UTC\n").as_str(), " 12:00 UTC\n"].concat();
        child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        assert!(output.status.success());
        String::from_utf8(output.stdout).unwrap().lines().map(|l| l.parse().unwrap()).collect()
    }

    #[test]
    fn days_and_years_are_those_of_gnu_date() {
        let mut dates = Vec::new();
        for year in [1970, 1999, 2000, 2024, 2026, 2027, 2028, 2100, 2400, 9999] {
            for month_day in ["01-01", "02-28", "03-01", "06-30", "11-02", "12-31"] {
                dates.push(format!("{year}-{month_day}"));
            }
        }
        dates.extend(["2028-02-29", "2000-02-29"].map(str::to_owned));
        for (date, seconds) in dates.iter().zip(noon(&dates)) {
            let day = seconds.div_euclid(DAY_SECONDS);
            assert_eq!(parse(date), Some(day), "{date}");
            assert_eq!(year_of(day), date[..4].parse::<i64>().unwrap(), "{date}");
        }
    }

    #[test]
    fn what_is_no_date_is_none() {
        for date in [
            "",
            "2027",
            "2027-11",
            "2027-11-31",
            "2027-02-29",
            "2100-02-29",
            "2027-13-01",
            "2027-00-10",
            "2027-11-00",
            "2027-11-02-01",
            "27-11-02",
            "2027-1-02",
            "+027-11-02",
            "2027-11-0２",
            "November 2",
        ] {
            assert_eq!(parse(date), None, "{date}");
        }
    }
}
