//! The one entry: each stage works from the results of the stages before it.

use crate::bed::{Bed, Under};
use crate::build::Build;
use crate::catalogue::Catalogue;
use crate::findings::Findings;
use crate::findings::rules::{CauseFound, Facts};
use crate::ground::soil::SoilFound;
use crate::ground::{Ground, Penetrometer};
use crate::lay::BrickFound;
use crate::lay::Lay;
use crate::line::Line;
use crate::measure::levels_book::ReducedBook;
use crate::order::{Found, Order, order, worst_site};
use crate::site::Site;

/// All that follows from a site. A stage whose readings do not suffice is `None`, and a finding says why.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Results {
    /// The level book reduced; `None` where no sight was written down.
    pub book: Option<ReducedBook>,
    /// Run, old surface, grade line.
    pub line: Option<Line>,
    /// Pits in levels, and what must come out.
    pub ground: Option<Ground>,
    /// What penetrometers found under the pits, also where a pit has no level yet.
    pub penetrometers: Vec<Penetrometer>,
    /// Section, lifts, edges, earthwork.
    pub bed: Option<Bed>,
    /// Every brick.
    pub lay: Option<Lay>,
    /// What the soil is and how deep it freezes.
    pub soil: Option<SoilFound>,
    /// Brick as sampled, bonds that close, the width that fits.
    pub brick: Option<BrickFound>,
    /// What is ordered, each way of rebuilding priced.
    pub order: Option<Order>,
    /// What the crew builds by; `None` where there is no bed.
    pub build: Option<Build>,
    /// What someone should look at.
    pub findings: Findings,
    /// Why the old walk failed, strongest evidence first.
    pub causes: Vec<CauseFound>,
}

/// Computes everything that follows from `site` with the materials of `catalogue`.
#[must_use]
pub fn compute(site: &Site, catalogue: &Catalogue) -> Results {
    compute_after(site, catalogue, None)
}

/// As [`compute`], with the layout from before an edit: it is taken over where nothing that it follows from has changed.
#[must_use]
pub fn compute_after(site: &Site, catalogue: &Catalogue, before: Option<Lay>) -> Results {
    let mut findings = Findings::default();
    let book = crate::line::level_book(site, &mut findings);
    let line = crate::line::line(site, &mut findings);
    let ground = line
        .as_ref()
        .map(|line| crate::ground::ground(site, catalogue, line, &mut findings));
    let penetrometers = crate::ground::penetrometers(site, &mut findings);
    let soil = crate::ground::soil::soil(site, &mut findings);
    let bed = match (&line, &ground) {
        (Some(line), Some(ground)) => {
            let under = Under {
                ground,
                penetrometers: &penetrometers,
                soil: soil.as_ref(),
            };
            crate::bed::bed(site, catalogue, line, under, &mut findings)
        }
        _ => None,
    };
    if let Some(soil) = &soil {
        crate::ground::soil::report(site, soil, bed.as_ref(), &mut findings);
    }
    let lay = line
        .as_ref()
        .map(|line| crate::lay::lay(site, &line.run, before, &mut findings));
    let run = line.as_ref().map(|line| &line.run);
    let brick = Some(crate::lay::brick_found(site, run, &mut findings));
    let facts = Facts {
        site,
        catalogue,
        line: line.as_ref(),
        ground: ground.as_ref(),
        soil: soil.as_ref(),
    };
    let causes = catalogue.causes.causes(&facts);
    let found = Found {
        line: line.as_ref(),
        ground: ground.as_ref(),
        bed: bed.as_ref(),
        lay: lay.as_ref(),
        causes: &causes,
    };
    let order = Some(ordered(
        site,
        catalogue,
        found,
        &penetrometers,
        soil.as_ref(),
        &mut findings,
    ));
    let build = match (&line, &ground, &bed) {
        (Some(line), Some(ground), Some(bed)) => {
            let order = order.as_ref();
            Some(crate::build::build(
                site,
                line,
                ground,
                bed,
                order,
                &mut findings,
            ))
        }
        _ => None,
    };
    Results {
        book,
        line,
        ground,
        penetrometers,
        bed,
        lay,
        soil,
        brick,
        order,
        build,
        findings,
        causes,
    }
}

/// The order, with the worst ground worked out beside it. What is found of that ground is not noted: it is nobody's reading.
fn ordered(
    site: &Site,
    catalogue: &Catalogue,
    found: Found<'_>,
    penetrometers: &[Penetrometer],
    soil: Option<&SoilFound>,
    findings: &mut Findings,
) -> Order {
    let worst = found.ground.and_then(|ground| worst_site(site, ground));
    let worst = worst.zip(found.line);
    let Some((worst, line)) = worst else {
        return order(site, catalogue, found, None, findings);
    };
    let mut unheard = Findings::default();
    let ground = crate::ground::ground(&worst, catalogue, line, &mut unheard);
    let under = Under {
        ground: &ground,
        penetrometers,
        soil,
    };
    let bed = crate::bed::bed(&worst, catalogue, line, under, &mut unheard);
    let worst = Found {
        ground: Some(&ground),
        bed: bed.as_ref(),
        ..found
    };
    order(site, catalogue, found, Some(worst), findings)
}
