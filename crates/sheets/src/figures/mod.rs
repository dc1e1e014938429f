//! The figures, group by group, in the order of the visit.

mod bed;
mod edge;
mod line;
mod quantities;

use crate::figure::Figure;
use crate::wording::Wording;
use underbrick_calc::Results;
use underbrick_calc::ground::Ground;
use underbrick_calc::line::Line;
use underbrick_calc::quantity::metres;
use underbrick_calc::site::Site;

/// All figures of a site. Where a stage has no results its figures are there and not known.
pub(crate) fn all(site: &Site, results: &Results) -> Vec<Figure> {
    let say = Wording(site.shown_in);
    let bed = results.bed.as_ref();
    let base_is_least =
        bed.is_some() && !is_bottom_found(results.line.as_ref(), results.ground.as_ref());
    let mut figures = line::figures(site, results.line.as_ref(), say);
    figures.extend(bed::section(bed, base_is_least, say));
    figures.extend(bed::lifts(bed, base_is_least, say));
    figures.extend(edge::figures(
        site,
        bed.map(|bed| &bed.edge),
        results.lay.as_ref(),
        say,
    ));
    figures.extend(quantities::figures(
        bed.map(|bed| &bed.earthwork),
        base_is_least,
        say,
    ));
    figures
}

/// Whether the bottom of what must come out was reached along the whole run: only then is the base known to be deep enough.
fn is_bottom_found(line: Option<&Line>, ground: Option<&Ground>) -> bool {
    let (Some(line), Some(ground)) = (line, ground) else {
        return false;
    };
    let ends = [metres(0.0), line.run.length()];
    let stations = ground.station_breaks().into_iter().chain(ends);
    let mut bottoms = stations.map(|station| ground.unsuitable_bottom(station));
    bottoms.all(|bottom| bottom.is_some_and(|bottom| bottom.found))
}
