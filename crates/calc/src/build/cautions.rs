//! What may hurt someone at a stage, shown where it arises. Never legal advice: local code and licensed practice go before it.

use super::stage::HoldStage;
use crate::bed::Restraint;

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Lifting brick.
    LiftClose,
    /// Dust of old jointing.
    OldJointing,
    /// Buried services.
    Services,
    /// A side that falls in.
    Trench,
    /// Spoil at the side of the dig.
    Spoil,
    /// Cutting fabric.
    Fabric,
    /// Noise and shaking of the plate.
    Plate,
    /// Lifting the plate, its exhaust.
    PlateLift,
    /// Dust of dry stone.
    DryStone,
    /// Stakes into services.
    Stakes,
    /// Stakes and pins to fall on.
    Pins,
    /// Lifting and kneeling at the edge.
    Kneel,
    /// Dust of cutting at the edge.
    CutWet,
    /// Wet concrete.
    Concrete,
    /// Dust of cement.
    Cement,
    /// Heavy bags.
    Bags,
    /// Spikes into services.
    Spikes,
    /// An open riser.
    Riser,
    /// The back while screeding.
    Screed,
    /// Dust of cutting in the field.
    CutDry,
    /// The saw.
    Saw,
    /// Dust of jointing.
    Jointing,
    /// What others judge.
    LocalOffice,
    /// Local code goes before all.
    Local,
}

impl Caution {
    /// All of them.
    pub const ALL: &[Self] = &[
        Self::LiftClose,
        Self::OldJointing,
        Self::Services,
        Self::Trench,
        Self::Spoil,
        Self::Fabric,
        Self::Plate,
        Self::PlateLift,
        Self::DryStone,
        Self::Stakes,
        Self::Pins,
        Self::Kneel,
        Self::CutWet,
        Self::Concrete,
        Self::Cement,
        Self::Bags,
        Self::Spikes,
        Self::Riser,
        Self::Screed,
        Self::CutDry,
        Self::Saw,
        Self::Jointing,
        Self::LocalOffice,
        Self::Local,
    ];

