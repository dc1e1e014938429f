//! Pictures of every screen, to look at: each sample at each stop, landscape and portrait, sun and dim, small and large type.

use std::path::Path;

use anyhow::Context as _;
use underbrick_app::Shell;
use underbrick_app::picture::Camera;
use underbrick_app::stops::Stop;
use underbrick_app::stops::show::ShowPage;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::order::Item;
use underbrick_calc::place::Place;
use underbrick_records::Shelf;

/// Makes them all.
pub fn make(folder: &Path) -> anyhow::Result<()> {
    std::fs::create_dir_all(folder)?;
    let kept = folder.join("sites");
    let shelf = Shelf::at(&kept);
    if shelf.list()?.is_empty() {
        shelf.copy_samples()?;
    }
    let sites: Vec<_> = shelf
        .list()?
        .into_iter()
        .map(|entry| entry.folder)
        .collect();
    for (way, size) in [
        ("landscape", egui::vec2(1280.0, 800.0)),
        ("portrait", egui::vec2(800.0, 1280.0)),
    ] {
        for (light, theme, percent) in [
            ("sun", Theme::Sun, 100),
            ("dim", Theme::Dim, 100),
            ("small", Theme::Sun, 85),
            ("large", Theme::Sun, 130),
            ("largest", Theme::Sun, 160),
        ] {
            let mut camera = Camera::new(theme);
            theme::set_text_size(camera.context(), percent);
            let mut shell = Shell::new(Shelf::at(&kept), underbrick_records::catalogue()?);
            take(
                &mut camera,
                size,
                &mut shell,
                &folder.join(format!("list-{way}-{light}.png")),
            )?;
            for site in &sites {
                let name = site
                    .file_name()
                    .map(|name| name.to_string_lossy().into_owned())
                    .unwrap_or_default();
                shell.open(site, camera.context())?;
                take(
                    &mut camera,
                    size,
                    &mut shell,
                    &folder.join(format!("{name}-opened-{way}-{light}.png")),
                )?;
                for (stop, place) in [
                    (Stop::Look, Place::LayerThickness(0, 1)),
                    (Stop::Line, Place::OldBelowSill),
                    (Stop::Bed, Place::SettingBed),
                    (Stop::Lay, Place::LapShare),
                ] {
                    shell.go_to(stop);
                    shell.set(place);
                    take(
                        &mut camera,
                        size,
                        &mut shell,
                        &folder.join(format!(
                            "{name}-{}-{way}-{light}.png",
                            stop.word().to_lowercase()
                        )),
                    )?;
                }
                shell.go_to(Stop::Order);
                let opened = [
                    ("order", None),
                    ("order-base", Some(Place::OrderLine(Item::Base))),
                    ("order-jointing", Some(Place::OrderLine(Item::Jointing))),
                    ("order-rate", Some(Place::OrderRate(Item::Base))),
                ];
                for (what, place) in opened {
                    if let Some(place) = place {
                        shell.look_at(place);
                    }
                    take(
                        &mut camera,
                        size,
                        &mut shell,
                        &folder.join(format!("{name}-{what}-{way}-{light}.png")),
                    )?;
                }
                shell.go_to(Stop::Build);
                let path = folder.join(format!("{name}-build-{way}-{light}.png"));
                take(&mut camera, size, &mut shell, &path)?;
                for page in ShowPage::ALL {
                    shell.show_page(page);
                    let words = page.words().to_lowercase().replace(' ', "-");
                    let path = folder.join(format!("{name}-show-{words}-{way}-{light}.png"));
                    take(&mut camera, size, &mut shell, &path)?;
                    if page == ShowPage::Papers {
                        // Its pages are laid out beside the window.
                        std::thread::sleep(std::time::Duration::from_millis(800));
                        take(&mut camera, size, &mut shell, &path)?;
                    }
                }
                shell = Shell::new(Shelf::at(&kept), underbrick_records::catalogue()?);
            }
        }
    }
    Ok(())
}

fn take(
    camera: &mut Camera,
    size: egui::Vec2,
    shell: &mut Shell,
    path: &Path,
) -> anyhow::Result<()> {
    let picture = camera.take(size, 1.0, |ui| shell.ui(ui))?;
    std::fs::write(path, picture.png()?)
        .with_context(|| format!("could not be written: {}", path.display()))
}
