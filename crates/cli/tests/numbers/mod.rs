//! The numbers of the JSON against those of the calculation.

use super::{SAMPLES, figure, json_of, sample, sample_file};
use serde_json::Value;
use underbrick_calc::bed::{Edge, Lifts, Restraint};
use underbrick_calc::quantity::unit::{kilogram, meter, millimeter, square_meter};
use underbrick_calc::quantity::{Area, Length, Mass, Volume, in_cubic_metres, in_metres};
use underbrick_calc::{Results, compute};

fn computed(name: &str) -> Results {
    let catalogue = underbrick_records::catalogue().unwrap();
    let (site, _) = sample_file(name).checked(&catalogue);
    compute(&site, &catalogue)
}

/// Figures of one sample, each compared within half of its last decimal.
struct Compared {
    name: &'static str,
    json: Value,
}

impl Compared {
    #[track_caller]
    fn same(&self, key: &str, unit: &str, expected: f64, half: f64) {
        let figure = figure(&self.json, key);
        assert_eq!(figure["unit"], unit, "{} {key}", self.name);
        let value = figure["value"].as_f64().unwrap();
        assert!(
            (value - expected).abs() <= half * (1.0 + 1e-9) + 1e-12,
            "{} {key}: {value} for {expected}",
            self.name
        );
    }

    #[track_caller]
    fn mm(&self, key: &str, length: Length) {
        self.same(key, "mm", length.get::<millimeter>(), 0.05);
    }

    #[track_caller]
    fn m(&self, key: &str, length: Length) {
        self.same(key, "m", length.get::<meter>(), 0.000_5);
    }

    #[track_caller]
    fn m2(&self, key: &str, area: Area) {
        self.same(key, "m2", area.get::<square_meter>(), 0.005);
    }

    #[track_caller]
    fn m3(&self, key: &str, volume: Volume) {
        self.same(key, "m3", in_cubic_metres(volume), 0.000_5);
    }

    #[track_caller]
    fn kg(&self, key: &str, mass: Mass) {
        self.same(key, "kg", mass.get::<kilogram>(), 0.5);
    }

    #[track_caller]
    fn count(&self, key: &str, count: u32) {
        self.same(key, "count", f64::from(count), 0.0);
    }
}

#[test]
fn the_json_has_the_numbers_of_the_calculation() {
    for name in SAMPLES {
        let json = Compared {
            name,
            json: json_of(&sample(name)),
        };
        let results = computed(name);
        let (line, bed) = (results.line.unwrap(), results.bed.unwrap());
        json.m("run_length", line.run.length());
        json.mm(
            "clear_width_at_door",
            line.run.clear_width_at(Length::default()),
        );
        json.mm(
            "clear_width_at_far_end",
            line.run.clear_width_at(line.run.length()),
        );
        json.mm("first_brick_below_sill", -line.grade.start);
        json.mm("last_brick_below_sill", -line.grade.end);
        json.same("fall", "ratio", line.grade.fall.ratio(), 0.000_005);
        json.same(
            "cross_fall",
            "ratio",
            line.grade.cross_fall.ratio(),
            0.000_005,
        );
        json.mm("brick_thickness", bed.unit_thickness);
        json.mm("setting_bed", bed.setting_bed);
        json.mm("least_base", bed.least_base);
        json.mm("thinnest_base", bed.thinnest_base);
        json.mm("base_top_below_grade_line", bed.base_top_below_grade);
        json.mm("thickest_base", bed.thickest_base);
        json.mm(
            "deepest_dig_below_grade_line",
            bed.base_top_below_grade + bed.thickest_base,
        );
        lifts_are_those_of_the_bed(&json, &bed.lifts);
        edges_are_those_of_the_bed(&json, &bed.edge);
        let work = &bed.earthwork;
        json.m2("field_area", work.field_area);
        json.m2("paved_area", work.paved_area);
        json.m2("dig_area", work.dig_area);
        json.m3("base_compacted", work.base_compacted);
        json.m3("base_loose", work.base_loose);
        json.kg("base_mass", work.base_mass);
        json.m3("setting_bed_compacted", work.setting_bed_compacted);
        json.m3("fill_below_dig", work.fill_below_dig);
        let dug = work.dig_bank.unwrap();
        json.m3("dug", dug.old_pavement + dug.unsuitable + dug.trim);
        json.m3("old_pavement_lifted", dug.old_pavement);
        json.m3("unsuitable_ground", dug.unsuitable);
        json.m3("trim", dug.trim);
        json.m3("spoil_loose", dug.spoil_loose);
        json.kg("spoil_mass", dug.spoil_mass);
        stations_are_those_of_the_run(
            &json,
            in_metres(line.run.length()),
            in_metres(line.grade.end),
        );
    }
}

