//! Pictures of a few screens, drawn by our own rasteriser and compared with those that a person has looked at.
//! `UPDATE_SNAPSHOTS=1` renews them: look at what you renew.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::Path;

use egui::{FullOutput, TexturesDelta, Vec2, vec2};
use egui_kittest::{Harness, TestRenderer};
use underbrick_app::Shell;
use underbrick_app::picture::Brush;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::place::Place;
use underbrick_records::{KeepStatus, Shelf};

/// The app's rasteriser as the harness wants it.
#[derive(Default)]
struct Raster(Brush);

impl TestRenderer for Raster {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        self.0.take_textures(delta);
    }

    fn render(
        &mut self,
        context: &egui::Context,
        output: &FullOutput,
    ) -> Result<image::RgbaImage, String> {
        let primitives = context.tessellate(output.shapes.clone(), output.pixels_per_point);
        let size = context.viewport_rect().size();
        let picture = self
            .0
            .paint(&primitives, size, output.pixels_per_point)
            .map_err(|error| error.to_string())?;
        let side = |length: usize| u32::try_from(length).map_err(|error| error.to_string());
        image::RgbaImage::from_raw(side(picture.width)?, side(picture.height)?, picture.rgba)
            .ok_or_else(|| "as many bytes as pixels".to_owned())
    }
}

fn harness(folder: &Path, size: Vec2, light: Theme) -> Harness<'static, Shell> {
    let shelf = Shelf::at(folder);
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .renderer(Raster::default())
        // The harness sets a theme of its own once the context is set up.
        .with_theme(match light {
            Theme::Sun => egui::Theme::Light,
            Theme::Dim => egui::Theme::Dark,
        })
        .with_context_setup(move |context| theme::install(context, light))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell)
}

/// Opens a sample whose folder's name contains `sample`, sets `place`, and compares the picture.
#[track_caller]
fn check(name: &str, sample: &str, stop: Stop, place: Place, size: Vec2, light: Theme) {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains(sample))
        .unwrap();
    let mut harness = harness(folder.path(), size, light);
    let context = harness.ctx.clone();
    harness.state_mut().open(site, &context).unwrap();
    harness.state_mut().go_to(stop);
    harness.state_mut().set(place);
    while harness.state().visit().unwrap().keep_status() != KeepStatus::OnDisk {
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    harness.run_steps(6);
    harness.snapshot(name);
}

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

#[test]
fn curved_line_in_the_sun() {
    check(
        "curved_line_landscape_sun",
        "curved",
        Stop::Line,
        Place::OldBelowSill,
        LANDSCAPE,
        Theme::Sun,
    );
}

#[test]
fn clay_look_at_dusk() {
    check(
        "clay_look_portrait_dim",
        "clay",
        Stop::Look,
        Place::LayerThickness(0, 1),
        PORTRAIT,
        Theme::Dim,
    );
}

#[test]
fn metric_bed_upright_in_the_sun() {
    check(
        "metric_bed_portrait_sun",
        "metric",
        Stop::Bed,
        Place::SettingBed,
        PORTRAIT,
        Theme::Sun,
    );
}

#[test]
fn half_measured_shows_what_is_missing() {
    check(
        "half_measured_line_landscape_sun",
        "half",
        Stop::Line,
        Place::OldBelowSill,
        LANDSCAPE,
        Theme::Sun,
    );
}

#[test]
fn first_start() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = harness(folder.path(), LANDSCAPE, Theme::Sun);
    harness.run_steps(4);
    harness.snapshot("first_start_landscape_sun");
}
