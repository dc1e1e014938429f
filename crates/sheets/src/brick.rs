//! The brick before it is laid: its sample, which bonds close, the width that fits.

use crate::columns::{columns, paragraph};
use crate::figure::{Measure, Unit};
use crate::results::ResultsSheet;
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::lay::{
    Aspect, BrickFound, BrickSample, Class, ClassFound, ENOUGH_READINGS, EndFit, Fit, FitOffer,
    RipCut, RunsOut, Side, Slip, fine,
};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_calc::quantity::unit::millimeter;
use underbrick_calc::site::{EdgeStands, ShownIn};

/// The brick, its sample and the width that fits.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BrickSheet {
    /// Longest side, as it is taken.
    pub length: Measure,
    /// Middle side.
    pub width: Measure,
    /// Shortest side.
    pub thickness: Measure,
    /// Length by thickness.
    pub aspect: Measure,
    /// Whether two widths and a joint within the limits make the length.
    pub is_modular: bool,
    /// The joint at which they do; negative where two widths are longer.
    pub closing_joint: Measure,
    /// Every bond, whether it closes.
    pub bonds: Vec<BondRow>,
    /// The sample of each size that was measured.
    pub samples: Vec<SampleRow>,
    /// The width that fits; `None` for herringbone, and where the run is not known.
    pub fit: Option<FitSheet>,
}

/// Whether a bond closes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BondRow {
    /// Its name.
    pub bond: &'static str,
    /// Whether it closes within the joint limits.
    pub closes: bool,
    /// How far a joint of each unit is off the one that is aimed at; positive opens.
    pub gap: Measure,
}

/// The sample of one size.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SampleRow {
    /// `field` or `second size`.
    pub of: &'static str,
    /// Bricks measured.
    pub bricks: usize,
    /// Length, width, thickness, as far as they were measured.
    pub sides: Vec<SideRow>,
    /// Classes by the published tables.
    pub classes: Vec<ClassRow>,
    /// What the number of readings does not tell; empty where it tells all.
    pub few: String,
}

/// One side of a sample.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SideRow {
    /// `length`, `width` or `thickness`.
    pub side: &'static str,
    /// Readings that are taken.
    pub readings: usize,
    /// Readings that look like a slip and are left out.
    pub left_out: usize,
    /// Mean.
    pub mean: Measure,
    /// Standard deviation; not known for one reading.
    pub deviation: Measure,
    /// Smallest; not known for one reading.
    pub least: Measure,
    /// Largest; not known for one reading.
    pub most: Measure,
}

/// The class by one standard.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClassRow {
    /// Its name.
    pub standard: &'static str,
    /// What brick it is for.
    pub what_for: &'static str,
    /// The class, or why there is none.
    pub class: &'static str,
    /// The side that uses up most of the strictest limit, in words.
    pub because: String,
    /// Where the limits are from.
    pub source: String,
}

/// The width that fits.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitSheet {
    /// Width over the edge bricks that is wished for.
    pub target: Measure,
    /// Whether it was asked for; else it is the walk as it is.
    pub is_asked: bool,
    /// How far the width may be off.
    pub tolerance: Measure,
    /// What meets it, best first.
    pub offers: Vec<FitRow>,
    /// Where nothing meets it: the nearest below.
    pub narrower: Option<FitRow>,
    /// Where nothing meets it: the nearest above.
    pub wider: Option<FitRow>,
    /// What exactly the target needs cut, in words; empty where whole courses make it.
    pub cut: String,
    /// The walk as it is set, at the door and where it ends at another width.
    pub ends: Vec<EndRow>,
    /// Where a course runs out or comes in.
    pub runs_out: Vec<RunsOutRow>,
}

/// One width that whole courses give.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitRow {
    /// Courses.
    pub courses: u32,
    /// Every joint.
    pub joint: Measure,
    /// How the edge brick stands.
    pub edge: &'static str,
    /// Clear width.
    pub clear: Measure,
    /// Width over the edge bricks.
    pub over: Measure,
    /// How far off the target, in words.
    pub off: String,
}

/// One end of the walk.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EndRow {
    /// Station.
    pub station: Measure,
    /// Clear width.
    pub clear: Measure,
    /// Whole courses.
    pub courses: u32,
    /// Every joint.
    pub joint: Measure,
    /// What is cut, in words; empty where whole courses fill it.
    pub cut: String,
}

