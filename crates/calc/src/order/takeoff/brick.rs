//! Brick: what is laid, what the old walk gives back, what is bought and what is taken away.

use super::super::item::{Item, Way};
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::draft::Draft;
use super::{Job, missing};
use crate::catalogue::{Material, UnderAWalk};
use crate::lay::{BrickSize, Bricks, Lay, Salvage};
use crate::place::Place;
use crate::quantity::{Area, Length, Mass, Volume, cubic_metres};

const WHOLE_BRICK_MISSING: &str = "how many whole bricks there are: count them or give a loss";

/// Brick of both sizes, as far as it is bought. What the old walk gives back is brick of the first size; of the second none is counted.
pub(super) fn bricks(job: &Job<'_>) -> Vec<Need> {
    let Some(lay) = job.lay() else {
        let missing = missing::of_lay(job);
        let is_of_second = job.site.lay.edge_of_second && BrickSize::of_second(job.site).is_some();
        let second = is_of_second.then(|| second_draft().misses(missing.clone()));
        return std::iter::once(first_draft().misses(missing))
            .chain(second)
            .collect();
    };
    [first(job, lay), second(job, lay)]
        .into_iter()
        .flatten()
        .collect()
}

fn first_draft() -> Draft {
    Draft::of(Item::Brick).from([
        Place::BrickThickness,
        Place::Width,
        Place::BrickLength,
        Place::BrickWidth,
        Place::Joint,
    ])
}

fn first(job: &Job<'_>, lay: &Lay) -> Option<Need> {
    let bricks = &lay.cuts.first;
    let each = Each::of(job, BrickSize::of_field(job.site), lay.wishes.joint);
    let draft = first_draft().steps(laid(bricks));
    if job.way == Way::NewBrick {
        return bought(draft, bricks.n_bricks(), &each);
    }
    let Some(salvage) = lay.salvage else {
        return Some(
            draft
                .from([Place::BricksOnSite, Place::BrickLoss])
                .misses(WHOLE_BRICK_MISSING),
        );
    };
    let n_short = bricks.n_bricks().saturating_sub(salvage.n_whole);
    let draft = draft
        .from([counted_at(&salvage)])
        .steps(given_back(lay, &salvage))
        .step("short", Figure::Pieces(n_short));
    bought(draft, n_short, &each)
}

fn second_draft() -> Draft {
    Draft::of(Item::SecondBrick).from([
        Place::EdgeStands,
        Place::SecondLength,
        Place::SecondWidth,
        Place::SecondThickness,
    ])
}

/// The edge's brick where it is of the second size: all of it is bought, as none of it was counted.
fn second(job: &Job<'_>, lay: &Lay) -> Option<Need> {
    let bricks = &lay.cuts.second;
    let size = BrickSize::of_second(job.site)?;
    let each = Each::of(job, size, lay.wishes.joint);
    let mut draft = second_draft().steps(laid(bricks));
    if job.way != Way::NewBrick {
        draft = draft.step(
            "of it on site",
            Figure::Words("not counted: all of it is bought".to_owned()),
        );
    }
    bought(draft, bricks.n_bricks(), &each)
}

fn bought(draft: Draft, n: u32, each: &Each) -> Option<Need> {
    let need = draft.steps(each.steps()).needs(NeedAmount::Pieces {
        n,
        each_covers: Some(each.covers),
        each_weighs: each.weighs,
    });
    (n > 0).then_some(need)
}

fn laid(bricks: &Bricks) -> [Step; 4] {
    [
        Step::new("laid whole", Figure::Pieces(bricks.n_whole)),
        Step::new(
            "sawn for pieces cut to length",
            Figure::Pieces(bricks.to_length.n_bricks),
        ),
        Step::new(
            "sawn for pieces cut along their length",
            Figure::Pieces(bricks.to_width.n_bricks),
        ),
        Step::new("bricks in all", Figure::Pieces(bricks.n_bricks())),
    ]
}

fn given_back(lay: &Lay, salvage: &Salvage) -> [Step; 2] {
    let from = if salvage.is_counted {
        "counted"
    } else {
        "what was lifted, less the loss"
    };
    [
        Step::new("lifted, about", Figure::Pieces(lay.n_lifted))
            .from("the clear area in whole brick and joints of this size"),
        Step::new("whole and good", Figure::Pieces(salvage.n_whole)).from(from),
    ]
}

fn counted_at(salvage: &Salvage) -> Place {
    if salvage.is_counted {
        Place::BricksOnSite
    } else {
        Place::BrickLoss
    }
}

/// What one brick is.
#[derive(Clone, Debug)]
struct Each {
    covers: Area,
    volume: Volume,
    weighs: Option<Mass>,
    source: String,
}

