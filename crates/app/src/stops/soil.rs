//! Soil and frost within the stop Look: tests, the feel of the soil, the winter, and what follows from them.

use underbrick_calc::findings::Weight;
use underbrick_calc::ground::soil::{FrostFound, FrostMethod, SoilFound, frost_depth_said};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::{Grit, Ribbon, ShownIn};

use super::{figure, heading, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

/// The fold, and its rows where it is open.
pub(super) fn rows(visit: &Visit, is_open: bool) -> Vec<Row> {
    let found = visit.results().soil.as_ref();
    let shown_in = visit.site().shown_in;
    let mut rows = vec![Row::Fold {
        name: "Soil and frost".to_owned(),
        note: in_short(found, shown_in),
        is_open,
        thing: Place::Soil,
    }];
    if !is_open {
        return rows;
    }
    rows.push(heading("By feel", "a moist ball, squeezed to a ribbon"));
    by_feel(visit, &mut rows);
    rows.push(heading("Texture", "of all grains up to 2 mm"));
    values(
        visit,
        &[Place::SoilSand, Place::SoilSilt, Place::SoilClay],
        &mut rows,
    );
    if let Some(found) = found {
        texture(found, &mut rows);
    }
    rows.push(heading("Laboratory", "index tests and sieves"));
    values(
        visit,
        &[
            Place::LiquidLimit,
            Place::PlasticLimit,
            Place::Fines,
            Place::SieveSand,
            Place::SieveGravel,
            Place::GrainD10,
            Place::GrainD30,
            Place::GrainD60,
            Place::FinerThan002,
        ],
        &mut rows,
    );
    if let Some(found) = found {
        symbol(found, &mut rows);
        groups(found, &mut rows);
    }
    rows.push(heading("Frost depth", "the local one goes first"));
    values(
        visit,
        &[
            Place::FrostDepth,
            Place::FreezingIndex,
            Place::FreezingDays,
            Place::MeanTemperature,
            Place::SurfaceFactor,
            Place::DryDensity,
            Place::WaterContent,
            Place::Conductivity,
        ],
        &mut rows,
    );
    if let Some(frost) = found.and_then(|found| found.frost.as_ref()) {
        depths(frost, shown_in, &mut rows);
    }
    rows
}

/// What stands beside the fold: `CL, F3, frost 3'-6"`.
fn in_short(found: Option<&SoilFound>, shown_in: ShownIn) -> String {
    let Some(found) = found else {
        return "nothing tested".to_owned();
    };
    let name = match (&found.uscs, &found.texture) {
        (Some(uscs), _) => Some(uscs.symbol.clone()),
        (None, Some(texture)) => Some(texture.class.name().to_owned()),
        (None, None) => None,
    };
    let group = found
        .frost_groups
        .first()
        .map(|worst| worst.group.name().to_owned());
    let depth = found.frost.as_ref().map(|frost| {
        format!(
            "frost {}",
            frost_depth_said(frost.depth, frost.method, shown_in)
        )
    });
    let parts: Vec<String> = [name, group, depth].into_iter().flatten().collect();
    if parts.is_empty() {
        "not enough tested".to_owned()
    } else {
        parts.join(", ")
    }
}

fn values(visit: &Visit, places: &[Place], rows: &mut Vec<Row>) {
    rows.extend(places.iter().map(|place| value(visit, *place, "")));
}

fn by_feel(visit: &Visit, rows: &mut Vec<Row>) {
    let soil = &visit.site().soil;
    let lengths = match visit.site().shown_in {
        ShownIn::FeetInches => ["under 1 in", "1 to 2 in", "2 in and more"],
        ShownIn::Metric => ["under 25 mm", "25 to 50 mm", "50 mm and more"],
    };
    let [short, middling, long] = lengths;
    let ribbons = [
        ("makes no ball", Some(Ribbon::NoBall)),
        ("no ribbon", Some(Ribbon::NoRibbon)),
        (short, Some(Ribbon::Short)),
        (middling, Some(Ribbon::Middling)),
        (long, Some(Ribbon::Long)),
        ("not felt", None),
    ];
    rows.push(Row::Choice {
        label: "The ribbon before it breaks".to_owned(),
        options: ribbons
            .into_iter()
            .map(|(word, ribbon)| {
                let edit = Edit::Ribbon(ribbon);
                (word.to_owned(), edit, soil.ribbon == ribbon)
            })
            .collect(),
    });
    if matches!(
        soil.ribbon,
        Some(Ribbon::Short | Ribbon::Middling | Ribbon::Long)
    ) {
        let feels = [
            ("very gritty", Grit::Gritty),
            ("very smooth", Grit::Smooth),
            ("neither", Grit::Neither),
        ];
        rows.push(Row::Choice {
            label: "A wet pinch in the palm".to_owned(),
            options: feels
                .into_iter()
                .map(|(word, grit)| {
                    let edit = Edit::Grit(Some(grit));
                    (word.to_owned(), edit, soil.grit == Some(grit))
                })
                .collect(),
        });
    }
    rows.push(Row::Choice {
        label: "Thin bands of silt and clay".to_owned(),
        options: [("none seen", false), ("banded", true)]
            .into_iter()
            .map(|(word, varved)| {
                let edit = Edit::Varved(varved);
                (word.to_owned(), edit, soil.varved == varved)
            })
            .collect(),
    });
}

fn texture(found: &SoilFound, rows: &mut Vec<Row>) {
    if let Some(texture) = &found.texture {
        let how = if texture.is_by_feel {
            "by feel"
        } else {
            "by shares"
        };
        rows.push(figure("Texture", texture.class.name(), how));
        rows.push(why(
            format!("{}.", texture.why),
            "Soil classes of the United States Department of Agriculture",
        ));
    }
}

fn symbol(found: &SoilFound, rows: &mut Vec<Row>) {
    if let Some(uscs) = &found.uscs {
        rows.push(figure("Symbol", uscs.symbol.as_str(), uscs.name));
        rows.push(why(
            uscs.reasons.join(" "),
            "ASTM D2487, as in UFC 3-220-10",
        ));
    }
}

fn groups(found: &SoilFound, rows: &mut Vec<Row>) {
    let names: Vec<&str> = found
        .frost_groups
        .iter()
        .map(|group| group.group.name())
        .collect();
    let Some(worst) = found.frost_groups.first() else {
        return;
    };
    let note = match (worst.group.heaves(), names.len()) {
        (true, 1) => "heaves in frost",
        (true, _) => "heaves in frost; the worse first",
        (false, _) => "does not heave by the table",
    };
    rows.push(figure("Frost group", names.join(" or "), note));
    for group in &found.frost_groups {
        rows.push(why(
            format!("{}: {}.", group.line, group.why),
            underbrick_calc::ground::soil::frost_group::TABLE,
        ));
    }
}

fn depths(frost: &FrostFound, shown_in: ShownIn, rows: &mut Vec<Row>) {
    let said = |depth: Option<Length>, method| {
        depth.map(|depth| frost_depth_said(depth, method, shown_in))
    };
    let berggren = frost.berggren.map(|found| found.depth);
    let computed = [
        (
            "By modified Berggren",
            said(berggren, FrostMethod::Berggren),
            "UFC 3-130-06, exact Neumann root",
        ),
        (
            "By Stefan",
            said(frost.stefan, FrostMethod::Stefan),
            "the deeper, without the ground's own heat",
        ),
    ];
    for (label, depth, note) in computed {
        if let Some(depth) = depth {
            rows.push(figure(label, depth, note));
        }
    }
    rows.push(figure(
        "Frost depth taken",
        frost_depth_said(frost.depth, frost.method, shown_in),
        frost.method.words(),
    ));
    rows.push(why(
        format!("Taken is the {} one: {}.", frost.method.words(), frost.why),
        &frost.rests_on.join(" "),
    ));
}

fn why(text: String, under: &str) -> Row {
    Row::Said {
        mark: Mark::of(Weight::Note),
        text,
        under: under.to_owned(),
    }
}
