//! Callouts: a title and a note on paper, with a leader to the thing itself.
//!
//! Callouts keep the order of their things from left to right. A leader runs from the callout down to a knee that all share, then
//! straight down to its thing; as both ends keep the same order, no two leaders meet.

use crate::draft::{Draft, HAIRLINE, Lettering, Sizes, rectangle, solid};
use crate::item::Anchor;
use crate::palette::Ink;
use crate::spread::{Wish, spread};
use crate::text::{Text, advance};
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
    /// Where it was dropped with the others of its rank, it is tried again by itself: it may stand where there is room.
    pub again: bool,
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
        if rows == 0 {
            0.0
        } else {
            f64::from(u8::try_from(rows).unwrap_or(2)) * row_height(sizes)
        }
    }
}

fn row_height(sizes: Sizes) -> f64 {
    1.16 * sizes.label + 1.32 * sizes.note + 6.0
}

/// A callout with its width, measured once, in dots.
struct Measured {
    callout: Callout,
    width: f64,
}

/// A callout that found its place.
struct Standing {
    callout: Callout,
    width: f64,
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
        let Callout {
            title,
            note,
            ink,
            place,
            ..
        } = each.callout;
        let title_y = each.top + 0.58 * sizes.label;
        let note_ink = if ink == Ink::Ink { Ink::SecondInk } else { ink };
        // Paper behind the words: what passes behind them stays behind.
        let half = each.width / 2.0 + 3.0;
        let bottom = each.top + row_height(sizes) - 5.0;
        draft.shape(
            &rectangle(each.middle - half, each.top, each.middle + half, bottom),
            Ink::Paper,
            None,
            place,
        );
        draft.label(
            (each.middle, title_y),
            Lettering {
                text: Text::bold(title),
                size: sizes.label,
                ink,
                anchor: Anchor::Middle,
                place,
            },
        );
        if !note.is_empty() {
            let note_y = each.top + 1.16 * sizes.label + 0.6 * sizes.note;
            draft.label(
                (each.middle, note_y),
                Lettering {
                    text: Text::regular(note),
                    size: sizes.note,
                    ink: note_ink,
                    anchor: Anchor::Middle,
                    place,
                },
            );
        }
    }
    left_out
}

fn place(callouts: Vec<Callout>, band: Band, sizes: Sizes) -> Vec<Standing> {
    if band.rows == 0 {
        return Vec::new();
    }
    let mut callouts: Vec<Measured> = callouts
        .into_iter()
        .filter(|callout| !callout.along.is_empty())
        .map(|callout| Measured {
            width: width(&callout.title, &callout.note, sizes),
            callout,
        })
        .collect();
    callouts.sort_by(|first, second| {
        middle_of(&first.callout.along).total_cmp(&middle_of(&second.callout.along))
    });
    let mut dropped: Vec<Measured> = Vec::new();
    let places = loop {
        if callouts.is_empty() {
            return Vec::new();
        }
        if let Some(places) = placed(&callouts, band, sizes) {
            break places;
        }
        let least = callouts
            .iter()
            .enumerate()
            .max_by_key(|(_, each)| each.callout.rank)
            .map_or(0, |(index, _)| index);
        let least = callouts.remove(least);
        if least.callout.again {
            dropped.push(least);
        }
    };
    let mut places = places;
    while let Some(candidate) = dropped.pop() {
        let middle = middle_of(&candidate.callout.along);
        let index = callouts.partition_point(|each| middle_of(&each.callout.along) <= middle);
        callouts.insert(index, candidate);
        match placed(&callouts, band, sizes) {
            Some(with_it) => places = with_it,
            None => {
                callouts.remove(index);
            }
        }
    }
    let stand = |(each, place): (Measured, Stand)| Standing {
        callout: each.callout,
        width: each.width,
        middle: place.middle,
        top: place.top,
        leader: place.leader,
    };
    callouts.into_iter().zip(places).map(stand).collect()
}

fn placed(callouts: &[Measured], band: Band, sizes: Sizes) -> Option<Vec<Stand>> {
    if band.rows >= 2 {
        two_rows(callouts, band, sizes, 0).or_else(|| two_rows(callouts, band, sizes, 1))
    } else {
        one_row(callouts, band, sizes)
    }
}

