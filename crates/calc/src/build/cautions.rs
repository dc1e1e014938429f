//! What may hurt someone at a stage, shown where it arises. Never legal advice: local code and licensed practice go before it.

use super::stage::HoldStage;
use crate::bed::Restraint;

/// Ends every list of cautions.
const LOCAL: &str =
    "Local code, the rules of the site and those of licensed practice go before all of this.";

/// Cautions of a stage; empty where nothing is to be said.
///
/// # Source
/// Trench sides: US Occupational Safety and Health Administration, 29 CFR 1926.651 and 1926.652. Dust: the same, 1926.1153, table 1. The
/// rest is common practice, no source.
pub(super) fn cautions(stage: HoldStage, restraint: Restraint) -> Vec<&'static str> {
    let own: &[&'static str] = match stage {
        HoldStage::LiftBrick => &[
            "Lift brick close to the body and with the legs, a few at a time; gloves and toe caps.",
            "Brick and old jointing are dry dust when they are knocked clean: wet them, and stand upwind.",
        ],
        HoldStage::Dig => &[
            "No digging before buried services are located and marked; in the United States call 811, some days ahead. Within the marked zone dig by hand.",
            "The side of a trench can fall in. Where it shows any sign of it, or is 5 ft deep, nobody goes in before a competent person has seen it and it is held or sloped; from 4 ft there is a way out within 25 ft.",
            "Spoil and stone lie at least 2 ft back from the side of the dig.",
        ],
        HoldStage::Fabric => {
            &["Cut fabric away from the body, and pin it before the wind takes it."]
        }
        HoldStage::Lift(_) => &[
            "The plate shakes hands and arms and is loud: hearing protection, gloves, turns with someone else.",
            "Two people lift the plate. It is stopped before anything is put right on it, and it does not run where its exhaust gas stands.",
            "Dry stone is dust: wet it before it is tipped and raked.",
        ],
        HoldStage::Forms => &[
            "Stakes go deeper than the dig: drive them only where services were located.",
            "Cap or cut off stakes and string pins that stand up where someone may fall on them.",
        ],
        HoldStage::Edge => &[
            "Lift brick close to the body; kneel on a pad.",
            "Cutting brick makes silica dust: cut wet, with water running on the blade; eyes and ears protected.",
        ],
        HoldStage::Restraint => match restraint {
            Restraint::Haunch { .. } => &[
                "Wet concrete burns the skin: gloves, boots, long sleeves and eye protection; wash it off at once with much water.",
                "Dry cement is dust that harms the lungs: tip bags low and out of the wind.",
                "Bags of 80 lb are lifted by two.",
            ],
            Restraint::Spiked { .. } | Restraint::Nothing => &[
                "Spikes go deeper than the dig: drive them only where services were located; eye protection.",
            ],
        },
        HoldStage::Riser(_) => &[
            "An open riser is a fall: close the walk off until its tread is laid.",
            "Cutting brick makes silica dust: cut wet, with water running on the blade; eyes and ears protected.",
        ],
        HoldStage::SettingBed => {
            &["Screed from a board, kneeling on a pad, with the back straight."]
        }
        HoldStage::Field => &[
            "Cutting brick makes silica dust: cut wet, with water running on the blade. Dry, it is not cut without a shroud, a vacuum and a respirator.",
            "Eyes and ears protected at the saw; its cable and plug stay out of the water, behind a ground-fault breaker.",
            "Lift brick close to the body; kneel on a pad.",
        ],
        HoldStage::Jointing => &[
            "Dry jointing is dust: sweep with the wind, and do not blow it about.",
            "The plate shakes hands and arms and is loud: hearing protection, gloves, turns with someone else.",
        ],
        HoldStage::HandOver => &[
            "Frost, drainage onto neighbours and access are for the local building office and a licensed professional to judge.",
        ],
    };
    own.iter().copied().chain([LOCAL]).collect()
}
