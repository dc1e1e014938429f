//! What the old surface did with the water.

use super::rules::near_the_house;
use super::{OldSurface, Run};
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// What no tape tells: a sixteenth of an inch.
const TOLD_M: f64 = 0.0254 / 16.0;

/// How the old surface falls near the house: by the readings at the door and 10 ft from it, or at the far end of a shorter walk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct NearTheHouse {
    /// How much higher it lies at the far reading: positive where it falls towards the house.
    pub towards_house: Length,
    /// From the door to the far reading.
    pub reach: Length,
}

impl NearTheHouse {
    /// `None` where the old surface is not known at both.
    pub(crate) fn of(run: &Run, old_surface: &OldSurface) -> Option<Self> {
        let reach = if run.length() < near_the_house() {
            run.length()
        } else {
            near_the_house()
        };
        let at_door = old_surface.at(metres(0.0), metres(0.0))?;
        let out = old_surface.at(reach, metres(0.0))?;
        (at_door.known && out.known).then_some(Self {
            towards_house: out.level - at_door.level,
            reach,
        })
    }

    /// Whether its water runs to the door.
    pub(crate) fn falls_to_house(self) -> bool {
        in_metres(self.towards_house) >= TOLD_M
    }
}

/// Says so where the old surface falls towards the house.
pub(super) fn check(site: &Site, run: &Run, old_surface: &OldSurface, findings: &mut Findings) {
    let Some(near) = NearTheHouse::of(run, old_surface).filter(|near| near.falls_to_house()) else {
        return;
    };
    let NearTheHouse {
        towards_house,
        reach,
    } = near;
    let text = format!(
        "As found, the walk falls {} towards the house over the first {}: its water runs to the door.",
        site.shown_in.length(towards_house),
        site.shown_in.length(reach)
    );
    findings.note(
        Place::OldSurface,
        Weight::Note,
        Source::Readings,
        text,
        "Give the new line its fall away from the house.",
    );
}

#[cfg(test)]
mod tests {
    use crate::findings::{Finding, Weight};
    use crate::line::tests::{line_of, shot, site, straight};
    use crate::place::Place;
    use crate::quantity::{feet, inches};
    use crate::site::ShotBy;

    /// A straight walk with the old brick so far below the sill at the door, 6 ft out and 12 ft out.
    fn found(at_door_in: f64, at_6_ft_in: f64, at_12_ft_in: f64) -> Vec<Finding> {
        let mut site = site(vec![straight(feet(12.0))]);
        site.line.old_below_sill = Some(inches(at_door_in));
        site.line.string_above_sill = Some(inches(0.0));
        site.line.shots = [(6.0, at_6_ft_in), (12.0, at_12_ft_in)]
            .map(|(station_ft, reading_in)| {
                shot(feet(station_ft), ShotBy::String, inches(reading_in))
            })
            .to_vec();
        let (_, findings) = line_of(&site);
        findings
            .at(Place::OldSurface)
            .filter(|finding| finding.weight == Weight::Note)
            .cloned()
            .collect()
    }

    #[test]
    fn a_fall_to_the_house_is_told_with_its_size() {
        // 5 in at the door; 3 in at 6 ft and 2 in at 12 ft, so 2 1/3 in at 10 ft: 2 2/3 in towards the house, 2 11/16 in to a sixteenth.
        let told = found(5.0, 3.0, 2.0);
        assert_eq!(told.len(), 1);
        assert!(
            told[0]
                .text
                .contains("2 11/16\" towards the house over the first 10'-0\""),
            "{}",
            told[0].text
        );
    }

    #[test]
    fn a_fall_away_from_the_house_is_not_found_fault_with() {
        assert_eq!(found(2.0, 3.0, 4.0), []);
        assert_eq!(found(2.0, 2.0, 2.0), []);
    }
}
