//! The column of names at the right of a section, each with a leader to its thing.

use super::super::{Frame, sizes};
use super::Part;
use super::names::PlainName;
use crate::cross_section::missing::wrapped;
use crate::draft::{Draft, HAIRLINE, Lettering, Sizes, solid, width_of};
use crate::inside::cross;
use crate::item::{Anchor, Point, Sheet};
use crate::palette::Ink;
use crate::spread::{Wish, spread};
use crate::text::Text;

/// From the ground to the names, in dots: leaders slant here.
const LEADERS: f64 = 30.0;
/// Space to the edge of the sheet, in dots.
const MARGIN: f64 = 12.0;
/// Space between two names, in dots.
const GAP: f64 = 6.0;

/// A name with what its leader points at.
#[derive(Clone, Debug)]
pub(super) struct Named {
    pub name: PlainName,
    pub ink: Ink,
    /// 0 is dropped last.
    pub rank: u8,
    /// Where the leader ends.
    pub at: Point,
    /// The step with which it appears; `None` for what is there from the start.
    pub since: Option<Part>,
}

/// Up to which rank names are kept, and up to which their notes, from the most to the least.
const KEPT: [(u8, Option<u8>); 12] = [
    (u8::MAX, Some(u8::MAX)),
    (u8::MAX, Some(3)),
    (u8::MAX, Some(2)),
    (u8::MAX, Some(1)),
    (3, Some(1)),
    (3, Some(0)),
    (2, Some(1)),
    (2, Some(0)),
    (3, None),
    (2, None),
    (1, None),
    (0, None),
];

/// A name, broken into lines.
#[derive(Clone)]
struct Lines {
    named: Named,
    title: Vec<String>,
    note: Vec<String>,
    /// Where the leader ends, in dots.
    end: (f64, f64),
}

impl Lines {
    fn height(&self, sizes: Sizes) -> f64 {
        let rows = |lines: &[String]| f64::from(u8::try_from(lines.len()).unwrap_or(u8::MAX));
        rows(&self.title) * title_row(sizes) + rows(&self.note) * note_row(sizes)
    }

    /// Where the leader starts, in dots, for a name with this middle.
    fn start(&self, middle: f64, left: f64, sizes: Sizes) -> (f64, f64) {
        let top = middle - self.height(sizes) / 2.0;
        (left - 5.0, top + 0.55 * title_row(sizes))
    }
}

/// How much wider than regular type bold type may run.
const BOLD_WIDER: f64 = 1.12;

fn title_row(sizes: Sizes) -> f64 {
    1.16 * sizes.label
}

fn note_row(sizes: Sizes) -> f64 {
    1.18 * sizes.note
}

/// Width that the names take with their leaders, in dots: at most two fifths of the sheet.
pub(super) fn width<'a>(names: impl Iterator<Item = &'a Named>, sheet: Sheet) -> f64 {
    let sizes = Sizes::on(sheet);
    let most = 0.4 * sheet.width - LEADERS;
    let widest = names
        .flat_map(|named| {
            [
                width_of(&Text::bold(&named.name.title), sizes.label),
                width_of(&Text::regular(&named.name.note), sizes.note),
            ]
        })
        .fold(0.0, f64::max);
    let least = width_of(&Text::bold("the ground that"), sizes.label);
    if least > most {
        return 0.0;
    }
    LEADERS + (widest + 1.0).min(most)
}

