//! Pictures side by side among the rows, one of them large in the place of the ground, and what is said while a file hangs over the
//! window.

use egui::cache::FramePublisher;
use egui::{
    Color32, ColorImage, Mesh, Rect, Role, Sense, Shape, Stroke, StrokeKind, TextureFilter,
    TextureHandle, TextureOptions, Ui, Vec2, WidgetInfo, pos2, vec2,
};
use underbrick_drawing::item::Anchor;
use underbrick_records::pictures::Pixels;

use super::key::{cells, ways_ui};
use super::words::{Face, Words};
use crate::album::Look;
use crate::stops::opened::{Part, PictureShown};
use crate::theme::{self, Ink, size};

/// One picture among the rows.
#[derive(Clone, Debug)]
pub struct Tile {
    /// Its index.
    pub picture_idx: usize,
    /// What it belongs to.
    pub of: String,
    /// What it shows; may be empty.
    pub caption: String,
    /// Its dots.
    pub look: Look,
}

/// What stands in the place of the ground.
#[derive(Clone, Debug)]
pub struct LargeView {
    /// Its name.
    pub title: String,
    /// What it shows; may be empty.
    pub caption: String,
    /// Its dots.
    pub look: Look,
    /// The picture before it, and the one behind.
    pub neighbours: [Option<usize>; 2],
}

/// Least width of a picture among the rows: a thumb, and a word below it.
const LEAST_WIDTH: f32 = 116.0;

/// Shows pictures side by side, in the row of that number. Gives what a tap opens.
pub(super) fn tiles_ui(ui: &mut Ui, nth: usize, tiles: &[Tile]) -> Option<Part> {
    let width = ui.available_width();
    // As many as have their least width, gaps counted, and at least one.
    let mut n_across = 1_usize;
    let mut used = 2.0 * LEAST_WIDTH + size::GAP;
    while used <= width {
        n_across += 1;
        used += LEAST_WIDTH + size::GAP;
    }
    let mut opened = None;
    for chunk in tiles.chunks(n_across) {
        let line = theme::tall(ui, 24.0);
        let column = (width - size::GAP * (n_across as f32 - 1.0)) / n_across as f32;
        let height = (column * 0.75).max(size::KEY) + line;
        let (rect, _) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
        for (tile, cell) in chunk.iter().zip(cells(rect, n_across)) {
            if tile_ui(ui, cell, (nth, tile), line) {
                opened = Some(Part::Picture(Some(PictureShown::One(tile.picture_idx))));
            }
        }
    }
    opened
}

fn tile_ui(ui: &mut Ui, rect: Rect, (nth, tile): (usize, &Tile), line: f32) -> bool {
    let id = ui.scope_id().with(("picture", nth, tile.picture_idx));
    let response = ui.interact(rect, id, Sense::click());
    let mut name = format!("picture {}, {}", tile.picture_idx + 1, tile.of);
    if !tile.caption.is_empty() {
        name = format!("{name}: {}", tile.caption);
    }
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let is_pressed = response.is_pointer_button_down_on();
    let ground = if is_pressed {
        Ink::LineGround
    } else {
        Ink::Key
    };
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.rect_filled(rect, size::CORNER, ink(ground));
    let foot = Rect::from_min_max(pos2(rect.min.x, rect.max.y - line), rect.max);
    let view = Rect::from_min_max(rect.min, pos2(rect.max.x, foot.min.y)).shrink(3.0);
    match &tile.look {
        Look::Here(number, pixels) => {
            paint_picture(ui, &painter, view, *number, pixels, Fit::Filled);
        }
        Look::Awaited => said_in(ui, view, "is fetched", Ink::SecondInk, size::NOTE),
        Look::Broken(_) => {
            let dash = Stroke::new(1.5, ink(Ink::Wrong));
            let around = [
                view.left_top(),
                view.right_top(),
                view.right_bottom(),
                view.left_bottom(),
                view.left_top(),
            ];
            painter.extend(Shape::dashed_line(&around, dash, 6.0, 4.0));
            said_in(ui, view, "cannot be shown", Ink::Wrong, size::NOTE);
        }
    }
    let words = Words::of(
        ui,
        if tile.caption.is_empty() {
            &tile.of
        } else {
            &tile.caption
        },
        Face::regular(size::NOTE),
        foot.width() - 12.0,
    );
    let at = pos2(foot.min.x + 6.0, foot.min.y + theme::tall(ui, 11.0));
    words.paint(&painter, at, ink(Ink::Ink));
    painter.rect_stroke(
        rect,
        size::CORNER,
        Stroke::new(1.0, ink(Ink::Hairline)),
        StrokeKind::Inside,
    );
    response.clicked()
}

