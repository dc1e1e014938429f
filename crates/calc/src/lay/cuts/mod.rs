//! The cut list: every size and shape that is cut, its letter, and the bricks that all pieces come from.

mod outline;
mod stock;

use std::collections::BTreeMap;

pub use stock::{Pattern, Stock, Wanted, saw};

use super::pieces::{Kind, Part, Piece, Pieces};
use crate::quantity::{Length, in_metres, metres};
use crate::site::ShownIn;
use outline::sides;

/// All that is cut, and the bricks for it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutList {
    /// One line for each size and shape, the most frequent first.
    pub lines: Vec<CutLine>,
    /// Line of each piece, in the order of the pieces; `None` for a whole brick.
    line_of_piece: Vec<Option<u32>>,
    /// Bricks of the first size; without a second size all of them.
    pub first: Bricks,
    /// Bricks of the second size, of which the edge is; none where it is of the first.
    pub second: Bricks,
}

/// Bricks of one size, whole and sawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bricks {
    /// Whole bricks as laid.
    pub n_whole: u32,
    /// Pieces that are cut.
    pub n_cut: u32,
    /// Bricks sawn for pieces cut to length, their offcuts used again; [`Pattern::sizes`] are indices of [`CutList::lines`].
    pub to_length: Stock,
    /// Bricks sawn along their length.
    pub to_width: Stock,
}

impl Bricks {
    /// Bricks for everything that is laid of this size, offcuts used again.
    #[must_use]
    pub fn n_bricks(&self) -> u32 {
        self.n_whole
            .saturating_add(self.to_length.n_bricks)
            .saturating_add(self.to_width.n_bricks)
    }

    /// No way of cutting these pieces end to end, or side by side, from bricks needs fewer.
    #[must_use]
    pub fn lower_bound(&self) -> u32 {
        self.n_whole
            .saturating_add(self.to_length.lower_bound)
            .saturating_add(self.to_width.lower_bound)
    }
}

/// So many pieces that are cut alike.
#[derive(Clone, Debug, PartialEq)]
pub struct CutLine {
    /// A, B, C and so on; after Z, AA.
    pub letter: String,
    /// How it is cut.
    pub kind: Kind,
    /// Whether it is a piece of an edge.
    pub of_edge: bool,
    /// What it needs along the brick, to the nearest sixteenth or millimetre.
    pub length: Length,
    /// What it needs across it.
    pub width: Length,
    /// Its sides in order, for a piece that is cut to a taper or a shape; empty for one with square cuts.
    pub sides: Vec<Length>,
    /// How many.
    pub n_pieces: u32,
}

/// The brick that pieces are cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutFrom {
    /// Longest side.
    pub length: Length,
    /// Middle side.
    pub width: Length,
    /// What the saw takes away.
    pub kerf: Length,
}

