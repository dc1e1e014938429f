//! Checks at one spot that are no levels: straightedge, step from brick to brick, joints, bond line.

use super::check::{SpotFound, Verdict};
use super::readings::{ROUNDING_M, same_spot};
use super::surface::SpotKind;
use crate::defaults;
use crate::field::{check_length, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::{Length, in_metres, inches, metres};
use crate::site::Site;

/// What each check says, in the order in which they were written down. Those that do not say what was checked are left out.
pub(super) fn spots(site: &Site, findings: &mut Findings) -> Vec<SpotFound> {
    let mut found: Vec<SpotFound> = site
        .build
        .spots
        .iter()
        .enumerate()
        .filter_map(|(spot_idx, spot)| {
            let kind = spot.kind?;
            let size = take_length(
                site,
                Place::SpotSize(spot_idx),
                spot.size,
                Weight::Warning,
                findings,
            );
            // For its finding: a spot counts without a station too.
            let _ = take_length(
                site,
                Place::SpotStation(spot_idx),
                spot.station,
                Weight::Warning,
                findings,
            );
            let limits = limits(site, kind);
            let verdict = size.map_or(Verdict::NotKnown, |size| limits.verdict(size));
            let advice = size.map_or_else(String::new, |size| limits.advice(site, kind, size));
            Some(SpotFound {
                spot_idx,
                kind,
                size,
                least: limits.least,
                most: limits.most,
                verdict,
                advice,
                source: limits.source,
                beside: limits.beside,
                is_read_again: false,
            })
        })
        .collect();
    mark_read_again(site, &mut found);
    found
}

/// What a check is held to.
struct Limits {
    least: Length,
    most: Length,
    source: Source,
    beside: &'static str,
}

impl SpotKind {
    /// Least and most that this check may show at a site.
    #[must_use]
    pub fn limits(self, site: &Site) -> (Length, Length) {
        let limits = limits(site, self);
        (limits.least, limits.most)
    }
}

/// The limits of a check.
///
/// # Source
/// Interlocking Concrete Pavement Institute, construction tolerances and recommendations, for concrete units: surface and base 3/8 in
/// over 10 ft, not cumulative; step 1/8 in on a pedestrian way; bond lines 1/2 in over 50 ft; joints filled to within 1/2 in; 1/8 to
/// 3/8 in above a drain inlet or channel. Joints are 1/16 to 3/16 in wide, Brick Industry Association, Technical Note 14A, or as was written down for the laying.
fn limits(site: &Site, kind: SpotKind) -> Limits {
    const TOLERANCES: Source = Source::Published(
        "Interlocking Concrete Pavement Institute, construction tolerances and recommendations",
    );
    const NOTE_14A: Source = Source::Published("Brick Industry Association, Technical Note 14A");
    let up_to = |most_in: f64, beside: &'static str| Limits {
        least: metres(0.0),
        most: inches(most_in),
        source: TOLERANCES,
        beside,
    };
    match kind {
        SpotKind::StraightedgeOnBase => up_to(0.375, ""),
        SpotKind::StraightedgeOnBrick => up_to(
            0.375,
            "In the United Kingdom, BS 7533: up to 10 mm under a straightedge of 3 m.",
        ),
        SpotKind::Lippage => up_to(
            0.125,
            "In the United Kingdom, BS 7533: up to 2 mm from one clay paver to the next.",
        ),
        SpotKind::JointFill => up_to(0.5, ""),
        SpotKind::BondLine => up_to(0.5, ""),
        SpotKind::AboveInlet => Limits {
            least: inches(0.125),
            ..up_to(0.375, "")
        },
        SpotKind::JointWidth => {
            // Widths that cannot be true were named when the brick was laid out.
            let own = |place: Place, length: Option<Length>| {
                length.and_then(|length| check_length(place, length).ok())
            };
            let least = own(Place::LeastJoint, site.lay.least_joint);
            let most = own(Place::WidestJoint, site.lay.widest_joint);
            Limits {
                source: if least.is_none() && most.is_none() {
                    NOTE_14A
                } else {
                    Source::Readings
                },
                least: least.unwrap_or_else(defaults::least_joint),
                most: most.unwrap_or_else(defaults::widest_joint),
                beside: "Published for joints filled with sand: 1/16 to 3/16 in (2 to 5 mm).",
            }
        }
    }
}

impl Limits {
    fn verdict(&self, size: Length) -> Verdict {
        if size > self.most + metres(ROUNDING_M) {
            Verdict::High
        } else if size < self.least - metres(ROUNDING_M) {
            Verdict::Low
        } else {
            Verdict::Right
        }
    }

    fn advice(&self, site: &Site, kind: SpotKind, size: Length) -> String {
        let shown = site.shown_in;
        let over = shown.thickness(size - self.most);
        let verdict = self.verdict(size);
        match (kind, verdict) {
            (_, Verdict::Right | Verdict::NotKnown) => String::new(),
            (SpotKind::StraightedgeOnBase, _) => format!(
                "{over} too much: take the high ends down, or loosen, fill and compact the hollow under the straightedge, then lay it on again."
            ),
            (SpotKind::StraightedgeOnBrick, _) => format!(
                "{over} too much: tap the high brick down, or lift the hollow and screed its bed higher, then lay the straightedge on again."
            ),
            (SpotKind::Lippage, _) => format!(
                "{over} too much: tap the higher brick down, or lift the lower one and bed it higher."
            ),
            (SpotKind::JointWidth, Verdict::Low) => format!(
                "{} too narrow for its jointing: open the joint with a bar, and share it out over the course.",
                shown.thickness(self.least - size)
            ),
            (SpotKind::JointWidth, _) => format!(
                "{over} too wide: knock the course up and share it out, or set in a wider brick, before the joints are filled."
            ),
            (SpotKind::JointFill, _) => format!(
                "{over} too low: sweep in jointing, compact, and sweep again until it is full."
            ),
            (SpotKind::AboveInlet, Verdict::Low) => format!(
                "{} too low for water to run in: lift the brick beside the inlet and bed it higher, or set the inlet lower.",
                shown.thickness(self.least - size)
            ),
            (SpotKind::AboveInlet, _) => format!(
                "{over} too high, a toe catches on it: tap the brick beside the inlet down, or set the inlet higher."
            ),
            (SpotKind::BondLine, _) => format!(
                "{over} too much: straighten the course along a string with a bar before the joints are filled."
            ),
        }
    }
}

/// A check is done again by each later one of its kind on its spot; those that name no station stand for the walk as a whole.
fn mark_read_again(site: &Site, found: &mut [SpotFound]) {
    let station = |spot: &SpotFound| {
        site.build
            .spots
            .get(spot.spot_idx)
            .and_then(|spot| spot.station)
            .map(in_metres)
    };
    let mut later: Vec<(SpotKind, Option<f64>)> = Vec::new();
    for spot in found.iter_mut().rev() {
        let here = station(spot);
        spot.is_read_again = later.iter().any(|(kind, there)| {
            *kind == spot.kind
                && match (here, there) {
                    (Some(here_m), Some(there_m)) => {
                        (here_m - there_m).abs() <= in_metres(same_spot()) + ROUNDING_M
                    }
                    (None, None) => true,
                    _ => false,
                }
        });
        if spot.size.is_some() {
            later.push((spot.kind, here));
        }
    }
}
