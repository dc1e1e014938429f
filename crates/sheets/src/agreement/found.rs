//! Who agrees, and what was found.

use super::Design;
use crate::wording::on_one_line;
use underbrick_calc::findings::rules::{Cause, CauseFound, Strength};
use underbrick_calc::ground::{PitFound, Verdict};
use underbrick_calc::order::Cured;
use underbrick_calc::site::{Severity, ShownIn, Sign, SignKind};
use underbrick_drawing::plain::material_in_plain_words;

/// Most causes that are told: what stands first matters most.
const MOST_CAUSES: usize = 4;

pub(super) fn parties(design: Design<'_>) -> Vec<String> {
    let site = design.site;
    let address = on_one_line(&site.address);
    let walk = on_one_line(&site.walk);
    let place = if address.is_empty() {
        "an address that is not written down yet".to_owned()
    } else {
        address
    };
    let walk = if walk.is_empty() { "walk" } else { &walk };
    let who = design.letterhead.map_or_else(
        || "The contractor who signs below".to_owned(),
        |letterhead| {
            let lines = std::iter::once(&letterhead.name).chain(&letterhead.address);
            let lines: Vec<String> = lines.map(|line| on_one_line(line)).collect();
            lines.join(", ")
        },
    );
    let mut lines = vec![format!(
        "{who} rebuilds the {walk} at {place} for the owner who signs below."
    )];
    if let Some(letterhead) = design.letterhead {
        let credentials = [
            &letterhead.phone,
            &letterhead.licence,
            &letterhead.insurance,
        ];
        let credentials: Vec<String> = credentials
            .into_iter()
            .map(|line| on_one_line(line))
            .filter(|line| !line.is_empty())
            .collect();
        if !credentials.is_empty() {
            lines.push(format!("{}.", credentials.join(". ")));
        }
    }
    lines
}

pub(super) fn found(design: Design<'_>) -> Vec<String> {
    let mut lines = vec![lead(design)];
    lines.extend(rest_of_the_causes(design));
    let seen: Vec<String> = design
        .site
        .signs
        .iter()
        .filter_map(|sign| seen_in_plain_words(sign, design.shown()))
        .collect();
    if !seen.is_empty() {
        lines.push(format!("Seen on the walk: {}.", seen.join("; ")));
    }
    lines.extend(layers_shown(design));
    lines
}

/// The one sentence that matters: why the walk failed, as far as it is known.
pub(crate) fn lead(design: Design<'_>) -> String {
    match design.results.causes.first() {
        Some(cause) => told(cause),
        None if design.site.pits.is_empty() => {
            "Why the walk has failed is not known yet: nobody has looked under the brick."
                .to_owned()
        }
        None => "What was measured does not say why the walk has failed.".to_owned(),
    }
}

/// The other causes, the weightiest first, each said once.
pub(crate) fn rest_of_the_causes(design: Design<'_>) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let first = lead(design);
    for cause in design.results.causes.iter().skip(1) {
        let told = told(cause);
        if told != first && !lines.contains(&told) && lines.len() + 1 < MOST_CAUSES {
            lines.push(told);
        }
    }
    lines
}

fn told(cause: &CauseFound) -> String {
    let words = on_one_line(&cause.homeowner);
    match cause.strength {
        Strength::Sure | Strength::Likely => words,
        Strength::Possible => format!("It may also be this: {words}"),
    }
}

/// What the holes under the brick showed, a line for each; that none was dug, where none was.
pub(crate) fn layers_shown(design: Design<'_>) -> Vec<String> {
    let shown = design.shown();
    let pits = design.results.ground.as_ref().map(|ground| &ground.pits);
    let Some(pits) = pits.filter(|pits| !pits.is_empty()) else {
        return vec![
            "No hole was dug beside the brick, so what lies under it is not known.".to_owned(),
        ];
    };
    pits.iter()
        .map(|pit| pit_line(design, pit, shown))
        .collect()
}

