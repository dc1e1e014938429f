//! Edge brick, its trench, what holds it, and the form boards.

use super::count::rounded_up;
use super::strip::SAME_M;
use super::wishes::{HaunchShape, RestraintWish, Wishes};
use crate::line::Run;
use crate::quantity::{
    Length, Volume, cubic_metres, feet, in_cubic_feet, in_metres, inches, metres,
};
use crate::site::EdgeStands;

/// The edges of the walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// The edge brick as it stands.
    pub brick: EdgeBrick,
    /// Left edge.
    pub left: EdgeSide,
    /// Right edge.
    pub right: EdgeSide,
    /// Depth of the trench below the base top; zero where none is needed.
    pub trench_depth: Length,
    /// Width of the trench: edge brick and haunch. It starts at the inner face of the edge brick.
    pub trench_width: Length,
    /// Trench on both sides.
    pub trench_volume: Volume,
    /// What holds it.
    pub restraint: Restraint,
    /// Form boards.
    pub forms: Forms,
}

/// An edge brick as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeBrick {
    /// Square to the run.
    pub across: Length,
    /// Along the run, without joint.
    pub along: Length,
    /// From its top down.
    pub depth: Length,
}

/// One edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeSide {
    /// Along the face that faces the field.
    pub inner_length: Length,
    /// Along the outer face.
    pub outer_length: Length,
    /// Bricks, the last one cut where the length does not come out.
    pub n_bricks: u32,
    /// Widest joint, at the side away from the curve's centre; the plain joint on a straight.
    pub widest_joint: Length,
}

/// What holds the edge, in quantities for both sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Restraint {
    /// Concrete.
    Haunch {
        /// Concrete on both sides.
        concrete: Volume,
        /// Bags of 80 lb, rounded up once.
        n_bags_80_lb: u32,
    },
    /// Edging strip.
    Spiked {
        /// Strip on both sides.
        strip: Length,
        /// Spikes.
        n_spikes: u32,
    },
    /// Nothing.
    Nothing,
}

/// Form boards and what goes with them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forms {
    /// Both outer faces.
    pub length: Length,
    /// Boards of 12 ft.
    pub n_boards: u32,
    /// Stakes, closer on curves.
    pub n_stakes: u32,
    /// Spacers cut to the clear width.
    pub n_spacers: u32,
}

impl EdgeBrick {
    /// The brick of that length, width and thickness, standing so. A sailor of 8 x 4 x 2 1/4 in is 2 1/4 in across, 4 in along
    /// and 8 in deep.
    #[must_use]
    pub fn of(stands: EdgeStands, length: Length, width: Length, thickness: Length) -> Self {
        let (across, along, depth) = match stands {
            EdgeStands::Sailor => (thickness, width, length),
            EdgeStands::Soldier => (width, thickness, length),
            EdgeStands::Header => (length, width, thickness),
            EdgeStands::Stretcher => (width, length, thickness),
            EdgeStands::Rowlock => (length, thickness, width),
        };
        Self {
            across,
            along,
            depth,
        }
    }
}

/// A side of the walk: the sign of its offsets.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Side {
    Left,
    Right,
}

impl Side {
    const BOTH: [Self; 2] = [Self::Left, Self::Right];

    fn sign(self) -> f64 {
        match self {
            Self::Left => -1.0,
            Self::Right => 1.0,
        }
    }
}

