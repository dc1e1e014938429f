//! Published soils and their names. Rows S, X and Z of the project's check values, each with its source.

use super::feel::by_feel;
use super::frost_group::{FrostGroup, FrostSoil, frost_groups, rough_finer_than_002};
use super::texture::{RULES, Texture, texture};
use super::uscs::{IndexTests, a_line, classify, cu_and_cc};
use super::{FrostMethod, SoilError, SoilFound};
use crate::findings::{Findings, Weight};
use crate::line::tests::site;
use crate::measure::amount::{Amount, AmountUnit};
use crate::place::Place;
use crate::quantity::{in_metres, inches};
use crate::site::{Grit, Ribbon, Site};
use proptest::prelude::*;

fn tests(limits: (f64, f64), fines: f64, sand: f64, sizes: Option<[f64; 3]>) -> IndexTests {
    IndexTests {
        liquid_limit: Some(limits.0),
        plastic_limit: Some(limits.1),
        fines: Some(fines),
        sand: Some(sand),
        gravel: None,
        d10_mm: sizes.map(|[d10, _, _]| d10),
        d30_mm: sizes.map(|[_, d30, _]| d30),
        d60_mm: sizes.map(|[_, _, d60]| d60),
    }
}

#[track_caller]
fn named(limits: (f64, f64), fines: f64, sand: f64, sizes: Option<[f64; 3]>, symbol: &str) {
    let found = classify(&tests(limits, fines, sand, sizes)).unwrap();
    assert_eq!(found.symbol, symbol, "{:?}", found.reasons);
}

/// Rows S1 to S18: soils of the test file of the Python package geolysis 0.24.1, which an independent reading of ASTM D2487 agrees
/// with.
#[test]
fn soils_get_their_published_symbols() {
    named(
        (30.8, 20.7),
        10.29,
        81.89,
        Some([0.07, 0.30, 0.80]),
        "SW-SC",
    );
    named((24.4, 14.7), 9.77, 44.82, Some([0.06, 0.60, 7.0]), "GP-GC");
    named((49.5, 33.6), 6.93, 91.79, Some([0.153, 0.40, 1.2]), "SP-SM");
    named(
        (30.33, 23.42),
        8.93,
        7.69,
        Some([0.15, 18.0, 44.0]),
        "GP-GM",
    );
    named(
        (30.59, 24.41),
        9.87,
        19.03,
        Some([0.07, 0.30, 0.80]),
        "GW-GM",
    );
    named((32.78, 22.99), 3.87, 15.42, Some([2.5, 6.0, 15.0]), "GP");
    named((34.1, 21.1), 47.88, 37.84, None, "SC");
    named((27.5, 13.8), 54.23, 45.69, None, "CL");
    named((64.1, 29.0), 57.17, 42.58, None, "CH");
    named((56.0, 32.4), 51.11, 46.87, None, "MH");
    named((70.0, 38.0), 86.0, 7.0, None, "MH");
    named((33.0, 21.0), 30.0, 30.0, None, "GC");
    named((45.0, 16.0), 59.0, 41.0, None, "CL");
    named((55.0, 40.0), 85.0, 15.0, None, "MH");
    named((49.93, 37.22), 49.4, 35.98, None, "SM");
    named((42.77, 29.98), 27.6, 27.93, None, "GM");
    named((35.83, 25.16), 68.94, 28.88, None, "ML");
    named((26.4, 19.4), 54.76, 45.24, None, "CL-ML");
}

/// Rows S19, S20: plasticity index 5.0 lies below the A-line, 5.62, and so these are silty; geolysis 0.24.1 answers SM-SC and
/// GM-GC, as its test of the hatched zone leaves the A-line out.
#[test]
fn below_the_a_line_the_hatched_zone_is_not_clay() {
    named((27.7, 22.7), 18.95, 77.21, None, "SM");
    named((27.7, 22.7), 18.95, 20.48, None, "GM");
    assert!((a_line(27.7) - 5.621).abs() < 1e-9);
}

