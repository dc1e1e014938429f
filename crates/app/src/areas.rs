//! Where everything on an open site's screen stands, lying and upright.

use egui::{Rect, pos2, vec2};

use crate::theme::size;

/// Width of the gauge rod's column in landscape.
const ROD_WIDTH: f32 = 104.0;
/// Width of the entries in landscape.
const ENTRIES_WIDTH: f32 = 408.0;
/// Height of the pad.
const PAD_HEIGHT: f32 = 396.0;
/// Height of the title bar.
pub(crate) const TITLE_HEIGHT: f32 = 56.0;

/// Where everything stands.
#[derive(Clone, Copy)]
pub(crate) struct Areas {
    pub rod: Rect,
    pub staff: Rect,
    pub sites: Rect,
    pub undo: Rect,
    pub redo: Rect,
    pub theme: Rect,
    pub title: Rect,
    pub cross: Rect,
    pub long: Rect,
    pub entries: Rect,
    pub pad: Rect,
}

/// Share of the ground's height that the cross-section keeps beside the plan.
const CROSS_BESIDE_PLAN: f32 = 0.36;

impl Areas {
    /// The same with the plan in the place of the long section, and most of the height.
    pub fn with_plan(self) -> Self {
        let (top, bottom) = (self.cross.min.y, self.long.max.y);
        let split = top + (bottom - top) * CROSS_BESIDE_PLAN;
        Self {
            cross: Rect::from_min_max(self.cross.min, pos2(self.cross.max.x, split)),
            long: Rect::from_min_max(pos2(self.long.min.x, split), self.long.max),
            ..self
        }
    }

    /// The same with the entries in the place of the pad too.
    pub fn without_pad(self) -> Self {
        Self {
            entries: self.entries.union(self.pad),
            pad: Rect::NOTHING,
            ..self
        }
    }

    /// Rod at the left, ground in the middle, what is written down at the right.
    pub fn landscape(whole: Rect, text_scale: f32) -> Self {
        let entries_width = ENTRIES_WIDTH.min(whole.width() * 0.45);
        let rod = Rect::from_min_size(whole.min, vec2(ROD_WIDTH, whole.height()));
        let right = Rect::from_min_max(pos2(whole.max.x - entries_width, whole.min.y), whole.max);
        let middle =
            Rect::from_min_max(pos2(rod.max.x, whole.min.y), pos2(right.min.x, whole.max.y));
        let title = Rect::from_min_size(middle.min, vec2(middle.width(), TITLE_HEIGHT));
        let split = title.max.y + (middle.max.y - title.max.y) * 0.54;
        let inner = rod.shrink2(vec2(10.0, 12.0));
        let key =
            |top: f32| Rect::from_min_size(pos2(inner.min.x, top), vec2(inner.width(), size::KEY));
        let step = size::KEY + size::GAP;
        let theme = key(inner.max.y - size::KEY);
        let redo = key(theme.min.y - step);
        let undo = key(redo.min.y - step);
        let sites = key(inner.min.y);
        let pad_height = pad_height(text_scale).min(whole.height() * 0.55);
        Self {
            rod,
            staff: Rect::from_min_max(
                pos2(rod.min.x, sites.max.y + 14.0),
                pos2(rod.max.x, undo.min.y - 14.0),
            ),
            sites,
            undo,
            redo,
            theme,
            title,
            cross: Rect::from_min_max(
                pos2(middle.min.x, title.max.y + 1.0),
                pos2(middle.max.x, split),
            ),
            long: Rect::from_min_max(pos2(middle.min.x, split), middle.max),
            entries: Rect::from_min_max(right.min, pos2(right.max.x, right.max.y - pad_height)),
            pad: Rect::from_min_max(pos2(right.min.x, right.max.y - pad_height), right.max),
        }
    }

    /// Ground on top, entries and pad below it, the rod along the bottom edge under the thumb.
    pub fn portrait(whole: Rect, text_scale: f32) -> Self {
        let rod = Rect::from_min_max(pos2(whole.min.x, whole.max.y - 96.0), whole.max);
        let pad_height = (pad_height(text_scale) + 60.0).min(whole.height() * 0.36);
        let lower = Rect::from_min_max(
            pos2(whole.min.x, rod.min.y - pad_height),
            pos2(whole.max.x, rod.min.y),
        );
        let title = Rect::from_min_size(whole.min, vec2(whole.width(), TITLE_HEIGHT));
        let split = title.max.y + (lower.min.y - title.max.y) * 0.56;
        let inner = rod.shrink2(vec2(10.0, 14.0));
        let key_width = 68.0;
        let key = |left: f32| {
            Rect::from_min_size(pos2(left, inner.min.y), vec2(key_width, inner.height()))
        };
        let step = key_width + size::GAP;
        let theme = key(inner.max.x - key_width);
        let redo = key(theme.min.x - step);
        let undo = key(redo.min.x - step);
        let sites = key(inner.min.x);
        let middle = lower.center().x;
        Self {
            rod,
            staff: Rect::from_min_max(
                pos2(sites.max.x + 8.0, rod.min.y),
                pos2(undo.min.x - 8.0, rod.max.y),
            ),
            sites,
            undo,
            redo,
            theme,
            title,
            cross: Rect::from_min_max(
                pos2(whole.min.x, title.max.y + 1.0),
                pos2(whole.max.x, split),
            ),
            long: Rect::from_min_max(pos2(whole.min.x, split), pos2(whole.max.x, lower.min.y)),
            entries: Rect::from_min_max(lower.min, pos2(middle, lower.max.y)),
            pad: Rect::from_min_max(pos2(middle, lower.min.y), lower.max),
        }
    }
}

/// Large type gets room for a third line of help over the keys.
fn pad_height(text_scale: f32) -> f32 {
    PAD_HEIGHT + help_height(text_scale) - help_height(1.0)
}

/// Height of the help over the keys of the pad: two lines, with large type three. It grows no more past 130 %, for the keys below it
/// stay big enough for a finger.
pub(crate) fn help_height(text_scale: f32) -> f32 {
    if text_scale > 1.0 {
        63.0 * text_scale.min(1.3)
    } else {
        42.0
    }
}
