//! One frame of the open curved sample on a tablet's screen, 2560 by 1600 pixels at two a point: the app's own work and the triangles for the
//! GPU, beside an empty frame and a plain form of egui's widgets. Then on paper: what that is on a tablet in the middle of the range.

use std::sync::Arc;
use std::time::Instant;

use anyhow::Context as _;
use eframe::egui::epaint::Primitive;
use eframe::egui::{self, Context, Pos2, RawInput, Rect, Ui, Vec2, vec2};
use underbrick_app::edit::Edit;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_records::Shelf;

/// The screen in points.
const SIZE: Vec2 = vec2(1280.0, 800.0);

/// Pixels a point.
const PIXELS_PER_POINT: f32 = 2.0;

/// Frames of each kind.
const N_FRAMES: usize = 200;

/// From memory: one core of a tablet in the middle of the range (a Cortex-A76 at about 2 GHz) does the work of a desk's or server's core in
/// four times the time; one of its small cores, when the big ones are too hot, in ten times.
const SLOWER: [(&str, f64); 2] = [("a big core", 4.0), ("a small core", 10.0)];

/// What a frame may cost, so that sixty fit in a second.
const FRAME_MS: f64 = 1000.0 / 60.0;

/// What was measured of one kind of frame.
struct Cost {
    ui_ms: f64,
    tessellate_ms: f64,
    n_vertices: usize,
    /// How many times the screen's area is painted.
    overdraw: f64,
}

pub fn print() -> anyhow::Result<()> {
    println!("\nOne frame at 2560 × 1600, median of {N_FRAMES}:");
    println!(
        "  what                        ui   triangles    both   ratio   vertices   painted over"
    );
    let empty = measured(&mut |_| {});
    tell("empty", &empty, &empty);
    let form = measured(&mut plain_form);
    tell("60 of egui's own widgets", &form, &form);

    let folder = std::env::temp_dir().join(format!("underbrick-frame-{}", std::process::id()));
    let shelf = Shelf::at(&folder);
    let copied = shelf.copy_samples()?;
    let curved = copied
        .iter()
        .find(|folder| folder.ends_with("curved-to-a-drive"))
        .context("the curved sample")?;
    let mut worst_ms = 0.0_f64;
    for (name, stop, place) in [
        ("Line, nothing changes", Stop::Line, Place::OldBelowSill),
        ("Lay, every brick in plan", Stop::Lay, Place::LapShare),
    ] {
        let mut shell = Shell::new(shelf.clone(), underbrick_records::catalogue()?);
        shell.open(curved, &Context::default())?;
        shell.go_to(stop);
        shell.set(place);
        let cost = measured(&mut |ui| shell.ui(ui));
        tell(name, &cost, &form);
        worst_ms = worst_ms.max(cost.ui_ms + cost.tessellate_ms);
    }
    let edit_ms = edit_ms(curved)?;
    println!("  beside: one edit before it {edit_ms:.3} ms (record to results)");
    drop(std::fs::remove_dir_all(&folder));

    println!(
        "  on paper, for a tablet in the middle of the range (its speed from memory, nothing ran there):"
    );
    for (name, times) in SLOWER {
        let cost_ms = (worst_ms + edit_ms) * times;
        println!(
            "    {name}: × {times:.0}, the dearest frame with an edit {cost_ms:.1} ms of {FRAME_MS:.1} ms"
        );
    }
    Ok(())
}

fn tell(name: &str, cost: &Cost, form: &Cost) {
    let both = cost.ui_ms + cost.tessellate_ms;
    println!(
        "  {name:<24}{:8.3}{:12.3}{both:8.3}{:8.2}{:11}{:15.1}",
        cost.ui_ms,
        cost.tessellate_ms,
        both / (form.ui_ms + form.tessellate_ms),
        cost.n_vertices,
        cost.overdraw
    );
}

