//! The pieces of one row from side to side.

use super::stock::{EXACT_M, SAME_M, Stock};

/// A row laid out.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    /// Lengths from the side where laying starts.
    pub lengths_m: Vec<f64>,
    /// Between them, and at both ends.
    pub joint_m: f64,
    /// Whether its last two pieces share what was left.
    pub is_shared: bool,
}

impl Row {
    /// For a clear width. An offset row starts with the piece that gives the lap, and its joints keep clear of those of `beside`.
    pub(super) fn of(clear_m: f64, stock: &Stock, is_offset: bool, beside: Option<&Self>) -> Self {
        let joint_m = fitting_joint_m(clear_m, stock).unwrap_or(stock.joint_m);
        let mut row = Self {
            lengths_m: Vec::new(),
            joint_m,
            is_shared: false,
        };
        let mut rest_m = clear_m - 2.0 * joint_m;
        if is_offset {
            // The first piece of the stock is for its own joint; with another it moves by as much as keeps the lap's share.
            let share = (stock.second_start_m + stock.joint_m) / (stock.length_m + stock.joint_m);
            let first_m = share * (stock.length_m + joint_m) - joint_m;
            if rest_m >= first_m + joint_m + stock.least_piece_m {
                row.lengths_m.push(first_m);
                rest_m -= first_m + joint_m;
            }
        }
        loop {
            let after_m = rest_m - stock.length_m;
            if after_m.abs() < SAME_M {
                row.lengths_m.push(stock.length_m);
                break;
            }
            if after_m < 0.0 {
                if rest_m >= stock.least_piece_m - EXACT_M || row.lengths_m.is_empty() {
                    if rest_m > SAME_M {
                        row.lengths_m.push(rest_m);
                    }
                } else if let Some(last_m) = row.lengths_m.pop() {
                    row.share(last_m + joint_m + rest_m, stock, beside);
                }
                break;
            }
            if after_m - joint_m < stock.least_piece_m - EXACT_M {
                row.share(rest_m, stock, beside);
                break;
            }
            row.lengths_m.push(stock.length_m);
            rest_m = after_m - joint_m;
        }
        row
    }

    /// Two pieces in that length: alike, unless the joint between them would come too near to one of the row beside.
    fn share(&mut self, total_m: f64, stock: &Stock, beside: Option<&Self>) {
        let both_m = total_m - self.joint_m;
        let least_m = stock.least_piece_m;
        if both_m < 2.0 * least_m - EXACT_M && total_m <= stock.length_m {
            self.lengths_m.push(total_m);
            return;
        }
        self.is_shared = true;
        let start_m = self.length_m() + self.joint_m;
        let mut best = (f64::NEG_INFINITY, 0.5 * both_m);
        let firsts_m = [
            0.5 * both_m,
            stock.three_quarters_m,
            stock.half_m,
            least_m,
            both_m - least_m,
        ];
        for first_m in firsts_m {
            let fits = |length_m: f64| {
                length_m >= least_m - EXACT_M && length_m <= stock.length_m + EXACT_M
            };
            if !(fits(first_m) && fits(both_m - first_m)) {
                continue;
            }
            let at_m = start_m + first_m + 0.5 * self.joint_m;
            let lap_m = beside.map_or(f64::INFINITY, |beside| beside.lap_m(at_m));
            let kept_m = lap_m.min(stock.least_lap_m.unwrap_or(0.0));
            if kept_m > best.0 + EXACT_M {
                best = (kept_m, first_m);
            }
        }
        self.lengths_m.push(best.1);
        self.lengths_m.push(both_m - best.1);
    }

    /// From the border of the clear width to the end of its last piece.
    pub(super) fn length_m(&self) -> f64 {
        self.lengths_m
            .iter()
            .map(|length_m| self.joint_m + length_m)
            .sum()
    }

    /// Middles of its joints, from the border of the clear width.
    pub(super) fn joints_m(&self) -> impl Iterator<Item = f64> {
        let mut at_m = 0.0;
        let n_joints = self.lengths_m.len().saturating_sub(1);
        self.lengths_m.iter().take(n_joints).map(move |length_m| {
            at_m += self.joint_m + length_m;
            at_m + 0.5 * self.joint_m
        })
    }

    /// From a place to its nearest joint.
    fn lap_m(&self, at_m: f64) -> f64 {
        self.joints_m()
            .map(|joint_m| (joint_m - at_m).abs())
            .fold(f64::INFINITY, f64::min)
    }

    /// The least lap between two rows.
    pub(super) fn least_lap_m(&self, other: &Self) -> f64 {
        self.joints_m()
            .map(|joint_m| other.lap_m(joint_m))
            .fold(f64::INFINITY, f64::min)
    }
}

/// The joint with which whole bricks come out, the one nearest to what is aimed at.
fn fitting_joint_m(clear_m: f64, stock: &Stock) -> Option<f64> {
    let below = libm::floor((clear_m - stock.joint_m) / (stock.length_m + stock.joint_m)).max(0.0);
    [below, below + 1.0]
        .into_iter()
        .filter(|&n| n > 0.0)
        .map(|n| (clear_m - n * stock.length_m) / (n + 1.0))
        .filter(|&joint_m| {
            joint_m >= stock.least_joint_m - EXACT_M && joint_m <= stock.widest_joint_m + EXACT_M
        })
        .min_by(|one, other| {
            (one - stock.joint_m)
                .abs()
                .total_cmp(&(other - stock.joint_m).abs())
        })
}

#[cfg(test)]
mod tests {
    use super::super::tests::runs::wishes;
    use super::*;

    #[track_caller]
    fn check(clear_in: f64, is_offset: bool, expected_in: &[f64]) {
        let stock = Stock::of(&wishes());
        let plain = Row::of(clear_in * 0.0254, &stock, false, None);
        let row = Row::of(
            clear_in * 0.0254,
            &stock,
            is_offset,
            is_offset.then_some(&plain),
        );
        let lengths_in: Vec<f64> = row
            .lengths_m
            .iter()
            .map(|length_m| length_m / 0.0254)
            .collect();
        let is_same = lengths_in.len() == expected_in.len()
            && lengths_in
                .iter()
                .zip(expected_in)
                .all(|(one, other)| (one - other).abs() < 1e-9);
        assert!(is_same, "{lengths_in:?}");
        assert!((row.length_m() + row.joint_m - clear_in * 0.0254).abs() < 1e-12);
    }

    #[test]
    fn rows_by_hand() {
        // 5 bricks and 6 joints of 1/8 in: 40 3/4 in.
        check(40.75, false, &[8.0; 5]);
        check(40.75, true, &[3.9375, 8.0, 8.0, 8.0, 8.0, 3.9375]);
        // 48 in: five, and 48 - 40 - 7 x 1/8 = 7 1/8 in.
        check(48.0, false, &[8.0, 8.0, 8.0, 8.0, 8.0, 7.125]);
        // After the half 43.8125 in are left: five bricks and joints take 40.625, and 3.1875 in is above a third.
        check(48.0, true, &[3.9375, 8.0, 8.0, 8.0, 8.0, 8.0, 3.0625]);
        // 43 in: five and 2 1/8 in would be below a third: the last two share 8 + 2.125 in.
        check(43.0, false, &[8.0, 8.0, 8.0, 8.0, 5.0625, 5.0625]);
        // One brick does not fit: a piece.
        check(6.0, false, &[5.75]);
    }
}
