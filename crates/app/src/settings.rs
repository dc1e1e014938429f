//! What a person has set for every site, worn by a context and kept when a tap changes it.

use std::time::Duration;

use egui::Context;
use underbrick_records::{Light, Settings, SettingsKeeper, Shelf};

use crate::platform::{KeepClear, device, keep_clear, screen, set_keep_clear};
use crate::theme::{self, Theme};

/// The settings of this start.
pub struct WornSettings {
    keeper: SettingsKeeper,
    read: Option<Settings>,
    /// What is wrong with the file, until it has been on screen.
    trouble: Option<String>,
    /// Whether there was a file that could not be used.
    is_left_out: bool,
    /// Whether a tap has set something since the start.
    is_changed: bool,
}

impl WornSettings {
    /// Reads the settings beside the site folders. Where they cannot be used the file stays as it is.
    pub fn read(shelf: &Shelf) -> Self {
        let keeper = SettingsKeeper::of(shelf.settings());
        let (read, trouble) = match Settings::of_file(keeper.path()) {
            Ok(read) => (read, None),
            Err(error) => {
                let words = format!(
                    "Your settings are left as they are and not used: text size and light start as usual, and are not kept until the file \
                     is mended or removed. {error}"
                );
                (None, Some(words))
            }
        };
        Self {
            is_left_out: trouble.is_some(),
            is_changed: false,
            keeper,
            read,
            trouble,
        }
    }

    /// Puts on what was read; without any, nothing changes.
    pub fn put_on(&self, context: &Context) {
        let Some(settings) = self.read else { return };
        theme::set_theme(
            context,
            match settings.light {
                Light::Sun => Theme::Sun,
                Light::Dim => Theme::Dim,
            },
        );
        theme::set_text_size(context, settings.text_size_percent);
        set_keep_clear(context, KeepClear::nearest(settings.keep_clear));
        device::set_letter(context, settings.device);
        screen::set_pixels_per_100_mm(context, Some(settings.pixels_per_100_mm));
    }

    /// What the context wears.
    pub fn worn(context: &Context) -> Settings {
        let light = match theme::current(context) {
            Theme::Sun => Light::Sun,
            Theme::Dim => Light::Dim,
        };
        let mut worn = Settings::new(theme::text_size(context), light);
        worn.keep_clear = keep_clear(context).whole_points();
        worn.device = device::letter(context);
        worn.pixels_per_100_mm = screen::pixels_per_100_mm(context).unwrap_or_default();
        worn
    }

    /// Keeps what the context wears, where that is other than `before`. Returns at once.
    pub fn keep_change(&mut self, before: Settings, context: &Context) {
        let now = Self::worn(context);
        if now != before {
            self.is_changed = true;
            self.keeper.keep(now);
        }
    }

    /// Whether the person has set anything, now or at an earlier start: then the device's own size of type is not asked any more.
    pub const fn is_set(&self) -> bool {
        self.read.is_some() || self.is_changed
    }

    /// Waits until what was set is on disk or refused, at most so long.
    pub fn flush(&self, at_most: Duration) -> bool {
        self.keeper.flush(at_most)
    }

    /// Why what was set last is not on disk; a file that was left out from the start has been told once.
    pub fn failure(&self) -> Option<String> {
        let failure = self.keeper.failure().filter(|_| !self.is_left_out)?;
        Some(format!("Text size and light are not kept. {failure}"))
    }

    /// What is wrong, in words, and has not been on screen yet.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// It has been on screen.
    pub fn said(&mut self) {
        self.trouble = None;
    }
}