#[track_caller]
fn lifts_are_those_of_the_bed(json: &Compared, lifts: &Lifts) {
    json.count("lifts", u32::try_from(lifts.each.len()).unwrap());
    json.mm("full_lift_compacted", lifts.full_compacted);
    json.mm("compacted_lift_limit", lifts.compacted_limit);
    json.mm("loose_lift_limit", lifts.loose_limit);
    json.same(
        "loose_to_compacted",
        "ratio",
        lifts.loose_to_compacted,
        0.000_005,
    );
    json.mm("thinnest_partial_lift", lifts.thinnest_partial);
    let rows = json.json["lifts"].as_array().unwrap();
    assert_eq!(rows.len(), lifts.each.len());
    for (lift, row) in lifts.each.iter().zip(rows) {
        let key = |what: &str| format!("lift_{}_{what}", lift.number);
        json.mm(&key("top_below_string"), lift.top_below_grade);
        json.mm(&key("compacted"), lift.compacted);
        json.mm(&key("loose"), lift.loose);
        json.m3(&key("compacted_volume"), lift.compacted_volume);
        json.m3(&key("loose_volume"), lift.loose_volume);
        assert_eq!(
            row["top_below_string"]["value"],
            figure(&json.json, &key("top_below_string"))["value"]
        );
        assert_eq!(row["runs"].as_array().unwrap().len(), lift.runs.len());
    }
}

#[track_caller]
fn edges_are_those_of_the_bed(json: &Compared, edge: &Edge) {
    json.mm("edge_brick_across", edge.brick.across);
    json.mm("edge_brick_along", edge.brick.along);
    json.mm("edge_brick_depth", edge.brick.depth);
    for (hand, side) in [("left", &edge.left), ("right", &edge.right)] {
        json.m(&format!("{hand}_edge_inner_length"), side.inner_length);
        json.m(&format!("{hand}_edge_outer_length"), side.outer_length);
        json.count(&format!("{hand}_edge_bricks"), side.n_bricks);
        json.mm(&format!("{hand}_edge_widest_joint"), side.widest_joint);
    }
    json.mm("trench_depth", edge.trench_depth);
    json.mm("trench_width", edge.trench_width);
    json.m3("trench_volume", edge.trench_volume);
    match edge.restraint {
        Restraint::Haunch {
            concrete,
            n_bags_80_lb,
        } => {
            json.m3("haunch_concrete", concrete);
            json.count("haunch_bags_80_lb", n_bags_80_lb);
        }
        Restraint::Spiked { strip, n_spikes } => {
            json.m("edging_strip", strip);
            json.count("spikes", n_spikes);
        }
        Restraint::Nothing => {}
    }
    json.m("form_boards_length", edge.forms.length);
    json.count("form_boards_12_ft", edge.forms.n_boards);
    json.count("form_stakes", edge.forms.n_stakes);
    json.count("form_spacers", edge.forms.n_spacers);
}

#[track_caller]
fn stations_are_those_of_the_run(compared: &Compared, length_m: f64, end_m: f64) {
    let stations = compared.json["stations"].as_array().unwrap();
    let value = |row: &Value, column: &str| row[column]["value"].as_f64().unwrap();
    let (first, last) = (stations.first().unwrap(), stations.last().unwrap());
    assert_eq!(value(first, "station"), 0.0);
    assert!(
        (value(last, "station") - length_m).abs() < 0.000_501,
        "{}",
        compared.name
    );
    assert!(
        (value(last, "grade") / 1000.0 - end_m).abs() < 0.000_051,
        "{}",
        compared.name
    );
    assert!(
        stations
            .windows(2)
            .all(|pair| value(&pair[0], "station") <= value(&pair[1], "station")),
        "{}",
        compared.name
    );
}

#[test]
fn every_number_of_the_json_has_its_unit_and_its_writing() {
    let units = ["mm", "m", "m2", "m3", "kg", "count", "ratio"];
    for name in SAMPLES {
        let json = json_of(&sample(name));
        let mut keys = Vec::new();
        for figure in json["figures"].as_array().unwrap() {
            let key = figure["key"].as_str().unwrap();
            assert!(
                key.chars().all(|letter| letter.is_ascii_lowercase()
                    || letter.is_ascii_digit()
                    || letter == '_'),
                "{key}"
            );
            assert!(!figure["name"].as_str().unwrap().is_empty());
            keys.push(key);
        }
        let n_keys = keys.len();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), n_keys, "{name}: a key twice");
        let mut measures = Vec::new();
        measures_in(&json, &mut measures);
        assert!(measures.len() > n_keys);
        for measure in measures {
            assert!(
                units.contains(&measure["unit"].as_str().unwrap()),
                "{name}: {measure}"
            );
            let shown = measure["shown"].as_str().unwrap();
            assert_eq!(
                measure["value"].is_null(),
                shown == "not known",
                "{name}: {measure}"
            );
            assert!(measure["value"].is_null() || measure["value"].is_number());
        }
    }
}

/// Everything in a tree that has a value.
fn measures_in<'a>(json: &'a Value, measures: &mut Vec<&'a Value>) {
    match json {
        Value::Object(fields) => {
            if fields.contains_key("value") {
                measures.push(json);
            }
            fields
                .values()
                .for_each(|field| measures_in(field, measures));
        }
        Value::Array(each) => each.iter().for_each(|item| measures_in(item, measures)),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}
