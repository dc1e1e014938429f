//! Days on site: stages in turn, what must be there when, what is hired for how long.

use super::super::need::{Figure, Need, NeedAmount, Needs, Step};
use super::super::priced::{Day, Labour, Programme, Trips};
use super::super::stage::Stage;
use super::hours::CrewFound;
use crate::order::Item;
use crate::place::Place;
use rust_decimal::Decimal;

/// More days than this are not written out.
const MOST_DAYS: u32 = 366;

/// The programme with what it lets one hire.
#[derive(Clone, Debug)]
pub(super) struct Planned {
    pub programme: Programme,
    /// Plate and saw, as far as a stage needs them.
    pub hire: Vec<Need>,
}

/// Stages one after another, each by the whole crew, days filled to their last hour.
pub(super) fn plan(needs: &Needs, labour: &[Labour], crew: CrewFound) -> Planned {
    let spans = spans(labour, crew);
    let hire = [Item::Plate, Item::Saw]
        .into_iter()
        .filter_map(|machine| hired(machine, labour, spans.as_deref()))
        .collect();
    let days = spans.map_or_else(Vec::new, |spans| days(needs, &spans, crew));
    Planned {
        programme: Programme {
            n_crew: crew.n,
            days,
        },
        hire,
    }
}

/// A day of the programme by its number, counted from 1.
fn the_day(day_idx: u32) -> Figure {
    Figure::Words(format!("day {}", day_idx.saturating_add(1)))
}

/// Says on the first day what one's own trips take: they are paid as labour, and not among the stages.
pub(super) fn tell_trips(programme: &mut Programme, trips: Trips) {
    if let Some(day) = programme.days.first_mut()
        && trips.hours > Decimal::ZERO
    {
        let (n, hours) = (trips.n, trips.hours);
        let trips = if n == 1 { "trip" } else { "trips" };
        day.said.push(format!(
            "{n} {trips} with your own truck take {hours} h of one person besides, before these days and between them."
        ));
    }
}

/// When a stage is worked on.
#[derive(Clone, Copy, Debug)]
struct Span {
    stage: Stage,
    /// Hours of one person since the start of the work.
    from: Decimal,
    to: Decimal,
    /// Counted from zero.
    first_day: u32,
    last_day: u32,
    is_known: bool,
}

/// `None` where no stage has hours, or where they cannot be counted.
fn spans(labour: &[Labour], crew: CrewFound) -> Option<Vec<Span>> {
    labour.iter().find(|labour| labour.hours.is_some())?;
    let a_day = crew_day(crew)?;
    let mut from = Decimal::ZERO;
    let mut spans = Vec::new();
    for labour in labour {
        let hours = labour.hours.unwrap_or_default();
        let to = from.checked_add(hours)?;
        let last_day = day_that_ends(to, a_day)?;
        let first_day = if hours.is_zero() {
            last_day
        } else {
            day_that_begins(from, a_day)?
        };
        spans.push(Span {
            stage: labour.work.stage,
            from,
            to,
            first_day,
            last_day,
            is_known: labour.hours.is_some(),
        });
        from = to;
    }
    Some(spans)
}

fn days(needs: &Needs, spans: &[Span], crew: CrewFound) -> Vec<Day> {
    let Some(a_day) = crew_day(crew) else {
        return Vec::new();
    };
    let n_days = spans
        .last()
        .map_or(0, |span| span.last_day.saturating_add(1));
    let mut days: Vec<Day> = (0..n_days.min(MOST_DAYS)).map(|_| Day::default()).collect();
    let mut met = Vec::new();
    for (day_idx, day) in (0..n_days).zip(&mut days) {
        let morning = a_day * Decimal::from(day_idx);
        let evening = morning + a_day;
        for span in spans {
            if !(span.first_day..=span.last_day).contains(&day_idx) {
                continue;
            }
            let worked = (span.to.min(evening) - span.from.max(morning)).max(Decimal::ZERO);
            let hours = (worked / Decimal::from(crew.n)).round_dp(4).normalize();
            day.stages.push((span.stage, hours));
            if span.first_day == day_idx {
                bring(needs, span.stage, day, &mut met);
                day.said.extend(said_at_start(needs, spans, *span));
            }
        }
    }
    if n_days > MOST_DAYS
        && let Some(day) = days.last_mut()
    {
        day.said
            .push(format!("It goes on for {n_days} days in all."));
    }
    days
}

/// What a stage asks for, as far as it is needed and was not brought for a stage before it.
fn bring(needs: &Needs, stage: Stage, day: &mut Day, met: &mut Vec<Item>) {
    for item in asked_for(stage, needs) {
        let is_there = matches!(item, Item::Plate | Item::Saw) || needs.of(item).is_some();
        if is_there && !met.contains(&item) {
            met.push(item);
            day.on_site.push(item);
        }
    }
}

