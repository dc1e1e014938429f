//! What someone should look at in the bed.

use super::Bed;
use super::lifts::joined;
use super::patch::Plane;
use super::wishes::{RestraintWish, Wishes};
use crate::defaults;
use crate::findings::{Findings, Source, Weight};
use crate::lay::fine;
use crate::place::Place;
use crate::quantity::{Length, cubic_metres, in_cubic_metres, in_metres, inches, metres};
use crate::site::Site;

/// Source of the least base and of the dig past the edge.
const CONSTRUCTION_TOLERANCES: Source = Source::Published(
    "Interlocking Concrete Pavement Institute, Construction Tolerances and Recommendations",
);
/// Source of the joint width and of the edge restraint.
const NOTE_14A: Source = Source::Published("Brick Industry Association, Technical Note 14A");

/// Checks of the bed as designed.
pub(super) fn check(site: &Site, bed: &Bed, wishes: &Wishes, findings: &mut Findings) {
    let mut checks = Checks {
        site,
        bed,
        wishes,
        findings,
    };
    checks.least_base();
    checks.undercut();
    checks.lifts();
    checks.trimmed();
    checks.side_extension();
    checks.edge();
    checks.fill();
}

struct Checks<'a> {
    site: &'a Site,
    bed: &'a Bed,
    wishes: &'a Wishes,
    findings: &'a mut Findings,
}