impl CutList {
    /// The list of `pieces`, cut from whole bricks: `first`, and `second` for the edge where that is of another size. Sizes are sawn to the
    /// step that the site's lengths are shown in: 1/16 in or 1 mm.
    #[must_use]
    pub fn of(pieces: &Pieces, first: CutFrom, second: Option<CutFrom>, shown_in: ShownIn) -> Self {
        let step_m = match shown_in {
            ShownIn::FeetInches => 0.0254 / 16.0,
            ShownIn::Metric => 0.001,
        };
        let mut groups: BTreeMap<Key, Group> = BTreeMap::new();
        let group_of_piece: Vec<Option<usize>> = pieces
            .all()
            .iter()
            .map(|piece| {
                piece.kind.is_cut().then(|| {
                    let next_idx = groups.len();
                    let group = groups
                        .entry(Key::of(pieces, piece, step_m))
                        .or_insert(Group {
                            idx: next_idx,
                            n_pieces: 0,
                        });
                    group.n_pieces = group.n_pieces.saturating_add(1);
                    group.idx
                })
            })
            .collect();
        let mut ordered: Vec<(Key, Group)> = groups.into_iter().collect();
        // Those of one number stay in the order of their keys.
        ordered.sort_by_key(|(_, group)| std::cmp::Reverse(group.n_pieces));
        let mut line_of_group: Vec<Option<u32>> = vec![None; ordered.len()];
        for ((_, group), line) in ordered.iter().zip(0..) {
            if let Some(of_group) = line_of_group.get_mut(group.idx) {
                *of_group = Some(line);
            }
        }
        let line_of_piece: Vec<Option<u32>> = group_of_piece
            .into_iter()
            .map(|group_idx| line_of_group.get(group_idx?).copied().flatten())
            .collect();
        let lines: Vec<CutLine> = ordered
            .iter()
            .enumerate()
            .map(|(line_idx, (key, group))| key.line(line_idx, group.n_pieces, step_m))
            .collect();
        let bricks = |from: CutFrom, of: &dyn Fn(bool) -> bool| {
            let n_whole = pieces
                .all()
                .iter()
                .filter(|piece| !piece.kind.is_cut() && of(piece.part != Part::Field))
                .count();
            let own = |to_width| sawn(&lines, from, to_width, of);
            Bricks {
                n_whole: count(n_whole),
                n_cut: lines
                    .iter()
                    .filter(|line| of(line.of_edge))
                    .fold(0, |sum: u32, line| sum.saturating_add(line.n_pieces)),
                to_length: own(false),
                to_width: own(true),
            }
        };
        let (first, second) = match second {
            None => (bricks(first, &|_| true), Bricks::default()),
            Some(second) => (
                bricks(first, &|of_edge| !of_edge),
                bricks(second, &|of_edge| of_edge),
            ),
        };
        Self {
            first,
            second,
            lines,
            line_of_piece,
        }
    }

    /// The line of a piece by its index; `None` for a whole brick and for a piece that is not there.
    #[must_use]
    pub fn line(&self, piece_idx: usize) -> Option<&CutLine> {
        self.lines.get(self.line_idx(piece_idx)?)
    }

    /// Index into [`CutList::lines`] of a piece by its index; `None` as for [`CutList::line`].
    #[must_use]
    pub fn line_idx(&self, piece_idx: usize) -> Option<usize> {
        let line = self.line_of_piece.get(piece_idx).copied().flatten()?;
        usize::try_from(line).ok()
    }

    /// Pieces that are cut.
    #[must_use]
    pub fn n_cut(&self) -> u32 {
        self.first.n_cut.saturating_add(self.second.n_cut)
    }

    /// Bricks of both sizes for everything that is laid.
    #[must_use]
    pub fn n_bricks(&self) -> u32 {
        self.first.n_bricks().saturating_add(self.second.n_bricks())
    }

    /// No way of cutting these pieces end to end, or side by side, needs fewer bricks of both sizes.
    #[must_use]
    pub fn lower_bound(&self) -> u32 {
        self.first
            .lower_bound()
            .saturating_add(self.second.lower_bound())
    }
}

/// Pieces that are cut alike, while they are counted.
struct Group {
    idx: usize,
    n_pieces: u32,
}

/// What pieces of one line have in common, in steps.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    kind: Kind,
    of_edge: bool,
    length: i64,
    width: i64,
    sides: Vec<i64>,
}

impl Key {
    fn of(pieces: &Pieces, piece: &Piece, step_m: f64) -> Self {
        let of_shape = matches!(piece.kind, Kind::Tapered | Kind::Shaped);
        Self {
            kind: piece.kind,
            of_edge: piece.part != Part::Field,
            length: steps(in_metres(piece.length), step_m),
            width: steps(in_metres(piece.width), step_m),
            sides: if of_shape {
                sides(pieces.outline(piece), step_m)
            } else {
                Vec::new()
            },
        }
    }

    fn line(&self, line_idx: usize, n_pieces: u32, step_m: f64) -> CutLine {
        CutLine {
            letter: letter(line_idx),
            kind: self.kind,
            of_edge: self.of_edge,
            length: size(self.length, step_m),
            width: size(self.width, step_m),
            sides: self.sides.iter().map(|side| size(*side, step_m)).collect(),
            n_pieces,
        }
    }
}

