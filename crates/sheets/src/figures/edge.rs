//! Figures of the edges: brick, trench, restraint, forms.

use crate::figure::{Figure, Group, Measure};
use crate::wording::Wording;
use underbrick_calc::bed::{Edge, EdgeSide, Restraint};
use underbrick_calc::lay::Lay;
use underbrick_calc::site::{Hand, RestraintInput, Site};

/// Bricks are counted as laid, where they could be: on a tight curve whole brick gives way to halves.
pub(super) fn figures(
    site: &Site,
    edge: Option<&Edge>,
    lay: Option<&Lay>,
    say: Wording,
) -> Vec<Figure> {
    let brick = edge.map(|edge| edge.brick);
    let forms = edge.map(|edge| edge.forms);
    let mut figures = vec![
        figure(
            "edge_brick_across",
            "Edge brick, square to the run",
            say.length(brick.map(|brick| brick.across)),
        ),
        figure(
            "edge_brick_along",
            "Edge brick, along the run",
            say.length(brick.map(|brick| brick.along)),
        ),
        figure(
            "edge_brick_depth",
            "Edge brick, from its top down",
            say.length(brick.map(|brick| brick.depth)),
        ),
    ];
    for (hand, name) in [(Hand::Left, "left"), (Hand::Right, "right")] {
        let edge = edge.map(|edge| match hand {
            Hand::Left => &edge.left,
            Hand::Right => &edge.right,
        });
        let n_laid = lay.and_then(|lay| u32::try_from(lay.n_on_edge(hand)?).ok());
        let n_bricks = n_laid.or_else(|| Some(edge?.n_bricks));
        figures.extend(side(name, edge, n_bricks, say));
    }
    figures.extend([
        figure(
            "trench_depth",
            "Trench below the base top",
            say.length(edge.map(|edge| edge.trench_depth)),
        ),
        figure(
            "trench_width",
            "Trench width",
            say.length(edge.map(|edge| edge.trench_width)),
        ),
        figure(
            "trench_volume",
            "Trench, both sides, in place",
            say.volume(edge.map(|edge| edge.trench_volume)),
        ),
    ]);
    figures.extend(restraint(site, edge.map(|edge| &edge.restraint), say));
    figures.extend([
        figure(
            "form_boards_length",
            "Form boards, both sides",
            say.station(forms.map(|forms| forms.length)),
        ),
        figure(
            "form_boards_12_ft",
            "Form boards of 12 ft",
            Measure::count(forms.map(|forms| forms.n_boards)),
        ),
        figure(
            "form_stakes",
            "Stakes for the forms",
            Measure::count(forms.map(|forms| forms.n_stakes)),
        ),
        figure(
            "form_spacers",
            "Spacers cut to the clear width",
            Measure::count(forms.map(|forms| forms.n_spacers)),
        ),
    ]);
    figures
}

fn side(hand: &str, side: Option<&EdgeSide>, n_bricks: Option<u32>, say: Wording) -> [Figure; 4] {
    let figure = |what: &str, name: &str, measure: Measure| {
        figure(
            &format!("{hand}_edge_{what}"),
            &format!("Edge on the {hand}, {name}"),
            measure,
        )
    };
    [
        figure(
            "inner_length",
            "along its inner face",
            say.station(side.map(|side| side.inner_length)),
        ),
        figure(
            "outer_length",
            "along its outer face",
            say.station(side.map(|side| side.outer_length)),
        ),
        figure("bricks", "bricks", Measure::count(n_bricks)),
        figure(
            "widest_joint",
            "widest joint",
            say.length(side.map(|side| side.widest_joint)),
        ),
    ]
}

/// The figures of the restraint that was chosen: those of another do not apply and are not there.
fn restraint(site: &Site, restraint: Option<&Restraint>, say: Wording) -> Vec<Figure> {
    match site.edge.restraint {
        RestraintInput::Haunch { .. } => {
            let (concrete, n_bags) = match restraint {
                Some(Restraint::Haunch {
                    concrete,
                    n_bags_80_lb,
                }) => (Some(*concrete), Some(*n_bags_80_lb)),
                Some(Restraint::Spiked { .. } | Restraint::Nothing) | None => (None, None),
            };
            vec![
                figure(
                    "haunch_concrete",
                    "Concrete for the haunch, both sides",
                    say.volume(concrete),
                ),
                figure(
                    "haunch_bags_80_lb",
                    "Concrete in bags of 80 lb",
                    Measure::count(n_bags),
                ),
            ]
        }
        RestraintInput::Spiked { .. } => {
            let (strip, n_spikes) = match restraint {
                Some(Restraint::Spiked { strip, n_spikes }) => (Some(*strip), Some(*n_spikes)),
                Some(Restraint::Haunch { .. } | Restraint::Nothing) | None => (None, None),
            };
            vec![
                figure(
                    "edging_strip",
                    "Edging strip, both sides",
                    say.station(strip),
                ),
                figure("spikes", "Spikes", Measure::count(n_spikes)),
            ]
        }
        RestraintInput::Nothing => Vec::new(),
    }
}

fn figure(key: &str, name: &str, measure: Measure) -> Figure {
    Figure::new(Group::Edge, key, name, measure)
}
