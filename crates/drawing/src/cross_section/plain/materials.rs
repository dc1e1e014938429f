//! Materials as a homeowner knows them.

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::site::MaterialKey;

/// What someone outside the trade calls a material, to stand in the middle of a sentence: `garden soil`. One that is not built in keeps
/// the name that its catalogue gives it.
#[must_use]
pub fn material_in_plain_words(catalogue: &Catalogue, key: &MaterialKey) -> String {
    let plain = match key.0.as_str() {
        "old-brick" => "your old brick",
        "screenings" => "stone dust",
        "bedding-sand" => "sand",
        "fill-sand" => "loose sand",
        "topsoil" => "garden soil",
        "loam" => "soft garden soil",
        "roots" => "soil with roots",
        "rubbish" => "buried rubbish",
        "firm-clay" => "firm clay",
        "soft-clay" => "soft, wet clay",
        "silt" => "silt, a fine soil",
        "sandy-gravel" => "natural sand and gravel",
        "firm-gravel" => "firm gravel",
        "rock" => "rock",
        "crushed-stone" => "crushed stone",
        "open-graded-stone" => "clean crushed stone",
        "recycled-concrete" => "crushed old concrete",
        _ => {
            let name = catalogue.find(key).map_or("", |material| &material.name);
            let name = if name.is_empty() { &key.0 } else { name };
            return small_first(name);
        }
    };
    plain.to_owned()
}

/// With a small first letter, as in the middle of a sentence.
fn small_first(name: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next().map(|letter| letter.to_lowercase());
    first.into_iter().flatten().chain(letters).collect()
}
