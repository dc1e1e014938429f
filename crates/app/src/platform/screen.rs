//! How large this screen truly is, as a person measured it with a card laid on it.

use egui::Context;

/// Width of a card as banks give it, in millimetres.
///
/// # Source
/// ISO/IEC 7810, format ID-1: 85.60 mm by 53.98 mm.
pub(crate) const CARD_WIDTH_MM: f32 = 85.6;

/// Height of a card as banks give it, in millimetres, as [`CARD_WIDTH_MM`].
pub(crate) const CARD_HEIGHT_MM: f32 = 53.98;

/// Pixels for 100 mm that a measurement can give: from a wall of light to the finest telephone.
const LEAST: u32 = 50;
const MOST: u32 = 5000;

/// Pixels that 100 mm take on this screen; `None` until a person has measured it.
#[must_use]
pub fn pixels_per_100_mm(context: &Context) -> Option<u32> {
    context.data(|data| data.get_temp(id())).flatten()
}

/// The screen was measured; what cannot be true counts as not measured.
pub fn set_pixels_per_100_mm(context: &Context, pixels: Option<u32>) {
    let known = pixels.filter(|pixels| (LEAST..=MOST).contains(pixels));
    context.data_mut(|data| data.insert_temp::<Option<u32>>(id(), known));
}

/// Points for each millimetre on this screen; `None` until it was measured.
pub(crate) fn points_per_mm(context: &Context) -> Option<f32> {
    let pixels = pixels_per_100_mm(context)?;
    Some(pixels as f32 / 100.0 / context.pixels_per_point())
}

/// What a measurement of so many points for a millimetre is kept as.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within what fits"
)]
pub(crate) fn measured(context: &Context, points_per_mm: f32) -> u32 {
    let pixels = points_per_mm * context.pixels_per_point() * 100.0;
    pixels.round().clamp(LEAST as f32, MOST as f32) as u32
}

fn id() -> egui::Id {
    egui::Id::unique("underbrick pixels per 100 mm")
}
