//! The old setting bed, taken off where the walk is laid again on its old base.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::draft::Draft;
use super::{Job, missing};
use crate::catalogue::{Hatch, Material, UnderAWalk};
use crate::ground::{Ground, Verdict};
use crate::place::Place;
use crate::quantity::{Length, in_metres, inches, kilograms_per_cubic_metre, metres, unit};
use crate::site::MaterialKey;

/// Sand thicker than this is fill and no setting bed: only as much of it is taken off as the new one needs. Twice the 1 in that the Brick
/// Industry Association's Technical Note 14A allows at most; that it is twice is common practice, no source.
fn thickest_bed() -> Length {
    inches(2.0)
}

/// The paved area times the thickness of the sand right under the old brick, the mean of the pits that show it; where none does, times
/// the new setting bed.
pub(super) fn old_bed(job: &Job<'_>) -> Need {
    let draft = Draft::of(Item::OldBedSpoil).from([Place::SettingBed]);
    let Some(bed) = job.bed() else {
        return draft.misses(missing::of_bed(job));
    };
    let shown = shown(job, bed.setting_bed);
    let (draft, thickness) = match mean(&shown) {
        Some(thickness) => (
            draft
                .from(shown.iter().map(|shown| shown.place))
                .steps([Step::new("old setting bed", Figure::Length(thickness))
                    .from("mean of the pits that show sand right under the brick")]),
            thickness,
        ),
        None => (
            draft.least(true).steps([Step::new(
                "as thick as the new setting bed",
                Figure::Length(bed.setting_bed),
            )
            .from("no pit shows sand right under the brick")]),
            bed.setting_bed,
        ),
    };
    let Some(figures) = Figures::of(job, &shown) else {
        return draft.misses("a sand for the setting bed in the catalogue");
    };
    let draft = match &figures.only {
        Some(key) => draft.of_key(key),
        None => draft,
    };
    let area = bed.earthwork.paved_area;
    let in_place = area * thickness;
    let loose = in_place * (1.0 + figures.swell);
    let dry_mass = in_place * kilograms_per_cubic_metre(figures.bank_kg_per_m3);
    draft
        .steps([
            Step::new("paved in plan", Figure::Area(area)),
            Step::new("in place", Figure::Volume(in_place)),
            Step::new("× swell", Figure::Percent(figures.swell * 100.0)).from(figures.source),
            Step::new("loose", Figure::Volume(loose)),
            Step::new("mass", Figure::Mass(dry_mass)),
        ])
        .needs(NeedAmount::Bulk {
            in_place,
            loose,
            dry_mass,
        })
}

/// Sand right under the old brick in one pit.
struct Shown<'a> {
    material: &'a Material,
    thickness_m: f64,
    place: Place,
}

fn shown<'a>(job: &Job<'a>, setting_bed: Length) -> Vec<Shown<'a>> {
    let pits = job.found.ground.map_or(&[][..], |Ground { pits }| pits);
    let in_pit = |pit: &crate::ground::PitFound| {
        let n_lifted = pit
            .layers
            .iter()
            .take_while(|layer| layer.verdict == Verdict::Lifted)
            .count();
        let layer = pit.layers.get(n_lifted).filter(|_| n_lifted > 0)?;
        let material = job.catalogue.find(&layer.material)?;
        let is_sand =
            material.hatch == Hatch::Sand && material.under_a_walk == UnderAWalk::MustComeOut;
        let thickness = layer.top - layer.bottom?;
        let taken = if thickness <= thickest_bed() {
            thickness
        } else {
            setting_bed
        };
        is_sand.then(|| Shown {
            material,
            thickness_m: in_metres(taken),
            place: Place::LayerMaterial(pit.pit_idx, n_lifted),
        })
    };
    pits.iter().filter_map(in_pit).collect()
}

fn mean(shown: &[Shown<'_>]) -> Option<Length> {
    let n_pits = u32::try_from(shown.len())
        .ok()
        .filter(|n_pits| *n_pits > 0)?;
    let sum_m: f64 = shown.iter().map(|shown| shown.thickness_m).sum();
    Some(metres(sum_m / f64::from(n_pits)))
}

struct Figures {
    swell: f64,
    bank_kg_per_m3: f64,
    source: String,
    /// The one sand, where there is but one.
    only: Option<MaterialKey>,
}

impl Figures {
    /// Of the sands shown, by their thickness; of the sand that is bought where none is.
    fn of(job: &Job<'_>, shown: &[Shown<'_>]) -> Option<Self> {
        let bank = |material: &Material| {
            material
                .bank_density
                .get::<unit::kilogram_per_cubic_meter>()
        };
        let sum_m: f64 = shown.iter().map(|shown| shown.thickness_m).sum();
        if let [first, others @ ..] = shown
            && sum_m > 0.0
        {
            let mean = |value: &dyn Fn(&Material) -> f64| {
                let parts = shown.iter();
                parts
                    .map(|shown| value(shown.material) * shown.thickness_m)
                    .sum::<f64>()
                    / sum_m
            };
            let is_one_sand = others
                .iter()
                .all(|other| other.material.key == first.material.key);
            return Some(Self {
                swell: mean(&|material| material.swell),
                bank_kg_per_m3: mean(&bank),
                only: is_one_sand.then(|| first.material.key.clone()),
                source: if is_one_sand {
                    first.material.source_of("swell").to_owned()
                } else {
                    "catalogue: mean of the sands in the pits by their thickness".to_owned()
                },
            });
        }
        let material = job
            .catalogue
            .bedding
            .as_ref()
            .and_then(|bedding| job.catalogue.find(&bedding.key))?;
        Some(Self {
            swell: material.swell,
            bank_kg_per_m3: bank(material),
            source: material.source_of("swell").to_owned(),
            only: Some(material.key.clone()),
        })
    }
}
