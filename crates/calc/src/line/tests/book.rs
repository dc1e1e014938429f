//! The level book of whole sites: what joins the old surface, and what is said of it.

use super::*;
use crate::line::level_book;
use crate::quantity::{in_metres, metres};
use crate::site::{BookRow, LevelBook, Sight, Stands};

fn sight(sight: Sight, stands: Stands, station_ft: Option<f64>, reading_in: f64) -> BookRow {
    BookRow {
        sight,
        stands,
        station: station_ft.map(feet),
        offset: None,
        reading: Some(inches(reading_in)),
    }
}

/// Backsight on the sill 40 in; 10 ft out 46 in; turning point 42 in and 44 in; 20 ft out 50 in; back on the sill `close_in`.
///
/// Line of sight 40 in; 10 ft at 40 − 46 = −6 in; turning point 40 − 42 = −2 in; line of sight −2 + 44 = 42 in; 20 ft at −8 in.
fn booked(close_in: f64) -> Site {
    let mut site = site(vec![straight(feet(20.0))]);
    site.line.book = LevelBook {
        rows: vec![
            sight(Sight::Back, Stands::Sill, None, 40.0),
            sight(Sight::Intermediate, Stands::OldSurface, Some(10.0), 46.0),
            sight(Sight::Fore, Stands::TurningPoint, None, 42.0),
            sight(Sight::Back, Stands::TurningPoint, None, 44.0),
            sight(Sight::Intermediate, Stands::OldSurface, Some(20.0), 50.0),
            sight(Sight::Fore, Stands::Sill, None, close_in),
        ],
        ..LevelBook::default()
    };
    site
}

#[track_caller]
fn check_level(site: &Site, station_ft: f64, level_in: f64) {
    let (line, _) = line_of(site);
    let level = line.old_surface.at(feet(station_ft), metres(0.0)).unwrap();
    let got_in = in_metres(level.level) / 0.0254;
    assert!((got_in - level_in).abs() < 1e-9, "{got_in}");
}

fn said(site: &Site) -> Findings {
    let mut findings = Findings::default();
    level_book(site, &mut findings);
    findings
}

#[test]
fn sights_join_the_old_surface() {
    let site = booked(42.0);
    check_level(&site, 0.0, -3.0);
    check_level(&site, 10.0, -6.0);
    check_level(&site, 20.0, -8.0);
    let text = "The level book closes over 2 set-ups, within 1/8\".";
    check_found(&said(&site), Place::BookReading(5), Weight::Right, text);
}

#[test]
fn a_misclosure_is_told_and_spread_where_it_is_asked_for() {
    // The sill comes back at 42 − 41 7/8 = +1/8 in: each of two set-ups takes half of it.
    let mut site = booked(41.875);
    check_level(&site, 20.0, -8.0);
    let text = "closes 1/8\" high over 2 set-ups, within 1/8\". The readings are used as they are.";
    check_found(&said(&site), Place::BookReading(5), Weight::Right, text);
    site.line.book.spread = true;
    check_level(&site, 10.0, -6.0625);
    check_level(&site, 20.0, -8.125);
    let text = "It is spread over them in proportion.";
    check_found(&said(&site), Place::BookReading(5), Weight::Right, text);

    let site = booked(42.25);
    let text = "closes 1/4\" low over 2 set-ups, more than 1/8\".";
    check_found(&said(&site), Place::BookReading(5), Weight::Warning, text);
}

#[test]
fn a_broken_set_up_leaves_out_what_hangs_on_it() {
    let mut site = booked(42.0);
    site.line.book.rows[3].reading = Some(inches(900.0));
    let findings = said(&site);
    let text = "Sight 4 reading: 75'-0\" is above the most that can be true, 30'-0\".";
    check_found(&findings, Place::BookReading(3), Weight::Warning, text);
    assert_eq!(findings.at(Place::BookReading(3)).count(), 1, "said once");
    let text = "because the set-up before is broken: sight 5, 6.";
    check_found(&findings, Place::BookRow(4), Weight::Warning, text);
    check_level(&site, 10.0, -6.0);
    let (line, _) = line_of(&site);
    assert!(!line.old_surface.at(feet(20.0), metres(0.0)).unwrap().known);
}

#[test]
fn stations_are_checked_as_those_of_shots() {
    let mut site = booked(42.0);
    site.line.book.rows[1].station = None;
    site.line.book.rows[4].station = Some(feet(21.0));
    let (_, findings) = line_of(&site);
    let text = "Sight 2 station is missing.";
    check_found(&findings, Place::BookStation(1), Weight::Warning, text);
    let text = "Sight 5 station: 21'-0\" lies beyond the run";
    check_found(&findings, Place::BookStation(4), Weight::Warning, text);
}

#[test]
fn a_book_left_open_says_so() {
    let mut site = booked(42.0);
    site.line.book.rows[5].stands = Stands::TurningPoint;
    let text = "does not come back to a known level";
    check_found(&said(&site), Place::BookReading(5), Weight::Note, text);
    assert_eq!(
        level_book(&super::site(Vec::new()), &mut Findings::default()),
        None
    );
}