/// Row S21, tolerance 0.01: 1.55 ÷ 0.115 = 13.478; 0.53² ÷ (0.115 × 1.55) = 1.576.
#[test]
fn grading_figures() {
    let (cu, cc) = cu_and_cc(0.115, 0.53, 1.55);
    assert!((cu - 13.48).abs() < 0.01 && (cc - 1.58).abs() < 0.01);
}

/// The limits of ASTM D2487 themselves.
#[test]
fn limits_belong_to_the_side_that_the_standard_says() {
    named((50.0, 20.0), 60.0, 40.0, None, "CH"); // LL 50 is high
    named((49.9, 20.0), 60.0, 40.0, None, "CL");
    named((30.0, 15.0), 50.0, 50.0, None, "CL"); // half fines are fine-grained
    named((30.0, 15.0), 49.9, 50.1, None, "SC");
    let well = Some([0.1, 0.3, 0.7]); // Cu 7, Cc 1.29
    named((30.0, 15.0), 5.0, 95.0, well, "SW-SC");
    named((30.0, 15.0), 4.9, 95.1, well, "SW");
    named((30.0, 15.0), 12.0, 88.0, well, "SW-SC");
    named((30.0, 15.0), 12.1, 87.9, None, "SC");
    let six = Some([0.1, 0.3, 0.6]); // Cu 6, Cc 1.5: enough for a sand
    named((30.0, 15.0), 1.0, 99.0, six, "SW");
    named((30.0, 15.0), 1.0, 99.0, Some([0.1, 0.3, 0.59]), "SP");
    named((30.0, 15.0), 1.0, 10.0, Some([0.1, 0.2, 0.4]), "GW"); // Cu 4, Cc 1: enough for a gravel
    named((30.0, 15.0), 1.0, 49.5, six, "SW"); // as much sand as gravel is a sand
    // PI 7 on the A-line and above is between silt and clay, above 7 it is clay; 4 on the A-line is between.
    named((25.0, 18.0), 60.0, 40.0, None, "CL-ML");
    named((25.0, 17.9), 60.0, 40.0, None, "CL");
    let on_the_line = 4.0 / 0.73 + 20.0; // 25.479
    named((on_the_line, on_the_line - 4.0), 60.0, 40.0, None, "CL-ML");
    named((24.0, 20.1), 60.0, 40.0, None, "ML"); // 3.9
    named((24.0, 20.0), 20.0, 60.0, None, "SC-SM");
}

#[track_caller]
fn refused(tests: &IndexTests, words: &str) {
    assert_eq!(classify(tests).unwrap_err().to_string(), words);
}

#[test]
fn tests_that_cannot_be_are_refused_with_field_value_and_limit() {
    let good = tests((30.0, 15.0), 20.0, 60.0, None);
    refused(
        &IndexTests {
            liquid_limit: Some(14.0),
            ..good
        },
        "Liquid limit: 14 % is below the plastic limit, 15 %",
    );
    refused(
        &IndexTests {
            fines: Some(-1.0),
            ..good
        },
        "Fines: -1 % is not between 0 and 100 %",
    );
    refused(
        &IndexTests {
            fines: Some(f64::NAN),
            ..good
        },
        "Fines: NaN % is not between 0 and 100 %",
    );
    refused(
        &IndexTests {
            plastic_limit: Some(-3.0),
            ..good
        },
        "Plastic limit: -3 is not a number above zero",
    );
    // 20 + 60 + 25 = 105
    refused(
        &IndexTests {
            gravel: Some(25.0),
            ..good
        },
        "Fines, sieved sand and sieved gravel add up to 105 %, and not to 100 % within 1 %",
    );
    refused(
        &IndexTests {
            fines: None,
            ..good
        },
        "Fines is not known",
    );
    refused(
        &IndexTests { sand: None, ..good },
        "Sieved sand is not known",
    );
    refused(
        &tests((30.0, 15.0), 8.0, 60.0, None),
        "Grain size D10 is not known",
    );
    refused(
        &tests((30.0, 15.0), 8.0, 60.0, Some([0.5, 0.3, 0.8])),
        "Grain size D30: 0.3 mm is less than Grain size D10, 0.5 mm",
    );
    refused(
        &tests((30.0, 15.0), 8.0, 60.0, Some([0.0, 0.3, 0.8])),
        "Grain size D10: 0 is not a number above zero",
    );
    // A clean sand needs no limits, a clay no grain sizes.
    let clean = IndexTests {
        liquid_limit: None,
        plastic_limit: None,
        ..tests((0.0, 0.0), 2.0, 97.0, Some([0.1, 0.3, 0.7]))
    };
    assert_eq!(classify(&clean).unwrap().symbol, "SW");
    // Within 1 % it is scaled, and says so: 20 + 60 + 19.2 = 99.2.
    let scaled = classify(&IndexTests {
        gravel: Some(19.2),
        ..good
    })
    .unwrap();
    assert_eq!(scaled.symbol, "SC");
    assert!(scaled.reasons.iter().any(|why| why.contains("99.2 %")));
}

