//! Two ways of laying side by side, from the same readings.

use super::layout::Lay;
use crate::findings::Findings;
use crate::line::line;
use crate::quantity::Length;
use crate::site::{Bond, CourseWay, Site};

/// Another way of laying the same walk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OtherWay {
    /// In another bond.
    Bond(Bond, CourseWay),
    /// With another clear width at the door and another joint.
    Width {
        /// Clear width at the door.
        clear: Length,
        /// Joint aimed at.
        joint: Length,
    },
}

/// What one way of laying comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// Pieces that are laid, edges counted in.
    pub n_pieces: usize,
    /// Pieces that are cut.
    pub n_cut: u32,
    /// Different cuts.
    pub n_cut_sizes: usize,
    /// Narrowest and widest joint of the field.
    pub joints: Option<(Length, Length)>,
    /// Least lap; `None` in a bond without laps.
    pub least_lap: Option<Length>,
    /// Bricks for everything, offcuts used again.
    pub n_bricks: u32,
    /// Whether something could not be laid as asked.
    pub has_notes: bool,
}

impl Compared {
    /// What `lay` comes to.
    #[must_use]
    pub fn of(lay: &Lay) -> Self {
        Self {
            n_pieces: lay.pieces.all().len(),
            n_cut: lay.cuts.n_cut(),
            n_cut_sizes: lay.cuts.lines.len(),
            joints: lay
                .narrowest_joint
                .zip(lay.widest_joint)
                .map(|(narrowest, widest)| (narrowest.length, widest.length)),
            least_lap: lay.least_lap.map(|lap| lap.length),
            n_bricks: lay.cuts.n_bricks(),
            has_notes: !lay.notes.is_empty(),
        }
    }
}

/// What another way of laying would come to; `None` where it cannot be laid at all.
#[must_use]
pub fn compared(site: &Site, way: OtherWay) -> Option<Compared> {
    let mut other = site.clone();
    match way {
        OtherWay::Bond(bond, courses) => {
            other.lay.bond = bond;
            other.lay.courses = courses;
        }
        OtherWay::Width { clear, joint } => {
            other.line.width = Some(clear);
            other.brick.joint = Some(joint);
        }
    }
    // What is wrong with the other way is shown when it is taken.
    let mut unused = Findings::default();
    let line = line(&other, &mut unused)?;
    let lay = super::lay(&other, &line.run, None, &mut unused);
    (!lay.pieces.all().is_empty()).then(|| Compared::of(&lay))
}
