//! Dates in words.

/// January to December.
pub(crate) const MONTHS: [&str; 12] = [
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

/// `4 May 2026`. A month that there is not is written as its number.
#[must_use]
pub fn in_words(year: i16, month: i8, day: i8) -> String {
    let name = usize::try_from(month)
        .ok()
        .and_then(|month| MONTHS.get(month.checked_sub(1)?));
    name.map_or_else(
        || format!("{year}-{month:02}-{day:02}"),
        |name| format!("{day} {name} {year}"),
    )
}

/// The day of so many seconds since the start of 1970: `4 May 2026`; empty beyond the years 1 to 9999.
#[must_use]
pub fn day_of(seconds: i64) -> String {
    civil(seconds.div_euclid(86_400))
        .map_or_else(String::new, |(year, month, day)| in_words(year, month, day))
}

/// The day on which work goes on for the `nth` time after the day on which it starts: Saturdays and Sundays are left out. `None` beyond the
/// years 1 to 9999, or for a date that there is not.
#[must_use]
pub fn working_day(start: (i16, i8, i8), nth: usize) -> Option<(i16, i8, i8)> {
    let mut days = days_since_1970(start)?;
    for _ in 0..nth {
        days += 1;
        // 1 January 1970 was a Thursday: Saturday is the second day after it.
        while matches!(days.rem_euclid(7), 2 | 3) {
            days += 1;
        }
    }
    civil(days)
}

/// Days since 1 January 1970.
///
/// # Source
/// The proleptic Gregorian calendar (ISO 8601): 365 days a year, a leap day every 4 years, not every 100, but every 400; a year is taken
/// from March on, whose months up to the n-th have (153 n + 2) ÷ 5 days.
fn days_since_1970(date: (i16, i8, i8)) -> Option<i64> {
    let (year, month, day) = (i64::from(date.0), i64::from(date.1), i64::from(date.2));
    let from_march = (month + 9).rem_euclid(12);
    let year = year - i64::from(month <= 2);
    let leap_days = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
    let days = 365 * year + leap_days + (153 * from_march + 2) / 5 + day - 1 - 719_468;
    (civil(days) == Some(date)).then_some(days)
}

/// Year, month and day of so many days since 1 January 1970; `None` beyond the years 1 to 9999.
///
/// # Source
/// The proleptic Gregorian calendar (ISO 8601), in cycles of 400 years of 146,097 days.
pub(crate) fn civil(days: i64) -> Option<(i16, i8, i8)> {
    // Days since 1 March of the year 0, so that a leap day ends its year.
    let since = days.checked_add(719_468)?;
    let (era, of_era) = (since.div_euclid(146_097), since.rem_euclid(146_097));
    let year_of_era = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted = (5 * of_year + 2) / 153;
    let day = of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 {
        shifted + 3
    } else {
        shifted - 9
    };
    let year = era * 400 + year_of_era + i64::from(month <= 2);
    match (i16::try_from(year), i8::try_from(month), i8::try_from(day)) {
        (Ok(year @ 1..=9999), Ok(month), Ok(day)) => Some((year, month, day)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_the_calendar() {
        // Seconds as `date -u -d DATE +%s` of GNU coreutils gives them.
        for (seconds, expected) in [
            (0, "1 January 1970"),
            (-1, "31 December 1969"),
            (951_782_399, "28 February 2000"),
            (951_782_400, "29 February 2000"),
            (951_868_800, "1 March 2000"),
            (4_107_542_400, "1 March 2100"),
            (1_777_901_400, "4 May 2026"),
            (i64::MAX, ""),
        ] {
            assert_eq!(day_of(seconds), expected, "{seconds}");
        }
        assert_eq!(in_words(2026, 13, 1), "2026-13-01");
    }

    #[test]
    fn work_goes_on_after_a_weekend() {
        // By `date -d` of GNU coreutils: 27 February 2026 and 29 December 2028 are Fridays, 29 February 2028 a Tuesday.
        let check = |start, nth, expected| assert_eq!(working_day(start, nth), expected);
        check((2026, 2, 27), 0, Some((2026, 2, 27)));
        check((2026, 2, 27), 1, Some((2026, 3, 2)));
        check((2028, 2, 28), 1, Some((2028, 2, 29)));
        check((2028, 12, 29), 1, Some((2029, 1, 1)));
        check((2026, 5, 11), 5, Some((2026, 5, 18)));
        // Whoever starts on a Saturday does.
        check((2026, 5, 16), 0, Some((2026, 5, 16)));
        check((2026, 2, 30), 1, None);
        check((9999, 12, 31), 1, None);
    }
}
