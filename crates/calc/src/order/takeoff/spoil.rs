//! What is dug, what must come out and what makes room kept apart.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::bulk::loose_density;
use super::draft::Draft;
use super::{Job, missing};
use crate::bed::Spoil;
use crate::ground::{Ground, Verdict};
use crate::place::Place;
use crate::quantity::{Volume, cubic_metres, in_cubic_metres};
use crate::site::MaterialKey;

/// A millilitre: less is a rounding of the arithmetic.
const NOTHING_M3: f64 = 1e-6;

/// Ground that must come out, and good ground dug away.
pub(super) fn dug(job: &Job<'_>) -> Vec<Need> {
    let kinds = [
        (Item::UnsuitableSpoil, Verdict::ComesOut),
        (Item::TrimSpoil, Verdict::Stays),
    ];
    let Some((bed, ground)) = job.bed().zip(job.found.ground) else {
        let missing = missing::of_bed(job);
        return kinds
            .map(|(item, _)| draft(item).misses(missing.clone()))
            .to_vec();
    };
    let Some(dug) = bed.earthwork.dig_bank else {
        return kinds
            .map(|(item, _)| draft(item).misses("a reading of the old surface"))
            .to_vec();
    };
    let mut needs = Vec::new();
    for (item, verdict) in kinds {
        let (bank, spoil) = match verdict {
            Verdict::ComesOut => (dug.unsuitable, dug.unsuitable_spoil),
            _ => (dug.trim, dug.trim_spoil),
        };
        let here = materials(job, ground, verdict);
        let draft = of_materials(draft(item), &here)
            .from(layers(ground, verdict))
            .from(pits(ground))
            .least(bed.earthwork.is_least)
            .step("dig in plan", Figure::Area(bed.earthwork.dig_area));
        if item == Item::UnsuitableSpoil && ground.pits.is_empty() {
            needs.push(draft.misses("a test pit: what lies under the brick, and how deep"));
        } else if in_cubic_metres(bank) > NOTHING_M3 {
            needs.push(tipped(job, item, draft, &here, bank, spoil));
        }
    }
    needs
}

fn draft(item: Item) -> Draft {
    Draft::of(item).from([Place::DigBottom])
}

/// Of that material, where the pits show but one.
fn of_materials(draft: Draft, here: &[(MaterialKey, String)]) -> Draft {
    match here {
        [(key, _)] => draft.of_key(key),
        _ => draft,
    }
}

fn tipped(
    job: &Job<'_>,
    item: Item,
    draft: Draft,
    here: &[(MaterialKey, String)],
    bank: Volume,
    spoil: Spoil,
) -> Need {
    let names: Vec<&str> = here.iter().map(|(_, name)| name.as_str()).collect();
    let (what, from) = if spoil.is_met {
        (
            names.join("; "),
            "catalogue: mean of the layers in the pits by their thickness",
        )
    } else {
        (
            "no pit shows such ground".to_owned(),
            "the greatest of such ground in the catalogue",
        )
    };
    let material = match here {
        [(key, _)] => Some(key),
        _ => None,
    };
    let loose = spoil.loose(bank);
    let (mass, density) = match loose_density(job.offer(item, material)) {
        Some((density, source)) => (
            loose * density,
            Step::new("loose density", Figure::Density(density)).from(source),
        ),
        None => (
            spoil.mass(bank),
            Step::new("density in the ground", Figure::Density(spoil.bank_density)).from(from),
        ),
    };
    draft
        .step("ground", Figure::Words(what))
        .steps([
            Step::new("in the ground", Figure::Volume(bank)),
            Step::new("× swell", Figure::Percent(spoil.swell * 100.0)).from(from),
            Step::new("loose", Figure::Volume(loose)),
            density,
            Step::new("mass", Figure::Mass(mass)),
        ])
        .needs(NeedAmount::Bulk {
            in_place: bank,
            loose,
            dry_mass: mass,
        })
}

/// Materials of that verdict in the pits, each once, by key.
fn materials(job: &Job<'_>, ground: &Ground, verdict: Verdict) -> Vec<(MaterialKey, String)> {
    let layers = ground.pits.iter().flat_map(|pit| &pit.layers);
    let mut found: Vec<(MaterialKey, String)> = layers
        .filter(|layer| layer.verdict == verdict)
        .filter_map(|layer| job.catalogue.find(&layer.material))
        .map(|material| (material.key.clone(), material.name.clone()))
        .collect();
    found.sort();
    found.dedup();
    found
}

fn pits(ground: &Ground) -> impl Iterator<Item = Place> + '_ {
    ground.pits.iter().map(|pit| Place::Pit(pit.pit_idx))
}

/// Where the pits show them; a layer that the catalogue does not know comes out.
fn layers(ground: &Ground, verdict: Verdict) -> Vec<Place> {
    let mut places = Vec::new();
    for pit in &ground.pits {
        for (layer_idx, layer) in pit.layers.iter().enumerate() {
            let comes_out = verdict == Verdict::ComesOut && layer.verdict == Verdict::NotKnown;
            if layer.verdict == verdict || comes_out {
                places.push(Place::LayerMaterial(pit.pit_idx, layer_idx));
            }
        }
    }
    places
}

/// Everything that is taken away loose, of what is known; nothing where nothing is.
pub(super) fn loose_away(needs: &[Need]) -> Option<Volume> {
    use super::super::item::ItemGroup;
    let loose = needs
        .iter()
        .filter(|need| need.item.group() == ItemGroup::TakenAway)
        .filter_map(|need| match need.amount {
            Some(NeedAmount::Bulk { loose, .. }) => Some(loose),
            _ => None,
        });
    loose.fold(None, |sum, loose| {
        Some(sum.unwrap_or(cubic_metres(0.0)) + loose)
    })
}
