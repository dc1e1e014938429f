//! The peer: an empty window of the same size with the same renderer, measured in the same way.

#![expect(
    clippy::print_stdout,
    reason = "printing figures is what this program is for"
)]

use std::time::Instant;

use eframe::egui;

fn main() -> eframe::Result {
    let started = Instant::now();
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title("empty")
            .with_inner_size([1280.0, 800.0]),
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    eframe::run_native(
        "empty",
        options,
        Box::new(move |_| {
            Ok(Box::new(Empty {
                started,
                n_frames: 0,
            }))
        }),
    )
}

struct Empty {
    started: Instant,
    n_frames: u32,
}

impl eframe::App for Empty {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.n_frames += 1;
        if self.n_frames == 3 {
            println!(
                "{:.1} ms {:.1} MB",
                self.started.elapsed().as_secs_f64() * 1000.0,
                resident_mb()
            );
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
