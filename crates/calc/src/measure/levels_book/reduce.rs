//! From sights to levels, by height of collimation and by rise and fall.

use super::super::levels::HeightOfCollimation;
use super::{BookFault, BookRow, LevelBook, Sight, Stands, Sums, default_limit};
use crate::quantity::{Length, in_metres, metres};

/// A page reduced. Rows stand as in the book.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReducedBook {
    /// One for every row of the book.
    pub rows: Vec<ReducedRow>,
    /// The sums at the foot; `None` where no set-up has both a backsight and a foresight.
    pub sums: Option<Sums>,
    /// Returns to a known point.
    pub closings: Vec<Closing>,
    /// Set-ups that have both a backsight and a foresight.
    pub n_set_ups: usize,
    /// What is wrong with the page.
    pub faults: Vec<BookFault>,
}

/// One row reduced.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ReducedRow {
    /// Number of the turning point that it stands on, from 1.
    pub turning_point: Option<usize>,
    /// Level of the line of sight, for a backsight.
    pub collimation: Option<Length>,
    /// Step from the sight before, up positive: a rise, or a fall where it is negative. `None` for a backsight.
    pub step: Option<Length>,
    /// Level by height of collimation, as read.
    pub level: Option<Length>,
    /// Level by rise and fall, as read.
    pub level_by_steps: Option<Length>,
    /// The level that is used: with its share of the misclosure where that is spread.
    pub level_used: Option<Length>,
    /// Which stretch between known points it belongs to, and how many set-ups carry it.
    carried: Option<(usize, usize)>,
}

/// A foresight on a known point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closing {
    /// Row of the foresight.
    pub row_idx: usize,
    /// What its level is known to be.
    pub known: Length,
    /// Level as read less known level, up positive.
    pub misclosure: Length,
    /// Set-ups since the known point before.
    pub n_set_ups: usize,
    /// The largest that is let pass.
    pub limit: Length,
    /// Whether the misclosure is within it.
    pub is_kept: bool,
    /// Whether it is spread over the set-ups.
    pub is_spread: bool,
    stretch: usize,
}

/// Reduces a page. What cannot be reduced has no level, a fault says why, and the rest is reduced all the same.
///
/// # Source
/// Height of collimation, and rise and fall: any text on levelling. A misclosure is spread in proportion to set-ups: a level carried
/// through k of n set-ups gets k/n of it (check-values L7).
#[must_use]
pub fn reduce(book: &LevelBook) -> ReducedBook {
    let mut pen = Pen::new(book);
    for (row_idx, row) in book.rows.iter().enumerate() {
        pen.row(row_idx, row);
    }
    pen.finish()
}

/// A set-up of the instrument in use.
#[derive(Clone, Copy)]
struct SetUp {
    back: Length,
    sight: HeightOfCollimation,
    before: Length,
    level_by_steps: Length,
    steps: Sums,
}

/// A point that was left with a foresight.
#[derive(Clone, Copy)]
struct Left {
    row_idx: usize,
    level: Option<(Length, Length)>,
    turning_point: Option<usize>,
    known: Option<Length>,
}

/// From one known point on.
#[derive(Clone, Copy)]
struct Stretch {
    number: usize,
    first: Length,
    last: Length,
    n_set_ups: usize,
}

struct Pen<'a> {
    book: &'a LevelBook,
    reduced: ReducedBook,
    set_up: Option<SetUp>,
    /// The row before was a foresight.
    left: Option<Left>,
    stretch: Option<Stretch>,
    sums: Sums,
    n_stretches: usize,
    n_turning_points: usize,
    /// A fault was named already for the rows that now have no set-up.
    is_told: bool,
}

impl<'a> Pen<'a> {
    fn new(book: &'a LevelBook) -> Self {
        Self {
            book,
            reduced: ReducedBook::default(),
            set_up: None,
            left: None,
            stretch: None,
            sums: Sums::default(),
            n_stretches: 0,
            n_turning_points: 0,
            is_told: false,
        }
    }

    fn row(&mut self, row_idx: usize, row: &BookRow) {
        let left = self.left.take();
        let row = match row.sight {
            Sight::Back => self.back(row_idx, row, left),
            Sight::Intermediate | Sight::Fore => self.on_from(row_idx, row, left),
        };
        self.reduced.rows.push(row);
    }

    fn back(&mut self, row_idx: usize, row: &BookRow, left: Option<Left>) -> ReducedRow {
        self.set_up = None;
        self.is_told = true;
        let mut reduced = ReducedRow {
            turning_point: left
                .filter(|_| !is_known_point(row.stands))
                .and_then(|left| left.turning_point),
            ..ReducedRow::default()
        };
        let known_left = left.and_then(|left| left.known);
        let start = if is_known_point(row.stands) || known_left.is_some() {
            let known = known_left.filter(|_| !is_known_point(row.stands));
            let known = known.or_else(|| self.known(row_idx, row.stands));
            self.start_stretch(known);
            known.map(|known| (known, known))
        } else if let Some(left) = left {
            left.level
        } else {
            self.reduced.faults.push(BookFault::NoForesight {
                row_idx,
                reading: row.reading,
            });
            None
        };
        let reading = self.reading(row_idx, row);
        if let (Some((level, level_by_steps)), Some(back)) = (start, reading) {
            let sight = HeightOfCollimation::from_backsight(level, back);
            self.set_up = Some(SetUp {
                back,
                sight,
                before: back,
                level_by_steps,
                steps: Sums::default(),
            });
            reduced.collimation = Some(sight.level());
        }
        if let Some((level, level_by_steps)) = start {
            reduced.level = Some(level);
            reduced.level_by_steps = Some(level_by_steps);
            reduced.carried = self
                .stretch
                .map(|stretch| (stretch.number, stretch.n_set_ups));
        }
        reduced
    }