#[track_caller]
fn is_texture(sand: f64, silt: f64, clay: f64, name: &str) {
    let (class, scaled_from) = texture(sand, silt, clay).unwrap();
    assert_eq!(class.name(), name, "{sand} {silt} {clay}");
    assert_eq!(scaled_from, None);
}

/// Rows X1 to X26 and X28: class definitions of the SSSA glossary, the tests of the R package soiltexture, hydroTools.
#[test]
fn textures_are_the_published_ones() {
    is_texture(90.0, 5.0, 5.0, "sand");
    is_texture(82.0, 12.0, 6.0, "loamy sand");
    is_texture(70.0, 15.0, 15.0, "sandy loam");
    is_texture(70.0, 25.0, 5.0, "sandy loam");
    is_texture(20.0, 55.0, 25.0, "silt loam");
    is_texture(10.0, 65.0, 25.0, "silt loam");
    is_texture(10.0, 85.0, 5.0, "silt");
    is_texture(10.0, 45.0, 45.0, "silty clay");
    is_texture(10.0, 43.0, 47.0, "silty clay");
    is_texture(20.0, 15.0, 65.0, "clay");
    is_texture(10.0, 15.0, 75.0, "clay");
    is_texture(32.0, 8.0, 60.0, "clay");
    is_texture(70.0, 17.0, 13.0, "sandy loam");
    is_texture(40.0, 40.0, 20.0, "loam");
    is_texture(60.0, 13.0, 27.0, "sandy clay loam");
    is_texture(33.0, 34.0, 33.0, "clay loam");
    is_texture(10.0, 56.0, 34.0, "silty clay loam");
    is_texture(52.0, 6.0, 42.0, "sandy clay");
    is_texture(22.0, 20.0, 58.0, "clay");
    is_texture(30.0, 40.0, 30.0, "clay loam");
    is_texture(85.0, 15.0, 0.0, "loamy sand");
    is_texture(52.0, 41.0, 7.0, "loam");
    is_texture(45.0, 15.0, 40.0, "clay");
    is_texture(20.0, 53.0, 27.0, "silty clay loam");
    is_texture(21.0, 52.0, 27.0, "clay loam");
    is_texture(8.0, 80.0, 12.0, "silt loam");
    is_texture(9.0, 80.0, 11.0, "silt");
    is_texture(43.0, 50.0, 7.0, "silt loam");
}

/// Row X29: at least one web page calls 47, 25, 28 a clay loam; with more than 45 % sand it is a sandy clay loam.
#[test]
fn more_than_45_percent_sand_is_no_clay_loam() {
    is_texture(47.0, 25.0, 28.0, "sandy clay loam");
}