/// What must be on site before a stage begins.
fn asked_for(stage: Stage, needs: &Needs) -> Vec<Item> {
    let edge = if needs.of(Item::SecondBrick).is_some() {
        Item::SecondBrick
    } else {
        Item::Brick
    };
    match stage {
        Stage::TrimBottom => vec![Item::Plate],
        Stage::LayFabric => vec![Item::Fabric],
        Stage::Lifts => vec![Item::Base, Item::Plate],
        Stage::Forms => vec![
            Item::FormBoard,
            Item::FormStake,
            Item::FormScrew,
            Item::Spacer,
            Item::String,
        ],
        Stage::EdgeBrick => vec![edge, Item::Spacer, Item::String],
        Stage::Restraint => vec![Item::HaunchConcrete, Item::EdgingStrip, Item::EdgingSpike],
        Stage::Screed => vec![Item::SettingBed],
        Stage::LayField => vec![Item::Brick, Item::SecondBrick, Item::String],
        Stage::Cut => vec![Item::Saw],
        Stage::Jointing => vec![Item::Jointing, Item::Plate],
        Stage::LiftBrick | Stage::Dig | Stage::LoadSpoil | Stage::HandOver => Vec::new(),
    }
}

/// What is to be known on the day a stage begins.
///
/// # Source
/// Buried services: check value H8. Dust: check value H1. Concrete that must set, dry joints: common practice, no source; the bag says.
fn said_at_start(needs: &Needs, spans: &[Span], span: Span) -> Vec<String> {
    let mut said = Vec::new();
    let has_haunch = needs.of(Item::HaunchConcrete).is_some();
    match span.stage {
        Stage::Dig => said.push(
            "Buried services must have been located and marked before the first spade: call before you dig."
                .to_owned(),
        ),
        Stage::Restraint if has_haunch => said.push(
            "Concrete of the haunch must set before the plate runs beside it: follow the bag (common practice, no source)."
                .to_owned(),
        ),
        Stage::Cut => said.push("Saw wet: the dust of brick is silica.".to_owned()),
        Stage::Jointing => {
            if needs.of(Item::Jointing).is_some() {
                said.push(
                    "Dry weather, brick and joints dry: follow the bag of the jointing (common practice, no source)."
                        .to_owned(),
                );
            }
            let is_same_day = spans
                .iter()
                .any(|other| other.stage == Stage::Restraint && other.last_day == span.first_day);
            if has_haunch && is_same_day {
                said.push(
                    "The haunch was placed today: the plate waits until its concrete has set."
                        .to_owned(),
                );
            }
        }
        _ => {}
    }
    if !span.is_known {
        said.push(format!(
            "{}: its hours are not known, so this takes longer.",
            span.stage.name()
        ));
    }
    said
}

/// Days of hire of a machine: from the first to the last stage that needs it.
fn hired(machine: Item, labour: &[Labour], spans: Option<&[Span]>) -> Option<Need> {
    let needs_it = |stage: Stage| match machine {
        Item::Plate => matches!(stage, Stage::TrimBottom | Stage::Lifts | Stage::Jointing),
        _ => stage == Stage::Cut,
    };
    let stages = || labour.iter().map(|labour| labour.work.stage);
    let first = stages().find(|stage| needs_it(*stage))?;
    let last = stages().rfind(|stage| needs_it(*stage))?;
    let of = |stage: Stage| spans?.iter().find(|span| span.stage == stage).copied();
    let mut steps = Vec::new();
    let mut amount = None;
    let mut is_least = true;
    if let (Some(start), Some(end)) = (of(first), of(last)) {
        let n_days = end
            .last_day
            .saturating_sub(start.first_day)
            .saturating_add(1);
        amount = Some(NeedAmount::Days(n_days));
        steps.push(Step::new("from", the_day(start.first_day)).from(first.name()));
        steps.push(Step::new("to", the_day(end.last_day)).from(last.name()));
        is_least = spans.is_none_or(|spans| {
            spans
                .iter()
                .any(|span| span.stage >= first && span.stage <= last && !span.is_known)
        });
    } else {
        steps.push(Step::new(
            "hours of the stages",
            Figure::Words("not known".to_owned()),
        ));
    }
    let mut from = vec![Place::StageHours(first)];
    if last != first {
        from.push(Place::StageHours(last));
    }
    Some(Need {
        item: machine,
        material: None,
        name: machine.name().to_owned(),
        amount,
        is_least,
        from,
        steps,
    })
}

/// Hours of one person in a day of the whole crew.
fn crew_day(crew: CrewFound) -> Option<Decimal> {
    crew.hours_a_day
        .checked_mul(Decimal::from(crew.n))
        .filter(|hours| *hours > Decimal::ZERO)
}

/// The day on which work begins that follows on so many hours.
fn day_that_begins(hours: Decimal, a_day: Decimal) -> Option<u32> {
    let whole = hours.checked_sub(hours.checked_rem(a_day)?)?;
    u32::try_from(whole.checked_div(a_day)?.round()).ok()
}

/// The day on which work ends that so many hours bring to its end.
fn day_that_ends(hours: Decimal, a_day: Decimal) -> Option<u32> {
    let begun = day_that_begins(hours, a_day)?;
    let is_full = hours.checked_rem(a_day)?.is_zero();
    Some(if is_full {
        begun.saturating_sub(1)
    } else {
        begun
    })
}