    /// An intermediate sight or a foresight.
    fn on_from(&mut self, row_idx: usize, row: &BookRow, left: Option<Left>) -> ReducedRow {
        let mut reduced = ReducedRow::default();
        if row.stands == Stands::TurningPoint && row.sight == Sight::Fore {
            self.n_turning_points += 1;
            reduced.turning_point = Some(self.n_turning_points);
        }
        if self.set_up.is_none() && (left.is_some() || !self.is_told) {
            self.is_told = true;
            self.reduced.faults.push(BookFault::NoSetUp {
                row_idx,
                sight: row.sight,
                reading: row.reading,
                fore_idx: left.map(|left| left.row_idx),
            });
        }
        let reading = self.reading(row_idx, row);
        if let (Some(set_up), Some(reading)) = (&mut self.set_up, reading) {
            let step = set_up.before - reading;
            set_up.before = reading;
            set_up.level_by_steps += step;
            set_up.steps.add_step(step);
            reduced.step = Some(step);
            reduced.level = Some(set_up.sight.level_by_rod(reading));
            reduced.level_by_steps = Some(set_up.level_by_steps);
            reduced.carried = self
                .stretch
                .map(|stretch| (stretch.number, stretch.n_set_ups + 1));
        }
        if row.sight == Sight::Fore {
            self.fore(row_idx, row, reading, &reduced);
        }
        reduced
    }

    fn fore(
        &mut self,
        row_idx: usize,
        row: &BookRow,
        reading: Option<Length>,
        reduced: &ReducedRow,
    ) {
        let set_up = self.set_up.take();
        let known = if is_known_point(row.stands) {
            self.known(row_idx, row.stands)
        } else {
            None
        };
        self.left = Some(Left {
            row_idx,
            level: reduced.level.zip(reduced.level_by_steps),
            turning_point: reduced.turning_point,
            known,
        });
        let (Some(set_up), Some(reading), Some(level)) = (set_up, reading, reduced.level) else {
            return;
        };
        self.sums.back += set_up.back;
        self.sums.fore += reading;
        self.sums.rise += set_up.steps.rise;
        self.sums.fall += set_up.steps.fall;
        self.reduced.n_set_ups += 1;
        let Some(stretch) = &mut self.stretch else {
            return;
        };
        stretch.n_set_ups += 1;
        stretch.last = level;
        if let Some(known) = known {
            let misclosure = level - known;
            let limit = self.book.limit.unwrap_or_else(default_limit);
            self.reduced.closings.push(Closing {
                row_idx,
                known,
                misclosure,
                n_set_ups: stretch.n_set_ups,
                limit,
                is_kept: in_metres(misclosure).abs() <= in_metres(limit) + 1e-9,
                is_spread: self.book.spread,
                stretch: stretch.number,
            });
            self.end_stretch();
        }
    }

    fn known(&mut self, row_idx: usize, stands: Stands) -> Option<Length> {
        let known = match stands {
            Stands::Benchmark => self.book.benchmark_above_sill,
            _ => Some(metres(0.0)),
        };
        if known.is_none() {
            self.reduced.faults.push(BookFault::NoBenchmark { row_idx });
        }
        known
    }

    fn reading(&mut self, row_idx: usize, row: &BookRow) -> Option<Length> {
        let sight = row.sight;
        match row.reading {
            Some(reading) if reading.value.is_finite() => Some(reading),
            Some(_) => {
                let fault = BookFault::NotANumber { row_idx, sight };
                self.reduced.faults.push(fault);
                None
            }
            None => {
                let fault = BookFault::ReadingMissing { row_idx, sight };
                self.reduced.faults.push(fault);
                None
            }
        }
    }

    fn start_stretch(&mut self, known: Option<Length>) {
        self.end_stretch();
        if let Some(known) = known {
            self.stretch = Some(Stretch {
                number: self.n_stretches,
                first: known,
                last: known,
                n_set_ups: 0,
            });
            self.n_stretches += 1;
        }
    }

    fn end_stretch(&mut self) {
        if let Some(stretch) = self.stretch.take() {
            self.sums.last_less_first += stretch.last - stretch.first;
        }
    }

    fn finish(mut self) -> ReducedBook {
        self.end_stretch();
        let mut reduced = self.reduced;
        reduced.sums = (reduced.n_set_ups > 0).then_some(self.sums);
        for row in &mut reduced.rows {
            row.level_used = row.level;
        }
        for closing in &reduced.closings {
            if closing.is_spread {
                spread(&mut reduced.rows, closing);
            }
        }
        reduced
    }
}

const fn is_known_point(stands: Stands) -> bool {
    matches!(stands, Stands::Sill | Stands::Benchmark)
}

/// Gives every level of the stretch before a closing its share.
fn spread(rows: &mut [ReducedRow], closing: &Closing) {
    let of_all = in_metres(closing.misclosure) / counted(closing.n_set_ups);
    for (row_idx, row) in rows.iter_mut().enumerate() {
        let (Some(level), Some((stretch, n_set_ups))) = (row.level, row.carried) else {
            continue;
        };
        if stretch == closing.stretch && row_idx < closing.row_idx {
            row.level_used = Some(level - metres(of_all * counted(n_set_ups)));
        } else if row_idx == closing.row_idx {
            row.level_used = Some(closing.known);
        }
    }
}

fn counted(n_set_ups: usize) -> f64 {
    f64::from(u32::try_from(n_set_ups).unwrap_or(u32::MAX))
}