/// Width of a callout, in dots.
pub(crate) fn width(title: &str, note: &str, sizes: Sizes) -> f64 {
    let wide = |text: &Text| advance(&text.written, text.weight);
    let title = sizes.label * wide(&Text::bold(title));
    title.max(sizes.note * wide(&Text::regular(note)))
}

/// Where one callout stands.
struct Stand {
    middle: f64,
    top: f64,
    leader: Vec<(f64, f64)>,
}

fn one_row(callouts: &[Measured], band: Band, sizes: Sizes) -> Option<Vec<Stand>> {
    let wishes: Vec<Wish> = callouts
        .iter()
        .map(|each| Wish {
            middle: middle_of(&each.callout.along),
            room: each.width + GAP,
        })
        .collect();
    let middles = spread(&wishes, band.left - GAP / 2.0, band.right + GAP / 2.0)?;
    let bottom = band.top + row_height(sizes);
    let ends = ends(callouts, &middles)?;
    let places = callouts
        .iter()
        .zip(&middles)
        .zip(&ends)
        .map(|((each, middle), end)| {
            let half = (each.width / 2.0 - 8.0).max(0.0);
            let start = end.0.clamp(middle - half, middle + half);
            Stand {
                middle: *middle,
                top: band.top,
                leader: leader((start, bottom), *end, bottom, band.knee),
            }
        });
    Some(places.collect())
}

/// Every second callout stands in the upper row, and its leader passes between its neighbours in the lower one.
fn two_rows(
    callouts: &[Measured],
    band: Band,
    sizes: Sizes,
    upper_first: usize,
) -> Option<Vec<Stand>> {
    let row = row_height(sizes);
    let is_upper = |index: usize| index % 2 == upper_first;
    let lower_wishes: Vec<Wish> = callouts
        .iter()
        .enumerate()
        .map(|(index, each)| Wish {
            middle: middle_of(&each.callout.along),
            room: if is_upper(index) {
                PASSAGE
            } else {
                each.width + PASSAGE
            },
        })
        .collect();
    let lower = spread(
        &lower_wishes,
        band.left - PASSAGE / 2.0,
        band.right + PASSAGE / 2.0,
    )?;
    let upper_wishes: Vec<Wish> = callouts
        .iter()
        .enumerate()
        .zip(&lower)
        .filter(|((index, _), _)| is_upper(*index))
        .map(|((_, each), passage)| Wish {
            middle: *passage,
            room: each.width + GAP,
        })
        .collect();
    let mut upper =
        spread(&upper_wishes, band.left - GAP / 2.0, band.right + GAP / 2.0)?.into_iter();
    let ends = ends(callouts, &lower)?;
    let bottom = band.top + 2.0 * row;
    let mut places = Vec::with_capacity(callouts.len());
    for (((index, each), low_middle), end) in callouts.iter().enumerate().zip(&lower).zip(&ends) {
        let half = (each.width / 2.0 - 8.0).max(0.0);
        if is_upper(index) {
            let middle = upper.next()?;
            if (low_middle - middle).abs() > half {
                return None;
            }
            let leader = leader((*low_middle, band.top + row), *end, bottom, band.knee);
            places.push(Stand {
                middle,
                top: band.top,
                leader,
            });
        } else {
            let start = end.0.clamp(low_middle - half, low_middle + half);
            let leader = leader((start, bottom), *end, bottom, band.knee);
            places.push(Stand {
                middle: *low_middle,
                top: band.top + row,
                leader,
            });
        }
    }
    Some(places)
}

