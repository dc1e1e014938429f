//! The look in one place: type, sizes and colours. Views name what they mean; no view writes a number for a colour or a type size.

use egui::{Color32, Context, FontData, FontDefinitions, FontFamily, FontId, Stroke, Vec2};
use std::sync::Arc;
use underbrick_drawing::font;
pub use underbrick_drawing::palette::{Ink, Theme};

/// Type sizes, in points at text size 100 %.
pub mod size {
    /// Ticks of a drawing only.
    pub const TICK: f32 = 13.0;
    /// Notes.
    pub const NOTE: f32 = 15.0;
    /// Labels.
    pub const LABEL: f32 = 17.0;
    /// Titles.
    pub const TITLE: f32 = 22.0;
    /// Values.
    pub const VALUE: f32 = 26.0;
    /// The pad's reading.
    pub const READING: f32 = 36.0;
    /// Height of a row.
    pub const ROW: f32 = 70.0;
    /// Least height of a key: the floor for a finger on a desktop window.
    pub const KEY: f32 = 64.0;
    /// Gap between keys and rows.
    pub const GAP: f32 = 6.0;
    /// Margin of a panel.
    pub const MARGIN: f32 = 12.0;
    /// Corner of rows and keys.
    pub const CORNER: u8 = 6;
}

/// Text sizes that are offered, in percent.
pub const TEXT_SIZES: [u16; 5] = [85, 100, 115, 130, 160];

/// The text size in force, in percent.
#[must_use]
pub fn text_size(context: &Context) -> u16 {
    context
        .data(|data| data.get_temp(text_size_id()))
        .unwrap_or(100)
}

/// Sets the text size: the nearest that is offered.
pub fn set_text_size(context: &Context, percent: u16) {
    let nearest = TEXT_SIZES
        .into_iter()
        .min_by_key(|offered| offered.abs_diff(percent))
        .unwrap_or(100);
    context.data_mut(|data| data.insert_temp(text_size_id(), nearest));
    context.all_styles_mut(|style| type_in(style, f32::from(nearest) / 100.0));
}

/// The text size that is offered nearest to a scale of type, in percent.
#[must_use]
pub fn percent_of(scale: f32) -> u16 {
    let wanted = scale * 100.0;
    TEXT_SIZES
        .into_iter()
        .min_by(|one, other| {
            let off = |percent: &u16| (f32::from(*percent) - wanted).abs();
            off(one).total_cmp(&off(other))
        })
        .unwrap_or(100)
}

/// Goes on to the next text size, and from the largest to the smallest.
pub fn next_text_size(context: &Context) {
    let now = text_size(context);
    let next = TEXT_SIZES.into_iter().find(|offered| *offered > now);
    set_text_size(context, next.unwrap_or(85));
}

/// How many times larger than the design all type is.
#[must_use]
pub fn text_scale(context: &Context) -> f32 {
    f32::from(text_size(context)) / 100.0
}

/// Points of a type size at the text size in force.
#[must_use]
pub fn sized(context: &Context, points: f32) -> f32 {
    points * text_scale(context)
}

/// A height that type stands in: grows with large type, and stays where a finger needs it with small type.
#[must_use]
pub fn tall(context: &Context, points: f32) -> f32 {
    points * text_scale(context).max(1.0)
}

fn text_size_id() -> egui::Id {
    egui::Id::unique("underbrick text size")
}

/// The family of bold type.
#[must_use]
pub fn bold_family() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// Bold type of a size.
#[must_use]
pub fn bold(points: f32) -> FontId {
    FontId::new(points, bold_family())
}

/// Regular type of a size.
#[must_use]
pub fn regular(points: f32) -> FontId {
    FontId::new(points, FontFamily::Proportional)
}

/// The colour of a meaning.
#[must_use]
pub fn color(ink: Ink, theme: Theme) -> Color32 {
    let [red, green, blue] = underbrick_drawing::palette::rgb(ink, theme);
    Color32::from_rgb(red, green, blue)
}

