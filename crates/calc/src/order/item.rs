//! What an order consists of: one line for each item.

/// One thing that is bought, brought or taken away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// Brick of the first size, as far as what was saved does not do.
    Brick,
    /// Brick of the second size, of which the edge is.
    SecondBrick,
    /// Base, all lifts.
    Base,
    /// Setting bed.
    SettingBed,
    /// What fills the joints.
    Jointing,
    /// Separation fabric, laps counted in.
    Fabric,
    /// Concrete of the haunch.
    HaunchConcrete,
    /// Edging strip.
    EdgingStrip,
    /// Spikes of the edging strip.
    EdgingSpike,
    /// Form boards.
    FormBoard,
    /// Stakes of the form boards.
    FormStake,
    /// Screws of the form boards.
    FormScrew,
    /// Spacers cut to the clear width.
    Spacer,
    /// String for the line.
    String,
    /// Ground that must come out, taken away.
    UnsuitableSpoil,
    /// Good ground dug away to make room, taken away.
    TrimSpoil,
    /// Old setting bed, taken away: only where the walk is laid again on its old base.
    OldBedSpoil,
    /// Old brick that is not laid again, taken away.
    OldBrick,
    /// Plate compactor by the day.
    Plate,
    /// Saw with water by the day.
    Saw,
}

/// To which part of an order an item belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ItemGroup {
    /// Bought and built in, or used up.
    Material,
    /// Taken away.
    TakenAway,
    /// Hired by the day.
    Hire,
}

/// How the walk is rebuilt: what the homeowner chooses between.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// The old brick on a new setting bed over the base that is there.
    Relay,
    /// A new base as designed, under the old brick.
    #[default]
    NewBase,
    /// A new base as designed, and new brick throughout.
    NewBrick,
}

impl Item {
    /// All, in the order in which they are listed.
    pub const ALL: [Self; 20] = [
        Self::Brick,
        Self::SecondBrick,
        Self::Base,
        Self::SettingBed,
        Self::Jointing,
        Self::Fabric,
        Self::HaunchConcrete,
        Self::EdgingStrip,
        Self::EdgingSpike,
        Self::FormBoard,
        Self::FormStake,
        Self::FormScrew,
        Self::Spacer,
        Self::String,
        Self::UnsuitableSpoil,
        Self::TrimSpoil,
        Self::OldBedSpoil,
        Self::OldBrick,
        Self::Plate,
        Self::Saw,
    ];

    /// Its word in a record and in a price list.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Brick => "brick",
            Self::SecondBrick => "second-brick",
            Self::Base => "base",
            Self::SettingBed => "setting-bed",
            Self::Jointing => "jointing",
            Self::Fabric => "fabric",
            Self::HaunchConcrete => "haunch-concrete",
            Self::EdgingStrip => "edging-strip",
            Self::EdgingSpike => "edging-spike",
            Self::FormBoard => "form-board",
            Self::FormStake => "form-stake",
            Self::FormScrew => "form-screw",
            Self::Spacer => "spacer",
            Self::String => "string",
            Self::UnsuitableSpoil => "unsuitable-spoil",
            Self::TrimSpoil => "trim-spoil",
            Self::OldBedSpoil => "old-bed-spoil",
            Self::OldBrick => "old-brick",
            Self::Plate => "plate",
            Self::Saw => "saw",
        }
    }

    /// What the trade calls it, where nothing finer is known.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Brick => "Brick",
            Self::SecondBrick => "Second brick",
            Self::Base => "Base",
            Self::SettingBed => "Setting bed",
            Self::Jointing => "Jointing",
            Self::Fabric => "Fabric",
            Self::HaunchConcrete => "Haunch concrete",
            Self::EdgingStrip => "Edging strip",
            Self::EdgingSpike => "Spikes",
            Self::FormBoard => "Form boards",
            Self::FormStake => "Form stakes",
            Self::FormScrew => "Form screws",
            Self::Spacer => "Spacers",
            Self::String => "String",
            Self::UnsuitableSpoil => "Unsuitable ground away",
            Self::TrimSpoil => "Good ground away",
            Self::OldBedSpoil => "Old setting bed away",
            Self::OldBrick => "Old brick away",
            Self::Plate => "Plate compactor",
            Self::Saw => "Wet saw",
        }
    }

    /// To which part of an order it belongs.
    #[must_use]
    pub const fn group(self) -> ItemGroup {
        match self {
            Self::Brick
            | Self::SecondBrick
            | Self::Base
            | Self::SettingBed
            | Self::Jointing
            | Self::Fabric
            | Self::HaunchConcrete
            | Self::EdgingStrip
            | Self::EdgingSpike
            | Self::FormBoard
            | Self::FormStake
            | Self::FormScrew
            | Self::Spacer
            | Self::String => ItemGroup::Material,
            Self::UnsuitableSpoil | Self::TrimSpoil | Self::OldBedSpoil | Self::OldBrick => {
                ItemGroup::TakenAway
            }
            Self::Plate | Self::Saw => ItemGroup::Hire,
        }
    }

    /// The item of that word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|item| item.key() == word.trim())
    }
}

impl ItemGroup {
    /// All, in the order in which they are listed.
    pub const ALL: [Self; 3] = [Self::Material, Self::TakenAway, Self::Hire];

    /// As a heading.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Material => "Bought",
            Self::TakenAway => "Taken away",
            Self::Hire => "Hired",
        }
    }
}

impl Way {
    /// All, the least work first.
    pub const ALL: [Self; 3] = [Self::Relay, Self::NewBase, Self::NewBrick];

    /// Its word in a record.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Relay => "relay",
            Self::NewBase => "new-base",
            Self::NewBrick => "new-brick",
        }
    }

    /// In a few words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Relay => "Relay on the old base",
            Self::NewBase => "New base, old brick",
            Self::NewBrick => "New base, new brick",
        }
    }

    /// The way of that word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|way| way.key() == word.trim())
    }

    /// Whether the ground is dug out and a new base built.
    #[must_use]
    pub const fn digs(self) -> bool {
        matches!(self, Self::NewBase | Self::NewBrick)
    }
}