    /// Its word in a catalogue of words: `stage-caution-trench`.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::LiftClose => "stage-caution-lift-close",
            Self::OldJointing => "stage-caution-old-jointing",
            Self::Services => "stage-caution-services",
            Self::Trench => "stage-caution-trench",
            Self::Spoil => "stage-caution-spoil",
            Self::Fabric => "stage-caution-fabric",
            Self::Plate => "stage-caution-plate",
            Self::PlateLift => "stage-caution-plate-lift",
            Self::DryStone => "stage-caution-dry-stone",
            Self::Stakes => "stage-caution-stakes",
            Self::Pins => "stage-caution-pins",
            Self::Kneel => "stage-caution-kneel",
            Self::CutWet => "stage-caution-cut-wet",
            Self::Concrete => "stage-caution-concrete",
            Self::Cement => "stage-caution-cement",
            Self::Bags => "stage-caution-bags",
            Self::Spikes => "stage-caution-spikes",
            Self::Riser => "stage-caution-riser",
            Self::Screed => "stage-caution-screed",
            Self::CutDry => "stage-caution-cut-dry",
            Self::Saw => "stage-caution-saw",
            Self::Jointing => "stage-caution-jointing",
            Self::LocalOffice => "stage-caution-local-office",
            Self::Local => "stage-caution-local",
        }
    }

    /// What it says in English.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::LiftClose => {
                "Lift brick close to the body and with the legs, a few at a time; gloves and toe caps."
            }
            Self::OldJointing => {
                "Brick and old jointing are dry dust when they are knocked clean: wet them, and stand upwind."
            }
            Self::Services => {
                "No digging before buried services are located and marked; in the United States call 811, some days ahead. Within the marked zone dig by hand."
            }
            Self::Trench => {
                "The side of a trench can fall in. Where it shows any sign of it, or is 5 ft deep, nobody goes in before a competent person has seen it and it is held or sloped; from 4 ft there is a way out within 25 ft."
            }
            Self::Spoil => "Spoil and stone lie at least 2 ft back from the side of the dig.",
            Self::Fabric => "Cut fabric away from the body, and pin it before the wind takes it.",
            Self::Plate => {
                "The plate shakes hands and arms and is loud: hearing protection, gloves, turns with someone else."
            }
            Self::PlateLift => {
                "Two people lift the plate. It is stopped before anything is put right on it, and it does not run where its exhaust gas stands."
            }
            Self::DryStone => "Dry stone is dust: wet it before it is tipped and raked.",
            Self::Stakes => {
                "Stakes go deeper than the dig: drive them only where services were located."
            }
            Self::Pins => {
                "Cap or cut off stakes and string pins that stand up where someone may fall on them."
            }
            Self::Kneel => "Lift brick close to the body; kneel on a pad.",
            Self::CutWet => {
                "Cutting brick makes silica dust: cut wet, with water running on the blade; eyes and ears protected."
            }
            Self::Concrete => {
                "Wet concrete burns the skin: gloves, boots, long sleeves and eye protection; wash it off at once with much water."
            }
            Self::Cement => {
                "Dry cement is dust that harms the lungs: tip bags low and out of the wind."
            }
            Self::Bags => "Bags of 80 lb are lifted by two.",
            Self::Spikes => {
                "Spikes go deeper than the dig: drive them only where services were located; eye protection."
            }
            Self::Riser => "An open riser is a fall: close the walk off until its tread is laid.",
            Self::Screed => "Screed from a board, kneeling on a pad, with the back straight.",
            Self::CutDry => {
                "Cutting brick makes silica dust: cut wet, with water running on the blade. Dry, it is not cut without a shroud, a vacuum and a respirator."
            }
            Self::Saw => {
                "Eyes and ears protected at the saw; its cable and plug stay out of the water, behind a ground-fault breaker."
            }
            Self::Jointing => {
                "Dry jointing is dust: sweep with the wind, and do not blow it about."
            }
            Self::LocalOffice => {
                "Frost, drainage onto neighbours and access are for the local building office and a licensed professional to judge."
            }
            Self::Local => {
                "Local code, the rules of the site and those of licensed practice go before all of this."
            }
        }
    }
}

/// Cautions of a stage; empty where nothing is to be said.
///
/// # Source
/// Trench sides: US Occupational Safety and Health Administration, 29 CFR 1926.651 and 1926.652. Dust: the same, 1926.1153, table 1. The
/// rest is common practice, no source.
pub(super) fn cautions(stage: HoldStage, restraint: Restraint) -> Vec<Caution> {
    let own: &[Caution] = match stage {
        HoldStage::LiftBrick => &[Caution::LiftClose, Caution::OldJointing],
        HoldStage::Dig => &[Caution::Services, Caution::Trench, Caution::Spoil],
        HoldStage::Fabric => &[Caution::Fabric],
        HoldStage::Lift(_) => &[Caution::Plate, Caution::PlateLift, Caution::DryStone],
        HoldStage::Forms => &[Caution::Stakes, Caution::Pins],
        HoldStage::Edge => &[Caution::Kneel, Caution::CutWet],
        HoldStage::Restraint => match restraint {
            Restraint::Haunch { .. } => &[Caution::Concrete, Caution::Cement, Caution::Bags],
            Restraint::Spiked { .. } | Restraint::Nothing => &[Caution::Spikes],
        },
        HoldStage::Riser(_) => &[Caution::Riser, Caution::CutWet],
        HoldStage::SettingBed => &[Caution::Screed],
        HoldStage::Field => &[Caution::CutDry, Caution::Saw, Caution::Kneel],
        HoldStage::Jointing => &[Caution::Jointing, Caution::Plate],
        HoldStage::HandOver => &[Caution::LocalOffice],
    };
    own.iter().copied().chain([Caution::Local]).collect()
}
