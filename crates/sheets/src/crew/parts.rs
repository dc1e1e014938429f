//! What is built, lifts, edge and forms, screed board and gauge rod.

use underbrick_calc::bed::Restraint;
use underbrick_calc::quantity::Length;
use underbrick_words::Value;

use super::{CrewSheet, Designed, Said, edge};
use crate::paper::{Align, Block, Column, Level, Style, Table, TableRow};
use crate::wording::on_one_line;

/// Marks of the gauge rod from which on they stand in two groups beside each other.
const MARKS_ABREAST: usize = 6;

/// A table of columns with heads under these keys; the first column and those named `left` hold words.
pub(super) fn columns(said: Said, keys: &[(&str, Align)]) -> Vec<Column> {
    keys.iter()
        .map(|(key, align)| Column {
            head: if key.is_empty() {
                String::new()
            } else {
                said.say(key)
            },
            align: *align,
            least_mm: 0.0,
        })
        .collect()
}

pub(super) fn row(cells: Vec<String>) -> TableRow {
    TableRow {
        cells,
        is_strong: false,
    }
}

/// Address and walk.
pub(super) fn who_and_where(sheet: CrewSheet<'_>, said: Said) -> Vec<Block> {
    vec![Block::Facts(vec![
        (said.say("fact-address"), on_one_line(&sheet.site.address)),
        (said.say("fact-walk"), on_one_line(&sheet.site.walk)),
    ])]
}

/// Everything at a glance.
pub(super) fn what_is_built(designed: &Designed<'_>) -> Vec<Block> {
    let Designed {
        sheet,
        line,
        bed,
        build,
        said,
    } = designed;
    let (site, shown) = (sheet.site, said.shown_in);
    let width = line.run.clear_width_at(Length::default());
    let over = width + bed.edge.brick.across * 2.0;
    let tapers = line.run.breaks().into_iter().any(|station| {
        (line.run.clear_width_at(station) - width).abs() > underbrick_calc::quantity::metres(1e-6)
    });
    let at_door = |length: Length| {
        let written = shown.thickness(length);
        if tapers {
            said.with("at-the-door", &[("width", &written)])
        } else {
            written
        }
    };
    let pieces = line.grade.pieces();
    let fall = if pieces.len() > 1 {
        said.words
            .say_with("falls-in-pieces", &[("pieces", Value::from(pieces.len()))])
    } else {
        said.with("falls-from-door", &[("fall", &shown.fall(line.grade.fall))])
    };
    let base = if shown.length(bed.thinnest_base) == shown.length(bed.thickest_base) {
        shown.length(bed.thickest_base)
    } else {
        let (least, most) = (
            shown.length(bed.thinnest_base),
            shown.length(bed.thickest_base),
        );
        said.with("from-to", &[("least", &least), ("most", &most)])
    };
    let n_lifts = bed.lifts.each.len();
    let base = said.words.say_with(
        "in-lifts",
        &[("thickness", (&base).into()), ("lifts", n_lifts.into())],
    );
    let string = build.stakes.first().map(|stake| stake.string - stake.grade);
    let brick = site.brick;
    let sizes: Vec<String> = [brick.length, brick.width, brick.thickness]
        .into_iter()
        .map(|size| size.map_or_else(|| said.say("not-known"), |size| shown.thickness(size)))
        .collect();
    let facts = [
        ("fact-address", on_one_line(&site.address)),
        ("fact-walk", on_one_line(&site.walk)),
        ("fact-length", shown.along(line.run.length())),
        ("fact-clear-width", at_door(width)),
        ("fact-over-edges", at_door(over)),
        ("fact-fall", fall),
        ("fact-brick", sizes.join(" × ")),
        ("fact-bond", said.bond(site.lay.bond, site.lay.courses)),
        ("fact-setting-bed", shown.thickness(bed.setting_bed)),
        ("fact-base", base),
        (
            "fact-fabric",
            said.say(if bed.fabric {
                "fabric-yes"
            } else {
                "none-needed"
            }),
        ),
        ("fact-edge", said.edge(site.edge.stands)),
        ("fact-restraint", said.restraint(&site.edge.restraint)),
        (
            "fact-string",
            string.map_or_else(|| said.say("not-known"), |above| string_words(*said, above)),
        ),
    ];
    vec![
        Block::Heading(Level::Part, said.say("what-is-built")),
        Block::Facts(
            facts
                .into_iter()
                .map(|(key, value)| (said.say(key), value))
                .collect(),
        ),
    ]
}

/// Where the string hangs.
fn string_words(said: Said, above: Length) -> String {
    let written = said.shown_in.length(above);
    if written == said.shown_in.length(Length::default()) {
        said.say("string-on")
    } else {
        said.with("string-above", &[("above", &written)])
    }
}

