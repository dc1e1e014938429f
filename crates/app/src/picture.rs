//! A picture of a screen or a drawing without a window or a GPU: a small rasteriser of egui's meshes.
//!
//! egui hands its painter triangles with a colour and a texture coordinate at each corner, clipped to rectangles. That is all that is
//! drawn here: top-left fill rule, bilinear texture, premultiplied blending in gamma space, as egui's own painters do.

use std::collections::BTreeMap;

use egui::epaint::{ClippedPrimitive, ImageData, ImageDelta, Mesh, Primitive, TextureId, Vertex};
use egui::{Color32, Context, Pos2, RawInput, Rect, TexturesDelta, Vec2};
use underbrick_drawing::item::Drawing;

use crate::canvas;
use crate::canvas::lettering::narrowed;
use crate::theme::{self, Ink, Theme};

/// Why no picture could be made.
#[derive(Debug, thiserror::Error)]
pub enum PictureError {
    /// Nothing to draw on.
    #[error("a picture of {width} by {height} pixels is outside 1 to {most} a side")]
    Size {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
        /// Most of either.
        most: usize,
    },
    /// The PNG encoder refused.
    #[error("the picture could not be written as PNG: {0}")]
    Png(#[from] png::EncodingError),
}

/// Most pixels a side: more than any screen has.
const MOST_PIXELS: usize = 8192;

/// A finished picture: rows from the top, each pixel red, green, blue, alpha.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Four bytes a pixel.
    pub rgba: Vec<u8>,
}

impl Picture {
    /// The picture as the bytes of a PNG file.
    ///
    /// # Errors
    /// [`PictureError`] when it has no pixels or the encoder refuses.
    pub fn png(&self) -> Result<Vec<u8>, PictureError> {
        let size_error = || PictureError::Size {
            width: self.width,
            height: self.height,
            most: MOST_PIXELS,
        };
        let width = u32::try_from(self.width).map_err(|_| size_error())?;
        let height = u32::try_from(self.height).map_err(|_| size_error())?;
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, width, height);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        let mut writer = encoder.write_header()?;
        writer.write_image_data(&self.rgba)?;
        writer.finish()?;
        Ok(bytes)
    }
}

/// A context of its own with the textures that it has handed out so far: takes pictures one after the other.
pub struct Camera {
    context: Context,
    brush: Brush,
    time_s: f64,
}

impl Camera {
    /// With type and style installed.
    #[must_use]
    pub fn new(theme: Theme) -> Self {
        let context = Context::default();
        theme::install(&context, theme);
        Self {
            context,
            brush: Brush::default(),
            time_s: 0.0,
        }
    }

    /// The context that it shows.
    #[must_use]
    pub const fn context(&self) -> &Context {
        &self.context
    }

    /// Runs `show` as one whole window of `size` points for a few passes, so that layout settles and what is lit has gone out, and takes
    /// its picture.
    ///
    /// # Errors
    /// [`PictureError::Size`] when `size` and `pixels_per_point` give no picture.
    pub fn take(
        &mut self,
        size: Vec2,
        pixels_per_point: f32,
        mut show: impl FnMut(&mut egui::Ui),
    ) -> Result<Picture, PictureError> {
        let mut picture = Err(PictureError::Size {
            width: 0,
            height: 0,
            most: MOST_PIXELS,
        });
        for _ in 0..4 {
            self.time_s += 0.5;
            let mut input = RawInput {
                screen_rect: Some(Rect::from_min_size(Pos2::ZERO, size)),
                time: Some(self.time_s),
                ..RawInput::default()
            };
            if let Some(viewport) = input.viewports.get_mut(&input.viewport_id) {
                viewport.native_pixels_per_point = Some(pixels_per_point);
            }
            let mut output = self.context.run_ui(input, &mut show);
            self.brush.take_textures(&mut output.textures_delta);
            let primitives = self
                .context
                .tessellate(output.shapes, output.pixels_per_point);
            picture = self.brush.paint(&primitives, size, output.pixels_per_point);
        }
        picture
    }
}

/// A picture of a drawing alone, on its paper.
///
/// # Errors
/// [`PictureError::Size`] when its sheet gives no picture.
pub fn of_drawing(
    drawing: &Drawing,
    theme: Theme,
    pixels_per_point: f32,
) -> Result<Picture, PictureError> {
    let size = Vec2::new(
        narrowed(drawing.sheet.width),
        narrowed(drawing.sheet.height),
    );
    Camera::new(theme).take(size, pixels_per_point, |ui| {
        let painter = ui.painter();
        painter.rect_filled(ui.max_rect(), 0, theme::color(Ink::Paper, theme));
        painter.extend(canvas::shapes(painter, drawing, Pos2::ZERO, theme));
    })
}