/// The edges of `run`: counts, trench, restraint and forms.
///
/// # Source
/// Lengths and volumes by geometry, on curves by Pappus's theorem. Bag of 80 lb: 0.60 ft³ of concrete, as printed on the bag.
/// Boards, stakes and spacers: common practice, no source.
pub(super) fn edge(run: &Run, wishes: &Wishes) -> Edge {
    let brick = wishes.edge_brick;
    let across_m = in_metres(brick.across);
    let below_base_top_m = in_metres(brick.depth - wishes.base_top_below_grade());
    // A depth within rounding of the base top needs no trench.
    let trench_depth_m = if below_base_top_m > SAME_M {
        below_base_top_m
    } else {
        0.0
    };
    let trench_width_m = across_m + wishes.haunch().map_or(0.0, HaunchShape::reach_m);
    let trench_m3 = trench_depth_m * trench_width_m * both_lengths_m(run, trench_width_m / 2.0);
    Edge {
        brick,
        left: edge_side(run, Side::Left, brick, wishes.joint),
        right: edge_side(run, Side::Right, brick, wishes.joint),
        trench_depth: metres(trench_depth_m),
        trench_width: metres(trench_width_m),
        trench_volume: cubic_metres(trench_m3),
        restraint: restraint(run, wishes.restraint, across_m),
        forms: forms(run, across_m),
    }
}

/// Bags of 80 lb for so much concrete, rounded up to whole bags.
///
/// # Source
/// 0.60 ft³ a bag: nominal yield as printed on the bag.
fn bags_of_80_lb(concrete: Volume) -> u32 {
    rounded_up(in_cubic_feet(concrete) / 0.60)
}

fn restraint(run: &Run, wish: RestraintWish, across_m: f64) -> Restraint {
    match wish {
        RestraintWish::Haunch(shape) => {
            let concrete =
                cubic_metres(shape.area_m2() * both_lengths_m(run, across_m + shape.centroid_m()));
            Restraint::Haunch {
                concrete,
                n_bags_80_lb: bags_of_80_lb(concrete),
            }
        }
        RestraintWish::Spiked { spacing_m } => {
            // One at each end of a side, and none further from the next than the spacing.
            let n_spikes = Side::BOTH.map(|side| {
                rounded_up(length_m(run, side, across_m) / spacing_m).saturating_add(1)
            });
            Restraint::Spiked {
                strip: metres(both_lengths_m(run, across_m)),
                n_spikes: n_spikes.into_iter().fold(0, u32::saturating_add),
            }
        }
        RestraintWish::Nothing => Restraint::Nothing,
    }
}

fn edge_side(run: &Run, side: Side, brick: EdgeBrick, joint: Length) -> EdgeSide {
    let (across_m, along_m, joint_m) = (
        in_metres(brick.across),
        in_metres(brick.along),
        in_metres(joint),
    );
    let pitch_m = along_m + joint_m;
    let mut tight_m = 0.0;
    let mut widest_m = joint_m;
    for (leg_idx, leg) in run.legs().iter().enumerate() {
        tight_m +=
            leg_length_m(run, leg_idx, side, 0.0).min(leg_length_m(run, leg_idx, side, across_m));
        // On a curve the plain joint is kept at the face nearer the centre, and the pitch grows with the radius towards the other.
        for width in [leg.width_at_start, leg.width_at_end] {
            let inner_offset_m = in_metres(width) / 2.0;
            let share = |offset_m: f64| 1.0 - leg.curvature_per_m * side.sign() * offset_m;
            let (inner, outer) = (share(inner_offset_m), share(inner_offset_m + across_m));
            if inner.min(outer) > 0.0 {
                widest_m = widest_m.max(pitch_m * inner.max(outer) / inner.min(outer) - along_m);
            }
        }
    }
    EdgeSide {
        inner_length: metres(length_m(run, side, 0.0)),
        outer_length: metres(length_m(run, side, across_m)),
        n_bricks: rounded_up((tight_m + joint_m) / pitch_m),
        widest_joint: metres(widest_m),
    }
}

