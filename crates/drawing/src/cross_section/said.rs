//! What the parts of a cross-section are called.

use super::Cut;
use crate::material;
use crate::palette::Ink;
use crate::spotted::Stands;
use crate::wording;
use underbrick_calc::defaults;
use underbrick_calc::ground::{PitFound, Verdict};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::{RestraintInput, ShownIn};

/// What a callout points at.
#[derive(Clone, Copy, Debug)]
pub(super) enum What {
    GradeLine,
    Pit,
    OldSurface,
    Backfill,
    Form,
    Brick,
    SettingBed,
    Lifts,
    DigBottom,
    Unsuitable,
    Fabric,
    EdgeBrick,
    Restraint,
    Ground,
    /// On the old surface, at an offset in metres.
    OnOldSurface(f64),
    /// In the log of the nearest pit, at a level in metres.
    InPit(f64),
}

/// What a callout says.
pub(super) struct Said {
    pub what: What,
    pub title: String,
    pub note: String,
    pub ink: Ink,
    pub place: Option<Place>,
    /// 0 is dropped last.
    pub rank: u8,
}

impl Said {
    fn new(
        what: What,
        rank: u8,
        place: Option<Place>,
        title: impl Into<String>,
        note: impl Into<String>,
    ) -> Self {
        Self {
            what,
            title: title.into(),
            note: note.into(),
            ink: Ink::Ink,
            place,
            rank,
        }
    }

    fn in_ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }
}

/// Everything that there is to say.
pub(super) fn said(cut: &Cut<'_>) -> Vec<Said> {
    let shown_in = cut.site.shown_in;
    let written = |length: Length| shown_in.length(length);
    let mut all = Vec::new();
    let below_sill = wording::below(metres(-cut.grade_at(0.0)), shown_in);
    all.push(
        Said::new(
            What::GradeLine,
            0,
            Some(Place::GradeLine),
            "grade line",
            format!("{below_sill} the sill here"),
        )
        .in_ink(Ink::Line),
    );
    if let Some(pit) = cut.nearest_pit {
        all.push(Said::new(
            What::Pit,
            4,
            Some(Place::Pit(pit.pit_idx)),
            format!("pit {}", pit.pit_idx + 1),
            pit_away(cut, pit),
        ));
    }
    let joint = written(cut.site.brick.joint.unwrap_or_else(defaults::joint));
    all.push(Said::new(
        What::Brick,
        1,
        Some(Place::BrickThickness),
        "brick",
        format!("{} thick, {joint} joints", written(cut.unit_thickness)),
    ));
    all.push(Said::new(
        What::SettingBed,
        3,
        Some(Place::SettingBed),
        "setting bed",
        format!("{} compacted", written(cut.setting_bed)),
    ));
    if let Some(top) = cut.section.lifts.last() {
        let full = cut.lifts.full_compacted;
        let title = format!(
            "{}, {} each",
            wording::counted(cut.section.lifts.len(), "lift"),
            written(full)
        );
        let note = format!(
            "{} loose each",
            written(full * cut.lifts.loose_to_compacted)
        );
        all.push(Said::new(
            What::Lifts,
            0,
            Some(Place::Lift(top.number)),
            title,
            note,
        ));
    }
    if cut.nearest_pit.is_none() {
        let said = Said::new(
            What::DigBottom,
            2,
            Some(Place::DigBottom),
            "no pit: depth not known",
            "the least base is drawn",
        );
        all.push(said.in_ink(Ink::NotKnown));
    }
    if let Some(bottom) = cut.section.unsuitable_bottom {
        let drop = metres(cut.grade_at(0.0)) - bottom.level;
        let here = wording::below(drop, shown_in);
        let title = if bottom.found {
            "must come out to here"
        } else {
            "bottom not found"
        };
        let note = if bottom.found {
            format!("{here} the line")
        } else {
            at_least(drop, shown_in)
        };
        all.push(
            Said::new(What::Unsuitable, 5, Some(Place::DigBottom), title, note)
                .in_ink(Ink::NotKnown),
        );
    }
    if cut.section.fabric && cut.nearest_pit.is_some() {
        all.push(
            Said::new(
                What::Fabric,
                6,
                Some(Place::Fabric),
                "fabric",
                "under the base",
            )
            .in_ink(Ink::Line),
        );
    }
    let edge = format!("{} deep", written(cut.edge_brick.depth));
    all.push(Said::new(
        What::EdgeBrick,
        2,
        Some(Place::EdgeStands),
        wording::edge_name(cut.site.edge.stands),
        edge,
    ));
    let (title, note) = restraint(cut);
    let held = Said::new(What::Restraint, 5, Some(Place::Restraint), title, note);
    let is_held = cut.site.edge.restraint != RestraintInput::Nothing;
    all.push(if is_held {
        held
    } else {
        held.in_ink(Ink::NotKnown)
    });
    if let Some(old) = cut.old_at(0.0) {
        let drop = wording::below(metres(cut.grade_at(0.0) - old), shown_in);
        let title = if cut.section.old_surface_known {
            "as found"
        } else {
            "as found, not measured here"
        };
        all.push(
            Said::new(
                What::OldSurface,
                4,
                Some(Place::OldSurface),
                title,
                format!("{drop} the line"),
            )
            .in_ink(Ink::NotKnown),
        );
    }
    let carries = cut.nearest_pit.and_then(|pit| {
        pit.layers
            .iter()
            .rev()
            .find(|layer| layer.verdict == Verdict::Stays)
    });
    let name = carries.map_or("", |layer| {
        material::name_of(cut.catalogue, &layer.material)
    });
    all.push(Said::new(
        What::Ground,
        7,
        Some(Place::DigBottom),
        "undisturbed",
        name,
    ));
    all.push(Said::new(
        What::Backfill,
        8,
        Some(Place::SideExtension),
        "backfill",
        "beside the edge",
    ));
    all.push(Said::new(
        What::Form,
        9,
        Some(Place::Restraint),
        "form board",
        "while it is built",
    ));
    all.extend(cut.spotted.iter().map(|spotted| {
        let what = match spotted.stands {
            Stands::Surface(offset_m) => What::OnOldSurface(offset_m),
            Stands::Pit(_, level_m) => What::InPit(level_m),
        };
        let place = Some(spotted.place);
        Said::new(what, spotted.rank, place, spotted.title.as_str(), "").in_ink(spotted.ink)
    }));
    all
}

