//! How long ago something was, in words; after a week the day itself.

/// What time it is where the page is.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Now {
    /// Milliseconds since 1970.
    pub ms: f64,
    /// What local clocks are ahead of that, in minutes.
    pub ahead_minutes: f64,
}

const MINUTE: f64 = 60_000.0;
const HOUR: f64 = 60.0 * MINUTE;
const DAY: f64 = 24.0 * HOUR;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

impl Now {
    /// When something was: `just now`, `5 minutes ago`, `yesterday`, `3 March 2026`.
    #[must_use]
    pub fn since(self, then_ms: f64) -> String {
        let passed = self.ms - then_ms;
        let days = self.day_of(self.ms) - self.day_of(then_ms);
        if passed < 1.5 * MINUTE {
            "just now".to_owned()
        } else if passed < HOUR {
            format!("{:.0} minutes ago", (passed / MINUTE).floor().max(2.0))
        } else if days < 1.0 || passed < 6.0 * HOUR {
            counted((passed / HOUR).floor(), "hour")
        } else if days < 2.0 {
            "yesterday".to_owned()
        } else if days < 8.0 {
            counted(days, "day")
        } else {
            date(self.day_of(then_ms))
        }
    }

    /// Days since 1970 by the clock on the wall.
    fn day_of(self, ms: f64) -> f64 {
        ((ms + self.ahead_minutes * MINUTE) / DAY).floor()
    }
}

fn counted(count: f64, what: &str) -> String {
    if count < 2.0 {
        format!("1 {what} ago")
    } else {
        format!("{count:.0} {what}s ago")
    }
}

/// Day, month and year of a day counted from 1970, by the Gregorian calendar: whole eras of 400 years have 146 097 days,
/// and a year that begins in March has its leap day last (Howard Hinnant, "chrono-compatible low-level date
/// algorithms", `civil_from_days`).
#[expect(
    clippy::cast_possible_truncation,
    reason = "a clock's days are few, and a cast saturates"
)]
fn date(day: f64) -> String {
    let shifted = day as i64 + 719_468;
    let era = shifted.div_euclid(146_097);
    let of_era = shifted.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * of_year + 2) / 153;
    let in_month = of_year - (153 * from_march + 2) / 5 + 1;
    let month = (from_march + 2) % 12;
    let year = era * 400 + year_of_era + i64::from(month < 2);
    let name = usize::try_from(month).ok().and_then(|month| MONTHS.get(month));
    format!("{in_month} {} {year}", name.unwrap_or(&""))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Noon UTC on 25 November 2026.
    const NOON: f64 = 20_782.5 * DAY;

    fn check(ago: f64, expected: &str) {
        let now = Now {
            ms: NOON,
            ahead_minutes: 0.0,
        };
        assert_eq!(now.since(NOON - ago), expected);
    }

    #[test]
    fn what_was_lately_is_told_by_how_long_ago() {
        check(0.0, "just now");
        check(-5.0 * MINUTE, "just now");
        check(5.4 * MINUTE, "5 minutes ago");
        check(HOUR, "1 hour ago");
        check(11.0 * HOUR, "11 hours ago");
        check(20.0 * HOUR, "yesterday");
        check(3.0 * DAY, "3 days ago");
    }

    #[test]
    fn what_was_long_ago_is_told_by_its_day() {
        check(10.0 * DAY, "15 November 2026");
        check(NOON, "1 January 1970");
        check(NOON - 11_016.0 * DAY, "29 February 2000");
    }

    #[test]
    fn days_begin_at_midnight_on_the_wall() {
        let late = Now {
            ms: NOON,
            ahead_minutes: 14.0 * 60.0,
        };
        // Two in the morning of the next day; seven hours ago was the evening before.
        assert_eq!(late.since(NOON - 7.0 * HOUR), "yesterday");
    }
}
