//! What is seen, and what made the walk fail, where it stands: a painted mark for each sign, and what a callout says.

use crate::draft::{Draft, HAIRLINE, rectangle, solid};
use crate::palette::Ink;
use underbrick_calc::findings::rules::CauseFound;
use underbrick_calc::ground::PitFound;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::{Severity, Sign, SignKind, Site};

/// How far a leader may end left or right of what it points at, in dots.
pub(crate) const REACH: f64 = 7.5;

/// One thing that a drawing points out.
#[derive(Clone, Debug)]
pub(crate) struct Spotted {
    pub title: String,
    pub ink: Ink,
    pub place: Place,
    pub station: Length,
    pub stands: Stands,
    /// As a callout's: 0 is dropped last.
    pub rank: u8,
    /// The mark that is painted on the surface, for a sign.
    pub mark: Option<SignKind>,
}

/// Where it stands in height.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Stands {
    /// On the old surface, at an offset in metres.
    Surface(f64),
    /// In a pit, at a level in metres.
    Pit(usize, f64),
}

/// Causes and signs that have a station. The first cause goes before the signs, then they take turns, the worst first.
pub(crate) fn spotted(site: &Site, pits: &[PitFound], causes: &[CauseFound]) -> Vec<Spotted> {
    let signs = site.signs.iter().enumerate();
    let mut all: Vec<Spotted> = signs
        .filter_map(|(sign_idx, sign)| of_sign(sign_idx, sign))
        .collect();
    for (nth, cause) in causes.iter().enumerate() {
        all.extend(of_cause(site, pits, cause, nth));
    }
    all
}

fn of_sign(sign_idx: usize, sign: &Sign) -> Option<Spotted> {
    let (kind, station) = (sign.what?, sign.station?);
    Some(Spotted {
        title: word(kind).to_owned(),
        ink: Ink::NotKnown,
        place: Place::SignStation(sign_idx),
        station,
        stands: Stands::Surface(sign.offset.map_or(0.0, in_metres)),
        rank: match sign.severity {
            Severity::Bad => 6,
            Severity::Plain => 8,
            Severity::Slight => 10,
        },
        mark: Some(kind),
    })
}

/// At the first reading of the ground that it stands on; else at its first reading that has a station.
fn of_cause(site: &Site, pits: &[PitFound], cause: &CauseFound, nth: usize) -> Option<Spotted> {
    let spots = || {
        cause.evidence.iter().filter_map(|evidence| {
            let (station, stands) = spot(site, pits, evidence.place, evidence.station)?;
            Some((evidence.place, station, stands))
        })
    };
    let (place, station, stands) = spots()
        .find(|(_, _, stands)| matches!(stands, Stands::Pit(..)))
        .or_else(|| spots().next())?;
    Some(Spotted {
        title: cause.mark.clone(),
        ink: Ink::Wrong,
        place,
        station,
        stands,
        rank: u8::try_from(5 + 2 * nth).unwrap_or(u8::MAX),
        mark: None,
    })
}

fn spot(
    site: &Site,
    pits: &[PitFound],
    place: Place,
    station: Option<Length>,
) -> Option<(Length, Stands)> {
    let pit_of = |pit_idx: usize| pits.iter().find(|pit| pit.pit_idx == pit_idx);
    match place {
        Place::LayerMaterial(pit_idx, layer_idx) | Place::LayerThickness(pit_idx, layer_idx) => {
            let pit = pit_of(pit_idx)?;
            let layer = pit.layers.get(layer_idx)?;
            let bottom = layer.bottom.unwrap_or(pit.dug_to);
            let middle_m = in_metres(layer.top + bottom) / 2.0;
            Some((pit.station, Stands::Pit(pit_idx, middle_m)))
        }
        Place::PitSeep(pit_idx) => {
            let pit = pit_of(pit_idx)?;
            Some((pit.station, Stands::Pit(pit_idx, in_metres(pit.seep?))))
        }
        Place::ShotReading(shot_idx) => {
            let offset = site.line.shots.get(shot_idx)?.offset;
            Some((station?, Stands::Surface(offset.map_or(0.0, in_metres))))
        }
        Place::SignStation(sign_idx) | Place::SignWidth(sign_idx) => {
            let offset = site.signs.get(sign_idx)?.offset;
            Some((station?, Stands::Surface(offset.map_or(0.0, in_metres))))
        }
        _ => Some((station?, Stands::Surface(0.0))),
    }
}