impl Checks<'_> {
    fn least_base(&mut self) {
        let published = defaults::least_base();
        let asked = self.wishes.least_base;
        if is_less(asked, published) {
            let text = format!(
                "Least base of {} is your own: walks are published with {}.",
                self.words(asked),
                self.words(published)
            );
            self.note(
                Place::LeastBase,
                Weight::Note,
                CONSTRUCTION_TOLERANCES,
                &text,
                "Stand by it in writing, or take the published one.",
            );
        }
        let thinnest_partial = self.bed.lifts.thinnest_partial;
        if is_less(asked, thinnest_partial)
            && !is_less(self.bed.lifts.compacted_limit, thinnest_partial)
        {
            let text = format!(
                "A base of {} does not hold this stone: it is made {}, 1.5 times the largest stone.",
                self.words(asked),
                self.words(thinnest_partial)
            );
            self.note(
                Place::LeastBase,
                Weight::Note,
                Source::CommonPractice,
                &text,
                "A finer base material may be thinner.",
            );
        }
    }

    fn undercut(&mut self) {
        let Some(limit) = self.wishes.undercut_limit else {
            return;
        };
        let least_dig = self.bed.base_top_below_grade + self.wishes.least_base;
        if is_less(limit, least_dig) {
            let text = format!(
                "The deepest dig of {} leaves no room for brick, bed and the least base, {} together: the least base is dug for.",
                self.words(limit),
                self.words(least_dig)
            );
            self.note(
                Place::UndercutLimit,
                Weight::Warning,
                Source::Readings,
                &text,
                "Allow a deeper dig, or a thinner base.",
            );
        }
        let mut left_m = 0.0_f64;
        let mut stations_m = Vec::new();
        for reach in self.bed.dig.reaches() {
            let Some(depth) = reach.to_unsuitable_bottom else {
                continue;
            };
            // What must come out and lies below the dig, anywhere across.
            let below = depth
                - Plane::flat(
                    in_metres(limit - self.bed.base_top_below_grade)
                        .max(self.bed.dig.rule().floor_m()),
                );
            let patch = reach.stretch.patch(self.bed.dig.beyond_m()).clipped(below);
            if let (Some((_, most_m)), Some(between_m)) = (patch.range(below), patch.stations_m())
                && most_m > SHOWN_M
            {
                left_m = left_m.max(most_m);
                stations_m.push(between_m);
            }
        }
        if left_m > 0.0 {
            let text = format!(
                "The limit of {} leaves up to {} of ground that must come out under the base, {}.",
                self.words(limit),
                self.words(metres(left_m)),
                self.where_words(stations_m)
            );
            let remedy = if self.bed.fabric {
                "The fabric parts it from the base; a thicker base over it bridges more. Tell the owner that it may settle."
            } else {
                "Lay a separation fabric on it and a thicker base over it, or dig it out. Tell the owner that it may settle."
            };
            self.note(
                Place::UndercutLimit,
                Weight::Warning,
                Source::CommonPractice,
                &text,
                remedy,
            );
        }
    }

    fn lifts(&mut self) {
        let lifts = &self.bed.lifts;
        let plant = self.site.bed.plant;
        if let Some(most) = plant.most_compacted() {
            if is_less(most, lifts.compacted_limit) {
                let text = format!(
                    "Lifts of up to {} loose come to {} compacted: {} is the most that is published for a {}.",
                    self.words(lifts.loose_limit),
                    self.words(lifts.compacted_limit),
                    self.words(most),
                    plant.name()
                );
                self.note(
                    Place::LooseLift,
                    Weight::Warning,
                    Source::Published(
                        "Specification for the reinstatement of openings in roads, Scotland, third edition, table A8.1",
                    ),
                    &text,
                    "Place thinner lifts, or bring a heavier plate; what its maker says goes before it.",
                );
            }
        } else if is_less(defaults::loose_lift(), lifts.loose_limit) {
            let text = format!(
                "Lifts of up to {} loose are your own: {} is what a light plate compacts.",
                self.words(lifts.loose_limit),
                self.words(defaults::loose_lift())
            );
            self.note(
                Place::LooseLift,
                Weight::Note,
                Source::CommonPractice,
                &text,
                "Make sure of the plate before the stone is tipped.",
            );
        }
        if is_less(lifts.full_compacted, lifts.thinnest_partial) {
            let text = format!(
                "Lifts of {} compacted are thinner than 1.5 times the largest stone, {}.",
                self.words(lifts.full_compacted),
                self.words(lifts.thinnest_partial)
            );
            self.note(
                Place::LooseLift,
                Weight::Warning,
                Source::CommonPractice,
                &text,
                "Take a finer base material, or a heavier plate and a thicker lift.",
            );
        }
    }

    fn trimmed(&mut self) {
        let mut most_m = 0.0_f64;
        let mut volume_m3 = 0.0;
        let mut stations_m = Vec::new();
        for facet in self.bed.dig.facets() {
            let Some((_, here_m)) = facet.patch.range(facet.trimmed) else {
                continue;
            };
            if here_m > SHOWN_M {
                most_m = most_m.max(here_m);
                volume_m3 += facet.patch.volume_m3(facet.trimmed);
                stations_m.extend(facet.patch.stations_m());
            }
        }
        if most_m > 0.0 {
            let text = format!(
                "Dug up to {} deeper, {}, so that the lowest lift is not thinner than {}: {} more in all.",
                self.words(metres(most_m)),
                self.where_words(stations_m),
                self.words(
                    self.bed
                        .lifts
                        .thinnest_partial
                        .min(self.bed.lifts.full_compacted)
                ),
                self.site.shown_in.volume(cubic_metres(volume_m3))
            );
            self.note(
                Place::DigBottom,
                Weight::Note,
                Source::CommonPractice,
                &text,
                "A finer base material needs less.",
            );
        }
    }

    fn side_extension(&mut self) {
        let least = inches(6.0).max(self.wishes.least_base);
        if is_less(self.wishes.side_extension, least) {
            let text = format!(
                "The dig goes {} past the edge brick; published is the base thickness, and not less than 6 in: {} here.",
                self.words(self.wishes.side_extension),
                self.words(least)
            );
            self.note(
                Place::SideExtension,
                Weight::Note,
                CONSTRUCTION_TOLERANCES,
                &text,
                "Dig wider where there is room.",
            );
        }
        if let Some(haunch) = self.wishes.haunch()
            && is_less(self.wishes.side_extension, metres(haunch.reach_m()))
        {
            let text = format!(
                "The haunch is {} wide, the dig goes only {} past the edge brick.",
                self.words(metres(haunch.reach_m())),
                self.words(self.wishes.side_extension)
            );
            self.note(
                Place::SideExtension,
                Weight::Warning,
                Source::Readings,
                &text,
                "Dig wider, or make the haunch narrower.",
            );
        }
    }

    fn edge(&mut self) {
        let edge = &self.bed.edge;
        match self.wishes.restraint {
            RestraintWish::Nothing => self.note(
                Place::Restraint,
                Weight::Warning,
                NOTE_14A,
                "Nothing holds the edge: it will walk outwards and the joints open.",
                "Set a concrete haunch or a spiked edging.",
            ),
            RestraintWish::Haunch(shape) if !is_less(metres(shape.height_m), edge.brick.depth) => {
                let text = format!(
                    "The haunch is {} high, the edge brick only {} deep: the concrete would show.",
                    self.words(metres(shape.height_m)),
                    self.words(edge.brick.depth)
                );
                self.note(
                    Place::HaunchHeight,
                    Weight::Warning,
                    Source::Readings,
                    &text,
                    "Keep it below the top of the edge brick.",
                );
            }
            RestraintWish::Haunch(_) | RestraintWish::Spiked { .. } => {}
        }
        if is_less(self.bed.thinnest_base, edge.trench_depth) {
            let text = format!(
                "The trench for the edge brick goes {} below the base top, the base is {} at its thinnest: the trench is dug into the ground there.",
                self.words(edge.trench_depth),
                self.words(self.bed.thinnest_base)
            );
            self.note(Place::EdgeStands, Weight::Note, Source::Readings, &text, "");
        }
        let (widest, most) = (
            edge.left.widest_joint.max(edge.right.widest_joint),
            inches(3.0 / 16.0),
        );
        if is_less(most, widest) {
            let text = format!(
                "The joints of the edge open to {} on the curve; sand holds in joints up to {}.",
                fine(widest, self.site.shown_in),
                fine(most, self.site.shown_in)
            );
            self.note(
                Place::EdgeStands,
                Weight::Note,
                NOTE_14A,
                &text,
                "Turn the narrow side of the brick along, or cut it to a taper.",
            );
        }
    }

    fn fill(&mut self) {
        let fill = self.bed.earthwork.fill_below_dig;
        if in_cubic_metres(fill) > 1e-6 {
            let text = format!(
                "In places the old surface lies below the bottom of the dig: {} to fill.",
                self.site.shown_in.volume(fill)
            );
            self.note(
                Place::DigBottom,
                Weight::Warning,
                Source::Readings,
                &text,
                "Fill with base material in lifts, or lower the grade line.",
            );
        }
    }

    fn words(&self, length: Length) -> String {
        self.site.shown_in.length(length)
    }

    /// "from 3 ft to 5 ft, from 9 ft to 12 ft".
    fn where_words(&self, stations_m: Vec<(f64, f64)>) -> String {
        let runs = joined(stations_m)
            .into_iter()
            .map(|(from, to)| format!("from {} to {}", self.words(from), self.words(to)));
        runs.collect::<Vec<_>>().join(", ")
    }

    fn note(&mut self, place: Place, weight: Weight, source: Source, text: &str, remedy: &str) {
        self.findings.note(place, weight, source, text, remedy);
    }
}

/// What no tape shows is not found fault with: a tenth of a millimetre.
const SHOWN_M: f64 = 1e-4;

/// Whether one is less than the other by more than rounding.
fn is_less(one: Length, other: Length) -> bool {
    in_metres(other - one) > 1e-9
}
