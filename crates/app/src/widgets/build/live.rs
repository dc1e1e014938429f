//! The live check: a needle over the band in which a reading is right, and words that are read from six feet away.

use egui::{Painter, Pos2, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::canvas::lettering::narrowed;
use crate::edit::Edit;
use crate::theme::{self, Ink, Theme, size};
use crate::widgets::key::{Key, cells};
use crate::widgets::mark::Mark;
use crate::widgets::words::{Face, Words};

/// What is shown of the reading that is set.
#[derive(Clone, Debug, PartialEq)]
pub struct Live {
    /// What is read, and where.
    pub what: String,
    /// What it must read.
    pub wanted: String,
    /// The verdict, big: `right`, `3/8" high`, `read it`.
    pub verdict: String,
    /// The same as a mark.
    pub mark: Mark,
    /// Under it: what to do, or how near it is.
    pub under: String,
    /// Where the needle stands: the band reaches from -1 to 1, up is high. `None` without a reading.
    pub needle: Option<f64>,
    /// Words at the upper and the lower end of the band.
    pub band: [String; 2],
    /// Keys under it.
    pub keys: Vec<(String, Edit)>,
}

/// Type of the verdict, in points at text size 100 %: read from six feet away.
const VERDICT: f32 = 44.0;
/// How far the needle swings to each side, in degrees.
const SWING: f32 = 56.0;
/// How many half bands that is.
const HALF_BANDS: f64 = 3.5;

/// Shows the live check in `rect`. Gives what its keys ask for.
pub(crate) fn live_ui(ui: &mut Ui, rect: Rect, live: &Live) -> Option<Edit> {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let whole = ui.interact(rect, ui.scope_id().with("live check"), Sense::hover());
    let said = [&live.what, &live.verdict, &live.under, &live.wanted]
        .into_iter()
        .filter(|part| !part.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ");
    whole.widget_info(move || WidgetInfo::labeled(Role::Label, true, said.clone()));
    ui.painter().rect_filled(rect, 0, ink(Ink::Paper));
    let inner = rect.shrink2(vec2(20.0, 12.0));
    let keys_height = if live.keys.is_empty() {
        0.0
    } else {
        size::KEY + 8.0
    };
    let body = Rect::from_min_max(inner.min, pos2(inner.max.x, inner.max.y - keys_height));
    let dial = Rect::from_min_size(
        body.min,
        vec2(
            (body.height() * 0.9).min(body.width() * 0.42),
            body.height(),
        ),
    );
    let right_of_dial = paint_dial(ui, dial, live, theme);
    let words = Rect::from_min_max(pos2(right_of_dial + 16.0, body.min.y), body.max);
    paint_words(ui, words, live, theme);
    let row = Rect::from_min_max(pos2(inner.min.x, inner.max.y - size::KEY), inner.max);
    let mut asked = None;
    for ((words, edit), cell) in live.keys.iter().zip(cells(row, live.keys.len().max(3))) {
        let key = Key::new(words.as_str()).on(Ink::Key, Ink::Line);
        if key.show(ui, cell).clicked() {
            asked = Some(edit.clone());
        }
    }
    asked
}

/// What is read and what it says, each line as big as the design has it; smaller where large type would hide what to do.
fn paint_words(ui: &Ui, rect: Rect, live: &Live, theme: Theme) {
    let painter = ui.painter().with_clip_rect(rect);
    let (mut set, mut times) = (Set::of(ui, live, rect.width(), 1.0), 1.0);
    while set.height > rect.height() && times > 0.4 {
        times -= 0.05;
        set = Set::of(ui, live, rect.width(), times);
    }
    let under_ink = if live.mark == Mark::Wrong {
        Ink::Wrong
    } else {
        Ink::Ink
    };
    let inks = [
        theme::color(Ink::SecondInk, theme),
        theme::color(Ink::Line, theme),
        live.mark.color(theme),
        theme::color(under_ink, theme),
    ];
    let mut top = rect.min.y;
    for ((nth, (words, line)), ink) in set.lines.iter().enumerate().zip(inks) {
        let middle = top + line / 2.0;
        let mut left = rect.min.x;
        if nth == VERDICT_LINE {
            let at = pos2(left + set.mark_room * 0.36, middle);
            live.mark.paint(&painter, at, set.mark_room * 0.72, theme);
            left += set.mark_room;
        }
        words.paint(&painter, pos2(left, middle), ink);
        top += line + words.more();
    }
}

/// Which of the lines of words is the verdict.
const VERDICT_LINE: usize = 2;

/// The lines of words set in type.
struct Set {
    /// Each with the height of its first line.
    lines: [(Words, f32); 4],
    mark_room: f32,
    height: f32,
}

impl Set {
    /// Type so many times as big as the design has it.
    fn of(ui: &Ui, live: &Live, room: f32, times: f32) -> Self {
        let mark_room = theme::sized(ui, VERDICT) * times;
        let set = |words: &str, face: Face, room: f32, line: f32| {
            let words = Words::broken(ui, words, face, room, Anchor::Left);
            (words, theme::tall(ui, line) * times)
        };
        let lines = [
            set(&live.what, Face::regular(size::LABEL * times), room, 26.0),
            set(&live.wanted, Face::bold(size::TITLE * times), room, 32.0),
            set(
                &live.verdict,
                Face::bold(VERDICT * times),
                room - mark_room,
                64.0,
            ),
            set(&live.under, Face::regular(size::TITLE * times), room, 32.0),
        ];
        let height = lines.iter().map(|(words, line)| line + words.more()).sum();
        Self {
            lines,
            mark_room,
            height,
        }
    }
}

/// The dial: its hub at the left, the band in the middle, high above it. Gives where it ends at the right, its words with it.
fn paint_dial(ui: &Ui, rect: Rect, live: &Live, theme: Theme) -> f32 {
    let painter = ui.painter();
    let ink = |ink: Ink| theme::color(ink, theme);
    let hub = pos2(rect.min.x + 22.0, rect.center().y);
    let swing = SWING.to_radians();
    // The arc stays within the height and the width.
    let radius = (rect.width() - 70.0)
        .min((rect.height() / 2.0 - theme::sized(ui, size::LABEL)) / swing.sin());
    let angle_of = |half_bands: f64| {
        let share = (half_bands / HALF_BANDS).clamp(-1.0, 1.0);
        narrowed(share) * swing
    };
    let spot = |angle: f32, radius: f32| hub + radius * vec2(angle.cos(), -angle.sin());
    let arc = |from: f32, to: f32, radius: f32| -> Vec<Pos2> {
        (0..=32)
            .map(|step| spot(from + (to - from) * step as f32 / 32.0, radius))
            .collect()
    };
    let band_end = angle_of(1.0);
    let off_band = Stroke::new(10.0, ink(Ink::Hairline));
    painter.add(Shape::line(arc(band_end, swing, radius), off_band));
    painter.add(Shape::line(arc(-swing, -band_end, radius), off_band));
    painter.add(Shape::line(
        arc(-band_end, band_end, radius),
        Stroke::new(22.0, ink(Ink::Right)),
    ));
    let tick = Stroke::new(2.0, ink(Ink::Ink));
    let mut right = hub.x + radius + 16.0;
    for (angle, words) in [(band_end, 0), (-band_end, 1)] {
        painter.line_segment(
            [spot(angle, radius - 16.0), spot(angle, radius + 16.0)],
            tick,
        );
        if let Some(words) = live.band.get(words) {
            let face = Face::regular(size::NOTE);
            let words = Words::broken(ui, words, face, 90.0, Anchor::Left);
            let at = spot(angle, radius + 20.0);
            words.paint(painter, at, ink(Ink::SecondInk));
            right = right.max(at.x + words.width());
        }
    }
    for (angle, words) in [(swing, "high"), (-swing, "low")] {
        let words = Words::broken(ui, words, Face::bold(size::LABEL), 90.0, Anchor::Left);
        let half = theme::sized(ui, size::LABEL) * 0.6;
        let at = spot(angle, radius + 14.0);
        let at = pos2(at.x, at.y.clamp(rect.min.y + half, rect.max.y - half));
        words.paint(painter, at, ink(Ink::SecondInk));
    }
    paint_needle(painter, live, (hub, radius), angle_of, theme);
    right
}

fn paint_needle(
    painter: &Painter,
    live: &Live,
    (hub, radius): (Pos2, f32),
    angle_of: impl Fn(f64) -> f32,
    theme: Theme,
) {
    let ink = theme::color(Ink::Ink, theme);
    match live.needle {
        Some(half_bands) => {
            let angle = angle_of(half_bands);
            let along = vec2(angle.cos(), -angle.sin());
            let across = vec2(along.y, -along.x) * 7.0;
            painter.add(Shape::convex_polygon(
                vec![hub + across, hub + along * (radius - 3.0), hub - across],
                live.mark.color(theme),
                Stroke::new(1.5, ink),
            ));
        }
        None => painter.extend(Shape::dashed_line(
            &[hub, hub + vec2(radius - 20.0, 0.0)],
            Stroke::new(3.0, theme::color(Ink::NotKnown, theme)),
            9.0,
            7.0,
        )),
    }
    painter.circle_filled(hub, 13.0, ink);
    painter.circle_filled(hub, 5.0, theme::color(Ink::Paper, theme));
}