/// Row X27: all 5151 whole triples, each in exactly one class, and how many in each.
#[test]
fn every_whole_triple_is_in_exactly_one_class() {
    let mut counts = std::collections::BTreeMap::<Texture, usize>::new();
    for sand in 0..=100_u8 {
        for silt in 0..=(100 - sand) {
            let shares = [sand, silt, 100 - sand - silt].map(f64::from);
            let [sand, silt, clay] = shares;
            let fitting: Vec<Texture> = RULES
                .iter()
                .filter(|(_, is_of)| is_of(sand, silt, clay))
                .map(|(class, _)| *class)
                .collect();
            assert_eq!(fitting.len(), 1, "{shares:?}: {fitting:?}");
            *counts
                .entry(texture(sand, silt, clay).unwrap().0)
                .or_default() += 1;
        }
    }
    let expected = [
        (Texture::Clay, 1540),
        (Texture::SiltLoam, 840),
        (Texture::SandyLoam, 565),
        (Texture::SandyClayLoam, 392),
        (Texture::Loam, 349),
        (Texture::ClayLoam, 325),
        (Texture::SiltyClayLoam, 273),
        (Texture::SiltyClay, 231),
        (Texture::SandyClay, 210),
        (Texture::Silt, 186),
        (Texture::LoamySand, 155),
        (Texture::Sand, 85),
    ];
    assert_eq!(counts, expected.into_iter().collect());
    assert_eq!(expected.iter().map(|(_, count)| count).sum::<usize>(), 5151);
}

proptest! {
    /// Between whole numbers there is no gap and no overlap either.
    #[test]
    fn any_triple_is_in_exactly_one_class(sand in 0.0..=100.0_f64, part in 0.0..=1.0_f64) {
        let silt = (100.0 - sand) * part;
        let clay = 100.0 - sand - silt;
        let fitting = RULES.iter().filter(|(_, is_of)| is_of(sand, silt, clay)).count();
        prop_assert_eq!(fitting, 1);
    }

    #[test]
    fn any_numbers_are_answered(sand in any::<f64>(), silt in any::<f64>(), clay in any::<f64>()) {
        let _ = texture(sand, silt, clay);
        let _ = classify(&tests((sand, silt), clay, sand, Some([sand, silt, clay])));
        let _ = frost_groups(FrostSoil::Gravel { finer: sand });
        let _ = frost_groups(FrostSoil::Clay { plasticity_index: Some(clay) });
    }
}

/// Row X30: within 1 % it is scaled and told, beyond it is refused.
#[test]
fn shares_must_make_up_a_whole() {
    assert_eq!(texture(40.0, 40.0, 21.0), Ok((Texture::Loam, Some(101.0))));
    assert_eq!(
        texture(40.0, 40.0, 22.0).unwrap_err().to_string(),
        "Sand, silt and clay add up to 102 %, and not to 100 % within 1 %"
    );
    assert_eq!(
        texture(-5.0, 80.0, 25.0),
        Err(SoilError::NotAShare {
            place: Place::SoilSand,
            value: -5.0
        })
    );
    assert!(texture(f64::NAN, 50.0, 50.0).is_err());
}

/// All cells of the chart: the United States Department of Agriculture's guide to texture by feel, after Thien (1979), as copied in
/// two textbooks.
#[test]
fn the_chart_by_feel() {
    use Grit::{Gritty, Neither, Smooth};
    let by =
        |ribbon| [Gritty, Smooth, Neither].map(|grit| by_feel(ribbon, Some(grit)).unwrap().name());
    assert_eq!(by(Ribbon::NoBall), ["sand"; 3]);
    assert_eq!(by(Ribbon::NoRibbon), ["loamy sand"; 3]);
    assert_eq!(by(Ribbon::Short), ["sandy loam", "silt loam", "loam"]);
    assert_eq!(
        by(Ribbon::Middling),
        ["sandy clay loam", "silty clay loam", "clay loam"]
    );
    assert_eq!(by(Ribbon::Long), ["sandy clay", "silty clay", "clay"]);
    assert_eq!(by_feel(Ribbon::Long, None), None);
    assert_eq!(by_feel(Ribbon::NoBall, None), Some(Texture::Sand));
}

#[track_caller]
fn grouped(soil: FrostSoil, expected: &[&str]) {
    let lines: Vec<&str> = frost_groups(soil).iter().map(|found| found.line).collect();
    assert_eq!(lines, expected, "{soil:?}");
}

