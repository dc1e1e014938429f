//! What calc knows as types, in the crew's words.

use underbrick_calc::build::{Asks, HoldStage, Required, SpotKind, StakeWhy, Surface};
use underbrick_calc::defaults;
use underbrick_calc::lay::Kind;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::site::{Bond, CourseWay, EdgeStands, Hand, Language, RestraintInput, ShownIn};
use underbrick_words::{Value, Words};

/// Half a rounding of the tape.
const ROUNDING_M: f64 = 1e-6;

/// A language and the units of a site.
#[derive(Clone, Copy)]
pub struct Said {
    /// The catalogue.
    pub words: &'static Words,
    /// How lengths are shown.
    pub shown_in: ShownIn,
}

impl Said {
    /// In that language, with those units.
    #[must_use]
    pub fn of(language: Language, shown_in: ShownIn) -> Self {
        Self {
            words: Words::of(language),
            shown_in,
        }
    }

    /// What stands under a key.
    #[must_use]
    pub fn say(self, key: &str) -> String {
        self.words.say(key)
    }

    /// What stands under a key, with texts put in.
    #[must_use]
    pub fn with(self, key: &str, values: &[(&str, &str)]) -> String {
        let values: Vec<(&str, Value<'_>)> = values
            .iter()
            .map(|(name, text)| (*name, Value::from(*text)))
            .collect();
        self.words.say_with(key, &values)
    }

    /// A date in words.
    #[must_use]
    pub fn date(self, year: i16, month: i8, day: i8) -> String {
        let (year, day) = (year.to_string(), day.to_string());
        let month = self.say(&format!("month-{month}"));
        self.with(
            "date-words",
            &[("day", &day), ("month", &month), ("year", &year)],
        )
    }

    /// A stage of the work.
    #[must_use]
    pub fn stage(self, stage: HoldStage) -> String {
        let numbered =
            |key: &str, number: usize| self.words.say_with(key, &[("number", number.into())]);
        match stage {
            HoldStage::LiftBrick => self.say("stage-lift-brick"),
            HoldStage::Dig => self.say("stage-dig"),
            HoldStage::Fabric => self.say("stage-fabric"),
            HoldStage::Lift(number) => numbered("stage-lift", number),
            HoldStage::Forms => self.say("stage-forms"),
            HoldStage::Edge => self.say("stage-edge"),
            HoldStage::Restraint => self.say("stage-restraint"),
            HoldStage::Riser(number) => numbered("stage-riser", number),
            HoldStage::SettingBed => self.say("stage-setting-bed"),
            HoldStage::Field => self.say("stage-field"),
            HoldStage::Jointing => self.say("stage-jointing"),
            HoldStage::HandOver => self.say("stage-hand-over"),
        }
    }

    /// A surface that is read.
    #[must_use]
    pub fn surface(self, surface: Surface) -> String {
        match surface {
            Surface::DigBottom => self.say("surface-dig-bottom"),
            Surface::LiftTop(number) => self
                .words
                .say_with("surface-lift", &[("number", number.into())]),
            Surface::FormTop => self.say("surface-form-top"),
            Surface::EdgeTop => self.say("surface-edge-top"),
            Surface::SettingBed => self.say("surface-setting-bed"),
            Surface::BrickTop => self.say("surface-brick-top"),
        }
    }

    /// Why a stake stands where it does.
    #[must_use]
    pub fn why(self, why: StakeWhy) -> String {
        match why {
            StakeWhy::Door => self.say("why-door"),
            StakeWhy::Spacing => self.say("why-spacing"),
            StakeWhy::LegEnd(leg_idx) => self
                .words
                .say_with("why-leg-end", &[("leg", (leg_idx + 1).into())]),
            StakeWhy::Break => self.say("why-break"),
            StakeWhy::BeforeRiser => self.say("why-before-riser"),
            StakeWhy::BehindRiser => self.say("why-behind-riser"),
            StakeWhy::Pit(pit_idx) => self
                .words
                .say_with("why-pit", &[("pit", (pit_idx + 1).into())]),
            StakeWhy::FarEnd => self.say("why-far-end"),
        }
    }

    /// A check that is no level.
    #[must_use]
    pub fn spot(self, kind: SpotKind) -> String {
        let long = |key: &str, feet: u8| self.with(key, &[("long", &self.feet(feet))]);
        self.say(match kind {
            SpotKind::StraightedgeOnBase => return long("check-straightedge-base", 10),
            SpotKind::StraightedgeOnBrick => return long("check-straightedge-brick", 10),
            SpotKind::BondLine => return long("check-bond-line", 50),
            SpotKind::Lippage => "check-lippage",
            SpotKind::JointWidth => "check-joint-width",
            SpotKind::JointFill => "check-joint-fill",
            SpotKind::AboveInlet => "check-above-inlet",
        })
    }

    /// A length that is said in whole feet where feet are used, and in metres to a tenth elsewhere: `10 ft` or `3.0 m`.
    #[must_use]
    pub fn feet(self, feet: u8) -> String {
        match self.shown_in {
            ShownIn::FeetInches => format!("{feet} ft"),
            ShownIn::Metric => format!("{:.1} m", f64::from(feet) * 0.3048),
        }
    }

    /// Left or right.
    #[must_use]
    pub fn side(self, hand: Hand) -> String {
        self.say(match hand {
            Hand::Left => "side-left",
            Hand::Right => "side-right",
        })
    }

    /// What a check asks for, and where.
    #[must_use]
    pub fn required(self, required: &Required) -> String {
        let number =
            |key: &str, number: usize| self.words.say_with(key, &[("number", number.into())]);
        match required.asks {
            Asks::Level {
                surface,
                station,
                offset,
            } => {
                let at_door = in_metres(station).abs() < ROUNDING_M;
                let station = if at_door {
                    self.say("at-the-door-itself")
                } else {
                    self.shown_in.along(station)
                };
                let name = self.surface(surface);
                let off_m = in_metres(offset);
                let mut values = vec![("surface", name.as_str()), ("station", station.as_str())];
                if off_m.abs() < ROUNDING_M {
                    return self.with("check-level", &values);
                }
                let side = self.side(if off_m < 0.0 { Hand::Left } else { Hand::Right });
                values.push(("side", &side));
                // Of forms and edge brick the side says it all.
                if matches!(surface, Surface::FormTop | Surface::EdgeTop) {
                    return self.with("check-level-side", &values);
                }
                let offset = self.shown_in.length(offset.abs());
                values.push(("offset", &offset));
                self.with("check-level-beside", &values)
            }
            Asks::Spot(kind) => self.spot(kind),
            Asks::LiftLoose(lift) => number("check-lift-loose", lift),
            Asks::LiftPasses(lift) => number("check-lift-passes", lift),
            Asks::StageBefore(stage) => {
                self.with("check-stage-before", &[("stage", &self.stage(stage))])
            }
        }
    }

    /// Whole, or how it is cut.
    #[must_use]
    pub fn kind(self, kind: Kind) -> String {
        self.say(match kind {
            Kind::Whole => "kind-whole",
            Kind::ThreeQuarter => "kind-three-quarter",
            Kind::Half => "kind-half",
            Kind::Cut => "kind-cut",
            Kind::Ripped => "kind-ripped",
            Kind::Tapered => "kind-tapered",
            Kind::Shaped => "kind-shaped",
        })
    }

    /// So many pieces of a kind.
    #[must_use]
    pub fn pieces(self, kind: Kind, n_pieces: usize) -> String {
        let key = match kind {
            Kind::Whole => "pieces-whole",
            Kind::ThreeQuarter => "pieces-three-quarter",
            Kind::Half => "pieces-half",
            Kind::Cut => "pieces-cut",
            Kind::Ripped => "pieces-ripped",
            Kind::Tapered => "pieces-tapered",
            Kind::Shaped => "pieces-shaped",
        };
        self.words.say_with(key, &[("pieces", n_pieces.into())])
    }

    /// A bond, with the way of its courses where it has some.
    #[must_use]
    pub fn bond(self, bond: Bond, courses: CourseWay) -> String {
        let name = self.say(match bond {
            Bond::Running => "bond-running",
            Bond::Stack => "bond-stack",
            Bond::BasketTwoOnTwo => "bond-basket-two-on-two",
            Bond::BasketTwoOnOne => "bond-basket-two-on-one",
            Bond::Herringbone90 => "bond-herringbone-90",
            Bond::Herringbone45 => "bond-herringbone-45",
        });
        if !bond.follows() {
            return name;
        }
        let courses = self.say(match courses {
            CourseWay::Along => "courses-along",
            CourseWay::Across => "courses-across",
        });
        format!("{name}, {courses}")
    }

    /// How an edge brick stands.
    #[must_use]
    pub fn edge(self, stands: EdgeStands) -> String {
        self.say(match stands {
            EdgeStands::Sailor => "edge-sailor",
            EdgeStands::Soldier => "edge-soldier",
            EdgeStands::Header => "edge-header",
            EdgeStands::Stretcher => "edge-stretcher",
            EdgeStands::Rowlock => "edge-rowlock",
        })
    }

    /// What holds the edge.
    #[must_use]
    pub fn restraint(self, restraint: &RestraintInput) -> String {
        match restraint {
            RestraintInput::Haunch { height, width, .. } => self.with(
                "restraint-haunch",
                &[
                    // As it is reckoned and drawn where it was not said.
                    (
                        "high",
                        &self
                            .shown_in
                            .length(height.unwrap_or_else(defaults::haunch_height)),
                    ),
                    (
                        "wide",
                        &self
                            .shown_in
                            .length(width.unwrap_or_else(defaults::haunch_width)),
                    ),
                ],
            ),
            RestraintInput::Spiked { .. } => self.say("restraint-spiked"),
            RestraintInput::Nothing => self.say("restraint-nothing"),
        }
    }
}
