//! Labels in a row, each as near as it can be to where it would like to stand.

/// Something that takes room along a line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wish {
    /// Where its middle would like to be.
    pub middle: f64,
    /// Room that it takes, gaps included.
    pub room: f64,
}

/// Middles of all wishes, in their order, so that no two overlap and all lie between `low` and `high`: the least squares of the
/// distances to what was wished. `None` where there is not room for all.
pub(crate) fn spread(wishes: &[Wish], low: f64, high: f64) -> Option<Vec<f64>> {
    let whole: f64 = wishes.iter().map(|wish| wish.room).sum();
    if whole > high - low + 1e-9 {
        return None;
    }
    // Blocks of wishes that touch; each knows where its first left edge would like to be, on the average.
    struct Block {
        count: usize,
        room: f64,
        sum_of_lefts: f64,
    }
    impl Block {
        fn left(&self, low: f64, high: f64) -> f64 {
            let count = u32::try_from(self.count).map_or(f64::INFINITY, f64::from);
            (self.sum_of_lefts / count).min(high - self.room).max(low)
        }
    }
    let mut blocks: Vec<Block> = Vec::new();
    for wish in wishes {
        let mut block = Block {
            count: 1,
            room: wish.room,
            sum_of_lefts: wish.middle - wish.room / 2.0,
        };
        while let Some(before) = blocks.pop() {
            if before.left(low, high) + before.room <= block.left(low, high) {
                blocks.push(before);
                break;
            }
            let shift = u32::try_from(block.count).map_or(0.0, f64::from) * before.room;
            block = Block {
                count: before.count + block.count,
                room: before.room + block.room,
                sum_of_lefts: before.sum_of_lefts + block.sum_of_lefts - shift,
            };
        }
        blocks.push(block);
    }
    let mut middles = Vec::with_capacity(wishes.len());
    let mut rest = wishes.iter();
    for block in blocks {
        let mut left = block.left(low, high);
        for wish in rest.by_ref().take(block.count) {
            middles.push(left + wish.room / 2.0);
            left += wish.room;
        }
    }
    Some(middles)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(wishes: &[(f64, f64)], low: f64, high: f64, expected: Option<&[f64]>) {
        let wishes: Vec<Wish> = wishes
            .iter()
            .map(|(middle, room)| Wish {
                middle: *middle,
                room: *room,
            })
            .collect();
        let middles = spread(&wishes, low, high);
        match (middles, expected) {
            (Some(middles), Some(expected)) => {
                assert_eq!(middles.len(), expected.len());
                for (got, wanted) in middles.iter().zip(expected) {
                    assert!((got - wanted).abs() < 1e-9, "{middles:?} {expected:?}");
                }
            }
            (got, wanted) => assert_eq!(got.as_deref(), wanted),
        }
    }

    #[test]
    fn labels_make_room() {
        check(&[(10.0, 4.0), (30.0, 4.0)], 0.0, 100.0, Some(&[10.0, 30.0]));
        // Two of room 10 that both want 50 stand at 45 and 55.
        check(
            &[(50.0, 10.0), (50.0, 10.0)],
            0.0,
            100.0,
            Some(&[45.0, 55.0]),
        );
        // Pushed back from the right end.
        check(
            &[(99.0, 10.0), (99.0, 10.0)],
            0.0,
            100.0,
            Some(&[85.0, 95.0]),
        );
        // A third joins the block from the left end.
        check(
            &[(0.0, 10.0), (8.0, 10.0), (14.0, 10.0)],
            0.0,
            100.0,
            Some(&[5.0, 15.0, 25.0]),
        );
        check(&[(0.0, 60.0), (0.0, 60.0)], 0.0, 100.0, None);
        check(&[], 0.0, 1.0, Some(&[]));
    }
}
