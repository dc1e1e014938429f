//! Walks of many shapes, drawn at many scales.

mod dragged;
mod fall;
mod readable;
mod said;
mod seen;
mod to_scale;

use super::*;
use crate::clearance::{faults, label_box};
use crate::examples::empty_site;
use crate::inside::contains;
use crate::item::Item;
use crate::palette::Theme;
use crate::picked;
use crate::svg;
use std::time::Instant;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::lay::{Lay, Pieces};
use underbrick_calc::quantity::{Angle, Length, feet, inches, metres, unit};
use underbrick_calc::site::{CourseWay, EdgeStands, Hand, Leg, LegShape, ShownIn, StartSide};

/// A site, its run and its pieces.
struct Walk {
    name: &'static str,
    site: Site,
    run: Run,
    laid: Lay,
}

fn straight(length_ft: f64) -> Leg {
    Leg {
        shape: LegShape::Straight {
            length: Some(feet(length_ft)),
        },
        width_at_end: None,
    }
}

fn curve(radius_ft: f64, turn_degrees: f64, hand: Hand) -> Leg {
    Leg {
        shape: LegShape::Curve {
            radius: Some(feet(radius_ft)),
            turn: Some(Angle::new::<unit::degree>(turn_degrees)),
            hand,
        },
        width_at_end: None,
    }
}

fn walk(name: &'static str, legs: Vec<Leg>, change: impl FnOnce(&mut Site)) -> Walk {
    let mut site = empty_site(ShownIn::FeetInches);
    site.line.legs = legs;
    site.line.width = Some(inches(36.0));
    change(&mut site);
    let results = compute(&site, &Catalogue::default());
    let (run, laid) = (results.line.unwrap().run, results.lay.unwrap());
    Walk {
        name,
        site,
        run,
        laid,
    }
}

/// An S-curve and a straight over and over: about so many feet.
fn long_walk(length_ft: f64) -> Walk {
    let mut legs = Vec::new();
    let mut laid_ft = 0.0;
    // 60 degrees of a circle of 20 ft are 20.94 ft.
    while laid_ft < length_ft {
        legs.push(curve(20.0, 60.0, Hand::Left));
        legs.push(curve(20.0, 60.0, Hand::Right));
        legs.push(straight(18.0));
        laid_ft += 18.0 + 2.0 * 20.94;
    }
    walk("long", legs, |_| {})
}

fn walks() -> Vec<Walk> {
    let opening = underbrick_calc::site::Opening {
        station: Some(feet(6.0)),
        offset: Some(inches(-4.0)),
        along: Some(inches(14.0)),
        across: Some(inches(10.0)),
    };
    vec![
        walk("straight", vec![straight(24.0)], |site| {
            site.lay.openings = vec![opening];
        }),
        walk(
            "curved",
            vec![straight(12.0), curve(9.0, 60.0, Hand::Left), straight(5.0)],
            |site| {
                site.lay.bearing = Some(Angle::new::<unit::degree>(212.0));
                site.shown_in = ShownIn::Metric;
            },
        ),
        walk(
            "s-curve",
            vec![
                curve(12.0, 75.0, Hand::Right),
                curve(12.0, 75.0, Hand::Left),
            ],
            |site| {
                site.lay.start_side = StartSide::Right;
                site.edge.stands = EdgeStands::Header;
            },
        ),
        walk(
            "hairpin",
            vec![
                straight(20.0),
                curve(5.0, 180.0, Hand::Right),
                straight(18.0),
            ],
            |site| {
                site.lay.bearing = Some(Angle::new::<unit::degree>(15.0));
            },
        ),
        walk("tapered", vec![straight(16.0)], |site| {
            site.line.width = Some(inches(48.0));
            site.lay.courses = CourseWay::Across;
        }),
        walk("short", vec![straight(4.0)], |_| {}),
        long_walk(300.0),
    ]
}

impl Walk {
    fn plan(&self, view: PlanView, sheet: Sheet) -> Drawing {
        self.with_input(|input| plan(input, view, sheet))
    }

    fn with_input<T>(&self, show: impl FnOnce(&PlanInput<'_>) -> T) -> T {
        let letter = |piece_idx| self.letter(piece_idx);
        show(&PlanInput {
            site: &self.site,
            run: &self.run,
            pieces: &self.laid.pieces,
            letter: &letter,
            fall: Fall::from_ratio(1.0 / 48.0),
            cross_fall: Fall::from_ratio(-1.0 / 96.0),
            grade_pieces: &[],
            narrowest_joint: self.laid.narrowest_joint,
            widest_joint: self.laid.widest_joint,
            least_lap: self.laid.least_lap,
            notes: &self.laid.notes,
        })
    }

    fn letter(&self, piece_idx: usize) -> Option<String> {
        let line = self.laid.cuts.line(piece_idx)?;
        Some(line.letter.clone())
    }

    fn whole(&self, sheet: Sheet) -> PlanView {
        PlanView::whole(&self.site, &self.run, sheet)
    }

    fn spot(&self, share: f64, offset_m: f64) -> PlanPoint {
        let (right, away) = self
            .run
            .in_plan(self.run.length() * share, metres(offset_m));
        PlanPoint {
            right_m: in_metres(right),
            away_m: in_metres(away),
        }
    }
}

fn sheet(width: f64, height: f64) -> Sheet {
    Sheet {
        width,
        height,
        text_scale: 1.0,
    }
}

fn areas_of_pieces(drawing: &Drawing) -> Vec<(u32, Vec<Point>)> {
    let areas = drawing.items.iter().filter_map(|item| match item {
        Item::Area {
            outline,
            fill: Ink::Clay,
            place: Some(Place::Piece(piece_idx)),
            ..
        } => Some((*piece_idx, outline.clone())),
        _ => None,
    });
    areas.collect()
}