/// How far down something goes at the least, by the grade line.
pub(super) fn at_least(drop: Length, shown_in: ShownIn) -> String {
    let here = wording::below(drop, shown_in);
    if here.ends_with("below") {
        format!("at least {here} the line")
    } else if here.ends_with("above") {
        format!("down past {here} the line")
    } else {
        "deeper than the line".to_owned()
    }
}

/// The restraint, and its sizes where it has any.
pub(crate) fn restraint(cut: &Cut<'_>) -> (&'static str, String) {
    let written = |length: Length| cut.site.shown_in.length(length);
    match cut.site.edge.restraint {
        RestraintInput::Haunch { height, width, .. } => {
            let height = written(height.unwrap_or_else(defaults::haunch_height));
            let width = written(width.unwrap_or_else(defaults::haunch_width));
            ("concrete haunch", format!("{height} high, {width} wide"))
        }
        RestraintInput::Spiked { spacing } => {
            let spacing = written(spacing.unwrap_or_else(defaults::spike_spacing));
            ("spiked edging", format!("a spike every {spacing}"))
        }
        RestraintInput::Nothing => ("nothing holds the edge", String::new()),
    }
}

/// How far a pit is from the section: `9'-6" nearer the door`.
pub(super) fn pit_away(cut: &Cut<'_>, pit: &PitFound) -> String {
    let ahead = pit.station - cut.section.station;
    let away = cut.site.shown_in.along(wording::abs(ahead));
    if away == cut.site.shown_in.along(Length::default()) {
        "here".to_owned()
    } else if in_metres(ahead) < 0.0 {
        format!("{away} nearer the door")
    } else {
        format!("{away} further on")
    }
}
