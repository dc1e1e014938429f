//! The window.

use std::path::PathBuf;

use eframe::egui;
use underbrick_app::{Shell, theme};
use underbrick_records::Shelf;

/// Opens the window and stays until it is closed.
pub fn show(shelf: Shelf, site: Option<PathBuf>) -> eframe::Result {
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
        Box::new(move |creation| Ok(Box::new(Window::new(creation, shelf, site)?))),
    )
}

struct Window {
    shell: Shell,
}

impl Window {
    fn new(
        creation: &eframe::CreationContext<'_>,
        shelf: Shelf,
        site: Option<PathBuf>,
    ) -> Result<Self, Box<dyn std::error::Error + Send + Sync>> {
        let context = &creation.egui_ctx;
        theme::install(context, theme::Theme::Sun);
        let mut shell = Shell::new(shelf, underbrick_records::catalogue()?);
        if let Some(folder) = site {
            // A site that cannot be opened is told about in the list itself.
            drop(shell.open(&folder, context));
        }
        Ok(Self { shell })
    }
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.shell.ui(ui);
    }
}
