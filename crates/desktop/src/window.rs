//! The window.

use crate::desk::Desk;
use crate::paper::OwnFiles;
use std::path::PathBuf;
use std::rc::Rc;
use std::time::Instant;

use eframe::egui;
use underbrick_app::{Shell, theme};
use underbrick_records::Shelf;

/// Opens the window and stays until it is closed.
///
/// With `measure` it prints when its third frame is begun and the memory then in use, and closes.
pub fn show(
    shelf: Shelf,
    site: Option<PathBuf>,
    own: OwnFiles,
    measure: Option<Measure>,
) -> eframe::Result {
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title("Underbrick")
            .with_inner_size([1280.0, 800.0])
            .with_min_inner_size([800.0, 640.0]),
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    eframe::run_native(
        "underbrick",
        options,
        Box::new(move |creation| Ok(Box::new(Window::new(creation, shelf, site, own, measure)?))),
    )
}

/// Measures the start of the window.
pub struct Measure {
    started: Instant,
    n_frames: u32,
}

impl Measure {
    /// From now on.
    pub fn start() -> Self {
        Self {
            started: Instant::now(),
            n_frames: 0,
        }
    }

    fn frame(&mut self, ui: &egui::Ui) {
        self.n_frames += 1;
        if self.n_frames == 3 {
            let cost_ms = self.started.elapsed().as_secs_f64() * 1000.0;
            // Who measures reads the standard output; who has closed it does not want to know.
            drop(crate::say(&format!(
                "{cost_ms:.1} ms {:.1} MB\n",
                resident_mb()
            )));
            ui.send_viewport_cmd(egui::ViewportCommand::Close);
        }
        ui.request_repaint();
    }
}

/// Resident memory as Linux tells it; NaN elsewhere.
fn resident_mb() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    line.and_then(|rest| rest.split_whitespace().next())
        .and_then(|kb| kb.parse::<f64>().ok())
        .map_or(f64::NAN, |kb| kb / 1024.0)
}

struct Window {
    shell: Shell,
    measure: Option<Measure>,
}

impl Window {
    fn new(
        creation: &eframe::CreationContext<'_>,
        shelf: Shelf,
        site: Option<PathBuf>,
        own: OwnFiles,
        measure: Option<Measure>,
    ) -> Result<Self, Box<dyn std::error::Error + Send + Sync>> {
        let context = &creation.egui_ctx;
        theme::install(context, theme::Theme::Sun);
        let catalogue = underbrick_records::catalogue()?;
        let tables = shelf.own_tables().or_named(own.causes, own.prices);
        let desk = Rc::new(Desk::new(&shelf));
        let mut shell = Shell::with_tables(shelf, catalogue, tables).on(desk);
        shell.put_on_settings(context);
        if let Some(folder) = site {
            // A site that cannot be opened is told about in the list itself.
            drop(shell.open(&folder, context));
        }
        Ok(Self { shell, measure })
    }
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.shell.ui(ui);
        if let Some(measure) = &mut self.measure {
            measure.frame(ui);
        }
    }
}
