//! The edges of the screen that are the system's: nothing to tap stands under them.

use std::time::Duration;

use egui::epaint::MarginF32;
use egui::{Context, RawInput, SafeAreaInsets, Vec2};

/// For how long the edges are looked at again after the window has changed, in seconds: a system tells them some time after the size.
const SETTLES_IN_S: f64 = 1.5;

/// How often.
const LOOK_EVERY: Duration = Duration::from_millis(250);

/// How far from each edge of the window the system covers it, in pixels of the screen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Edges {
    /// From the left edge.
    pub left: u32,
    /// From the top.
    pub top: u32,
    /// From the right edge.
    pub right: u32,
    /// From the bottom.
    pub bottom: u32,
}

impl Edges {
    /// Around a rectangle that the system leaves free, both in pixels: left, top, right and bottom of it, and width and height of the window.
    /// None around a rectangle without area, which is what Android tells before the first layout.
    #[must_use]
    pub fn around(free: [i32; 4], (width, height): (i32, i32)) -> Self {
        let [left, top, right, bottom] = free;
        if right <= left || bottom <= top {
            return Self::default();
        }
        let up_to = |pixels: i32| u32::try_from(pixels).unwrap_or(0);
        Self {
            left: up_to(left),
            top: up_to(top),
            right: up_to(width.saturating_sub(right)),
            bottom: up_to(height.saturating_sub(bottom)),
        }
    }

    /// In points, and at least `keep_clear`.
    fn in_points(self, pixels_per_point: f32, keep_clear: KeepClear) -> MarginF32 {
        let points = |pixels: u32| {
            // A screen has fewer pixels than an f32 counts exactly.
            let pixels = f32::from(u16::try_from(pixels).unwrap_or(u16::MAX));
            pixels / pixels_per_point.max(0.1)
        };
        let least = f32::from(keep_clear.0);
        MarginF32 {
            left: points(self.left).max(least),
            top: points(self.top).max(least),
            right: points(self.right).max(least),
            bottom: points(self.bottom).max(least),
        }
    }
}

/// What a person keeps clear at every edge himself, where the system does not tell what it covers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct KeepClear(u8);

impl KeepClear {
    /// What is offered, in points: nothing, a status bar, a bar with keys.
    pub const OFFERED: [Self; 3] = [Self(0), Self(24), Self(48)];

    /// The nearest that is offered.
    #[must_use]
    pub fn nearest(points: u16) -> Self {
        Self::OFFERED
            .into_iter()
            .min_by_key(|offered| u16::from(offered.0).abs_diff(points))
            .unwrap_or_default()
    }

    /// The next that is offered, and after the last the first.
    #[must_use]
    pub fn next(self) -> Self {
        let next = Self::OFFERED.into_iter().find(|offered| offered.0 > self.0);
        next.unwrap_or_default()
    }

    /// In points.
    #[must_use]
    pub fn whole_points(self) -> u16 {
        u16::from(self.0)
    }
}

/// What a person keeps clear in this context.
#[must_use]
pub fn keep_clear(context: &Context) -> KeepClear {
    context
        .data(|data| data.get_temp(keep_clear_id()))
        .unwrap_or_default()
}

/// Keeps so much clear from the next frame on.
pub fn set_keep_clear(context: &Context, keep_clear: KeepClear) {
    context.data_mut(|data| data.insert_temp(keep_clear_id(), keep_clear));
}

fn keep_clear_id() -> egui::Id {
    egui::Id::unique("underbrick edges kept clear")
}

/// Hands the edges to egui, and looks at them again for a while after something has changed.
#[derive(Clone, Debug, Default)]
pub(crate) struct EdgesWatch {
    seen: Option<(Edges, Vec2)>,
    look_until_s: f64,
}

impl EdgesWatch {
    /// To be called before each frame with its input.
    pub fn hand_over(&mut self, edges: Edges, context: &Context, raw: &mut RawInput) {
        let pixels_per_point = pixels_per_point(context, raw);
        let in_points = edges.in_points(pixels_per_point, keep_clear(context));
        raw.safe_area_insets = Some(SafeAreaInsets(in_points));
        let size = raw.screen_rect.map(|rect| rect.size()).unwrap_or_default();
        let now_s = raw
            .time
            .unwrap_or_else(|| context.input(|input| input.time));
        if self.seen != Some((edges, size)) {
            self.seen = Some((edges, size));
            self.look_until_s = now_s + SETTLES_IN_S;
        }
    }

    /// To be called within each frame: asks for another while the edges may still move.
    pub fn look_again(&self, context: &Context) {
        // The system's keyboard comes and goes while words are typed, and says so by the edges alone.
        let now_s = context.input(|input| input.time);
        if self.seen.is_some() && (now_s < self.look_until_s || context.egui_wants_keyboard_input())
        {
            context.request_repaint_after(LOOK_EVERY);
        }
    }
}

/// Pixels for each point in the frame that begins with this input: the scale of the screen may just have changed.
fn pixels_per_point(context: &Context, raw: &RawInput) -> f32 {
    let native = raw.viewport().native_pixels_per_point.unwrap_or(1.0);
    native * context.zoom_factor()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(free: [i32; 4], window: (i32, i32), edges: [u32; 4]) {
        let [left, top, right, bottom] = edges;
        let expected = Edges {
            left,
            top,
            right,
            bottom,
        };
        assert_eq!(Edges::around(free, window), expected);
    }

    #[test]
    fn edges_are_what_the_free_rectangle_leaves() {
        // A status bar of 48 pixels, a bar with keys of 96.
        check([0, 48, 2560, 1504], (2560, 1600), [0, 48, 0, 96]);
        // A cut-out at the left, keys at the right.
        check([80, 0, 2464, 1600], (2560, 1600), [80, 0, 96, 0]);
        // Nothing is covered.
        check([0, 0, 800, 1280], (800, 1280), [0, 0, 0, 0]);
        // Before the first layout.
        check([0, 0, 0, 0], (800, 1280), [0, 0, 0, 0]);
        // Told for the window as it was before a rotation: nothing negative comes of it.
        check([0, 48, 2560, 1600], (1600, 2560), [0, 48, 0, 960]);
        check([-5, -5, 900, 1300], (800, 1280), [0, 0, 0, 0]);
    }

    #[test]
    fn a_person_keeps_more_clear_than_the_system_tells() {
        let edges = Edges {
            top: 90,
            ..Edges::default()
        };
        // 90 pixels at 2 a point are 45 points.
        let none = edges.in_points(2.0, KeepClear::default());
        assert_eq!((none.top, none.bottom), (45.0, 0.0));
        let some = edges.in_points(2.0, KeepClear::nearest(30));
        assert_eq!((some.top, some.bottom), (45.0, 24.0));
    }
}