fn pit_line(design: Design<'_>, pit: &PitFound, shown: ShownIn) -> String {
    let layers: Vec<String> = pit
        .layers
        .iter()
        .filter(|layer| layer.verdict != Verdict::Lifted)
        .map(|layer| {
            let name = material_in_plain_words(design.catalogue, &layer.material);
            match layer.bottom {
                Some(bottom) => format!("{} of {name}", shown.length(layer.top - bottom)),
                None => format!("{name} all the way down"),
            }
        })
        .collect();
    let station = shown.along(pit.station);
    let mut line = if layers.is_empty() {
        format!(
            "A hole {station} from the door showed nothing under the brick that was written down"
        )
    } else {
        format!(
            "Under the brick, {station} from the door: {}",
            layers.join(", then ")
        )
    };
    if let Some(seep) = pit.seep {
        line += &format!(
            "; water came in {} down on the day of the visit",
            shown.length(pit.top - seep)
        );
    }
    if !pit.unsuitable_bottom.found {
        line += "; the hole ended before firm ground was reached";
    }
    line.push('.');
    line
}

/// What is seen, in the words of someone who lives there; `None` where it was not said what it is.
#[must_use]
pub fn seen_in_plain_words(sign: &Sign, shown: ShownIn) -> Option<String> {
    let what = match sign.what? {
        SignKind::Sunk => "it has sunk",
        SignKind::Heaved => "it has been pushed up",
        SignKind::Rocking => "brick rocks underfoot",
        SignKind::OpenJoints => "the gaps between the brick have opened",
        SignKind::Moss => "moss or weeds grow in the gaps",
        SignKind::Ponding => "water stands on it",
        SignKind::EdgeSpread => "an edge has moved outwards",
        SignKind::BrokenBrick => "brick is cracked or has lost its face",
        SignKind::Root => "a root runs under or beside it",
        SignKind::Downpipe => "a downpipe lets its water out at it",
    };
    let width = sign
        .width
        .map_or_else(String::new, |width| format!(" to {}", shown.length(width)));
    let place = sign.station.map_or_else(
        || "all along".to_owned(),
        |station| format!("{} from the door", shown.along(station)),
    );
    let how_bad = match sign.severity {
        Severity::Slight => ", slightly",
        Severity::Plain => "",
        Severity::Bad => ", badly",
    };
    Some(format!("{what}{width} {place}{how_bad}"))
}

/// What makes a walk fail, to stand in the middle of a sentence.
#[must_use]
pub const fn cause_in_plain_words(cause: Cause) -> &'static str {
    match cause {
        Cause::BaseNeverPacks => "the loose ground right under the brick",
        Cause::BaseTooThin => "too little stone under the brick",
        Cause::SoftGround => "the soft ground below",
        Cause::WetGround => "water that stands in the ground",
        Cause::FallsToHouse => "the slope towards the house",
        Cause::TooFlat => "water that stays on top",
        Cause::SettingBed => "the sand or dust that the brick lies on",
        Cause::JointsTooWide => "wide or empty gaps between the brick",
        Cause::NoRestraint => "an edge that nothing holds",
        Cause::BondCannotClose => "a pattern that does not fit the brick",
        Cause::Roots => "roots",
        Cause::Frost => "wet ground that freezes",
        Cause::Downpipe => "roof water that is let out at the walk",
        Cause::NotDugEnough => "ground that nobody has dug deep enough to see",
    }
}

/// What the chosen way does not mend, each cause once with why.
pub(super) fn not_cured(design: Design<'_>) -> Vec<String> {
    let Some(priced) = design.chosen() else {
        return Vec::new();
    };
    let mut lines: Vec<String> = Vec::new();
    for cure in &priced.cures {
        let cause = design.results.causes.iter();
        let Some(cause) = cause.clone().find(|cause| cause.rule_id == cure.rule_id) else {
            continue;
        };
        // What nobody has seen is said to be open.
        if cause.cause == Cause::NotDugEnough {
            continue;
        }
        let what = on_one_line(&cause.homeowner);
        let line = match cure.cured {
            Cured::Yes => continue,
            Cured::No => {
                format!("{what} This way leaves that as it is, and it may bring the trouble back.")
            }
            Cured::OtherWork => format!(
                "{what} That needs other work as well, which is not part of this agreement."
            ),
            Cured::NotSaid => format!("{what} Whether this way mends that is not known."),
        };
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}