/// Textures, and how to paint with them.
#[derive(Default)]
pub struct Brush {
    textures: BTreeMap<TextureId, Texture>,
}

struct Texture {
    width: usize,
    height: usize,
    pixels: Vec<Color32>,
}

impl Brush {
    /// Takes in the texture changes of one pass and leaves `delta` empty.
    pub fn take_textures(&mut self, delta: &mut TexturesDelta) {
        let changes = std::mem::take(delta);
        for (id, images) in &changes.set {
            for image in images {
                self.set_texture(*id, image);
            }
        }
        for id in &changes.free {
            self.textures.remove(id);
        }
        let mut changes = changes;
        changes.clear();
    }

    fn set_texture(&mut self, id: TextureId, delta: &ImageDelta) {
        let ImageData::Color(image) = &delta.image;
        let [width, height] = image.size;
        match delta.pos {
            None => {
                self.textures.insert(
                    id,
                    Texture {
                        width,
                        height,
                        pixels: image.pixels.clone(),
                    },
                );
            }
            Some([left, top]) => {
                let Some(texture) = self.textures.get_mut(&id) else {
                    return;
                };
                for (row_idx, row) in image.pixels.chunks_exact(width.max(1)).enumerate() {
                    let start = (top + row_idx) * texture.width + left;
                    if let Some(target) = texture.pixels.get_mut(start..start + width) {
                        target.copy_from_slice(row);
                    }
                }
            }
        }
    }

    /// Paints the primitives of one pass.
    ///
    /// # Errors
    /// [`PictureError::Size`] when there would be no pixel, or too many.
    pub fn paint(
        &self,
        primitives: &[ClippedPrimitive],
        size: Vec2,
        pixels_per_point: f32,
    ) -> Result<Picture, PictureError> {
        let width = whole(size.x * pixels_per_point);
        let height = whole(size.y * pixels_per_point);
        if width == 0 || height == 0 || width > MOST_PIXELS || height > MOST_PIXELS {
            return Err(PictureError::Size {
                width,
                height,
                most: MOST_PIXELS,
            });
        }
        let mut canvas = Canvas {
            width,
            height,
            pixels: vec![[0.0; 4]; width * height],
        };
        for primitive in primitives {
            if let Primitive::Mesh(mesh) = &primitive.primitive
                && let Some(texture) = self.textures.get(&mesh.texture_id)
            {
                canvas.mesh(mesh, texture, primitive.clip_rect, pixels_per_point);
            }
        }
        Ok(canvas.finish())
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the range of a picture just before"
)]
fn whole(value: f32) -> usize {
    value.round().clamp(0.0, 65_536.0) as usize
}

struct Canvas {
    width: usize,
    height: usize,
    pixels: Vec<[f32; 4]>,
}

/// A corner in pixels.
#[derive(Clone, Copy)]
struct Corner {
    x: f32,
    y: f32,
    u: f32,
    v: f32,
    color: [f32; 4],
}

impl Canvas {
    fn mesh(&mut self, mesh: &Mesh, texture: &Texture, clip: Rect, pixels_per_point: f32) {
        let clip = [
            whole(clip.min.x * pixels_per_point).min(self.width),
            whole(clip.min.y * pixels_per_point).min(self.height),
            whole(clip.max.x * pixels_per_point).min(self.width),
            whole(clip.max.y * pixels_per_point).min(self.height),
        ];
        let corner = |idx: &u32| {
            mesh.vertices
                .get(*idx as usize)
                .map(|vertex| corner(vertex, pixels_per_point))
        };
        for triangle in mesh.indices.chunks_exact(3) {
            let [a, b, c] = triangle else { continue };
            if let (Some(a), Some(b), Some(c)) = (corner(a), corner(b), corner(c)) {
                self.triangle(a, b, c, texture, clip);
            }
        }
    }