/// Rows Z1 to Z7: UFC 3-250-01, Tables 19-2 and 20-2, by percent finer than 0.02 mm.
#[test]
fn frost_groups_of_the_table() {
    let gravel = |finer| FrostSoil::Gravel { finer };
    let sand = |finer| FrostSoil::Sand {
        finer,
        very_fine_silty: Some(false),
    };
    let clay = |index| FrostSoil::Clay {
        plasticity_index: Some(index),
    };
    grouped(gravel(1.0), &["NFS"]);
    grouped(sand(2.5), &["NFS"]);
    grouped(gravel(2.0), &["PFS"]);
    grouped(sand(5.0), &["S2", "PFS"]); // both, the worse first
    grouped(gravel(4.0), &["S1"]);
    grouped(gravel(8.0), &["F1"]);
    grouped(gravel(15.0), &["F2a"]);
    grouped(sand(8.0), &["F2b", "PFS"]);
    grouped(sand(12.0), &["F2b"]);
    grouped(gravel(25.0), &["F3a"]);
    grouped(sand(20.0), &["F3b"]);
    grouped(clay(15.0), &["F3c"]);
    grouped(FrostSoil::Silt, &["F4a"]);
    let very_fine = FrostSoil::Sand {
        finer: 20.0,
        very_fine_silty: Some(true),
    };
    grouped(very_fine, &["F4b"]);
    grouped(clay(8.0), &["F4c"]);
    grouped(FrostSoil::VarvedClay, &["F4d"]);
    // Where two bands meet, where the table has a gap, and where something is not known: all, the worst first.
    grouped(gravel(6.0), &["F1", "S1"]);
    grouped(sand(3.0), &["S2", "PFS", "NFS"]);
    grouped(sand(15.0), &["F2b"]);
    grouped(gravel(20.0), &["F2a"]);
    grouped(clay(12.0), &["F4c", "F3c"]);
    let unknown = FrostSoil::Sand {
        finer: 20.0,
        very_fine_silty: None,
    };
    grouped(unknown, &["F4b", "F3b"]);
    grouped(
        FrostSoil::Clay {
            plasticity_index: None,
        },
        &["F4c", "F3c"],
    );
    let exactly = frost_groups(clay(12.0));
    assert!(exactly.iter().all(|found| found.why.contains("exactly 12")));
    for finer in [-1.0, 101.0, f64::NAN, f64::INFINITY] {
        grouped(gravel(finer), &[]);
        grouped(sand(finer), &[]);
    }
}

/// Row Z8: UFC 3-260-02, Table 3-5.
#[test]
fn support_index_of_a_group() {
    use FrostGroup::{F1, F2, F3, F4, Nfs, Pfs, S1, S2};
    let index = |groups: &[FrostGroup]| -> Vec<Option<f64>> {
        groups.iter().map(|group| group.support_index()).collect()
    };
    assert_eq!(index(&[F1, S1]), [Some(9.0); 2]);
    assert_eq!(index(&[F2, S2]), [Some(6.5); 2]);
    assert_eq!(index(&[F3, F4]), [Some(3.5); 2]);
    assert_eq!(index(&[Nfs, Pfs]), [None; 2]);
    assert!(F4 > F3 && F1 > S2 && S1 > Pfs && Pfs > Nfs);
}

/// CRREL SR 97-13: half of the fines while they are under 18 %; weak.
#[test]
fn the_rough_rule_ends_at_18_percent() {
    assert_eq!(rough_finer_than_002(10.0), Some(5.0));
    assert_eq!(rough_finer_than_002(18.0), None);
    assert_eq!(rough_finer_than_002(f64::NAN), None);
}

fn amount(number: f64, unit: AmountUnit) -> Option<Amount> {
    Some(Amount::new(number, unit).unwrap())
}

fn percent(number: f64) -> Option<Amount> {
    amount(number, AmountUnit::Percent)
}

