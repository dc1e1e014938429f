//! Callouts: a title and a note on paper, with a leader to the thing itself.
//!
//! Callouts keep the order of their things from left to right. A leader runs from the callout down to a knee that all share, then
//! straight down to its thing; as both ends keep the same order, no two leaders meet.

use crate::draft::{Draft, HAIRLINE, Lettering, Sizes, rectangle, solid, width_of};
use crate::item::Anchor;
use crate::palette::Ink;
use crate::spread::{Wish, spread};
use crate::text::Text;
use underbrick_calc::place::Place;

/// Least space between two callouts, in dots.
const GAP: f64 = 16.0;
/// Room for a leader that passes between two callouts, in dots.
const PASSAGE: f64 = 10.0;
/// Least distance between two leaders, in dots.
const BETWEEN_LEADERS: f64 = 7.0;

/// Something that wants a callout.
#[derive(Clone, Debug)]
pub(crate) struct Callout {
    /// Bold.
    pub title: String,
    /// Second line; empty for none.
    pub note: String,
    pub ink: Ink,
    pub place: Option<Place>,
    /// Where the leader may end, in dots of the sheet, from left to right.
    pub along: Vec<(f64, f64)>,
    /// 0 is dropped last.
    pub rank: u8,
}

/// Where callouts may stand, in dots of the sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Band {
    pub left: f64,
    pub right: f64,
    pub top: f64,
    /// 1 or 2.
    pub rows: usize,
    /// Leaders run straight down from here; nothing else is drawn between the rows and this height.
    pub knee: f64,
}

impl Band {
    /// Height of so many rows, in dots.
    pub fn height(rows: usize, sizes: Sizes) -> f64 {
        if rows == 0 { 0.0 } else { f64::from(u8::try_from(rows).unwrap_or(2)) * row_height(sizes) }
    }
}

fn row_height(sizes: Sizes) -> f64 {
    1.16 * sizes.label + 1.32 * sizes.note + 6.0
}

/// A callout that found its place.
struct Standing {
    callout: Callout,
    middle: f64,
    top: f64,
    leader: Vec<(f64, f64)>,
}

/// Draws as many of the callouts as there is room for; those of high rank go first. Gives back how many were left out.
pub(crate) fn draw(draft: &mut Draft, callouts: Vec<Callout>, band: Band) -> usize {
    let sizes = Sizes::on(draft.sheet());
    let wanted = callouts.len();
    let standing = place(callouts, band, sizes);
    let left_out = wanted - standing.len();
    for each in &standing {
        if let (Some(_), Some(end)) = (each.leader.first(), each.leader.last()) {
            draft.stroke(&each.leader, solid(each.callout.ink, HAIRLINE), None);
            draft.disc(*end, 3.2, each.callout.ink, each.callout.place);
        }
    }
    for each in standing {
        let Callout { title, note, ink, place, .. } = each.callout;
        let title_y = each.top + 0.58 * sizes.label;
        let note_ink = if ink == Ink::Ink { Ink::SecondInk } else { ink };
        // Paper behind the words: what passes behind them stays behind.
        let half = width_of(&Text::bold(title.clone()), sizes.label).max(width_of(&Text::regular(note.clone()), sizes.note)) / 2.0 + 3.0;
        let bottom = each.top + row_height(sizes) - 5.0;
        draft.shape(&rectangle(each.middle - half, each.top, each.middle + half, bottom), Ink::Paper, None, place);
        draft.label(
            (each.middle, title_y),
            Lettering { text: Text::bold(title), size: sizes.label, ink, anchor: Anchor::Middle, place },
        );
        if !note.is_empty() {
            let note_y = each.top + 1.16 * sizes.label + 0.6 * sizes.note;
            draft.label(
                (each.middle, note_y),
                Lettering { text: Text::regular(note), size: sizes.note, ink: note_ink, anchor: Anchor::Middle, place },
            );
        }
    }
    left_out
}

fn place(mut callouts: Vec<Callout>, band: Band, sizes: Sizes) -> Vec<Standing> {
    callouts.retain(|callout| !callout.along.is_empty() && band.rows > 0);
    callouts.sort_by(|first, second| middle_of(&first.along).total_cmp(&middle_of(&second.along)));
    while !callouts.is_empty() {
        let placed = if band.rows >= 2 {
            try_two_rows(&callouts, band, sizes, 0).or_else(|| try_two_rows(&callouts, band, sizes, 1))
        } else {
            try_one_row(&callouts, band, sizes)
        };
        if let Some(standing) = placed {
            return standing;
        }
        let least = callouts.iter().enumerate().max_by_key(|(_, callout)| callout.rank).map(|(index, _)| index);
        let Some(least) = least else { break };
        callouts.remove(least);
    }
    Vec::new()
}

fn width(callout: &Callout, sizes: Sizes) -> f64 {
    let title = width_of(&Text::bold(callout.title.clone()), sizes.label);
    title.max(width_of(&Text::regular(callout.note.clone()), sizes.note))
}

