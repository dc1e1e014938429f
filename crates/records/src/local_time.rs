//! What time it is where the device is. The time zone is read once; after that no file is looked at.

use std::sync::OnceLock;

use jiff::Timestamp;
use jiff::tz::TimeZone;

/// The device's time zone, once it was asked for; none where the system names none that is known.
static ZONE: OnceLock<Option<TimeZone>> = OnceLock::new();

/// Reads the device's time zone. Call it at the start: the first call may read files. Gives whether there is one; without, all times
/// are UTC.
pub fn read_time_zone() -> bool {
    zone().is_some()
}

fn zone() -> Option<&'static TimeZone> {
    let read = || {
        TimeZone::try_system()
            .ok()
            .filter(|zone| !zone.is_unknown())
    };
    ZONE.get_or_init(read).as_ref()
}

/// A time on the device's own clock with what it is ahead of UTC: `2026-05-04T08:30:00-05:00`; `2026-05-04T13:30:00Z` where the time zone
/// is not known.
pub(crate) fn written(time: Timestamp) -> String {
    written_in(time, zone())
}

fn written_in(time: Timestamp, zone: Option<&TimeZone>) -> String {
    let seconds = Timestamp::from_second(time.as_second()).unwrap_or(time);
    match zone {
        Some(zone) => seconds
            .display_with_offset(zone.to_offset(seconds))
            .to_string(),
        None => seconds.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(zone: Option<&str>, at: &str, expected: &str) {
        let zone = zone.map(|zone| TimeZone::posix(zone).unwrap());
        let written = written_in(at.parse().unwrap(), zone.as_ref());
        assert_eq!(written, expected);
        // It names the same second.
        let again: Timestamp = written.parse().unwrap();
        assert_eq!(again, at.parse().unwrap());
    }

    /// Nine in the evening five hours behind UTC is the next day there, and the same day where it was written.
    #[test]
    fn a_stamp_keeps_its_own_day() {
        let mut site = crate::SiteFile::new("3 Sample Lane", "");
        let stamp = crate::v1::Stamp {
            at: "2026-05-04T21:15:00-05:00".to_owned(),
            ..crate::v1::Stamp::default()
        };
        site.add_set_up(stamp);
        let (site, findings) = site.checked(&crate::catalogue().unwrap());
        assert_eq!(findings.iter().count(), 0);
        let stamp = &site.build.set_ups.first().unwrap().stamp;
        // `date -u -d 2026-05-05T02:15:00Z +%s` of GNU coreutils, and the same of 2026-05-04T21:15:00Z.
        assert_eq!(stamp.at_s, Some(1_777_947_300));
        assert_eq!(stamp.local_s(), Some(1_777_929_300));
    }

    #[test]
    fn a_late_evening_is_still_the_same_day() {
        // Central time of the United States by its rule in POSIX form: five hours behind in summer, six in winter.
        let central = Some("CST6CDT,M3.2.0,M11.1.0");
        check(central, "2026-05-05T02:15:00Z", "2026-05-04T21:15:00-05:00");
        check(central, "2026-12-02T02:15:00Z", "2026-12-01T20:15:00-06:00");
        check(
            Some("NZST-12NZDT,M9.5.0,M4.1.0/3"),
            "2026-05-04T20:00:00Z",
            "2026-05-05T08:00:00+12:00",
        );
        check(
            Some("UTC0"),
            "2026-05-04T12:00:00Z",
            "2026-05-04T12:00:00+00:00",
        );
        check(None, "2026-05-04T12:00:00Z", "2026-05-04T12:00:00Z");
    }
}
