//! Everything that is said, made once for each state of the site.

use underbrick_calc::quantity::Length;
use underbrick_drawing::plain::{PlainName, PlainStep, building_steps, plain_names};
use underbrick_sheets::agreement::{Standing, Terms, standing, terms};
use underbrick_sheets::owner::{WayTold, WhyTold, station_shown, ways_told, why_told};

use crate::visit::Visit;

/// What is said.
pub(super) struct Told {
    /// The state of the site that it was made from.
    pub revision: u64,
    /// Where both sections are cut.
    pub station: Length,
    /// Parts of the walk as found.
    pub found: Vec<PlainName>,
    /// Parts of the walk as it will be.
    pub proposed: Vec<PlainName>,
    /// Steps of the building.
    pub steps: Vec<PlainStep>,
    pub why: WhyTold,
    pub ways: Vec<WayTold>,
    pub terms: Terms,
    pub standing: Standing,
}

impl Told {
    pub fn of(visit: &Visit) -> Self {
        let design = visit.design();
        let (site, catalogue, results) = (visit.site(), visit.catalogue(), visit.results());
        let station = station_shown(design);
        let (found, proposed) = plain_names(site, catalogue, results, station);
        let terms = terms(design);
        Self {
            revision: visit.revision(),
            station,
            found,
            proposed,
            steps: building_steps(site, catalogue, results, station),
            why: why_told(design),
            ways: ways_told(design),
            standing: standing(site, &terms),
            terms,
        }
    }
}
