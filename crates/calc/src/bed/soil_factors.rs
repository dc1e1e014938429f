//! What tests of the soil ask of the base: strength by its symbol, heave by its frost group.

use super::thickness::{ADDED, Bearing, Factor, Grade, added_for, added_for_water};
use crate::findings::Source;
use crate::ground::Category;
use crate::ground::soil::frost_group::{FrostGroup, FrostGroupFound};
use crate::ground::soil::texture::Texture;
use crate::ground::soil::uscs::{Family, Uscs};
use crate::ground::soil::{SoilFound, TextureFound};
use crate::ground::symbol_strength::by_symbol;
use crate::place::Place;
use crate::quantity::{Length, inches};

/// Source of what the ground takes more for its symbol.
const BY_SYMBOL: Source = Source::Published(
    "FHWA-NHI-05-037, table 5-28, for the CBR of a symbol; paving trade press, quoting the Interlocking Concrete Pavement Institute, for the inches",
);
/// Source of what the ground takes more for its frost group.
const BY_FROST_GROUP: Source = Source::Published(
    "UFC 3-250-01 for the frost group; paving trade press, quoting the Interlocking Concrete Pavement Institute, for the inches",
);

/// The class of a symbol by the weak end of its published range; fine soil in which a thumb sinks counts as class D.
///
/// # Source
/// FHWA-NHI-05-037, table 5-28. That soft ground is class D is common practice, no source.
pub(super) fn for_symbol(uscs: &Uscs, bearing: &[Bearing]) -> Option<Factor> {
    let range = by_symbol(&uscs.symbol)?;
    let is_fine = matches!(uscs.family, Family::Silt | Family::SiltyClay | Family::Clay);
    let soft = bearing.iter().find(|at| is_fine && at.is_soft());
    let tested = format!("{} by index tests, CBR {}", uscs.symbol, range.words());
    let (category, because) = match soft {
        Some(at) => (
            Category::D,
            format!("{tested}, soft under the thumb, {}", at.pit_words()),
        ),
        None => (range.least.category(), tested),
    };
    let amount = added_for(category);
    let name = if amount > inches(0.0) {
        format!("Weak ground by its symbol, class {category:?}")
    } else {
        format!("Ground by its symbol, class {category:?}")
    };
    Some(factor(name, because, amount, BY_SYMBOL, Place::Soil))
}

/// After a measured strength: the symbol that it goes before.
pub(super) fn goes_before(uscs: &Uscs) -> String {
    by_symbol(&uscs.symbol).map_or_else(String::new, |range| {
        format!("; before {}, CBR {}", uscs.symbol, range.words())
    })
}

/// Silt and clay by texture alone count as class C, as they do by the material of a pit.
///
/// # Source
/// Common practice, no source: published ranges are for symbols.
pub(super) fn for_texture(found: &TextureFound) -> Option<Factor> {
    let is_fine = !matches!(
        found.class,
        Texture::Sand | Texture::LoamySand | Texture::SandyLoam
    );
    let how = if found.is_by_feel {
        "by feel"
    } else {
        "by its shares"
    };
    is_fine.then(|| {
        factor(
            "Fine soil, as class C".to_owned(),
            format!("{} {how}, without a symbol", found.class.name()),
            added_for(Category::C),
            ADDED,
            Place::Soil,
        )
    })
}

/// The worst frost group that fits, where it says whether the ground heaves: what only a laboratory can tell says nothing.
pub(super) fn said_of_frost(soil: &SoilFound) -> Option<&FrostGroupFound> {
    soil.frost_groups
        .first()
        .filter(|worst| worst.group != FrostGroup::Pfs)
}

/// Ground that heaves takes more where water was seen in it, and where the same soil did not take more for its strength already.
pub(super) fn for_frost(
    worst: &FrostGroupFound,
    water: Option<(String, Place)>,
    is_soil_counted: bool,
) -> Factor {
    let group = format!("frost group {}", worst.line);
    let nothing = inches(0.0);
    match water {
        _ if !worst.group.heaves() => factor(
            "Does not heave in frost".to_owned(),
            group,
            nothing,
            BY_FROST_GROUP,
            Place::Soil,
        ),
        Some((seen, place)) => factor(
            "Holds water, frost heaves it".to_owned(),
            format!("{seen}; {group}"),
            added_for_water(),
            BY_FROST_GROUP,
            place,
        ),
        None if is_soil_counted => factor(
            "Frost heaves it where it gets wet".to_owned(),
            format!("{group}; no water seen, counts as weak already"),
            nothing,
            BY_FROST_GROUP,
            Place::Soil,
        ),
        None => factor(
            "Frost heaves it where it gets wet".to_owned(),
            group,
            added_for_water(),
            BY_FROST_GROUP,
            Place::Soil,
        ),
    }
}

fn factor(
    name: impl Into<String>,
    because: String,
    amount: Length,
    source: Source,
    place: Place,
) -> Factor {
    Factor {
        name: name.into(),
        because,
        amount,
        source,
        grade: Grade::SecondHand,
        place,
    }
}
