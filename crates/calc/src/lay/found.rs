//! What is known of the brick before it is laid: its size, its sample, which bonds close, the width that fits.

use super::asked::in_the_walk;
use super::brick::BrickSize;
use super::closes::{BondCloses, Modular, bonds};
use super::fine::fine;
use super::fit::{Fit, fit};
use super::sample::{Aspect, SampleFound, sample};
use super::wishes::LayWishes;
use crate::field::full_name;
use crate::findings::{Findings, Source, Weight};
use crate::line::Run;
use crate::place::Place;
use crate::quantity::in_metres;
use crate::site::Site;

/// What is known of the brick before it is laid.
#[derive(Clone, Debug, PartialEq)]
pub struct BrickFound {
    /// The brick of the field as it is taken.
    pub size: BrickSize,
    /// Whether two of its widths and a joint make its length.
    pub modular: Modular,
    /// Which bonds close with it, in the order in which they are offered.
    pub bonds: Vec<BondCloses>,
    /// Its length by its thickness.
    pub aspect: Aspect,
    /// What the bricks that were measured say.
    pub sample: SampleFound,
    /// The width that fits; `None` for herringbone, and where the run is not known.
    pub fit: Option<Fit>,
}

/// All of it, with findings for what is asked and cannot be, for slips among the readings, and for a bond that does not close.
pub(crate) fn brick_found(site: &Site, run: Option<&Run>, findings: &mut Findings) -> BrickFound {
    let wishes = LayWishes::checked(site, findings);
    if let Some(run) = run {
        in_the_walk(site, &wishes, run, findings);
    }
    let size = BrickSize::of_field(site);
    let limits = wishes.joint_limits();
    let found = BrickFound {
        size,
        modular: Modular::of(size.length, size.width, wishes.joint, limits),
        bonds: bonds(size.length, size.width, wishes.joint, limits),
        aspect: Aspect {
            ratio: in_metres(size.length) / in_metres(size.thickness),
        },
        sample: sample(site),
        fit: run.and_then(|run| fit(site, &wishes, run)),
    };
    note_slips(site, &found.sample, findings);
    note_bond(site, &wishes, &found, findings);
    if !found.aspect.is_for_feet() {
        findings.note(
            Place::BrickThickness,
            Weight::Warning,
            Source::Published(
                "Interlocking Concrete Pavement Institute, construction tolerances and recommendations",
            ),
            format!(
                "{}: the brick is {:.1} times as long as thick, more than {:.0} times breaks under feet.",
                full_name(Place::BrickThickness),
                found.aspect.ratio,
                Aspect::MOST_FOR_FEET
            ),
            "Take a thicker or a shorter brick.",
        );
    }
    found
}

fn note_slips(site: &Site, sample: &SampleFound, findings: &mut Findings) {
    let samples = [&sample.first, &sample.second];
    for slip in samples
        .into_iter()
        .flatten()
        .flat_map(|sample| &sample.slips)
    {
        findings.note(
            slip.place,
            Weight::Warning,
            Source::Readings,
            format!(
                "{}: {} {} {}.",
                full_name(slip.place),
                site.shown_in.thickness(slip.reading),
                slip.kind.words(),
                site.shown_in.thickness(slip.against)
            ),
            "A slip of typing, or no whole brick? It is kept as written and left out of the mean.",
        );
    }
}

/// A bond that asks for two widths and a joint to make the length, and a brick that does not give it.
fn note_bond(site: &Site, wishes: &LayWishes, found: &BrickFound, findings: &mut Findings) {
    let Some(chosen) = found.bonds.iter().find(|bond| bond.bond == wishes.bond) else {
        return;
    };
    if chosen.closes {
        return;
    }
    let words = |length| fine(length, site.shown_in);
    let side = if in_metres(chosen.gap) > 0.0 {
        "shorter"
    } else {
        "longer"
    };
    findings.note(
        Place::Bond,
        Weight::Warning,
        Source::Published("Beall, Masonry and Concrete (2004), p. 301: length = 2 x width + joint"),
        format!(
            "{} does not close: two widths and a joint of {} are {} {side} than the brick's length, {}.",
            wishes.bond.name(),
            words(wishes.joint),
            words(chosen.gap.abs()),
            words(found.size.length)
        ),
        closing_remedy(site, found),
    );
}

fn closing_remedy(site: &Site, found: &BrickFound) -> String {
    let joint = found.modular.joint;
    if in_metres(joint) >= 0.0 {
        format!(
            "It would close with a joint of {}; or take running bond, which asks nothing of the brick.",
            fine(joint, site.shown_in)
        )
    } else {
        "Take running bond, which asks nothing of the brick.".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::line::tests::{site as plain_site, straight};
    use crate::quantity::{feet, inches};
    use crate::site::{Bond, BrickReading};

    fn found(site: &Site) -> (BrickFound, Findings) {
        let mut findings = Findings::default();
        let run = crate::line::line(site, &mut Findings::default())
            .unwrap()
            .run;
        let found = brick_found(site, Some(&run), &mut findings);
        (found, findings)
    }

    #[track_caller]
    fn said(site: &Site, place: Place, words: &[&str]) {
        let (_, findings) = found(site);
        let texts: Vec<&str> = findings
            .at(place)
            .map(|found| found.text.as_str())
            .collect();
        assert_eq!(texts.len(), 1, "{findings:?}");
        for word in words {
            assert!(texts[0].contains(word), "{word:?} in {:?}", texts[0]);
        }
    }

    #[test]
    fn a_usual_walk_has_nothing_to_say() {
        let (found, findings) = found(&plain_site(vec![straight(feet(20.0))]));
        assert_eq!(findings.iter().count(), 0);
        assert!(found.fit.is_some() && found.sample == SampleFound::default());
    }

    #[test]
    fn a_slip_is_questioned_where_it_was_typed() {
        let mut site = plain_site(vec![straight(feet(20.0))]);
        site.lay.sample = [8.0, 80.0, 8.0]
            .map(|length| BrickReading {
                length: Some(inches(length)),
                ..BrickReading::default()
            })
            .to_vec();
        said(
            &site,
            Place::SampleLength(1),
            &["Sample 2 length", "80\"", "about ten times 8\""],
        );
    }

    #[test]
    fn a_bond_that_does_not_close_says_by_how_much() {
        // Row B22: 4 x 8 with 1/8 is off by 1/8 in; 3 3/4 x 7 5/8 with 1/8 works.
        let mut site = plain_site(vec![straight(feet(20.0))]);
        site.lay.bond = Bond::Herringbone90;
        said(
            &site,
            Place::Bond,
            &["Herringbone, 90 degrees", "1/8\" longer", "8\""],
        );
        site.brick.length = Some(inches(7.625));
        site.brick.width = Some(inches(3.75));
        assert_eq!(found(&site).1.iter().count(), 0);
    }

    #[test]
    fn a_thin_long_brick_is_warned_of() {
        let mut site = plain_site(vec![straight(feet(20.0))]);
        site.brick.length = Some(inches(12.0));
        // Row P3: 12 ÷ 2 1/4 = 5.33, more than 4.
        said(&site, Place::BrickThickness, &["5.3 times", "4 times"]);
    }
}