/// The lifts from the bottom up.
pub(super) fn lifts(designed: &Designed<'_>) -> Vec<Block> {
    let Designed {
        bed,
        build,
        said,
        line,
        ..
    } = designed;
    if bed.lifts.each.is_empty() {
        return Vec::new();
    }
    let shown = said.shown_in;
    let rows = bed
        .lifts
        .each
        .iter()
        .map(|lift| {
            let found = build.lifts.iter().find(|found| found.number == lift.number);
            let passes = found.and_then(|found| found.n_passes_asked).map_or_else(
                || said.say("not-known"),
                |passes| said.with("passes-least", &[("passes", &passes.to_string())]),
            );
            let runs: Vec<String> = lift
                .runs
                .iter()
                .map(|(from, to)| {
                    let (least, most) = (shown.along(*from), shown.along(*to));
                    said.with("from-to", &[("least", &least), ("most", &most)])
                })
                .collect();
            let whole = lift.runs.iter().any(|(from, to)| {
                *to - *from >= line.run.length() - underbrick_calc::quantity::metres(1e-3)
            });
            row(vec![
                lift.number.to_string(),
                shown.length(lift.loose),
                shown.length(lift.compacted),
                passes,
                if whole {
                    said.say("everywhere")
                } else {
                    runs.join("; ")
                },
            ])
        })
        .collect();
    vec![Block::Together(vec![
        Block::Heading(Level::Part, said.say("lifts")),
        Block::Table(Table {
            caption: String::new(),
            columns: columns(
                *said,
                &[
                    ("lift", Align::Left),
                    ("loose-most", Align::Right),
                    ("compacted-to", Align::Right),
                    ("passes", Align::Left),
                    ("runs-where", Align::Left),
                ],
            ),
            rows,
        }),
        Block::Text(Style::Note, said.say("passes-note")),
    ])]
}

/// Edge brick, trench, forms, concrete.
pub(super) fn edge_and_forms(designed: &Designed<'_>) -> Vec<Block> {
    let Designed { bed, said, .. } = designed;
    let (edge, shown) = (&bed.edge, said.shown_in);
    let brick = edge.brick;
    let size = [brick.across, brick.along, brick.depth]
        .map(|size| shown.thickness(size))
        .join(" × ");
    let trench = if edge.trench_depth > Length::default() {
        let (deep, wide) = (
            shown.thickness(edge.trench_depth),
            shown.thickness(edge.trench_width),
        );
        said.with("trench-size", &[("deep", &deep), ("wide", &wide)])
    } else {
        said.say("none-needed")
    };
    let mut facts = vec![
        (said.say("edge-brick-size"), size),
        (said.say("trench"), trench),
    ];
    if edge.forms.n_boards > 0 {
        let boards = edge.forms.n_boards.to_string();
        let length = shown.along(edge.forms.length);
        let board = said.feet(12);
        facts.push((
            said.say("forms"),
            said.with(
                "forms-size",
                &[("length", &length), ("boards", &boards), ("board", &board)],
            ),
        ));
        facts.push((said.say("form-stakes"), edge.forms.n_stakes.to_string()));
        facts.push((said.say("spacers"), edge.forms.n_spacers.to_string()));
    }
    if let Restraint::Haunch { concrete, .. } = edge.restraint {
        facts.push((said.say("concrete"), shown.volume(concrete)));
    }
    let mut blocks = vec![
        Block::Heading(Level::Part, said.say("edge-and-forms")),
        Block::Facts(facts),
    ];
    blocks.extend(edge::detail(designed).map(Block::Figure));
    vec![Block::Together(blocks)]
}

/// The board, and the marks of the rod.
pub(super) fn screed_and_gauge(designed: &Designed<'_>) -> Vec<Block> {
    let Designed { build, said, .. } = designed;
    let (screed, shown) = (&build.screed, said.shown_in);
    let facts = vec![
        (said.say("screed-length"), shown.length(screed.length)),
        (said.say("screed-notch"), shown.thickness(screed.notch)),
        (said.say("screed-proud"), shown.thickness(screed.proud)),
    ];
    let marks: Vec<[String; 3]> = build
        .gauge
        .iter()
        .map(|mark| {
            [
                said.surface(mark.surface),
                shown.thickness(mark.below_string),
                said.say(if mark.is_everywhere {
                    "everywhere"
                } else {
                    "mark-least"
                }),
            ]
        })
        .collect();
    let abreast = if marks.len() < MARKS_ABREAST { 1 } else { 2 };
    // Down the first three columns, then down the next.
    let n_rows = marks.len().div_ceil(abreast);
    let rows = (0..n_rows)
        .map(|nth| {
            let cells = (0..abreast).flat_map(|column| {
                marks
                    .get(column * n_rows + nth)
                    .cloned()
                    .unwrap_or_default()
            });
            row(cells.collect())
        })
        .collect();
    let keys: Vec<(&str, Align)> = (0..abreast)
        .flat_map(|_| {
            [
                ("surface", Align::Left),
                ("mark-at", Align::Right),
                ("mark-where", Align::Left),
            ]
        })
        .collect();
    vec![Block::Together(vec![
        Block::Heading(Level::Part, said.say("screed-and-gauge")),
        Block::Facts(facts),
        Block::Table(Table {
            caption: said.say("gauge"),
            columns: columns(*said, &keys),
            rows,
        }),
    ])]
}
