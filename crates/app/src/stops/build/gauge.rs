//! Screed board and gauge rod, to cut from scrap wood, and base placed against base ordered.

use underbrick_calc::build::Build;

use super::{heading, list};
use crate::stops::figure;
use crate::stops::opened::{BuildList, FullSize, Opened, Part};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, build: &Build, opened: &Opened, rows: &mut Vec<Row>) {
    let shown = visit.site().shown_in;
    rows.push(heading("Screed and gauge rod", "cut from scrap wood"));
    if list(opened, BuildList::Gauge, "screed and gauge rod", rows) {
        let screed = &build.screed;
        rows.push(figure(
            "Screed board",
            shown.length(screed.length),
            format!(
                "dips between the edges over {}",
                shown.length(screed.between)
            ),
        ));
        rows.push(figure(
            "Notch",
            shown.thickness(screed.notch),
            format!(
                "brick less the {} that it stands proud",
                shown.thickness(screed.proud)
            ),
        ));
        rows.push(Row::More {
            words: "screed board and gauge rod full size".to_owned(),
            part: Part::FullSize(Some(FullSize::Screed)),
        });
        for mark in &build.gauge {
            let note = if mark.is_everywhere {
                "from the string down, everywhere"
            } else {
                "from the string down where the dig is least"
            };
            rows.push(figure(
                format!("Mark: {}", mark.surface.name()),
                shown.length(mark.below_string),
                note,
            ));
        }
    }
    placed(visit, build, rows);
}

fn placed(visit: &Visit, build: &Build, rows: &mut Vec<Row>) {
    let Some(placed) = &build.placed else { return };
    let shown = visit.site().shown_in;
    rows.push(heading("Base placed", "as tipped"));
    rows.push(figure(
        "Placed so far",
        shown.volume(placed.by_readings.unwrap_or(placed.by_design)),
        match placed.by_readings {
            Some(_) => format!("as measured; by design {}", shown.volume(placed.by_design)),
            None => "by the lifts that are closed".to_owned(),
        },
    ));
    rows.push(figure("Still to come", shown.volume(placed.to_come), ""));
    for (item, came, ordered, unit) in &placed.delivered {
        let ordered = ordered.map_or_else(
            || "not ordered".to_owned(),
            |ordered| format!("of {} {} ordered", ordered.normalize(), unit.symbol(true)),
        );
        rows.push(figure(
            format!("{} that came", item.name()),
            format!("{} {}", came.normalize(), unit.symbol(true)),
            ordered,
        ));
    }
    if let Some(will_do) = placed.will_do {
        let (mark, text) = if will_do {
            (Mark::Right, "The rest of the order will do.")
        } else {
            (
                Mark::Wrong,
                "The rest of the order will not do: order more before it runs out.",
            )
        };
        rows.push(Row::Said {
            mark,
            text: text.to_owned(),
            under: String::new(),
        });
    }
}