/// What is found, and what it means without a bed.
fn soil_of(site: &Site, findings: &mut Findings) -> Option<SoilFound> {
    let found = super::soil(site, findings)?;
    super::report(site, &found, None, findings);
    Some(found)
}

/// The manual's winter (row Z10) with the local frost depth of row Z16: 3 ft 6 in by the Municipal Code of Chicago 13-132-100, a depth
/// for footings.
fn cold_clay() -> Site {
    let mut site = site(Vec::new());
    site.soil.liquid_limit = percent(41.0);
    site.soil.plastic_limit = percent(20.0);
    site.soil.fines = percent(88.0);
    site.frost.local_depth = Some(inches(42.0));
    site.frost.freezing_index = amount(2500.0, AmountUnit::FahrenheitDays);
    site.frost.freezing_days = amount(160.0, AmountUnit::Days);
    site.frost.mean_temperature = amount(37.2, AmountUnit::Fahrenheit);
    site.frost.dry_density = amount(100.0, AmountUnit::PoundsPerCubicFoot);
    site.frost.water_content = percent(15.0);
    site.frost.conductivity = amount(0.76, AmountUnit::BtuPerHourFootFahrenheit);
    site
}

#[test]
fn a_local_depth_goes_before_any_formula() {
    let mut site = cold_clay();
    let mut findings = Findings::default();
    let found = soil_of(&site, &mut findings).unwrap();
    assert_eq!(found.uscs.as_ref().unwrap().symbol, "CL");
    assert_eq!(found.frost_groups[0].line, "F3c"); // PI 21
    assert_eq!(found.heaves(), Some(true));
    let frost = found.frost.unwrap();
    assert_eq!(
        (frost.depth, frost.method),
        (inches(42.0), FrostMethod::Local)
    );
    // Rows Z11, Z12.
    assert!((in_metres(frost.stefan.unwrap()) - 1.9805).abs() < 0.001);
    assert!((in_metres(frost.berggren.unwrap().depth) / 0.3048 - 5.82).abs() < 0.01);

    site.frost.local_depth = None;
    let frost = soil_of(&site, &mut findings).unwrap().frost.unwrap();
    assert_eq!(frost.method, FrostMethod::Berggren);
    site.frost.freezing_days = None;
    let frost = soil_of(&site, &mut findings).unwrap().frost.unwrap();
    assert_eq!(frost.method, FrostMethod::Stefan);
    assert_eq!(findings, Findings::default());
    site.frost.water_content = None;
    let found = soil_of(&site, &mut findings).unwrap();
    assert_eq!(found.frost, None);
    let said: Vec<&str> = findings
        .iter()
        .map(|finding| finding.text.as_str())
        .collect();
    assert_eq!(
        said,
        ["No frost depth is computed: water content not known."]
    );
}

#[test]
fn nothing_written_down_gives_nothing() {
    let mut findings = Findings::default();
    assert_eq!(soil_of(&site(Vec::new()), &mut findings), None);
    assert_eq!(findings, Findings::default());
}

/// What cannot be is a warning at its field; the rest is found all the same.
#[test]
fn one_wrong_test_does_not_take_the_rest_away() {
    let mut site = cold_clay();
    site.soil.liquid_limit = percent(15.0);
    site.soil.sand = percent(60.0);
    site.soil.silt = percent(60.0);
    site.soil.ribbon = Some(Ribbon::Long);
    site.soil.grit = Some(Grit::Neither);
    let mut findings = Findings::default();
    let found = soil_of(&site, &mut findings).unwrap();
    assert_eq!(found.uscs, None);
    let felt = found.texture.unwrap();
    assert_eq!((felt.class, felt.is_by_feel), (Texture::Clay, true));
    assert!(found.frost.is_some());
    let said: Vec<(Place, Weight)> = findings
        .iter()
        .map(|finding| (finding.place, finding.weight))
        .collect();
    assert_eq!(
        said,
        [
            (Place::LiquidLimit, Weight::Warning),
            (Place::SoilSand, Weight::Warning)
        ]
    );
}
