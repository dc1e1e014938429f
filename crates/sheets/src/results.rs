//! All results of a site on one sheet.

use crate::book::{BookSheet, book};
use crate::brick::{BrickSheet, brick};
use crate::causes::{CauseRow, SignRow, causes, signs};
use crate::cautions::cautions;
use crate::figure::{Figure, Measure};
use crate::figures;
use crate::laying::{LayingSheet, laying};
use crate::penetrometers::{PenetrometerSheet, penetrometers};
use crate::pits::{PitRow, pits};
use crate::profile::{StationRow, stations};
use crate::soil::{SoilRow, soil};
use crate::thickness::{BaseSheet, base};
use crate::wording::{Wording, on_one_line};
use serde::Serialize;
use underbrick_calc::Results;
use underbrick_calc::bed::Lift;
use underbrick_calc::field::full_name;
use underbrick_calc::findings::{Finding, Findings, Weight};
use underbrick_calc::line::Offer;
use underbrick_calc::site::{ShownIn, Site};

/// The name of the format, as it stands in the JSON.
pub const FORMAT: &str = "underbrick-results";

/// The number of the format, as it stands in the JSON.
pub const VERSION: u32 = 1;

/// Every result of a site, in the order in which it is read and written.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ResultsSheet {
    /// Always [`FORMAT`].
    pub format: &'static str,
    /// Always [`VERSION`].
    pub version: u32,
    /// Which walk it is.
    pub site: SiteHeading,
    /// What levels and drops are counted from.
    pub datum: &'static str,
    /// Whether any finding stops the job.
    pub stops: bool,
    /// All figures. Which keys there are does not depend on what was measured, but for those of the lifts, of which there are as
    /// many as lifts; those of the restraint and of a fixed far end are there where it was chosen.
    pub figures: Vec<Figure>,
    /// Whether a separation fabric lies on the undisturbed ground; `None` where there is no bed.
    pub fabric: Option<bool>,
    /// What is seen on the old walk.
    pub signs: Vec<SignRow>,
    /// Why it failed, strongest evidence first.
    pub causes: Vec<CauseRow>,
    /// The level book; left out where no sight was written down.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub book: Option<BookSheet>,
    /// What the pits showed; `None` where no pit could be put into levels.
    pub pits: Option<Vec<PitRow>>,
    /// What the soil is and how deep it freezes; `None` where nothing was written down of it.
    pub soil: Option<SoilRow>,
    /// What penetrometers found under the pits; empty where none was driven.
    pub penetrometers: Vec<PenetrometerSheet>,
    /// Why the base is so thick; `None` where there is no bed.
    pub base: Option<BaseSheet>,
    /// The brick, its sample and the width that fits; left out where nothing was computed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub brick: Option<BrickSheet>,
    /// Levels along the centreline; `None` where the run is not known.
    pub stations: Option<Vec<StationRow>>,
    /// The lifts from the bottom; `None` where there is no bed.
    pub lifts: Option<Vec<LiftRow>>,
    /// Every brick; `None` where the run is not known.
    pub laying: Option<LayingSheet>,
    /// What else could be done where the grade line breaks a rule.
    pub offers: Vec<OfferRow>,
    /// What someone should look at.
    pub findings: Vec<FindingRow>,
    /// What a sheet never leaves out.
    pub cautions: Vec<&'static str>,
}

/// Which walk it is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SiteHeading {
    /// Street address.
    pub address: String,
    /// Which walk there.
    pub walk: String,
    /// How lengths are shown: `feet and inches` or `metric`.
    pub shown_in: &'static str,
}

/// One lift.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LiftRow {
    /// Counted from the bottom, from 1.
    pub number: usize,
    /// Its top below a string on the grade line.
    pub top_below_string: Measure,
    /// Thickest place, compacted.
    pub compacted: Measure,
    /// Thickest place, as tipped.
    pub loose: Measure,
    /// Where it runs.
    pub runs: Vec<Stretch>,
    /// In place.
    pub compacted_volume: Measure,
    /// As delivered.
    pub loose_volume: Measure,
}