/// Shows one picture large. Gives what is to be shown next.
pub(crate) fn picture_ui(ui: &mut Ui, rect: Rect, view: &LargeView) -> Option<Part> {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let whole = ui.interact(rect, ui.scope_id().with("one picture"), Sense::hover());
    let mut said = format!("{}, large", view.title);
    if !view.caption.is_empty() {
        said = format!("{said}: {}", view.caption);
    }
    if let Look::Broken(why) = &view.look {
        said = format!("{said}: {why}");
    }
    whole.widget_info(move || WidgetInfo::labeled(Role::Image, true, said.clone()));
    let painter = ui.painter().with_clip_rect(rect);
    painter.rect_filled(rect, 0, ink(Ink::Paper));
    let inner = rect.shrink2(vec2(20.0, 12.0));
    let keys = Rect::from_min_max(pos2(inner.min.x, inner.max.y - 76.0), inner.max);
    let mut body = Rect::from_min_max(inner.min, pos2(inner.max.x, keys.min.y - 10.0));
    if !view.caption.is_empty() {
        let face = Face::regular(size::LABEL);
        let words = Words::broken(ui, &view.caption, face, body.width(), Anchor::Left);
        let height = theme::tall(ui, 26.0) + words.more();
        body.max.y -= height;
        let at = pos2(body.min.x, body.max.y + theme::tall(ui, 15.0));
        words.paint(&painter, at, ink(Ink::Ink));
    }
    match &view.look {
        Look::Here(number, pixels) => {
            let shown = paint_picture(ui, &painter, body, *number, pixels, Fit::Whole);
            let line = Stroke::new(1.0, ink(Ink::Hairline));
            painter.rect_stroke(shown, 0, line, StrokeKind::Outside);
        }
        Look::Awaited => said_in(
            ui,
            body,
            "The picture is fetched.",
            Ink::SecondInk,
            size::LABEL,
        ),
        Look::Broken(why) => said_in(ui, body, why, Ink::Wrong, size::TITLE),
    }
    let asked = ways_ui(ui, keys, ["close", "next picture"], view.neighbours);
    asked.map(|to| Part::Picture(to.map(PictureShown::One)))
}

/// Says what a file that hangs over the window will belong to once it is let go.
pub(crate) fn waiting_ui(ui: &Ui, rect: Rect, of: &str) {
    let n_files = ui.input(|input| input.raw.hovered_files.len());
    if n_files == 0 {
        return;
    }
    let theme = theme::current(ui);
    let painter = ui.painter();
    let panel = rect.shrink(20.0);
    painter.rect(
        panel,
        size::CORNER,
        theme::color(Ink::LineGround, theme),
        Stroke::new(3.0, theme::color(Ink::Line, theme)),
        StrokeKind::Inside,
    );
    let noun = if n_files == 1 { "picture" } else { "pictures" };
    let words = format!("Let go to take in {n_files} {noun}: {of}");
    said_in(ui, panel.shrink(20.0), &words, Ink::Line, size::TITLE);
}

/// Words in the middle of a rectangle.
pub(crate) fn said_in(ui: &Ui, rect: Rect, words: &str, ink: Ink, points: f32) {
    let face = Face::regular(points);
    let words = Words::broken(ui, words, face, rect.width() - 12.0, Anchor::Left);
    let at = pos2(
        rect.center().x - words.width() / 2.0,
        rect.center().y - words.more() / 2.0,
    );
    words.paint(
        &ui.painter().with_clip_rect(rect.intersect(ui.clip_rect())),
        at,
        theme::color(ink, theme::current(ui)),
    );
}

/// How a picture lies in its rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fit {
    /// Cut so that it fills it.
    Filled,
    /// Whole.
    Whole,
}

/// Textures that were shown in the last frame, by the numbers of their pictures: what is not shown is given back.
type Textures = FramePublisher<u64, TextureHandle>;

/// Paints a picture; gives where it lies.
pub(crate) fn paint_picture(
    ui: &Ui,
    painter: &egui::Painter,
    rect: Rect,
    number: u64,
    pixels: &Pixels,
    fit: Fit,
) -> Rect {
    let dots = vec2(pixels.width() as f32, pixels.height() as f32);
    let Some(texture) = texture(ui, number, pixels) else {
        return rect;
    };
    let (across, down) = (rect.width() / dots.x, rect.height() / dots.y);
    let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    let (place, part) = match fit {
        Fit::Whole => {
            // Never more than twice its dots: larger it shows nothing more.
            let scale = across.min(down).min(2.0);
            (Rect::from_center_size(rect.center(), dots * scale), whole)
        }
        Fit::Filled => {
            let scale = across.max(down);
            let seen: Vec2 = rect.size() / (dots * scale);
            (rect, Rect::from_center_size(whole.center(), seen))
        }
    };
    let mut mesh = Mesh::with_texture(texture.id());
    mesh.add_rect_with_uv(place, part, Color32::WHITE);
    painter.add(Shape::mesh(mesh));
    place
}

fn texture(ui: &Ui, number: u64, pixels: &Pixels) -> Option<TextureHandle> {
    let kept = ui.memory_mut(|memory| memory.caches.cache::<Textures>().get(&number).cloned());
    let texture = match kept {
        Some(texture) => texture,
        None => {
            let size = [
                usize::try_from(pixels.width()).ok()?,
                usize::try_from(pixels.height()).ok()?,
            ];
            if pixels.rgb().len() != 3 * size[0] * size[1] {
                return None;
            }
            let image = ColorImage::from_rgb(size, pixels.rgb());
            let options = TextureOptions {
                mipmap_mode: Some(TextureFilter::Linear),
                ..TextureOptions::LINEAR
            };
            ui.load_texture(format!("picture {number}"), image, options)
        }
    };
    ui.memory_mut(|memory| {
        memory
            .caches
            .cache::<Textures>()
            .set(number, texture.clone());
    });
    Some(texture)
}
