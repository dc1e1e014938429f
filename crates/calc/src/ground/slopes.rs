//! Layers of a penetrometer log by change of slope.

/// The fewest straight parts that explain how a log goes down, as the indices of the points where they begin and end, from first to
/// last.
///
/// Points are (blows so far, how deep). Each part has the line of least squares through its own points, both ends among them; two
/// parts share the point between them, but their lines need not meet there. Of all ways to part the log into so many, the one with the
/// least squares is taken, and of the numbers of parts the least whose root mean square is within `allowed`. As many parts as rows
/// always are.
pub(super) fn parts(points: &[(f64, f64)], allowed: f64) -> Vec<usize> {
    let Some(last_idx) = points.len().checked_sub(1).filter(|last_idx| *last_idx > 0) else {
        return Vec::new();
    };
    let squares = Squares::of(points);
    let mut rounds = vec![first_round(&squares, last_idx)];
    while let Some(round) = rounds.last() {
        let misfit = round.get(last_idx).map_or(0.0, |best| best.squares);
        if root_mean_square(misfit, points.len()) <= allowed || rounds.len() >= last_idx {
            break;
        }
        let next = next_round(&squares, round, last_idx);
        rounds.push(next);
    }
    let mut ends = vec![last_idx];
    let mut end_idx = last_idx;
    for round in rounds.iter().rev() {
        end_idx = round.get(end_idx).map_or(0, |best| best.from_idx);
        ends.push(end_idx);
    }
    ends.reverse();
    ends
}

/// How far the parts miss the points, root mean square.
pub(super) fn misfit(points: &[(f64, f64)], ends: &[usize]) -> f64 {
    let sum: f64 = ends
        .windows(2)
        .filter_map(|pair| points.get(*pair.first()?..=*pair.last()?))
        .map(|part| {
            let mut line = Line::default();
            part.iter().for_each(|point| line.take(*point));
            line.squares()
        })
        .sum();
    root_mean_square(sum, points.len())
}

fn root_mean_square(sum: f64, n_points: usize) -> f64 {
    libm::sqrt(sum.max(0.0) / n_points.max(1) as f64)
}

/// The best that so many parts can do up to one point.
#[derive(Clone, Copy, Debug)]
struct Best {
    squares: f64,
    /// Where the last of these parts begins.
    from_idx: usize,
}

const NONE: Best = Best {
    squares: f64::INFINITY,
    from_idx: 0,
};

fn first_round(squares: &Squares, last_idx: usize) -> Vec<Best> {
    (0..=last_idx)
        .map(|to_idx| match to_idx {
            0 => NONE,
            _ => Best {
                squares: squares.between(0, to_idx),
                from_idx: 0,
            },
        })
        .collect()
}

/// One part more than `round`.
fn next_round(squares: &Squares, round: &[Best], last_idx: usize) -> Vec<Best> {
    let best = |to_idx: usize| {
        let mut best = NONE;
        for (from_idx, before) in round.iter().enumerate().take(to_idx) {
            let sum = before.squares + squares.between(from_idx, to_idx);
            if sum < best.squares {
                best = Best {
                    squares: sum,
                    from_idx,
                };
            }
        }
        best
    };
    (0..=last_idx).map(best).collect()
}

/// Sums of squares about the line of least squares between any two points.
struct Squares(Vec<Vec<f64>>);

impl Squares {
    fn of(points: &[(f64, f64)]) -> Self {
        Self(
            (0..points.len())
                .map(|from_idx| {
                    let mut line = Line::default();
                    points
                        .iter()
                        .skip(from_idx)
                        .map(|point| {
                            line.take(*point);
                            line.squares()
                        })
                        .collect()
                })
                .collect(),
        )
    }

    fn between(&self, from_idx: usize, to_idx: usize) -> f64 {
        to_idx
            .checked_sub(from_idx)
            .and_then(|nth| self.0.get(from_idx)?.get(nth))
            .copied()
            .unwrap_or(f64::INFINITY)
    }
}

/// Sums about the running means, so that nothing is lost by taking a great number from another.
#[derive(Clone, Copy, Debug, Default)]
struct Line {
    n_points: f64,
    mean_x: f64,
    mean_y: f64,
    xx: f64,
    xy: f64,
    yy: f64,
}

impl Line {
    fn take(&mut self, (x, y): (f64, f64)) {
        self.n_points += 1.0;
        let (off_x, off_y) = (x - self.mean_x, y - self.mean_y);
        self.mean_x += off_x / self.n_points;
        self.mean_y += off_y / self.n_points;
        self.xx += off_x * (x - self.mean_x);
        self.xy += off_x * (y - self.mean_y);
        self.yy += off_y * (y - self.mean_y);
    }

    /// Sum of squares about the line of least squares.
    fn squares(&self) -> f64 {
        if self.xx > 0.0 {
            (self.yy - self.xy * self.xy / self.xx).max(0.0)
        } else {
            0.0
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Closed form: y = 0, 1, 0 at x = 0, 1, 2 has the level line 1/3, and squares 1/9 + 4/9 + 1/9 = 2/3.
    #[test]
    fn squares_about_the_line_are_the_closed_form() {
        let mut line = Line::default();
        for point in [(0.0, 0.0), (1.0, 1.0), (2.0, 0.0)] {
            line.take(point);
        }
        assert!((line.squares() - 2.0 / 3.0).abs() < 1e-15);
    }

    #[test]
    fn no_log_has_no_parts() {
        assert!(parts(&[], 1.0).is_empty());
        assert!(parts(&[(0.0, 0.0)], 1.0).is_empty());
        assert_eq!(parts(&[(0.0, 0.0), (1.0, 5.0)], 0.0), [0, 1]);
    }

    /// Every way to part a short log, tried one by one.
    fn fewest_by_trial(points: &[(f64, f64)], allowed: f64) -> (usize, f64) {
        let n_inner = points.len() - 2;
        let mut best = (usize::MAX, f64::INFINITY);
        for mask in 0..1_usize << n_inner {
            let inner = (0..n_inner).filter(|bit| mask & 1 << bit != 0);
            let ends: Vec<usize> = std::iter::once(0)
                .chain(inner.map(|bit| bit + 1))
                .chain([points.len() - 1])
                .collect();
            let rms = misfit(points, &ends);
            let n_parts = ends.len() - 1;
            if rms <= allowed && (n_parts, rms) < best {
                best = (n_parts, rms);
            }
        }
        best
    }

    proptest! {
        #[test]
        fn no_other_way_has_fewer_parts_or_less_misfit(
            rows in prop::collection::vec((1_u32..6, 1.0..60.0_f64), 2..9),
            allowed in 0.5..6.0_f64,
        ) {
            let mut points = vec![(0.0, 0.0)];
            for (blows, down) in rows {
                let (x, y) = points[points.len() - 1];
                points.push((x + f64::from(blows), y + down));
            }
            let found = parts(&points, allowed);
            let (n_parts, rms) = fewest_by_trial(&points, allowed);
            prop_assert_eq!(found.len() - 1, n_parts);
            prop_assert!((misfit(&points, &found) - rms).abs() < 1e-6);
        }
    }
}
