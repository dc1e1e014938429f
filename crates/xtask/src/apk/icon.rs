//! The icon, drawn from our own mark: what stands in the tablet's resources is what this gives, which a test looks after.

use std::fmt::Write as _;

use underbrick_app::own_mark::{BARS, LINE_HALF, LINE_TOP};
use underbrick_app::theme::{self, Ink, Theme};

/// Side of an adaptive icon's canvas.
const CANVAS_DP: f32 = 108.0;

/// Radius of the circle that every device shows of it.
const SHOWN_RADIUS_DP: f32 = 33.0;

/// A tenth of the mark's side.
const UNIT_DP: f32 = 4.6;

/// Its lifts and chalk line, as far as they reach: the middle of that is the middle of the icon.
const MIDDLE: f32 = (LINE_TOP + 9.7) / 2.0;

/// How the mark is filled.
#[derive(Clone, Copy, PartialEq)]
enum Fill {
    /// As on screen, in bright sun.
    Coloured,
    /// For a device that gives all icons one colour: shapes alone.
    Plain,
}

fn mark(fill: Fill) -> String {
    let ink = hex(Ink::Ink);
    let mut paths = String::new();
    for bar in BARS {
        let (left, right) = (at(-bar.half), at(bar.half));
        let (top, bottom) = (at(bar.top - MIDDLE), at(bar.top + bar.height - MIDDLE));
        let outline = format!("M{left:.2},{top:.2}H{right:.2}V{bottom:.2}H{left:.2}Z");
        let filled = match fill {
            Fill::Coloured => format!("android:fillColor=\"{}\" ", hex(bar.ink)),
            Fill::Plain if bar.ink == Ink::Clay => format!("android:fillColor=\"{ink}\" "),
            Fill::Plain => String::new(),
        };
        path(&mut paths, &outline, &filled, &ink, 1.2);
    }
    let (left, right, y) = (at(-LINE_HALF), at(LINE_HALF), at(LINE_TOP - MIDDLE));
    let line = match fill {
        Fill::Coloured => hex(Ink::Line),
        Fill::Plain => ink,
    };
    path(
        &mut paths,
        &format!("M{left:.2},{y:.2}H{right:.2}"),
        "",
        &line,
        2.4,
    );
    vector(&paths)
}

fn ground() -> String {
    let mut paths = String::new();
    let fill = format!("android:fillColor=\"{}\"", hex(Ink::Paper));
    let _cannot_fail = writeln!(
        paths,
        "    <path {fill} android:pathData=\"M0,0H{CANVAS_DP}V{CANVAS_DP}H0Z\" />"
    );
    vector(&paths)
}

fn path(paths: &mut String, outline: &str, filled: &str, stroke: &str, width: f32) {
    let _cannot_fail = writeln!(
        paths,
        "    <path {filled}android:strokeColor=\"{stroke}\" android:strokeWidth=\"{width}\" android:pathData=\"{outline}\" />"
    );
}

fn vector(paths: &str) -> String {
    format!(
        "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<vector xmlns:android=\"http://schemas.android.com/apk/res/android\" \
         android:width=\"{CANVAS_DP}dp\" android:height=\"{CANVAS_DP}dp\" android:viewportWidth=\"{CANVAS_DP}\" \
         android:viewportHeight=\"{CANVAS_DP}\">\n{paths}</vector>\n"
    )
}

fn at(units_from_middle: f32) -> f32 {
    CANVAS_DP / 2.0 + units_from_middle * UNIT_DP
}

fn hex(ink: Ink) -> String {
    let [red, green, blue, _] = theme::color(ink, Theme::Sun).to_array();
    format!("#{red:02X}{green:02X}{blue:02X}")
}

#[test]
fn the_icon_is_the_mark() {
    let folder = super::root().join("crates/android/manifest/res/drawable");
    for (name, drawn) in [
        ("icon_mark.xml", mark(Fill::Coloured)),
        ("icon_mark_plain.xml", mark(Fill::Plain)),
        ("icon_ground.xml", ground()),
    ] {
        let path = folder.join(name);
        if std::env::var_os("UPDATE_GOLDEN").is_some() {
            std::fs::write(&path, &drawn).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        assert_eq!(
            kept, drawn,
            "{name} is not the mark; UPDATE_GOLDEN=1 draws it anew"
        );
    }
}

#[test]
fn every_device_shows_all_of_it() {
    let corners = BARS
        .iter()
        .flat_map(|bar| [(bar.half, bar.top), (bar.half, bar.top + bar.height)])
        .chain([(LINE_HALF, LINE_TOP)]);
    for (half, down) in corners {
        let (across, along) = (half * UNIT_DP, (down - MIDDLE) * UNIT_DP);
        assert!(
            (across * across + along * along).sqrt() < SHOWN_RADIUS_DP,
            "{half}, {down}"
        );
    }
}
