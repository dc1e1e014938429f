//! Dates in words.

/// `4 May 2026`. A month that there is not is written as its number.
#[must_use]
pub fn in_words(year: i16, month: i8, day: i8) -> String {
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
    let name = usize::try_from(month)
        .ok()
        .and_then(|month| MONTHS.get(month.checked_sub(1)?));
    name.map_or_else(
        || format!("{year}-{month:02}-{day:02}"),
        |name| format!("{day} {name} {year}"),
    )
}

/// The day of so many seconds since the start of 1970: `4 May 2026`; empty beyond the years 1 to 9999.
///
/// # Source
/// The proleptic Gregorian calendar (ISO 8601), in cycles of 400 years of 146,097 days.
#[must_use]
pub fn day_of(seconds: i64) -> String {
    let days = seconds.div_euclid(86_400);
    // Days since 1 March of the year 0, so that a leap day ends its year.
    let since = days + 719_468;
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
        (Ok(year @ 1..=9999), Ok(month), Ok(day)) => in_words(year, month, day),
        _ => String::new(),
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
}
