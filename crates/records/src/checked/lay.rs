//! The laying, checked.

use underbrick_calc::place::Place;
use underbrick_calc::site;

use super::Check;

impl Check<'_> {
    pub(super) fn lay(&mut self) -> site::LayInput {
        let lay = &self.file.lay;
        site::LayInput {
            bond: lay.bond.into(),
            courses: lay.courses.into(),
            lap: self.amount(Place::LapShare),
            least_lap: self.length(Place::LeastLap),
            least_piece: self.length(Place::LeastPiece),
            least_joint: self.length(Place::LeastJoint),
            widest_joint: self.length(Place::WidestJoint),
            kerf: self.length(Place::Kerf),
            target_width: self.length(Place::TargetWidth),
            width_tolerance: self.length(Place::WidthTolerance),
            start_side: lay.start_side.into(),
            return_at_door: lay.return_at_door,
            return_at_end: lay.return_at_end,
            openings: (0..lay.openings.len())
                .map(|opening_idx| self.opening(opening_idx))
                .collect(),
            bearing: self.turn(Place::Bearing),
            sample: lay
                .sample
                .iter()
                .enumerate()
                .map(|(brick_idx, brick)| site::BrickReading {
                    length: self.length(Place::SampleLength(brick_idx)),
                    width: self.length(Place::SampleWidth(brick_idx)),
                    thickness: self.length(Place::SampleThickness(brick_idx)),
                    of_second: brick.of_second,
                })
                .collect(),
            second_brick: lay.second_brick.as_ref().map(|_| site::Brick {
                length: self.length(Place::SecondLength),
                width: self.length(Place::SecondWidth),
                thickness: self.length(Place::SecondThickness),
                joint: None,
            }),
            edge_of_second: lay.edge_of_second,
            n_on_site: self.count(Place::BricksOnSite),
            loss: self.amount(Place::BrickLoss),
        }
    }

    fn opening(&mut self, opening_idx: usize) -> site::Opening {
        site::Opening {
            station: self.length(Place::OpeningStation(opening_idx)),
            offset: self.length(Place::OpeningOffset(opening_idx)),
            along: self.length(Place::OpeningAlong(opening_idx)),
            across: self.length(Place::OpeningAcross(opening_idx)),
        }
    }
}
