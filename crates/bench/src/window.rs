//! The start of the window beside an empty one with the same renderer: when its third frame begins, and memory then. Run by turns.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Context as _;

/// Starts of each program.
const N_STARTS: usize = 9;

pub fn print() -> anyhow::Result<()> {
    if std::env::var_os("DISPLAY").is_none() && std::env::var_os("WAYLAND_DISPLAY").is_none() {
        println!("\nNo display: the window's figures are left out (run this under xvfb-run).");
        return Ok(());
    }
    let beside = |name: &str| -> anyhow::Result<PathBuf> {
        let path = std::env::current_exe()?.with_file_name(name);
        path.exists().then_some(path).with_context(|| format!("{name} is not built: cargo build --release -p underbrick-desktop -p underbrick-bench"))
    };
    let (ours, empty) = (beside("underbrick-desktop")?, beside("empty-window")?);
    let kept = std::env::temp_dir().join("underbrick-bench-sites");
    let samples = underbrick_records::Shelf::at(&kept);
    let site = match samples.list().ok().and_then(|entries| {
        entries
            .into_iter()
            .map(|entry| entry.folder)
            .find(|folder| is_curved(folder))
    }) {
        Some(site) => site,
        None => samples
            .copy_samples()?
            .into_iter()
            .find(|folder| is_curved(folder))
            .context("the curved sample")?,
    };
    let mut figures: [Vec<(f64, f64)>; 3] = Default::default();
    for _ in 0..N_STARTS {
        let [of_list, of_site, of_empty] = &mut figures;
        of_list.push(start(
            &ours,
            &["--sites".as_ref(), kept.as_os_str(), "--measure".as_ref()],
        )?);
        of_site.push(start(&ours, &[site.as_os_str(), "--measure".as_ref()])?);
        of_empty.push(start(&empty, &[])?);
    }
    let [of_list, of_site, of_empty] = figures.map(|figures| medians(&figures));
    println!(
        "\nStart of the window, median of {N_STARTS} starts, by turns with an empty window of the same renderer:"
    );
    for (name, of_ours) in [
        ("list of the sample sites", of_list),
        ("curved sample open", of_site),
    ] {
        let (third, memory) = (of_ours.0 / of_empty.0, of_ours.1 / of_empty.1);
        println!(
            "  {name}: third frame {:.0} ms beside {:.0} ms, ratio {third:.2} (to reach: 1.3)",
            of_ours.0, of_empty.0
        );
        println!(
            "  {name}: resident then {:.0} MB beside {:.0} MB, ratio {memory:.2} (to reach: 1.5)",
            of_ours.1, of_empty.1
        );
    }
    let bytes = std::fs::metadata(&ours)?.len();
    println!(
        "  the program's file     {:8.2} MB  (to reach: under 10 MB)",
        bytes as f64 / 1e6
    );
    Ok(())
}

fn is_curved(path: &Path) -> bool {
    path.file_name()
        .is_some_and(|name| name.to_string_lossy().contains("curved"))
}

/// Milliseconds to the third frame, and megabytes then, as the program prints them.
fn start(program: &Path, arguments: &[&std::ffi::OsStr]) -> anyhow::Result<(f64, f64)> {
    let output = Command::new(program).args(arguments).output()?;
    let text = String::from_utf8_lossy(&output.stdout);
    let mut numbers = text
        .split_whitespace()
        .filter_map(|word| word.parse::<f64>().ok());
    numbers.next().zip(numbers.next()).with_context(|| {
        format!(
            "{} printed: {text}{}",
            program.display(),
            String::from_utf8_lossy(&output.stderr)
        )
    })
}

fn medians(figures: &[(f64, f64)]) -> (f64, f64) {
    let middle = |mut values: Vec<f64>| {
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
    };
    (
        middle(figures.iter().map(|figure| figure.0).collect()),
        middle(figures.iter().map(|figure| figure.1).collect()),
    )
}