/// Where a course runs out or comes in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunsOutRow {
    /// Where.
    pub station: Measure,
    /// Whole courses before it.
    pub before: u32,
    /// Whole courses after it.
    pub after: u32,
}

/// All of it in rows.
#[must_use]
pub fn brick(found: &BrickFound, shown_in: ShownIn) -> BrickSheet {
    let say = Wording(shown_in);
    let fine = |length: Length| fine_measure(Some(length), shown_in);
    let ratio = found.aspect.ratio;
    let samples = [
        ("field", &found.sample.first),
        ("second size", &found.sample.second),
    ];
    BrickSheet {
        length: fine(found.size.length),
        width: fine(found.size.width),
        thickness: fine(found.size.thickness),
        aspect: Measure::new(Some(ratio), Unit::Ratio, || format!("{ratio:.2} : 1")),
        is_modular: found.modular.is_modular,
        closing_joint: fine(found.modular.joint),
        bonds: found
            .bonds
            .iter()
            .map(|bond| BondRow {
                bond: bond.bond.name(),
                closes: bond.closes,
                gap: fine(bond.gap),
            })
            .collect(),
        samples: samples
            .into_iter()
            .filter_map(|(of, sample)| Some(sample_row(of, sample.as_ref()?, shown_in)))
            .collect(),
        fit: found.fit.as_ref().map(|fit| fit_sheet(fit, say)),
    }
}

/// Which bonds do not close and by how much, in one sentence; empty where all do.
#[must_use]
pub fn closing_words(brick: &BrickSheet) -> String {
    let open: Vec<&BondRow> = brick.bonds.iter().filter(|bond| !bond.closes).collect();
    let Some(first) = open.first() else {
        return String::new();
    };
    let names: Vec<String> = open.iter().map(|bond| bond.bond.to_lowercase()).collect();
    let gap = first.gap.shown.trim_start_matches('-');
    let side = if first.gap.shown.starts_with('-') {
        "longer"
    } else {
        "shorter"
    };
    format!(
        "Two widths and a joint are {gap} {side} than the length; so these do not close: {}.",
        names.join("; ")
    )
}

/// What feet and streets allow of length by thickness, in words.
#[must_use]
pub fn aspect_words(aspect: Aspect) -> &'static str {
    if aspect.is_for_a_street() {
        "for feet (4) and for a street (3)"
    } else if aspect.is_for_feet() {
        "for feet (4), not for a street (3)"
    } else {
        "not for feet: more than 4"
    }
}

/// How an edge brick stands, in one word.
#[must_use]
pub const fn stands_word(stands: EdgeStands) -> &'static str {
    match stands {
        EdgeStands::Sailor => "sailor",
        EdgeStands::Soldier => "soldier",
        EdgeStands::Header => "header",
        EdgeStands::Stretcher => "stretcher",
        EdgeStands::Rowlock => "rowlock",
    }
}

fn sample_row(of: &'static str, sample: &BrickSample, shown_in: ShownIn) -> SampleRow {
    let sides = [
        ("length", sample.length),
        ("width", sample.width),
        ("thickness", sample.thickness),
    ];
    SampleRow {
        of,
        bricks: sample.n_bricks,
        sides: sides
            .into_iter()
            .filter_map(|(name, side)| {
                let left_out = sample.slips.iter().filter(|slip| side_of(slip) == name);
                Some(side_row(name, side?, left_out.count(), shown_in))
            })
            .collect(),
        classes: sample
            .classes
            .iter()
            .map(|class| class_row(class, shown_in))
            .collect(),
        few: few(sample),
    }
}

fn few(sample: &BrickSample) -> String {
    match sample.n_bricks {
        1 => "One brick tells no spread and no class: measure more.".to_owned(),
        few if few < ENOUGH_READINGS => format!(
            "{few} bricks are few for a class: {ENOUGH_READINGS} are measured for one (ASTM C67, from memory)."
        ),
        _ => String::new(),
    }
}

fn side_of(slip: &Slip) -> &'static str {
    match slip.place {
        Place::SampleLength(_) => "length",
        Place::SampleWidth(_) => "width",
        _ => "thickness",
    }
}