    fn triangle(&mut self, a: Corner, b: Corner, c: Corner, texture: &Texture, clip: [usize; 4]) {
        let twice_area = edge(a, b, c.x, c.y);
        if !twice_area.is_finite() || twice_area == 0.0 {
            return;
        }
        let (b, c, twice_area) = if twice_area < 0.0 {
            (c, b, -twice_area)
        } else {
            (b, c, twice_area)
        };
        let [clip_left, clip_top, clip_right, clip_bottom] = clip;
        let left = whole(a.x.min(b.x).min(c.x).floor()).max(clip_left);
        let right = whole(a.x.max(b.x).max(c.x).ceil()).min(clip_right);
        let top = whole(a.y.min(b.y).min(c.y).floor()).max(clip_top);
        let bottom = whole(a.y.max(b.y).max(c.y).ceil()).min(clip_bottom);
        let flat = a.color == b.color
            && b.color == c.color
            && a.u == b.u
            && b.u == c.u
            && a.v == b.v
            && b.v == c.v;
        let flat_color = flat.then(|| multiply(a.color, texture.at(a.u, a.v)));
        for y in top..bottom {
            for x in left..right {
                let (px, py) = (x as f32 + 0.5, y as f32 + 0.5);
                let (wa, wb, wc) = (edge(b, c, px, py), edge(c, a, px, py), edge(a, b, px, py));
                if !(inside(wa, b, c) && inside(wb, c, a) && inside(wc, a, b)) {
                    continue;
                }
                let source = flat_color.unwrap_or_else(|| {
                    let (wa, wb, wc) = (wa / twice_area, wb / twice_area, wc / twice_area);
                    let mix = |a: f32, b: f32, c: f32| a * wa + b * wb + c * wc;
                    let color = std::array::from_fn(|i| {
                        let channel = |corner: &Corner| corner.color.get(i).copied().unwrap_or(0.0);
                        mix(channel(&a), channel(&b), channel(&c))
                    });
                    multiply(color, texture.at(mix(a.u, b.u, c.u), mix(a.v, b.v, c.v)))
                });
                if let Some(pixel) = self.pixels.get_mut(y * self.width + x) {
                    let [red, green, blue, alpha] = source;
                    let keep = 1.0 - alpha;
                    let [old_red, old_green, old_blue, old_alpha] = *pixel;
                    *pixel = [
                        red + old_red * keep,
                        green + old_green * keep,
                        blue + old_blue * keep,
                        alpha + old_alpha * keep,
                    ];
                }
            }
        }
    }

    fn finish(self) -> Picture {
        let rgba = self
            .pixels
            .iter()
            .flatten()
            .map(|channel| byte(*channel))
            .collect();
        Picture {
            width: self.width,
            height: self.height,
            rgba,
        }
    }
}

impl Texture {
    /// Bilinear, clamped at the edges.
    fn at(&self, u: f32, v: f32) -> [f32; 4] {
        let x = (u * self.width as f32 - 0.5).max(0.0);
        let y = (v * self.height as f32 - 0.5).max(0.0);
        let (left, top) = (whole(x.floor()), whole(y.floor()));
        let (across, down) = (x - x.floor(), y - y.floor());
        let (upper_left, upper_right) = (self.pixel(left, top), self.pixel(left + 1, top));
        let (lower_left, lower_right) = (self.pixel(left, top + 1), self.pixel(left + 1, top + 1));
        let mix = |a: [f32; 4], b: [f32; 4], share: f32| -> [f32; 4] {
            let [a0, a1, a2, a3] = a;
            let [b0, b1, b2, b3] = b;
            [
                a0 + (b0 - a0) * share,
                a1 + (b1 - a1) * share,
                a2 + (b2 - a2) * share,
                a3 + (b3 - a3) * share,
            ]
        };
        mix(
            mix(upper_left, upper_right, across),
            mix(lower_left, lower_right, across),
            down,
        )
    }

    fn pixel(&self, x: usize, y: usize) -> [f32; 4] {
        let x = x.min(self.width.saturating_sub(1));
        let y = y.min(self.height.saturating_sub(1));
        self.pixels
            .get(y * self.width + x)
            .copied()
            .map_or([0.0; 4], channels)
    }
}

fn corner(vertex: &Vertex, pixels_per_point: f32) -> Corner {
    Corner {
        x: vertex.pos.x * pixels_per_point,
        y: vertex.pos.y * pixels_per_point,
        u: vertex.uv.x,
        v: vertex.uv.y,
        color: channels(vertex.color),
    }
}

fn channels(color: Color32) -> [f32; 4] {
    color.to_array().map(|channel| f32::from(channel) / 255.0)
}

fn multiply(a: [f32; 4], b: [f32; 4]) -> [f32; 4] {
    let [a0, a1, a2, a3] = a;
    let [b0, b1, b2, b3] = b;
    [a0 * b0, a1 * b1, a2 * b2, a3 * b3]
}

fn edge(a: Corner, b: Corner, x: f32, y: f32) -> f32 {
    (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)
}

/// A pixel on an edge belongs to the triangle only when the edge is a top or a left one, so that neighbours never paint it twice.
fn inside(weight: f32, from: Corner, to: Corner) -> bool {
    weight > 0.0 || (weight == 0.0 && ((from.y == to.y && to.x > from.x) || to.y < from.y))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a byte just before"
)]
fn byte(channel: f32) -> u8 {
    (channel * 255.0).round().clamp(0.0, 255.0) as u8
}