/// Nearest whole number of steps.
fn steps(value_m: f64, step_m: f64) -> i64 {
    let steps = (value_m / step_m).round().clamp(-1e12, 1e12);
    #[expect(clippy::cast_possible_truncation, reason = "clamped far inside i64")]
    let steps = steps as i64;
    steps
}

fn size(steps: i64, step_m: f64) -> Length {
    #[expect(clippy::cast_precision_loss, reason = "clamped to 1e12, exact in f64")]
    let steps = steps as f64;
    metres(steps * step_m)
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// A to Z, then AA to ZZ, and so on.
fn letter(line_idx: usize) -> String {
    let mut rest = line_idx;
    let mut letters = Vec::new();
    loop {
        let letter = u8::try_from(rest % 26).unwrap_or(0);
        letters.push(char::from(b'A' + letter));
        match (rest / 26).checked_sub(1) {
            Some(next) => rest = next,
            None => break,
        }
    }
    letters.into_iter().rev().collect()
}

/// Bricks for the lines `of` field or edge that are cut along their length only (`to_width`), or for all others.
fn sawn(lines: &[CutLine], from: CutFrom, to_width: bool, of: &dyn Fn(bool) -> bool) -> Stock {
    let wanted: Vec<Wanted> = lines
        .iter()
        .map(|line| {
            let is_wanted = of(line.of_edge) && (line.kind == Kind::Ripped) == to_width;
            Wanted {
                length: if to_width { line.width } else { line.length },
                n_pieces: if is_wanted { line.n_pieces } else { 0 },
            }
        })
        .collect();
    let brick = if to_width { from.width } else { from.length };
    saw(&wanted, brick, from.kerf)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lay::pieces::{Label, PlanPoint};
    use crate::quantity::inches;

    fn add(pieces: &mut Pieces, kind: Kind, length_in: f64, width_in: f64) {
        let (length_m, width_m) = (length_in * 0.0254, width_in * 0.0254);
        let label = Label {
            part: Part::Field,
            course: 1,
            nth: 1,
            kind,
            length: inches(length_in),
            width: inches(width_in),
            station: metres(0.0),
        };
        let outline = [
            (0.0, 0.0),
            (length_m, 0.0),
            (length_m, width_m),
            (0.0, width_m),
        ]
        .map(|(right_m, away_m)| PlanPoint { right_m, away_m });
        pieces.add(label, &outline);
    }

    #[test]
    fn a_list_by_hand() {
        let mut pieces = Pieces::default();
        for _ in 0..5 {
            add(&mut pieces, Kind::Whole, 8.0, 4.0);
            add(&mut pieces, Kind::Half, 3.9375, 4.0);
        }
        add(&mut pieces, Kind::Cut, 5.01, 4.0);
        add(&mut pieces, Kind::Cut, 4.99, 4.0);
        add(&mut pieces, Kind::Ripped, 8.0, 1.875);
        add(&mut pieces, Kind::Ripped, 8.0, 1.875);
        let from = CutFrom {
            length: inches(8.0),
            width: inches(4.0),
            kerf: inches(0.125),
        };
        let cuts = CutList::of(&pieces, from, None, ShownIn::FeetInches);
        let lines: Vec<(&str, u32)> = cuts
            .lines
            .iter()
            .map(|line| (line.letter.as_str(), line.n_pieces))
            .collect();
        assert_eq!(lines, [("A", 5), ("B", 2), ("C", 2)]);
        // Five halves from 3 bricks, two of 5 in from 2, two rips side by side from 1 (1 7/8 + 1/8 + 1 7/8 = 3 7/8).
        assert_eq!(
            (cuts.first.n_whole, cuts.n_cut(), cuts.n_bricks()),
            (5, 9, 11)
        );
        assert_eq!(cuts.line(1).map(|line| line.kind), Some(Kind::Half));
        assert_eq!(cuts.line(0), None);
        assert_eq!(cuts.line(99), None);
    }

    #[test]
    fn letters_go_on_after_z() {
        let letters = [0, 1, 25, 26, 51, 52, 701, 702].map(letter);
        assert_eq!(letters, ["A", "B", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