impl Each {
    /// Of fired clay, as dense as the catalogue has it.
    fn of(job: &Job<'_>, size: BrickSize, joint: Length) -> Self {
        let volume: Volume = size.length * size.width * size.thickness;
        let clay = job.catalogue.fired_clay.as_ref();
        Self {
            covers: (size.length + joint) * (size.width + joint),
            volume,
            weighs: clay.map(|clay| volume * clay.density),
            source: clay.map(|clay| clay.source.clone()).unwrap_or_default(),
        }
    }

    fn steps(&self) -> impl Iterator<Item = Step> {
        let weighs = self
            .weighs
            .map(|weighs| Step::new("one weighs", Figure::Mass(weighs)).from(self.source.clone()));
        std::iter::once(Step::new(
            "one covers, with its joint",
            Figure::Area(self.covers),
        ))
        .chain(weighs)
    }
}

/// Old brick that is taken away: all of it where the brick is new, else what broke. What is left over whole stays with the homeowner.
pub(super) fn old_brick(job: &Job<'_>) -> Option<Need> {
    let draft = Draft::of(Item::OldBrick).from([Place::OldSurface]);
    let material = old_pavement(job);
    let draft = match material {
        Some(material) => draft.of_key(&material.key),
        None => return Some(draft.misses("old brick in the catalogue: what it weighs")),
    };
    let material = material?;
    if job.way == Way::NewBrick {
        return all_of_it(job, draft, material);
    }
    let Some(lay) = job.lay() else {
        return Some(draft.misses(missing::of_lay(job)));
    };
    let Some(salvage) = lay.salvage else {
        return Some(
            draft
                .from([Place::BricksOnSite, Place::BrickLoss])
                .misses(WHOLE_BRICK_MISSING),
        );
    };
    let n_broken = lay.n_lifted.saturating_sub(salvage.n_whole);
    let each = Each::of(job, BrickSize::of_field(job.site), lay.wishes.joint);
    let in_place = each.volume * f64::from(n_broken);
    let weighs = each.weighs.unwrap_or(each.volume * material.bank_density);
    let draft = draft
        .from([counted_at(&salvage)])
        .steps(given_back(lay, &salvage))
        .step("broken", Figure::Pieces(n_broken))
        .steps([Step::new("one weighs", Figure::Mass(weighs)).from(each.source)]);
    (n_broken > 0).then(|| taken_away(draft, material, in_place, weighs * f64::from(n_broken)))
}

fn all_of_it(job: &Job<'_>, draft: Draft, material: &Material) -> Option<Need> {
    let Some(bed) = job.bed() else {
        return Some(draft.misses(missing::of_bed(job)));
    };
    let Some(dug) = bed.earthwork.dig_bank else {
        return Some(draft.misses("a reading of the old surface"));
    };
    let in_place = dug.old_pavement;
    let draft = draft
        .step("paved in plan", Figure::Area(bed.earthwork.paved_area))
        .steps([Step::new(
            "density in the walk",
            Figure::Density(material.bank_density),
        )
        .from(material.source_of("density in the ground"))]);
    (in_place > cubic_metres(0.0))
        .then(|| taken_away(draft, material, in_place, in_place * material.bank_density))
}

fn taken_away(draft: Draft, material: &Material, in_place: Volume, dry_mass: Mass) -> Need {
    let loose = in_place * (1.0 + material.swell);
    draft
        .steps([
            Step::new("in place", Figure::Volume(in_place)),
            Step::new("× swell", Figure::Percent(material.swell * 100.0))
                .from(material.source_of("swell")),
            Step::new("loose", Figure::Volume(loose)),
            Step::new("mass", Figure::Mass(dry_mass)),
        ])
        .needs(NeedAmount::Bulk {
            in_place,
            loose,
            dry_mass,
        })
}

fn old_pavement<'a>(job: &Job<'a>) -> Option<&'a Material> {
    let mut materials = job.catalogue.materials.iter();
    materials.find(|material| material.under_a_walk == UnderAWalk::OldPavement)
}

/// How many old bricks are laid again, and how many are left over.
#[derive(Clone, Copy, Debug)]
pub(super) struct Count {
    salvage: Option<Salvage>,
    n_needed: u32,
}

impl Count {
    pub(super) fn of(job: &Job<'_>) -> Self {
        let lay = job.lay();
        Self {
            salvage: lay.and_then(|lay| lay.salvage),
            n_needed: lay.map_or(0, |lay| lay.cuts.first.n_bricks()),
        }
    }

    /// `None` where it is not known how many are whole.
    pub(super) fn n_reused(self, way: Way) -> Option<u32> {
        if way == Way::NewBrick {
            return Some(0);
        }
        Some(self.salvage?.n_whole.min(self.n_needed))
    }

    /// Whole brick left over; none where all of it is taken away.
    pub(super) fn n_over(self, way: Way) -> u32 {
        match (way, self.salvage) {
            (Way::Relay | Way::NewBase, Some(salvage)) => {
                salvage.n_whole.saturating_sub(self.n_needed)
            }
            _ => 0,
        }
    }
}
