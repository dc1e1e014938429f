//! What is seen along the run, and what made the walk fail, where it stands.

use super::Lengthwise;
use super::frame::Frame;
use crate::callouts::Callout;
use crate::draft::Draft;
use crate::spotted::{self, REACH, Spotted, Stands};
use crate::tongue;
use underbrick_calc::findings::rules::evidence_words;
use underbrick_calc::quantity::in_metres;

/// Those on the run, each with its spot in dots.
fn on_the_run(walk: &Lengthwise<'_>, frame: &Frame) -> Vec<(Spotted, (f64, f64))> {
    let all = spotted::spotted(walk.site, walk.pits, walk.causes);
    all.into_iter()
        .filter_map(|spotted| {
            let station_m = in_metres(spotted.station);
            if !(0.0..=walk.run_m).contains(&station_m) {
                return None;
            }
            let level_m = match spotted.stands {
                Stands::Surface(_) => walk
                    .level_at(station_m, |spot| spot.old_surface.map(|old| old.level))
                    .or_else(|| walk.level_at(station_m, |spot| Some(spot.grade)))?,
                Stands::Pit(_, level_m) => level_m,
            };
            let (x, y) = frame.dots(station_m, level_m);
            Some((spotted, (x, y.min(frame.bottom - 2.0))))
        })
        .collect()
}

/// Paints the marks of the signs.
pub(super) fn marks(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    for (spotted, at) in on_the_run(walk, frame) {
        if let Some(kind) = spotted.mark {
            spotted::paint(draft, kind, at, spotted.place);
        }
    }
}

/// A callout for each.
pub(super) fn callouts(walk: &Lengthwise<'_>, frame: &Frame) -> Vec<Callout> {
    on_the_run(walk, frame)
        .into_iter()
        .map(|(spotted, (x, y))| Callout {
            title: spotted.title,
            note: String::new(),
            ink: spotted.ink,
            place: Some(spotted.place),
            along: vec![(x - REACH, y), (x + REACH, y)],
            rank: spotted.rank,
            again: true,
        })
        .collect()
}

/// Each in words, one sentence a line; those without a station too.
pub(super) fn words(walk: &Lengthwise<'_>) -> Vec<String> {
    let said = |place| evidence_words(walk.site, walk.catalogue, place);
    let signs = (0..walk.site.signs.len()).map(|sign_idx| {
        let sign = said(underbrick_calc::place::Place::Sign(sign_idx));
        format!("{}.", tongue::said(sign))
    });
    let causes = walk.causes.iter().map(|cause| {
        // A reading that is told with what it comes to is told in two parts.
        let evidence = cause
            .evidence
            .iter()
            .flat_map(|evidence| evidence.words.split("; ").map(str::to_owned));
        let mark = tongue::said(cause.mark.clone());
        format!("{mark}: {}.", tongue::said_each(evidence, "; "))
    });
    signs.chain(causes).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::examples::curved_run;
    use crate::item::{Item, Sheet};
    use underbrick_calc::place::Place;
    use underbrick_calc::quantity::inches;
    use underbrick_calc::site::{Severity, ShownIn, Sign, SignKind};

    #[test]
    fn a_sign_is_marked_where_it_is_and_one_beyond_the_run_is_not() {
        let mut run = curved_run(ShownIn::FeetInches, 2);
        let sign = |station_in: f64| Sign {
            what: Some(SignKind::Sunk),
            severity: Severity::Bad,
            station: Some(inches(station_in)),
            offset: None,
            width: None,
        };
        run.site.signs = vec![sign(120.0), sign(500.0)];
        let sheet = Sheet {
            width: 1200.0,
            height: 600.0,
            text_scale: 1.0,
        };
        let drawing = crate::long_section::draw(&run.walk(), sheet).drawing;
        let marks: Vec<(f64, Option<Place>)> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Area { outline, place, .. } if outline.len() == 7 => {
                    let tip = outline
                        .iter()
                        .map(|corner| corner.y)
                        .fold(f64::MAX, f64::min);
                    let x = outline.iter().find(|corner| corner.y <= tip)?.x;
                    Some((x, *place))
                }
                _ => None,
            })
            .collect();
        // The tip of the arrow stands at 120 in.
        assert_eq!(marks.len(), 1);
        assert!((marks[0].0 - in_metres(inches(120.0))).abs() < 1e-9);
        assert_eq!(marks[0].1, Some(Place::SignStation(0)));
        let is_named = drawing
            .items
            .iter()
            .any(|item| matches!(item, Item::Label { text, .. } if text.written.contains("sunk")));
        assert!(is_named);
    }
}
