//! The laying order: course by course, what is taken from the stack, and where each piece is set in.

use super::cuts::{CutLine, CutList};
use super::pieces::{Kind, Part, Piece, Pieces};
use crate::quantity::Length;

/// One course, or one row across, in the order in which it is laid.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// Field or edge.
    pub part: Part,
    /// Its number, from the side where laying starts.
    pub number: u32,
    /// Pieces in it.
    pub n_pieces: u32,
    /// What is laid, from the door on (across the run: from the starting side).
    pub layings: Vec<Laying>,
}

/// Some pieces of one kind and size, one after another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laying {
    /// How many.
    pub n_pieces: u32,
    /// Whole, or how it is cut.
    pub kind: Kind,
    /// Its line in the cut list; `None` for whole brick.
    pub line_idx: Option<usize>,
    /// Number of the first of them within the course.
    pub first_nth: u32,
    /// Station of the first one's middle.
    pub station: Length,
}

impl Course {
    /// Pieces set in between: cut, and neither first nor last of their course.
    pub fn set_in(&self) -> impl Iterator<Item = &Laying> {
        let n_layings = self.layings.len();
        self.layings
            .iter()
            .enumerate()
            .filter(move |(idx, laying)| laying.kind.is_cut() && *idx > 0 && idx + 1 < n_layings)
            .map(|(_, laying)| laying)
    }
}

/// All courses of `pieces`, in the order in which the pieces stand.
#[must_use]
pub fn course_table(pieces: &Pieces, cuts: &CutList) -> Vec<Course> {
    let mut courses: Vec<Course> = Vec::new();
    for (piece_idx, piece) in pieces.all().iter().enumerate() {
        let starts_new = courses
            .last()
            .is_none_or(|course| (course.part, course.number) != (piece.part, piece.course));
        if starts_new {
            courses.push(Course {
                part: piece.part,
                number: piece.course,
                n_pieces: 0,
                layings: Vec::new(),
            });
        }
        if let Some(course) = courses.last_mut() {
            take(course, piece, cuts.line_idx(piece_idx));
        }
    }
    courses
}

fn take(course: &mut Course, piece: &Piece, line_idx: Option<usize>) {
    course.n_pieces = course.n_pieces.saturating_add(1);
    if let Some(laying) = course
        .layings
        .last_mut()
        .filter(|laying| (laying.kind, laying.line_idx) == (piece.kind, line_idx))
    {
        laying.n_pieces = laying.n_pieces.saturating_add(1);
        return;
    }
    course.layings.push(Laying {
        n_pieces: 1,
        kind: piece.kind,
        line_idx,
        first_nth: piece.nth,
        station: piece.station,
    });
}

impl Laying {
    /// Its line in `cuts`; `None` for whole brick.
    #[must_use]
    pub fn line<'a>(&self, cuts: &'a CutList) -> Option<&'a CutLine> {
        cuts.lines.get(self.line_idx?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lay::cuts::CutFrom;
    use crate::lay::pieces::{Label, PlanPoint};
    use crate::quantity::{feet, inches};
    use crate::site::ShownIn;

    #[test]
    fn two_courses_by_hand() {
        // whole whole half whole | half whole whole
        let kinds = [
            (1, Kind::Whole),
            (1, Kind::Whole),
            (1, Kind::Half),
            (1, Kind::Whole),
            (2, Kind::Half),
            (2, Kind::Whole),
            (2, Kind::Whole),
        ];
        let mut pieces = Pieces::default();
        for (nth, (course, kind)) in (1_u32..).zip(kinds) {
            let length = if kind == Kind::Half { 3.9375 } else { 8.0 };
            let label = Label {
                part: Part::Field,
                course,
                nth: if course == 1 { nth } else { nth - 4 },
                kind,
                length: inches(length),
                width: inches(4.0),
                station: feet(f64::from(nth)),
            };
            let outline = [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]
                .map(|(right_m, away_m)| PlanPoint { right_m, away_m });
            pieces.add(label, &outline);
        }
        let from = CutFrom {
            length: inches(8.0),
            width: inches(4.0),
            kerf: inches(0.125),
        };
        let cuts = CutList::of(&pieces, from, None, ShownIn::FeetInches);
        let table = course_table(&pieces, &cuts);
        let laid: Vec<Vec<(u32, Kind, u32)>> = table
            .iter()
            .map(|course| {
                course
                    .layings
                    .iter()
                    .map(|laying| (laying.n_pieces, laying.kind, laying.first_nth))
                    .collect()
            })
            .collect();
        assert_eq!(
            laid,
            [
                vec![(2, Kind::Whole, 1), (1, Kind::Half, 3), (1, Kind::Whole, 4)],
                vec![(1, Kind::Half, 1), (2, Kind::Whole, 2)],
            ]
        );
        let set_in: Vec<Length> = table
            .iter()
            .flat_map(Course::set_in)
            .map(|laying| laying.station)
            .collect();
        assert_eq!(set_in, [feet(3.0)]);
    }
}