/// Draws as many of the names, and of their notes, as there is room for: see [`KEPT`].
pub(super) fn draw(draft: &mut Draft, frame: &Frame, named: Vec<Named>, width: f64) {
    let sheet = draft.sheet();
    let sizes = Sizes::on(sheet);
    let room = width - LEADERS;
    if room <= 0.0 {
        return;
    }
    let left = sheet.width - MARGIN - room;
    let mut all: Vec<Lines> = named
        .into_iter()
        .filter_map(|named| {
            let (x, y) = draft.dots(named.at);
            let end = (x.clamp(frame.left + 4.0, frame.right - 4.0), y);
            // Bold type runs wider than the regular type by which lines are broken.
            let title = wrapped(&named.name.title, room / BOLD_WIDER, sizes.label);
            let note = wrapped(&named.name.note, room, sizes.note);
            (y < frame.bottom).then_some(Lines {
                named,
                title,
                note,
                end,
            })
        })
        .collect();
    all.sort_by(|one, other| one.end.1.total_cmp(&other.end.1));
    let span = (MARGIN, sheet.height - sizes::level_room(sizes, 0) + 6.0);
    let fitting = KEPT.into_iter().find_map(|(names, notes)| {
        let kept = all.iter().filter(|lines| lines.named.rank <= names);
        let mut kept: Vec<Lines> = kept.cloned().collect();
        for lines in &mut kept {
            if notes.is_none_or(|notes| lines.named.rank > notes) {
                lines.note.clear();
            }
        }
        let middles = uncrossed(&mut kept, left, sizes, span)?;
        Some((kept, middles))
    });
    let Some((all, middles)) = fitting else {
        return;
    };
    for (lines, middle) in all.iter().zip(&middles) {
        let leader = [lines.start(*middle, left, sizes), lines.end];
        draft.stroke(&leader, solid(Ink::Paper, 3.0), None);
        draft.stroke(&leader, solid(lines.named.ink, HAIRLINE + 0.2), None);
        draft.disc(lines.end, 4.2, Ink::Paper, None);
        let place = Some(lines.named.name.place);
        draft.disc(lines.end, 3.2, lines.named.ink, place);
    }
    for (lines, middle) in all.iter().zip(&middles) {
        letter(draft, lines, (left, *middle), sizes);
    }
}

/// The words of one name, their middle at a height.
fn letter(draft: &mut Draft, lines: &Lines, (left, middle): (f64, f64), sizes: Sizes) {
    let ink = lines.named.ink;
    let note_ink = if ink == Ink::Ink { Ink::SecondInk } else { ink };
    let mut y = middle - lines.height(sizes) / 2.0;
    let mut set = |text: Text, size: f64, row: f64, ink: Ink| {
        let lettering = Lettering {
            text,
            size,
            ink,
            anchor: Anchor::Left,
            place: Some(lines.named.name.place),
        };
        draft.label((left, y + 0.5 * row), lettering);
        y += row;
    };
    for title in &lines.title {
        set(Text::bold(title), sizes.label, title_row(sizes), ink);
    }
    for note in &lines.note {
        set(Text::regular(note), sizes.note, note_row(sizes), note_ink);
    }
}

/// Middles of all names, in an order in which no two leaders cross: each change of order makes the leaders shorter, so that it ends.
/// `None` where there is not room for all.
fn uncrossed(
    all: &mut [Lines],
    left: f64,
    sizes: Sizes,
    (low, high): (f64, f64),
) -> Option<Vec<f64>> {
    for _ in 0..64 {
        let wishes: Vec<Wish> = all
            .iter()
            .map(|lines| Wish {
                middle: lines.end.1,
                room: lines.height(sizes) + GAP,
            })
            .collect();
        let middles = spread(&wishes, low, high)?;
        let point = |(x, y): (f64, f64)| Point { x, y };
        let leaders: Vec<(Point, Point)> = all
            .iter()
            .zip(&middles)
            .map(|(lines, middle)| {
                let start = lines.start(*middle, left, sizes);
                (point(start), point(lines.end))
            })
            .collect();
        let crossing = leaders.iter().enumerate().find_map(|(one, leader)| {
            let others = leaders.iter().enumerate().skip(one + 1);
            let mut others = others.filter(|(_, other)| cross(*leader, **other));
            others.next().map(|(other, _)| (one, other))
        });
        match crossing {
            Some((one, other)) => all.swap(one, other),
            None => return Some(middles),
        }
    }
    None
}