fn side_row(name: &'static str, side: Side, left_out: usize, shown_in: ShownIn) -> SideRow {
    let spread = side.spread;
    SideRow {
        side: name,
        readings: side.n_taken,
        left_out,
        mean: fine_measure(Some(side.mean), shown_in),
        deviation: fine_measure(spread.map(|spread| spread.deviation), shown_in),
        least: fine_measure(spread.map(|spread| spread.least), shown_in),
        most: fine_measure(spread.map(|spread| spread.most), shown_in),
    }
}

fn class_row(found: &ClassFound, shown_in: ShownIn) -> ClassRow {
    let against = if found.against_written {
        "size"
    } else {
        "mean"
    };
    let because = found.nearest.map_or_else(String::new, |nearest| {
        let what = if nearest.is_range {
            "range".to_owned()
        } else {
            format!("off {against} by")
        };
        format!(
            "{} {what} {}, limit {}",
            nearest.side,
            fine(nearest.off, shown_in),
            fine(nearest.limit, shown_in)
        )
    });
    ClassRow {
        standard: found.standard.name(),
        what_for: found.standard.what_for(),
        class: match found.class {
            Class::Is(class) => class,
            Class::Outside => "outside all classes",
            Class::SizeNotKnown => "not known",
        },
        because,
        source: found.standard.source().words().to_owned(),
    }
}

fn fit_sheet(fit: &Fit, say: Wording) -> FitSheet {
    let row = |offer: &FitOffer| fit_row(offer, say.0);
    FitSheet {
        target: fine_measure(Some(fit.target), say.0),
        is_asked: fit.is_asked,
        tolerance: fine_measure(Some(fit.tolerance), say.0),
        offers: fit.offers.iter().map(row).collect(),
        narrower: fit.narrower.as_ref().map(row),
        wider: fit.wider.as_ref().map(row),
        cut: fit
            .cut
            .map_or_else(String::new, |cut| cut_words(cut, say.0)),
        ends: std::iter::once(&fit.door)
            .chain(&fit.far_end)
            .map(|end| end_row(end, say))
            .collect(),
        runs_out: fit
            .runs_out
            .iter()
            .map(|out: &RunsOut| RunsOutRow {
                station: say.station(Some(out.station)),
                before: out.n_before,
                after: out.n_after,
            })
            .collect(),
    }
}

/// One width that whole courses give, in a row.
fn fit_row(offer: &FitOffer, shown_in: ShownIn) -> FitRow {
    FitRow {
        courses: offer.n_courses,
        joint: fine_measure(Some(offer.joint), shown_in),
        edge: stands_word(offer.stands),
        clear: fine_measure(Some(offer.clear), shown_in),
        over: fine_measure(Some(offer.over), shown_in),
        off: off_words(offer.off, shown_in),
    }
}

/// "on the mark", `1/4" wider`, `3/16" narrower`.
fn off_words(off: Length, shown_in: ShownIn) -> String {
    let size = fine(off.abs(), shown_in);
    if size.starts_with("0\"") || size == "0 mm" {
        "on the mark".to_owned()
    } else if off.value > 0.0 {
        format!("{size} wider")
    } else {
        format!("{size} narrower")
    }
}

/// What is cut along, in words.
fn cut_words(cut: RipCut, shown_in: ShownIn) -> String {
    let to = fine(cut.to, shown_in);
    match cut.n_ripped {
        1 => format!("{} whole courses and one cut to {to}", cut.n_whole),
        more => format!("{} whole courses and {more} cut to {to}", cut.n_whole),
    }
}

fn end_row(end: &EndFit, say: Wording) -> EndRow {
    EndRow {
        station: say.station(Some(end.station)),
        clear: fine_measure(Some(end.clear), say.0),
        courses: end.n_courses,
        joint: fine_measure(Some(end.joint), say.0),
        cut: end
            .cut
            .map_or_else(String::new, |cut| cut_words(cut, say.0)),
    }
}

fn fine_measure(length: Option<Length>, shown_in: ShownIn) -> Measure {
    Measure::new(
        length.map(|length| length.get::<millimeter>()),
        Unit::Millimetre,
        || length.map_or_else(String::new, |length| fine(length, shown_in)),
    )
}

/// Most widths that the text lists.
const MOST_OFFERS: usize = 6;

