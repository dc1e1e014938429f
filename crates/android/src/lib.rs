//! Underbrick on a tablet: the entry that Android looks for, and the device as the app's `Platform`. Everything else is the app's, where it
//! is tested without a device.

#![cfg(target_os = "android")]

use std::error::Error;
use std::rc::Rc;
use std::time::Duration;

use eframe::egui;
use underbrick_app::platform::{Edges, Exchange, Platform, TabletFolders};
use underbrick_app::{Shell, theme};
use underbrick_records::Shelf;
use winit::platform::android::activity::AndroidApp;

#[expect(unsafe_code, reason = "Android finds this entry by its name")]
#[unsafe(no_mangle)]
fn android_main(android: AndroidApp) {
    let log = android_logger::Config::default()
        .with_tag("underbrick")
        .with_max_level(log::LevelFilter::Info);
    android_logger::init_once(log);
    std::panic::set_hook(Box::new(|panic| log::error!("{panic}")));
    if let Err(error) = run(android) {
        log::error!("{error}");
    }
    // There can be one event loop in the life of a process: the next start needs a new process.
    std::process::exit(0);
}

fn run(android: AndroidApp) -> Result<(), Box<dyn Error>> {
    let private = android
        .internal_data_path()
        .ok_or("Android names no folder for the app's data")?;
    let folders = TabletFolders::new(&private, android.external_data_path());
    let options = eframe::NativeOptions {
        android_app: Some(android.clone()),
        // Without a file of its own the window does not tell when it is put away.
        persistence_path: Some(folders.window),
        renderer: eframe::Renderer::Glow,
        ..Default::default()
    };
    let tablet = Rc::new(Tablet {
        android,
        exchange: folders.exchange,
    });
    let shelf = Shelf::at(folders.sites);
    eframe::run_native(
        "underbrick",
        options,
        Box::new(|creation| {
            theme::install(&creation.egui_ctx, theme::Theme::Sun);
            let shell = Shell::new(shelf, underbrick_records::catalogue()?).on(tablet);
            shell.put_on_settings(&creation.egui_ctx);
            Ok(Box::new(Window { shell }))
        }),
    )?;
    Ok(())
}

/// The device under the app.
struct Tablet {
    android: AndroidApp,
    exchange: Option<Exchange>,
}

impl Platform for Tablet {
    fn exchange(&self) -> Option<Exchange> {
        self.exchange.clone()
    }

    fn edges(&self) -> Edges {
        let free = self.android.content_rect();
        let Some(window) = self.android.native_window() else {
            return Edges::default();
        };
        Edges::around(
            [free.left, free.top, free.right, free.bottom],
            (window.width(), window.height()),
        )
    }

    /// What Android leaves free does not count everything on every version of it.
    fn are_edges_sure(&self) -> bool {
        false
    }

    fn back_leaves(&self) -> bool {
        true
    }
}

struct Window {
    shell: Shell,
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.shell.ui(ui);
    }

    fn raw_input_hook(&mut self, context: &egui::Context, raw: &mut egui::RawInput) {
        self.shell.before_frame(context, raw);
    }

    /// Called when Android takes the window away.
    fn save(&mut self, _storage: &mut dyn eframe::Storage) {
        if !self.shell.leave() {
            log::error!("put away before everything was on disk");
        }
    }

    /// Every change is written as it is made; only when the window goes is there something to wait for.
    fn auto_save_interval(&self) -> Duration {
        Duration::MAX
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