/// What a drawing calls a sign.
const fn word(kind: SignKind) -> &'static str {
    match kind {
        SignKind::Sunk => "sunk",
        SignKind::Heaved => "heaved",
        SignKind::Rocking => "rocking",
        SignKind::OpenJoints => "open joints",
        SignKind::Moss => "moss",
        SignKind::Ponding => "ponding",
        SignKind::EdgeSpread => "edge spread",
        SignKind::BrokenBrick => "cracked",
        SignKind::Root => "root",
        SignKind::Downpipe => "downpipe",
    }
}

/// Outlines of a sign's mark over a spot on the surface, in dots right of it and above it.
const fn outlines(kind: SignKind) -> &'static [&'static [(f64, f64)]] {
    match kind {
        // An arrow down, and one up.
        SignKind::Sunk => &[&[
            (-2.0, 17.0),
            (2.0, 17.0),
            (2.0, 10.0),
            (7.0, 10.0),
            (0.0, 3.0),
            (-7.0, 10.0),
            (-2.0, 10.0),
        ]],
        SignKind::Heaved => &[&[
            (-2.0, 3.0),
            (2.0, 3.0),
            (2.0, 10.0),
            (7.0, 10.0),
            (0.0, 17.0),
            (-7.0, 10.0),
            (-2.0, 10.0),
        ]],
        // A brick on its corner.
        SignKind::Rocking => &[&[(-7.0, 3.0), (6.0, 7.0), (4.5, 12.5), (-8.5, 8.5)]],
        // Two bricks with a gap.
        SignKind::OpenJoints => &[
            &[(-9.0, 3.0), (-2.5, 3.0), (-2.5, 9.0), (-9.0, 9.0)],
            &[(2.5, 3.0), (9.0, 3.0), (9.0, 9.0), (2.5, 9.0)],
        ],
        // Three blades.
        SignKind::Moss => &[
            &[(-2.0, 3.0), (2.0, 3.0), (0.0, 15.0)],
            &[(-5.0, 3.0), (-2.5, 3.0), (-8.0, 11.0)],
            &[(2.5, 3.0), (5.0, 3.0), (8.0, 11.0)],
        ],
        // A shallow bowl of water.
        SignKind::Ponding => &[&[
            (-9.0, 9.0),
            (9.0, 9.0),
            (6.0, 5.0),
            (2.0, 3.0),
            (-2.0, 3.0),
            (-6.0, 5.0),
        ]],
        // Arrows away from each other.
        SignKind::EdgeSpread => &[
            &[(-2.0, 3.0), (-2.0, 13.0), (-10.0, 8.0)],
            &[(2.0, 3.0), (10.0, 8.0), (2.0, 13.0)],
        ],
        // A brick with a crack through it.
        SignKind::BrokenBrick => &[
            &[
                (-8.0, 3.0),
                (-2.0, 3.0),
                (0.0, 6.0),
                (-2.5, 9.0),
                (-8.0, 9.0),
            ],
            &[(1.0, 3.0), (8.0, 3.0), (8.0, 9.0), (0.5, 9.0), (3.0, 6.0)],
        ],
        // A stem that forks.
        SignKind::Root => &[&[
            (-1.5, 16.0),
            (1.5, 16.0),
            (2.0, 10.0),
            (8.0, 3.0),
            (4.5, 3.0),
            (0.0, 7.0),
            (-4.5, 3.0),
            (-8.0, 3.0),
            (-2.0, 10.0),
        ]],
        // A pipe with its shoe.
        SignKind::Downpipe => &[&[
            (-4.0, 18.0),
            (0.0, 18.0),
            (0.0, 8.0),
            (7.0, 5.5),
            (7.0, 3.0),
            (3.0, 3.0),
            (-4.0, 6.0),
        ]],
    }
}

/// Paints the mark of a sign on a plate of paper over a spot of the surface, in dots of the sheet.
pub(crate) fn paint(draft: &mut Draft, kind: SignKind, (x, y): (f64, f64), place: Place) {
    let plate = rectangle(x - 11.0, y - 20.0, x + 11.0, y - 0.5);
    let rim = Some(solid(Ink::NotKnown, HAIRLINE));
    draft.shape(&plate, Ink::Paper, rim, Some(place));
    for outline in outlines(kind) {
        let corners: Vec<(f64, f64)> = outline
            .iter()
            .map(|(right, above)| (x + right, y - above))
            .collect();
        draft.shape(&corners, Ink::NotKnown, None, Some(place));
    }
}