fn try_one_row(callouts: &[Callout], band: Band, sizes: Sizes) -> Option<Vec<Standing>> {
    let wishes: Vec<Wish> =
        callouts.iter().map(|callout| Wish { middle: middle_of(&callout.along), room: width(callout, sizes) + GAP }).collect();
    let middles = spread(&wishes, band.left - GAP / 2.0, band.right + GAP / 2.0)?;
    let bottom = band.top + row_height(sizes);
    let ends = ends(callouts, &middles)?;
    let standing = callouts.iter().zip(&middles).zip(&ends).map(|((callout, middle), end)| {
        let half = (width(callout, sizes) / 2.0 - 8.0).max(0.0);
        let start = end.0.clamp(middle - half, middle + half);
        Standing { callout: callout.clone(), middle: *middle, top: band.top, leader: leader((start, bottom), *end, bottom, band.knee) }
    });
    Some(standing.collect())
}

/// Every second callout stands in the upper row, and its leader passes between its neighbours in the lower one.
fn try_two_rows(callouts: &[Callout], band: Band, sizes: Sizes, upper_first: usize) -> Option<Vec<Standing>> {
    let row = row_height(sizes);
    let is_upper = |index: usize| index % 2 == upper_first;
    let lower_wishes: Vec<Wish> = callouts
        .iter()
        .enumerate()
        .map(|(index, callout)| Wish {
            middle: middle_of(&callout.along),
            room: if is_upper(index) { PASSAGE } else { width(callout, sizes) + PASSAGE },
        })
        .collect();
    let lower = spread(&lower_wishes, band.left - PASSAGE / 2.0, band.right + PASSAGE / 2.0)?;
    let upper_wishes: Vec<Wish> = callouts
        .iter()
        .enumerate()
        .zip(&lower)
        .filter(|((index, _), _)| is_upper(*index))
        .map(|((_, callout), passage)| Wish { middle: *passage, room: width(callout, sizes) + GAP })
        .collect();
    let mut upper = spread(&upper_wishes, band.left - GAP / 2.0, band.right + GAP / 2.0)?.into_iter();
    let ends = ends(callouts, &lower)?;
    let lower_bottom = band.top + 2.0 * row;
    let mut standing = Vec::with_capacity(callouts.len());
    for (((index, callout), low_middle), end) in callouts.iter().enumerate().zip(&lower).zip(&ends) {
        let half = (width(callout, sizes) / 2.0 - 8.0).max(0.0);
        if is_upper(index) {
            let middle = upper.next()?;
            if (low_middle - middle).abs() > half {
                return None;
            }
            let leader = leader((*low_middle, band.top + row), *end, lower_bottom, band.knee);
            standing.push(Standing { callout: callout.clone(), middle, top: band.top, leader });
        } else {
            let start = end.0.clamp(low_middle - half, low_middle + half);
            let leader = leader((start, lower_bottom), *end, lower_bottom, band.knee);
            standing.push(Standing { callout: callout.clone(), middle: *low_middle, top: band.top + row, leader });
        }
    }
    Some(standing)
}

/// Where each leader ends: as near to under its callout as its thing allows, in order, with room between.
fn ends(callouts: &[Callout], middles: &[f64]) -> Option<Vec<(f64, f64)>> {
    let mut xs = Vec::with_capacity(callouts.len());
    let mut before = f64::NEG_INFINITY;
    for (callout, middle) in callouts.iter().zip(middles) {
        let (low, high) = reach(&callout.along);
        let x = middle.clamp(low, high).max(before + BETWEEN_LEADERS);
        xs.push(x);
        before = x;
    }
    // Back from the right: those that were pushed past their thing push the others back.
    let mut after = f64::INFINITY;
    for (callout, x) in callouts.iter().zip(xs.iter_mut()).rev() {
        let (low, high) = reach(&callout.along);
        *x = x.min(high).min(after - BETWEEN_LEADERS);
        if *x < low - 1e-9 {
            return None;
        }
        after = *x;
    }
    Some(callouts.iter().zip(xs).map(|(callout, x)| (x, height_at(&callout.along, x))).collect())
}

fn leader(start: (f64, f64), end: (f64, f64), bottom: f64, knee: f64) -> Vec<(f64, f64)> {
    let mut leader = vec![start];
    if (start.0 - end.0).abs() > 0.5 {
        if start.1 < bottom {
            leader.push((start.0, bottom));
        }
        leader.push((end.0, knee));
    }
    leader.push(end);
    leader
}

fn reach(along: &[(f64, f64)]) -> (f64, f64) {
    let low = along.first().map_or(0.0, |at| at.0);
    let high = along.last().map_or(0.0, |at| at.0);
    (low.min(high), low.max(high))
}

fn middle_of(along: &[(f64, f64)]) -> f64 {
    let (low, high) = reach(along);
    f64::midpoint(low, high)
}

fn height_at(along: &[(f64, f64)], x: f64) -> f64 {
    for pair in along.windows(2) {
        if let &[from, to] = pair
            && x >= from.0
            && x <= to.0
        {
            let run = to.0 - from.0;
            return if run > 0.0 { from.1 + (x - from.0) / run * (to.1 - from.1) } else { from.1 };
        }
    }
    let nearest = if along.first().is_some_and(|first| x < first.0) { along.first() } else { along.last() };
    nearest.map_or(0.0, |at| at.1)
}