/// Installs type and style into a fresh context. Costs some milliseconds: once, at the start.
pub fn install(context: &Context, theme: Theme) {
    let mut fonts = FontDefinitions {
        font_data: Default::default(),
        families: Default::default(),
    };
    fonts.font_data.insert(
        "regular".to_owned(),
        Arc::new(FontData::from_static(font::REGULAR)),
    );
    fonts.font_data.insert(
        "bold".to_owned(),
        Arc::new(FontData::from_static(font::BOLD)),
    );
    let regular_first = || vec!["regular".to_owned(), "bold".to_owned()];
    fonts
        .families
        .insert(FontFamily::Proportional, regular_first());
    fonts
        .families
        .insert(FontFamily::Monospace, regular_first());
    fonts
        .families
        .insert(bold_family(), vec!["bold".to_owned(), "regular".to_owned()]);
    context.set_fonts(fonts);
    set_theme(context, theme);
}

/// Switches between sun and dim.
pub fn set_theme(context: &Context, theme: Theme) {
    context.set_theme(match theme {
        Theme::Sun => egui::Theme::Light,
        Theme::Dim => egui::Theme::Dark,
    });
    let scale = text_scale(context);
    context.all_styles_mut(|style| {
        style_in(style, theme);
        type_in(style, scale);
    });
}

/// Goes over to the other theme.
pub fn switch(context: &Context) {
    set_theme(
        context,
        match current(context) {
            Theme::Sun => Theme::Dim,
            Theme::Dim => Theme::Sun,
        },
    );
}

/// The theme in force.
#[must_use]
pub fn current(context: &Context) -> Theme {
    match context.theme() {
        egui::Theme::Light => Theme::Sun,
        egui::Theme::Dark => Theme::Dim,
    }
}

fn type_in(style: &mut egui::Style, scale: f32) {
    style.text_styles = [
        (egui::TextStyle::Small, regular(size::NOTE * scale)),
        (egui::TextStyle::Body, regular(size::LABEL * scale)),
        (egui::TextStyle::Button, regular(size::LABEL * scale)),
        (egui::TextStyle::Heading, bold(size::TITLE * scale)),
        (egui::TextStyle::Monospace, regular(size::LABEL * scale)),
    ]
    .into();
}

fn style_in(style: &mut egui::Style, theme: Theme) {
    let paint = |ink| color(ink, theme);
    style.animation_time = 0.0;
    style.spacing.item_spacing = Vec2::splat(size::GAP);
    style.spacing.interact_size = Vec2::new(size::KEY, size::KEY);
    style.spacing.button_padding = Vec2::new(14.0, 10.0);
    style.spacing.scroll = egui::style::ScrollStyle::solid();
    style.spacing.scroll.bar_width = 10.0;
    let visuals = &mut style.visuals;
    visuals.override_text_color = Some(paint(Ink::Ink));
    visuals.panel_fill = paint(Ink::Panel);
    visuals.window_fill = paint(Ink::Panel);
    visuals.extreme_bg_color = paint(Ink::Key);
    visuals.text_edit_bg_color = Some(paint(Ink::Key));
    visuals.selection.bg_fill = paint(Ink::LineGround);
    visuals.selection.stroke = Stroke::new(2.0, paint(Ink::Line));
    visuals.text_cursor.stroke = Stroke::new(2.0, paint(Ink::Line));
    visuals.widgets.noninteractive.bg_stroke = Stroke::new(1.0, paint(Ink::Hairline));
    for widget in [
        &mut visuals.widgets.inactive,
        &mut visuals.widgets.hovered,
        &mut visuals.widgets.active,
        &mut visuals.widgets.open,
    ] {
        widget.bg_fill = paint(Ink::Hairline);
        widget.weak_bg_fill = paint(Ink::Key);
        widget.bg_stroke = Stroke::new(1.0, paint(Ink::Hairline));
        widget.fg_stroke = Stroke::new(1.5, paint(Ink::Ink));
        widget.corner_radius = size::CORNER.into();
        widget.expansion = 0.0;
    }
}