/// From one station to another.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// Where it starts.
    pub from: Measure,
    /// Where it ends.
    pub to: Measure,
}

/// One thing that could be done instead.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OfferRow {
    /// A few words.
    pub title: String,
    /// What is done.
    pub text: String,
    /// Rules that it breaks; empty when it keeps them all.
    pub breaks: Vec<String>,
}

/// One finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingRow {
    /// Name of the field or the thing.
    pub place: String,
    /// `stop`, `warning`, `note` or `right`.
    pub weight: &'static str,
    /// What was found.
    pub text: String,
    /// What can be done about it; empty where the text says it.
    pub remedy: String,
    /// Where the rule comes from.
    pub source: String,
}

/// All results of `site` on one sheet. `findings` are all that were met: those of the record and those of the calculation.
#[must_use]
pub fn results(site: &Site, results: &Results, findings: &Findings) -> ResultsSheet {
    let say = Wording(site.shown_in);
    let bed = results.bed.as_ref();
    ResultsSheet {
        format: FORMAT,
        version: VERSION,
        site: SiteHeading {
            address: site.address.clone(),
            walk: site.walk.clone(),
            shown_in: match site.shown_in {
                ShownIn::FeetInches => "feet and inches",
                ShownIn::Metric => "metric",
            },
        },
        datum: "underside of the door sill; a level is positive above it, a drop positive below it",
        stops: findings.stop_the_job(),
        figures: figures::all(site, results),
        fabric: bed.map(|bed| bed.fabric),
        signs: signs(site, say),
        causes: causes(results),
        book: book(site, results, say),
        pits: results.ground.as_ref().map(|ground| pits(ground, say)),
        soil: results.soil.as_ref().map(|found| soil(found, say)),
        penetrometers: penetrometers(results, say),
        base: bed.map(|bed| base(site, bed, say)),
        brick: results
            .brick
            .as_ref()
            .map(|found| brick(found, site.shown_in)),
        stations: stations(results, say),
        lifts: bed.map(|bed| {
            bed.lifts
                .each
                .iter()
                .map(|lift| lift_row(lift, say))
                .collect()
        }),
        laying: results.lay.as_ref().map(|lay| laying(site, lay, say)),
        offers: results
            .line
            .iter()
            .flat_map(|line| &line.offers)
            .map(offer_row)
            .collect(),
        findings: findings.iter().map(finding_row).collect(),
        cautions: cautions(site),
    }
}

/// The name of a weight on every sheet and in every message.
#[must_use]
pub const fn weight_name(weight: Weight) -> &'static str {
    match weight {
        Weight::Right => "right",
        Weight::Note => "note",
        Weight::Warning => "warning",
        Weight::Stop => "stop",
    }
}

/// One finding with all its texts on one line each.
#[must_use]
pub fn finding_row(finding: &Finding) -> FindingRow {
    FindingRow {
        place: full_name(finding.place),
        weight: weight_name(finding.weight),
        text: on_one_line(&finding.text),
        remedy: on_one_line(&finding.remedy),
        source: on_one_line(finding.source.words()),
    }
}

fn lift_row(lift: &Lift, say: Wording) -> LiftRow {
    let stretch = |&(from, to)| Stretch {
        from: say.station(Some(from)),
        to: say.station(Some(to)),
    };
    LiftRow {
        number: lift.number,
        top_below_string: say.length(Some(lift.top_below_grade)),
        compacted: say.length(Some(lift.compacted)),
        loose: say.length(Some(lift.loose)),
        runs: lift.runs.iter().map(stretch).collect(),
        compacted_volume: say.volume(Some(lift.compacted_volume)),
        loose_volume: say.volume(Some(lift.loose_volume)),
    }
}

fn offer_row(offer: &Offer) -> OfferRow {
    OfferRow {
        title: offer.title.clone(),
        text: offer.words.clone(),
        breaks: offer.breaks.clone(),
    }
}