/// A page as any program has: labels, keys, fields and sliders in four columns.
fn plain_form(ui: &mut Ui) {
    let mut text = "12 ft 6 in".to_owned();
    let mut share = 0.4;
    ui.columns(4, |columns| {
        for column in columns {
            for _ in 0..5 {
                column.label("from the underside of the sill");
                drop(column.button("next"));
                column.add(egui::TextEdit::singleline(&mut text).desired_width(200.0));
                column.add(egui::Slider::new(&mut share, 0.0..=1.0));
            }
        }
    });
}

fn measured(show: &mut dyn FnMut(&mut Ui)) -> Cost {
    let context = Context::default();
    theme::install(&context, Theme::Sun);
    let mut ui_ms = Vec::new();
    let mut tessellate_ms = Vec::new();
    let (mut n_vertices, mut overdraw) = (0, 0.0);
    for frame in 0..N_FRAMES + 10 {
        let mut input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, SIZE)),
            time: Some(frame as f64 / 60.0),
            ..RawInput::default()
        };
        if let Some(viewport) = input.viewports.get_mut(&input.viewport_id) {
            viewport.native_pixels_per_point = Some(PIXELS_PER_POINT);
        }
        let started = Instant::now();
        let mut output = context.run_ui(input, &mut *show);
        let ui_done = Instant::now();
        // There is no GPU here to take them.
        output.textures_delta.clear();
        let primitives = context.tessellate(output.shapes, output.pixels_per_point);
        let done = Instant::now();
        // The first frames lay out type that later ones find laid out.
        if frame >= 10 {
            ui_ms.push((ui_done - started).as_secs_f64() * 1000.0);
            tessellate_ms.push((done - ui_done).as_secs_f64() * 1000.0);
        }
        (n_vertices, overdraw) = (0, 0.0);
        for primitive in &primitives {
            if let Primitive::Mesh(mesh) = &primitive.primitive {
                n_vertices += mesh.vertices.len();
                overdraw += painted(mesh, primitive.clip_rect);
            }
        }
    }
    Cost {
        ui_ms: median(ui_ms),
        tessellate_ms: median(tessellate_ms),
        n_vertices,
        overdraw: overdraw / f64::from(SIZE.x * SIZE.y),
    }
}

/// Area of a mesh's triangles, in square points, each as far as its bounds lie within the clip.
fn painted(mesh: &egui::Mesh, clip: Rect) -> f64 {
    let corner = |idx: &u32| {
        mesh.vertices
            .get(usize::try_from(*idx).unwrap_or(usize::MAX))
            .map(|vertex| vertex.pos)
    };
    mesh.indices
        .chunks_exact(3)
        .filter_map(|triangle| {
            let [Some(a), Some(b), Some(c)] = [triangle.first(), triangle.get(1), triangle.get(2)]
                .map(|idx| idx.and_then(corner))
            else {
                return None;
            };
            let area = ((b - a).x * (c - a).y - (b - a).y * (c - a).x).abs() / 2.0;
            let bounds = Rect::from_points(&[a, b, c]);
            let seen = bounds.intersect(clip);
            let share = if bounds.is_positive() && seen.is_positive() {
                seen.area() / bounds.area()
            } else {
                0.0
            };
            Some(f64::from(area * share))
        })
        .sum()
}

/// One edit of the open sample, as a tap on the pad makes it.
fn edit_ms(site: &std::path::Path) -> anyhow::Result<f64> {
    let catalogue = Arc::new(underbrick_records::catalogue()?);
    let mut visit = Visit::open(site, catalogue, Box::new(|| {}))?;
    let costs = (0..100).map(|nth| {
        let edit = Edit::Text {
            place: Place::OldBelowSill,
            typed: format!("{} mm", 100 + nth % 7),
        };
        let started = Instant::now();
        visit.apply(&edit);
        started.elapsed().as_secs_f64() * 1000.0
    });
    Ok(median(costs.collect()))
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}
