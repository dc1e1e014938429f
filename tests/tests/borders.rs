//! The rules of the house that no line of code shows: which crate may know which.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;
use std::process::Command;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests package stands in the root")
        .to_path_buf()
}

/// Names of all crates that `package` is built from, itself among them, without those of tests.
fn built_from(package: &str) -> Vec<String> {
    let output = Command::new(env!("CARGO"))
        .args([
            "tree",
            "--offline",
            "--edges",
            "normal,build",
            "--prefix",
            "none",
            "--package",
            package,
        ])
        .current_dir(root())
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let names: Vec<String> = String::from_utf8_lossy(&output.stdout)
        .lines()
        .filter_map(|line| line.split(' ').next().map(str::to_owned))
        .collect();
    assert!(
        names.iter().any(|name| name == package),
        "the tree of {package} names {package}"
    );
    names
}

#[track_caller]
fn check(package: &str, must_not_know: &[&str]) {
    let names = built_from(package);
    for name in must_not_know {
        assert!(
            !names.iter().any(|found| found == name),
            "{package} must not be built from {name}"
        );
    }
}

#[test]
fn calc_knows_no_screen_file_format_or_paper() {
    check(
        "underbrick-calc",
        &[
            "egui",
            "ron",
            "serde",
            "serde_json",
            "krilla",
            "directories",
            "png",
        ],
    );
}

#[test]
fn drawing_knows_no_screen_and_no_records() {
    check(
        "underbrick-drawing",
        &["egui", "eframe", "underbrick-records", "ron"],
    );
}

#[test]
fn records_know_no_screen_and_no_drawing() {
    check(
        "underbrick-records",
        &["egui", "underbrick-drawing", "underbrick-app"],
    );
}

#[test]
fn cli_knows_no_egui() {
    check("underbrick-cli", &["egui", "eframe", "underbrick-app"]);
}

#[test]
fn app_knows_egui_but_no_window() {
    check("underbrick-app", &["eframe", "winit"]);
    assert!(
        built_from("underbrick-app")
            .iter()
            .any(|name| name == "egui")
    );
}

#[test]
fn back_ends_match_every_item_without_a_catch_all() {
    for file in [
        "crates/drawing/src/svg.rs",
        "crates/app/src/canvas/translate.rs",
    ] {
        let text = std::fs::read_to_string(root().join(file)).unwrap();
        let (_, after) = text
            .split_once("match item")
            .expect("a back-end matches items");
        let body = after.split("\n}\n").next().unwrap();
        for item in ["Item::Area", "Item::Line", "Item::Hatch", "Item::Label"] {
            assert!(body.contains(item), "{file} draws {item}");
        }
        assert!(!body.contains("_ =>"), "{file} has a catch-all");
    }
}

#[test]
fn colours_are_written_as_numbers_in_one_place_only() {
    let mut stack = vec![
        root().join("crates/app/src"),
        root().join("crates/drawing/src"),
    ];
    while let Some(folder) = stack.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                stack.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs")
                && !path.ends_with("drawing/src/palette.rs")
            {
                let text = std::fs::read_to_string(&path).unwrap();
                let app_code = text.split("#[cfg(test)]").next().unwrap();
                let literal = app_code.lines().find(|line| {
                    line.contains("Color32::from_rgb(")
                        && line.contains(|letter: char| letter.is_ascii_digit())
                        && !line.contains("red, green, blue")
                });
                assert_eq!(literal, None, "{}", path.display());
            }
        }
    }
}