/// All of it for people.
pub(crate) fn to_text(sheet: &ResultsSheet) -> String {
    let Some(brick) = &sheet.brick else {
        return String::new();
    };
    let mut body = columns(&[
        vec![
            "Brick".to_owned(),
            format!(
                "{} x {} x {}",
                brick.length.shown, brick.width.shown, brick.thickness.shown
            ),
        ],
        vec!["Length by thickness".to_owned(), brick.aspect.shown.clone()],
        vec![
            "Two widths make the length with".to_owned(),
            format!(
                "a joint of {}{}",
                brick.closing_joint.shown,
                if brick.is_modular {
                    ": modular"
                } else {
                    ": not modular"
                }
            ),
        ],
    ]);
    let closing = closing_words(brick);
    if !closing.is_empty() {
        body += &paragraph("  ", &closing);
    }
    body += &brick.samples.iter().map(sample_text).collect::<String>();
    let fit = brick.fit.as_ref().map_or_else(String::new, |fit| {
        format!("\nTHE WIDTH THAT FITS\n{}", fit_text(fit))
    });
    format!("\nTHE BRICK\n{body}{fit}")
}

fn sample_text(sample: &SampleRow) -> String {
    let head = format!("Sample of the {}: {} measured", sample.of, sample.bricks);
    let sides: Vec<Vec<String>> = sample
        .sides
        .iter()
        .map(|side| {
            vec![
                if side.left_out == 0 {
                    format!("  {}, {} taken", side.side, side.readings)
                } else {
                    format!(
                        "  {}, {} taken, {} left out",
                        side.side, side.readings, side.left_out
                    )
                },
                side.mean.shown.clone(),
                if side.readings > 1 {
                    format!(
                        "{} to {}, deviation {}",
                        side.least.shown, side.most.shown, side.deviation.shown
                    )
                } else {
                    "spread not known".to_owned()
                },
            ]
        })
        .collect();
    let classes: String = sample
        .classes
        .iter()
        .map(|class| {
            let because = if class.because.is_empty() {
                String::new()
            } else {
                format!(": {}", class.because)
            };
            let words = format!(
                "{} ({}): {}{because} [{}]",
                class.standard, class.what_for, class.class, class.source
            );
            paragraph("    ", &words)
        })
        .collect();
    let few = if sample.few.is_empty() {
        String::new()
    } else {
        paragraph("    ", &sample.few)
    };
    paragraph("  ", &head) + &columns(&sides) + &classes + &few
}

fn fit_text(fit: &FitSheet) -> String {
    let wish = if fit.is_asked {
        "asked for"
    } else {
        "as the walk is set"
    };
    let head = format!(
        "{} over the edge bricks, {wish}, give or take {}.",
        fit.target.shown, fit.tolerance.shown
    );
    let row = |offer: &FitRow| {
        vec![
            format!("{} courses", offer.courses),
            format!("joint {}", offer.joint.shown),
            format!("{} edge", offer.edge),
            format!("{} clear", offer.clear.shown),
            format!("{} over", offer.over.shown),
            offer.off.clone(),
        ]
    };
    let shown: Vec<Vec<String>> = if fit.offers.is_empty() {
        fit.narrower.iter().chain(&fit.wider).map(row).collect()
    } else {
        fit.offers.iter().take(MOST_OFFERS).map(row).collect()
    };
    let none = if fit.offers.is_empty() {
        paragraph("  ", "No number of whole courses meets it; the nearest:")
    } else {
        String::new()
    };
    let cut = if fit.cut.is_empty() {
        String::new()
    } else {
        paragraph("  ", &format!("Exactly that width takes {}.", fit.cut))
    };
    let ends: Vec<Vec<String>> = fit
        .ends
        .iter()
        .map(|end| {
            vec![
                format!("At {}", end.station.shown),
                format!("{} clear", end.clear.shown),
                if end.cut.is_empty() {
                    format!("{} courses, joint {}", end.courses, end.joint.shown)
                } else {
                    end.cut.clone()
                },
            ]
        })
        .collect();
    let outs: Vec<Vec<String>> = fit
        .runs_out
        .iter()
        .map(|out| {
            vec![
                format!("At {}", out.station.shown),
                format!("{} courses before, {} after", out.before, out.after),
            ]
        })
        .collect();
    paragraph("  ", &head) + &none + &columns(&shown) + &cut + &columns(&ends) + &columns(&outs)
}

#[cfg(test)]
mod tests;
