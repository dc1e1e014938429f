//! What else could be done where one uniform fall breaks a rule.

use super::rules::{
    LEAST_AWAY_FROM_HOUSE, LEAST_TO_DRAIN, RAMP, STEEPEST_RAMP, STEEPEST_WALK, at_least, at_most,
    broken_by,
};
use super::wording::{from_sill, size};
use super::{GradeLine, Run, flatter, steeper, towards_wall};
use crate::measure::slope::{Fall, SlopeStyle, write_fall};
use crate::quantity::{Length, in_metres, metres};
use crate::site::{FarEnd, GradeShape, Site};

/// One complete way to meet both ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// A few words: "two risers of 5 1/2 in".
    pub title: String,
    /// What is done, in plain words, with its figures.
    pub words: String,
    /// Fall along the sloping parts.
    pub fall: Fall,
    /// Cross-fall that it needs.
    pub cross_fall: Fall,
    /// Drop of the far end below the datum.
    pub far_end_below_sill: Length,
    /// Risers, where it has any: how many, each how high.
    pub risers: Option<(u32, Length)>,
    /// Rules that it breaks, each named with its source; empty when it keeps them all.
    pub breaks: Vec<String>,
    /// What to write down to take it; `None` for the line as it is.
    pub take: Option<Taking>,
}

/// What is written down when an offer is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Taking {
    /// Another level of what the walk meets.
    FarEndBelowSill(Length),
    /// Another cross-fall.
    CrossFall(Fall),
    /// Another wanted fall.
    Fall(Fall),
    /// Another shape of the grade line.
    Shape(GradeShape),
}

/// All that could be done instead of a uniform fall that breaks a rule, and that fall itself with the rules it breaks: fewest
/// broken rules first, then the far end that moves least, then the fewest risers. Empty where the uniform fall keeps its rules.
pub(super) fn offers(site: &Site, run: &Run, grade: &GradeLine) -> Vec<Offer> {
    let along = grade.fall.ratio();
    let mut offers = if !at_least(along, LEAST_AWAY_FROM_HOUSE) {
        flatter::offers(site, run, grade)
    } else if !at_most(along, STEEPEST_WALK) {
        steeper::offers(site, run, grade)
    } else {
        return Vec::new();
    };
    if !grade.end_is_fixed {
        offers.extend(other_uniform_fall(site, run, grade));
    }
    offers.push(as_it_is(site, run, grade));
    for offer in &mut offers {
        offer
            .breaks
            .extend(towards_wall::broken_by(&taken(site, offer), run));
    }
    let moved_m = |offer: &Offer| in_metres(offer.far_end_below_sill + grade.end).abs();
    let n_risers = |offer: &Offer| offer.risers.map_or(0, |(n_risers, _)| n_risers);
    offers.sort_by(|one, other| {
        let by_rules = one.breaks.len().cmp(&other.breaks.len());
        let by_move = moved_m(one).total_cmp(&moved_m(other));
        by_rules
            .then(by_move)
            .then(n_risers(one).cmp(&n_risers(other)))
    });
    offers
}

/// The site as it stands once the offer is taken.
fn taken(site: &Site, offer: &Offer) -> Site {
    let mut taken = site.clone();
    let line = &mut taken.line;
    match offer.take {
        Some(Taking::FarEndBelowSill(drop)) => {
            line.far_end = FarEnd::Fixed {
                below_sill: Some(drop),
            };
        }
        Some(Taking::CrossFall(cross_fall)) => line.cross_fall = Some(cross_fall),
        Some(Taking::Fall(fall)) => line.fall = Some(fall),
        Some(Taking::Shape(shape)) => line.shape = shape,
        None => {}
    }
    taken
}

/// The fall on sloping parts: the wanted one where it keeps the rules, else 1/4 in per ft.
pub(super) fn proper_fall(site: &Site) -> Fall {
    let is_proper = |fall: &Fall| {
        at_least(fall.ratio(), LEAST_TO_DRAIN) && at_most(fall.ratio(), STEEPEST_WALK)
    };
    site.line
        .fall
        .filter(is_proper)
        .unwrap_or_else(crate::defaults::fall)
}

/// The far end is free: another uniform fall keeps the rules.
fn other_uniform_fall(site: &Site, run: &Run, grade: &GradeLine) -> Option<Offer> {
    let fall = proper_fall(site);
    let end = grade.level_down(fall.drop_over(run.length()));
    Some(Offer {
        title: format!("fall of {}", site.shown_in.fall(fall)),
        words: format!(
            "Let the whole walk fall {} instead. Its far end is then {}.",
            site.shown_in.fall(fall),
            from_sill(end, site.shown_in)
        ),
        fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - end,
        risers: None,
        breaks: broken_by(fall, grade.cross_fall, false),
        take: Some(Taking::Fall(fall)),
    })
}

/// The uniform fall, with the rules that it breaks.
fn as_it_is(site: &Site, run: &Run, grade: &GradeLine) -> Offer {
    let size = size(grade.fall);
    let percent = write_fall(size, SlopeStyle::Percent);
    let direction = if grade.fall.ratio() < 0.0 {
        " towards the house"
    } else {
        ""
    };
    let mut breaks = broken_by(grade.fall, grade.cross_fall, false);
    if !at_most(size.ratio(), STEEPEST_WALK) && at_most(size.ratio(), STEEPEST_RAMP) {
        breaks.push(format!("{}: it has no landings", RAMP.words()));
    }
    Offer {
        title: format!("one fall of {percent}{direction}, as it is"),
        words: format!(
            "Leave one uniform fall of {} ({percent}){direction} over {}, and break what stands below.",
            site.shown_in.fall(size),
            site.shown_in.length(run.length())
        ),
        fall: grade.fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - grade.end,
        risers: None,
        breaks,
        take: (site.line.shape != GradeShape::Uniform)
            .then_some(Taking::Shape(GradeShape::Uniform)),
    }
}