/// Where each leader ends: as near to under its callout as its thing allows, in order, with room between.
fn ends(callouts: &[Measured], middles: &[f64]) -> Option<Vec<(f64, f64)>> {
    let mut xs = Vec::with_capacity(callouts.len());
    let mut before = f64::NEG_INFINITY;
    for (each, middle) in callouts.iter().zip(middles) {
        let (low, high) = reach(&each.callout.along);
        let x = middle.clamp(low, high).max(before + BETWEEN_LEADERS);
        xs.push(x);
        before = x;
    }
    // Back from the right: those that were pushed past their thing push the others back.
    let mut after = f64::INFINITY;
    for (each, x) in callouts.iter().zip(xs.iter_mut()).rev() {
        let (low, high) = reach(&each.callout.along);
        *x = x.min(high).min(after - BETWEEN_LEADERS);
        if *x < low - 1e-9 {
            return None;
        }
        after = *x;
    }
    Some(
        callouts
            .iter()
            .zip(xs)
            .map(|(each, x)| (x, height_at(&each.callout.along, x)))
            .collect(),
    )
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
            return if run > 0.0 {
                from.1 + (x - from.0) / run * (to.1 - from.1)
            } else {
                from.1
            };
        }
    }
    let nearest = if along.first().is_some_and(|first| x < first.0) {
        along.first()
    } else {
        along.last()
    };
    nearest.map_or(0.0, |at| at.1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inside::cross;
    use crate::item::{Point, Sheet};

    /// Numbers that look thrown, from 0 to 1, the same in every run.
    struct Thrown(u64);

    impl Thrown {
        fn next(&mut self) -> f64 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            f64::from(u32::try_from(self.0 >> 33).unwrap()) / f64::from(u32::MAX >> 1)
        }
    }

    fn thrown_callouts(thrown: &mut Thrown, count: u8) -> Vec<Callout> {
        const TITLES: [&str; 4] = [
            "pit 1",
            "setting bed",
            "4 lifts, 2 1/16\" each",
            "must come out to here",
        ];
        let callouts = (0..count).map(|rank| {
            let from = 30.0 + 700.0 * thrown.next();
            let to = (from + 120.0 * thrown.next()).min(740.0);
            let title = TITLES[usize::from(rank) % TITLES.len()];
            Callout {
                title: title.to_owned(),
                note: "2 5/8\" loose each".to_owned(),
                ink: Ink::Ink,
                place: None,
                along: vec![
                    (from, 200.0 + 90.0 * thrown.next()),
                    (to, 200.0 + 90.0 * thrown.next()),
                ],
                rank,
                again: rank % 2 == 1,
            }
        });
        callouts.collect()
    }

    #[test]
    fn leaders_meet_neither_each_other_nor_a_callout() {
        let sizes = Sizes::on(Sheet {
            width: 776.0,
            height: 380.0,
            text_scale: 1.0,
        });
        let mut thrown = Thrown(7);
        let mut most_placed = 0;
        for round in 0..600 {
            let rows = 1 + round % 2;
            let knee = 8.0 + Band::height(rows, sizes) + 16.0;
            let band = Band {
                left: 12.0,
                right: 764.0,
                top: 8.0,
                rows,
                knee,
            };
            let standing = place(
                thrown_callouts(&mut thrown, 2 + u8::try_from(round % 11).unwrap()),
                band,
                sizes,
            );
            assert!(!standing.is_empty());
            most_placed = most_placed.max(standing.len());
            for (nth, each) in standing.iter().enumerate() {
                let half = each.width / 2.0;
                assert!(
                    each.middle - half >= band.left - 1e-6
                        && each.middle + half <= band.right + 1e-6
                );
                let (low, high) = reach(&each.callout.along);
                let end = each.leader.last().unwrap();
                assert!(end.0 >= low - 1e-6 && end.0 <= high + 1e-6);
                for (other_nth, other) in standing.iter().enumerate() {
                    if nth == other_nth {
                        continue;
                    }
                    let apart =
                        (each.middle - other.middle).abs() >= half + other.width / 2.0 - 1e-6;
                    assert!(
                        apart || (each.top - other.top).abs() > 1.0,
                        "callouts touch"
                    );
                    assert!(
                        !meet(&each.leader, &other.leader),
                        "{:?} meets {:?}",
                        each.leader,
                        other.leader
                    );
                    let (left, right) = (
                        other.middle - other.width / 2.0,
                        other.middle + other.width / 2.0,
                    );
                    let frame =
                        rectangle(left, other.top, right, other.top + row_height(sizes) - 5.0);
                    let [a, b, c, d] = frame;
                    assert!(
                        !meet(&each.leader, &[a, b, c, d, a]),
                        "a leader runs through a callout"
                    );
                }
            }
        }
        assert!(most_placed >= 8, "two rows hold {most_placed} only");
    }

    fn meet(first: &[(f64, f64)], second: &[(f64, f64)]) -> bool {
        let at = |spot: (f64, f64)| Point {
            x: spot.0,
            y: spot.1,
        };
        first.windows(2).any(|one| {
            second
                .windows(2)
                .any(|other| cross((at(one[0]), at(one[1])), (at(other[0]), at(other[1]))))
        })
    }
}
