//! A picture brought to a smaller size while its rows come: each dot is the mean of what it covers, in whole numbers, so that it comes
//! out the same on every machine. Never more than one row of the large picture is looked at.

use super::decode::Pixels;

/// Takes rows of a picture and gives the picture at its new size.
pub struct Shrinker {
    from: (u32, u32),
    to: (u32, u32),
    /// The row that just came, brought to its new width: sums over `from.0` shares a dot.
    narrowed: Vec<u64>,
    /// The row that is being made: sums over `from.0 * from.1` shares a dot.
    row: Vec<u64>,
    /// How far down the picture has come, in shares: `to.1` of them are one row.
    down: u64,
    rgb: Vec<u8>,
}

impl Shrinker {
    /// For a picture of that size; its longer side comes to at most `longest`, and it is never made larger.
    pub fn new((width, height): (u32, u32), longest: u32) -> Self {
        let to = fitted((width, height), longest);
        let n_sums = 3 * to.0 as usize;
        Self {
            from: (width, height),
            to,
            narrowed: vec![0; n_sums],
            row: vec![0; n_sums],
            down: 0,
            rgb: Vec::with_capacity(n_sums * to.1 as usize),
        }
    }

    /// Takes the next row, three bytes a dot.
    pub fn row(&mut self, rgb: &[u8]) {
        if self.to == self.from {
            self.rgb.extend_from_slice(rgb);
            return;
        }
        self.narrow(rgb);
        let (rows, wanted) = (u64::from(self.from.1), u64::from(self.to.1));
        let whole = u64::from(self.from.0) * rows;
        let end_of_row = self.down + wanted;
        while self.down < end_of_row {
            let end_of_dot = (self.down / rows + 1) * rows;
            let share = end_of_dot.min(end_of_row) - self.down;
            for (sum, narrowed) in self.row.iter_mut().zip(&self.narrowed) {
                *sum += share * narrowed;
            }
            self.down += share;
            if self.down == end_of_dot {
                self.rgb
                    .extend(self.row.iter().map(|sum| mean(*sum, whole)));
                self.row.fill(0);
            }
        }
    }

    /// The sums of the row over each of the dots that it is brought to.
    fn narrow(&mut self, rgb: &[u8]) {
        self.narrowed.fill(0);
        let (dots, wanted) = (u64::from(self.from.0), u64::from(self.to.0));
        let mut sums = self.narrowed.chunks_exact_mut(3);
        let mut sum = sums.next();
        let mut left = dots;
        for dot in rgb.chunks_exact(3) {
            let mut share = wanted;
            while share > 0 {
                let Some(at) = &mut sum else { return };
                let part = share.min(left);
                for (sum, value) in at.iter_mut().zip(dot) {
                    *sum += part * u64::from(*value);
                }
                share -= part;
                left -= part;
                if left == 0 {
                    sum = sums.next();
                    left = dots;
                }
            }
        }
    }

    /// The picture; what never came is missing at its foot.
    pub fn finish(self) -> Pixels {
        let row_bytes = 3 * self.to.0 as usize;
        let height = self.rgb.len().checked_div(row_bytes).unwrap_or(0);
        Pixels {
            width: self.to.0,
            height: u32::try_from(height).unwrap_or(self.to.1),
            rgb: self.rgb,
        }
    }
}

/// A size whose longer side is at most `longest`, its sides in the same proportion, none of them nothing.
fn fitted((width, height): (u32, u32), longest: u32) -> (u32, u32) {
    let long = width.max(height);
    if long <= longest {
        return (width, height);
    }
    let side = |side: u32| {
        let scaled = (u64::from(side) * u64::from(longest) + u64::from(long) / 2) / u64::from(long);
        u32::try_from(scaled).unwrap_or(longest).max(1)
    };
    (side(width), side(height))
}

fn mean(sum: u64, shares: u64) -> u8 {
    u8::try_from((sum + shares / 2) / shares.max(1)).unwrap_or(u8::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn shrunk(pixels: &Pixels, longest: u32) -> Pixels {
        let mut shrinker = Shrinker::new((pixels.width, pixels.height), longest);
        for row in pixels.rgb.chunks_exact(3 * pixels.width as usize) {
            shrinker.row(row);
        }
        shrinker.finish()
    }

    fn grey(width: u32, height: u32, dots: &[u8]) -> Pixels {
        Pixels {
            width,
            height,
            rgb: dots.iter().flat_map(|dot| [*dot; 3]).collect(),
        }
    }

    #[track_caller]
    fn check(from: &Pixels, longest: u32, to: &Pixels) {
        assert_eq!(shrunk(from, longest), *to);
    }

    #[test]
    fn each_dot_is_the_mean_of_what_it_covers() {
        // (0 + 100 + 200 + 60) / 4 = 90 and (10 + 20 + 30 + 40) / 4 = 25
        check(
            &grey(4, 2, &[0, 100, 10, 20, 200, 60, 30, 40]),
            2,
            &grey(2, 1, &[90, 25]),
        );
        // Three to two: the middle one is halved. (2 * 30 + 60) / 3 = 40, (60 + 2 * 90) / 3 = 80
        check(&grey(3, 1, &[30, 60, 90]), 2, &grey(2, 1, &[40, 80]));
        check(&grey(1, 3, &[30, 60, 90]), 2, &grey(1, 2, &[40, 80]));
        // Never larger.
        check(&grey(2, 1, &[1, 2]), 9, &grey(2, 1, &[1, 2]));
        // A side never comes to nothing: 1000 by 1 at 10 a side.
        assert_eq!(fitted((1000, 1), 10), (10, 1));
        assert_eq!(fitted((8000, 6000), 1600), (1600, 1200));
    }

    proptest! {
        #[test]
        fn the_mean_stays_and_nothing_gets_brighter_than_the_brightest(
            width in 1_u32..40, height in 1_u32..40, longest in 1_u32..40, seed in any::<u8>(),
        ) {
            let dots: Vec<u8> = (0..width * height)
                .map(|nth| u8::try_from((nth * 37 + u32::from(seed)) % 256).unwrap())
                .collect();
            let small = shrunk(&grey(width, height, &dots), longest);
            prop_assert!(small.width.max(small.height) <= longest.max(1) || longest >= width.max(height));
            prop_assert_eq!(small.rgb.len(), 3 * (small.width * small.height) as usize);
            let (least, most) = (dots.iter().min().unwrap(), dots.iter().max().unwrap());
            prop_assert!(small.rgb.iter().all(|dot| (least..=most).contains(&dot)));
            let sum = |dots: &[u8]| dots.iter().copied().map(u64::from).sum::<u64>();
            let count = |dots: &[u8]| u64::try_from(dots.len()).unwrap();
            // Rounded once a dot: the means differ by a half at most. In whole numbers, for just a half can come about.
            let (before, after) = (sum(&dots) * count(&small.rgb), sum(&small.rgb) * count(&dots));
            let half = count(&dots) * count(&small.rgb);
            prop_assert!(2 * before.abs_diff(after) <= half, "{} {} {}", before, after, half);
        }
    }
}
