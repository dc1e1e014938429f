//! The cross-section for those who have never seen one: as found, and as it will be, in plain words and at one scale.

mod column;
mod found;
mod materials;
mod names;
mod proposed;

pub use materials::material_in_plain_words;
pub use names::PlainName;

use super::{Cut, Frame, missing, sizes};
use crate::draft::Draft;
use crate::item::{Drawing, Sheet};
use column::Named;
use underbrick_calc::Results;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::order::Way;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::Site;

/// One step of the building, as it is shown to the homeowner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlainStep {
    /// In a few words.
    pub title: String,
    /// In a sentence or two.
    pub words: String,
    pub(crate) part: Part,
}

/// What a step adds to the section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Part {
    /// Brick and weak ground are out; cloth where there is any.
    Dug,
    /// Stone up to this lift, counted from 1 at the bottom.
    Lift(usize),
    /// Edge brick and what holds it; ground put back beside it.
    Edge,
    SettingBed,
    Brick,
}

/// The walk and the ground under it at `station` as they were found, looking away from the door. It has the scale of
/// [`proposed_section`] for the same site, station and sheet, and what both show stands at the same place on the sheet.
///
/// What lies under the brick is what the nearest pit showed; where there is none, nothing is drawn there, and words say so.
#[must_use]
pub fn as_found_section(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    sheet: Sheet,
) -> Drawing {
    let sheet = sheet.usable();
    let Some(cut) = Cut::new(site, catalogue, results, station) else {
        return nothing_yet(site, results, sheet);
    };
    let both = Both::of(&cut);
    let frame = both.frame(&cut, sheet);
    let mut draft = frame.board(sheet);
    found::draw(&mut draft, &cut, &frame);
    both.finish(draft, &cut, &frame, both.found.clone(), "As it is now")
}

/// The walk at `station` as it will be, the way of rebuilding that is ordered, looking away from the door. See [`as_found_section`].
#[must_use]
pub fn proposed_section(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    sheet: Sheet,
) -> Drawing {
    proposed_up_to(site, catalogue, results, station, sheet, usize::MAX)
}

/// As [`proposed_section`], with only the first so many of [`building_steps`] done: what is not built yet is left out.
#[must_use]
pub fn proposed_up_to(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    sheet: Sheet,
    n_steps: usize,
) -> Drawing {
    let sheet = sheet.usable();
    let Some(cut) = Cut::new(site, catalogue, results, station) else {
        return nothing_yet(site, results, sheet);
    };
    let both = Both::of(&cut);
    let frame = both.frame(&cut, sheet);
    let mut draft = frame.board(sheet);
    let steps = names::steps(&cut);
    let done = steps.iter().take(n_steps).map(|step| step.part).max();
    proposed::draw(&mut draft, &cut, &frame, done);
    let named = both
        .proposed
        .iter()
        .filter(|named| named.since <= done)
        .cloned()
        .collect();
    let title = match steps.get(n_steps) {
        None => "As it will be",
        Some(_) => "While it is built",
    };
    both.finish(draft, &cut, &frame, named, title)
}

/// The steps in which the section at `station` is built, from the ground up; empty where it cannot be drawn.
#[must_use]
pub fn building_steps(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
) -> Vec<PlainStep> {
    Cut::new(site, catalogue, results, station).map_or_else(Vec::new, |cut| names::steps(&cut))
}

/// What the parts of both sections are called, and why each is there, for whoever points at one: as found, then as it will be. A part
/// of a drawing belongs to a name by its place.
#[must_use]
pub fn plain_names(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
) -> (Vec<PlainName>, Vec<PlainName>) {
    let names = |named: Vec<Named>| named.into_iter().map(|named| named.name).collect();
    Cut::new(site, catalogue, results, station).map_or_else(Default::default, |cut| {
        let both = Both::of(&cut);
        (names(both.found), names(both.proposed))
    })
}

/// What is missing, in words.
fn nothing_yet(site: &Site, results: &Results, sheet: Sheet) -> Drawing {
    let missing = missing::what_is_missing(site, results);
    missing::statement("There is nothing to draw yet", &missing, &[], sheet)
}

/// What both sections say: the room that both need decides the scale of each.
struct Both {
    found: Vec<Named>,
    proposed: Vec<Named>,
}

impl Both {
    fn of(cut: &Cut<'_>) -> Self {
        Self {
            found: names::found(cut),
            proposed: names::proposed(cut),
        }
    }

    fn frame(&self, cut: &Cut<'_>, sheet: Sheet) -> Frame {
        let names = self.found.iter().chain(&self.proposed);
        let width = column::width(names, sheet);
        Frame::beside_names(cut, sheet, width, found::depth(cut))
    }

    fn finish(
        &self,
        mut draft: Draft,
        cut: &Cut<'_>,
        frame: &Frame,
        named: Vec<Named>,
        title: &str,
    ) -> Drawing {
        sizes::scale_bar(&mut draft, cut, frame);
        let words = names::words(cut, title, &named);
        let all = self.found.iter().chain(&self.proposed);
        let width = column::width(all, draft.sheet());
        column::draw(&mut draft, frame, named, width);
        draft.finish(&words)
    }
}

/// The way of rebuilding that is ordered.
fn way(cut: &Cut<'_>) -> Way {
    cut.site.order.way
}