fn forms(run: &Run, across_m: f64) -> Forms {
    let mut n_stakes = 0_u32;
    for side in Side::BOTH {
        // One at the door, then one at the end of each bay.
        n_stakes = n_stakes.saturating_add(1);
        for (leg_idx, leg) in run.legs().iter().enumerate() {
            let spacing = if leg.curvature_per_m == 0.0 {
                feet(3.0)
            } else {
                inches(18.0)
            };
            n_stakes = n_stakes.saturating_add(rounded_up(
                leg_length_m(run, leg_idx, side, across_m) / in_metres(spacing),
            ));
        }
    }
    let both_m = both_lengths_m(run, across_m);
    Forms {
        length: metres(both_m),
        n_boards: rounded_up(both_m / in_metres(feet(12.0))),
        n_stakes,
        n_spacers: rounded_up(in_metres(run.length()) / in_metres(feet(6.0))).saturating_add(1),
    }
}

/// Length of the two lines that run `beyond_m` outside the clear width, left and right together.
fn both_lengths_m(run: &Run, beyond_m: f64) -> f64 {
    Side::BOTH
        .map(|side| length_m(run, side, beyond_m))
        .iter()
        .sum()
}

fn length_m(run: &Run, side: Side, beyond_m: f64) -> f64 {
    (0..run.legs().len())
        .map(|leg_idx| leg_length_m(run, leg_idx, side, beyond_m))
        .sum()
}

/// Length along one leg of the line that runs `beyond_m` outside the clear width on that side.
fn leg_length_m(run: &Run, leg_idx: usize, side: Side, beyond_m: f64) -> f64 {
    let Some(leg) = run.legs().get(leg_idx) else {
        return 0.0;
    };
    let offset = |width: Length| metres(side.sign() * (in_metres(width) / 2.0 + beyond_m));
    in_metres(run.offset_line_length(
        leg_idx,
        offset(leg.width_at_start),
        offset(leg.width_at_end),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{CUBIC_FOOT_M3, CUBIC_YARD_M3};

    #[track_caller]
    fn check(stands: EdgeStands, across_in: f64, along_in: f64, depth_in: f64) {
        let brick = EdgeBrick::of(stands, inches(8.0), inches(4.0), inches(2.25));
        let expected = EdgeBrick {
            across: inches(across_in),
            along: inches(along_in),
            depth: inches(depth_in),
        };
        assert_eq!(brick, expected, "{stands:?}");
    }

    #[test]
    fn how_a_brick_stands() {
        check(EdgeStands::Sailor, 2.25, 4.0, 8.0);
        check(EdgeStands::Soldier, 4.0, 2.25, 8.0);
        check(EdgeStands::Header, 8.0, 4.0, 2.25);
        check(EdgeStands::Stretcher, 4.0, 8.0, 2.25);
        check(EdgeStands::Rowlock, 8.0, 2.25, 4.0);
    }

    #[track_caller]
    fn check_bags(cubic_feet: f64, n_bags: u32) {
        assert_eq!(
            bags_of_80_lb(cubic_metres(cubic_feet * CUBIC_FOOT_M3)),
            n_bags,
            "{cubic_feet} ft³"
        );
    }

    #[test]
    fn bags_of_concrete() {
        check_bags(16.5, 28); // row C4: 6 x 6 in haunch, 60 ft: 15.0 ft³, + 10 % = 16.5: 27.5 up
        check_bags(10.0 / 3.0, 6); // row C5: triangle 4 x 4 in, 60 ft: 5.56 up
        check_bags(CUBIC_YARD_M3 / CUBIC_FOOT_M3, 45); // row C2: 27 / 0.60
        check_bags(4.2, 7); // row C6, at this bag: 4.2 / 0.60 is 7.000 000 000 000 001 in binary arithmetic
    }

    #[test]
    fn centroid_of_the_haunch() {
        // Triangle: a third; rectangle: a half; 6 and 2: (36 + 12 + 4) / 24 = 13/6.
        for (width_m, top_width_m, centroid_m) in
            [(6.0, 0.0, 2.0), (6.0, 6.0, 3.0), (6.0, 2.0, 13.0 / 6.0)]
        {
            let shape = HaunchShape {
                height_m: 1.0,
                width_m,
                top_width_m,
            };
            assert!((shape.centroid_m() - centroid_m).abs() < 1e-15);
        }
    }
}
