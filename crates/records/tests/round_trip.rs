//! Whatever a site holds, reading what was written gives it again.

use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use underbrick_calc::place::Place;
use underbrick_records::v1::{
    Bed, Bond, BookRow, Brick, BrickReading, CourseWay, DrivenInto, Edge, EdgeStands, FarEnd,
    Firmness, Frost, Grit, Hammer, Hand, Lay, Layer, Leg, LegShape, LevelBook, Line, Moisture,
    Opening, Order, OrderLine, Penetrometer, PenetrometerRow, Pit, PitEnd, Plant, Restraint,
    Ribbon, SecondBrick, Severity, Shot, ShotBy, ShownIn, Sight, Sign, Soil, StageHours, Stands,
    StartSide, VERSION, Way,
};
use underbrick_records::{SiteFile, read_site, write_site};

/// Lengths as people write them, and anything else that fits into a text.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        "[0-9]{1,3} [1357]/(8|16) in",
        "[0-9]{1,4}(\\.[0-9]{1,2})? (mm|m|ft)",
        "[ -~]{0,20}",
        any::<String>(),
        "[\"\\\\\\n\\r\\t\u{0}#(){}\\[\\]/*,:\u{2028}\u{feff}𝟛½’″]{0,12}",
    ]
}

fn leg() -> impl Strategy<Value = Leg> {
    let hand = prop_oneof![Just(Hand::Left), Just(Hand::Right)];
    let shape = prop_oneof![
        text().prop_map(|length| LegShape::Straight { length }),
        (text(), text(), hand).prop_map(|(radius, turn, hand)| LegShape::Curve {
            radius,
            turn,
            hand
        }),
    ];
    (shape, text()).prop_map(|(shape, width_at_end)| Leg {
        shape,
        width_at_end,
    })
}

fn shot() -> impl Strategy<Value = Shot> {
    let by = prop_oneof![Just(ShotBy::String), Just(ShotBy::Rod)];
    (text(), text(), by, text()).prop_map(|(station, offset, by, reading)| Shot {
        station,
        offset,
        by,
        reading,
    })
}

fn book() -> impl Strategy<Value = LevelBook> {
    let sight = prop::sample::select(vec![Sight::Back, Sight::Intermediate, Sight::Fore]);
    let stands = prop::sample::select(vec![
        Stands::Sill,
        Stands::Benchmark,
        Stands::TurningPoint,
        Stands::OldSurface,
    ]);
    let row = (sight, stands, text(), text(), text()).prop_map(
        |(sight, stands, station, offset, reading)| BookRow {
            sight,
            stands,
            station,
            offset,
            reading,
        },
    );
    (text(), text(), any::<bool>(), vec(row, 0..6)).prop_map(
        |(benchmark_above_sill, limit, spread, rows)| LevelBook {
            benchmark_above_sill,
            limit,
            spread,
            rows,
        },
    )
}

fn layer() -> impl Strategy<Value = Layer> {
    use Firmness::{Firm, Hard, Soft, VeryHard, VerySoft};
    let firmness = option::of(prop::sample::select(vec![
        VerySoft, Soft, Firm, Hard, VeryHard,
    ]));
    let moisture = option::of(prop::sample::select(vec![
        Moisture::Dry,
        Moisture::Moist,
        Moisture::Wet,
    ]));
    (text(), text(), firmness, moisture).prop_map(|(material, thickness, firmness, moisture)| {
        Layer {
            material,
            thickness,
            firmness,
            moisture,
        }
    })
}

fn pit() -> impl Strategy<Value = Pit> {
    let ended = prop_oneof![Just(PitEnd::Stopped), Just(PitEnd::Refused)];
    (
        text(),
        text(),
        vec(layer(), 0..4),
        text(),
        ended,
        penetrometer(),
    )
        .prop_map(|(station, offset, layers, seep, ended, penetrometer)| Pit {
            station,
            offset,
            layers,
            seep,
            ended,
            penetrometer,
        })
}

fn penetrometer() -> impl Strategy<Value = Penetrometer> {
    use DrivenInto::{AnySoil, FatClay, LeanClay};
    let row = (text(), text()).prop_map(|(blows, reading)| PenetrometerRow { blows, reading });
    (
        prop::sample::select(vec![Hammer::Heavy, Hammer::Light]),
        prop::sample::select(vec![AnySoil, LeanClay, FatClay]),
        text(),
        vec(row, 0..4),
    )
        .prop_map(|(hammer, driven_into, start, rows)| Penetrometer {
            hammer,
            driven_into,
            start,
            rows,
        })
}

fn line() -> impl Strategy<Value = Line> {
    let far_end = prop_oneof![
        Just(FarEnd::Free),
        text().prop_map(|below_sill| FarEnd::Fixed { below_sill })
    ];
    (
        vec(text(), 7),
        vec(leg(), 0..4),
        far_end,
        vec(shot(), 0..5),
        book(),
    )
        .prop_map(|(texts, legs, far_end, shots, book)| {
            let mut line = Line {
                legs,
                far_end,
                shots,
                book,
                ..Line::default()
            };
            let fields = [
                &mut line.old_below_sill,
                &mut line.first_brick_below_sill,
                &mut line.width,
                &mut line.fall,
                &mut line.cross_fall,
                &mut line.string_above_sill,
                &mut line.rod_at_sill,
            ];
            for (field, text) in fields.into_iter().zip(texts) {
                *field = text;
            }
            line
        })
}

fn edge() -> impl Strategy<Value = Edge> {
    use EdgeStands::{Header, Rowlock, Sailor, Soldier, Stretcher};
    let stands = prop::sample::select(vec![Sailor, Soldier, Header, Stretcher, Rowlock]);
    let restraint = prop_oneof![
        Just(Restraint::Nothing),
        text().prop_map(|spacing| Restraint::Spiked { spacing }),
        (text(), text(), text()).prop_map(|(height, width, top_width)| Restraint::Haunch {
            height,
            width,
            top_width
        }),
    ];
    (stands, restraint).prop_map(|(stands, restraint)| Edge { stands, restraint })
}

fn bed() -> impl Strategy<Value = Bed> {
    let text_fields = (text(), text(), text(), text(), text(), text());
    let plant = prop::sample::select(vec![
        Plant::NotKnown,
        Plant::Plate,
        Plant::HeavyPlate,
        Plant::Tamper,
        Plant::LightTamper,
        Plant::Roller,
    ]);
    (text_fields, any::<bool>(), plant).prop_map(
        |(
            (setting_bed, least_base, base_material, loose_lift, side_extension, undercut_limit),
            fabric,
            plant,
        )| {
            Bed {
                setting_bed,
                least_base,
                base_material,
                loose_lift,
                side_extension,
                undercut_limit,
                fabric,
                plant,
            }
        },
    )
}

fn brick() -> impl Strategy<Value = Brick> {
    (text(), text(), text(), text()).prop_map(|(length, width, thickness, joint)| Brick {
        length,
        width,
        thickness,
        joint,
    })
}

fn soil_and_frost() -> impl Strategy<Value = (Soil, Frost)> {
    use Grit::{Gritty, Neither, Smooth};
    use Ribbon::{Long, Middling, NoBall, NoRibbon, Short};
    let ribbon = option::of(prop::sample::select(vec![
        NoBall, NoRibbon, Short, Middling, Long,
    ]));
    let grit = option::of(prop::sample::select(vec![Gritty, Smooth, Neither]));
    (vec(text(), 20), ribbon, grit, any::<bool>()).prop_map(|(texts, ribbon, grit, varved)| {
        let mut soil = Soil {
            ribbon,
            grit,
            varved,
            ..Soil::default()
        };
        let mut frost = Frost::default();
        let fields = [
            &mut soil.sand,
            &mut soil.silt,
            &mut soil.clay,
            &mut soil.liquid_limit,
            &mut soil.plastic_limit,
            &mut soil.fines,
            &mut soil.sieve_sand,
            &mut soil.sieve_gravel,
            &mut soil.d10,
            &mut soil.d30,
            &mut soil.d60,
            &mut soil.finer_than_002,
            &mut frost.local_depth,
            &mut frost.freezing_index,
            &mut frost.freezing_days,
            &mut frost.surface_factor,
            &mut frost.mean_temperature,
            &mut frost.dry_density,
            &mut frost.water_content,
            &mut frost.conductivity,
        ];
        for (field, text) in fields.into_iter().zip(texts) {
            *field = text;
        }
        (soil, frost)
    })
}

fn lay() -> impl Strategy<Value = Lay> {
    let bond = prop::sample::select(vec![
        Bond::Running,
        Bond::Stack,
        Bond::BasketTwoOnTwo,
        Bond::BasketTwoOnOne,
        Bond::Herringbone90,
        Bond::Herringbone45,
    ]);
    let courses = prop_oneof![Just(CourseWay::Along), Just(CourseWay::Across)];
    let start_side = prop_oneof![Just(StartSide::Left), Just(StartSide::Right)];
    let opening =
        (text(), text(), text(), text()).prop_map(|(station, offset, along, across)| Opening {
            station,
            offset,
            along,
            across,
        });
    let brick = (text(), text(), text(), any::<bool>()).prop_map(
        |(length, width, thickness, of_second)| BrickReading {
            length,
            width,
            thickness,
            of_second,
        },
    );
    let second = (text(), text(), text()).prop_map(|(length, width, thickness)| SecondBrick {
        length,
        width,
        thickness,
    });
    (
        (bond, courses, start_side),
        vec(text(), 11),
        vec(any::<bool>(), 3),
        vec(opening, 0..3),
        vec(brick, 0..4),
        option::of(second),
    )
        .prop_map(
            |((bond, courses, start_side), texts, flags, openings, sample, second_brick)| {
                let mut lay = Lay {
                    bond,
                    courses,
                    start_side,
                    openings,
                    sample,
                    second_brick,
                    ..Lay::default()
                };
                let fields = [
                    &mut lay.lap,
                    &mut lay.least_lap,
                    &mut lay.least_piece,
                    &mut lay.least_joint,
                    &mut lay.widest_joint,
                    &mut lay.kerf,
                    &mut lay.target_width,
                    &mut lay.width_tolerance,
                    &mut lay.bearing,
                    &mut lay.on_site,
                    &mut lay.loss,
                ];
                for (field, text) in fields.into_iter().zip(texts) {
                    *field = text;
                }
                let fields = [
                    &mut lay.return_at_door,
                    &mut lay.return_at_end,
                    &mut lay.edge_of_second,
                ];
                for (field, flag) in fields.into_iter().zip(flags) {
                    *field = flag;
                }
                lay
            },
        )
}

fn sign() -> impl Strategy<Value = Sign> {
    let severity = prop_oneof![
        Just(Severity::Slight),
        Just(Severity::Plain),
        Just(Severity::Bad)
    ];
    (text(), severity, text(), text(), text()).prop_map(
        |(what, severity, station, offset, width)| Sign {
            what,
            severity,
            station,
            offset,
            width,
        },
    )
}

fn order() -> impl Strategy<Value = Order> {
    let way = prop_oneof![Just(Way::Relay), Just(Way::NewBase), Just(Way::NewBrick)];
    // Known and unknown items; each once, as the places of a site name it.
    let line =
        (text(), text(), text()).prop_map(|(supplier, rate, locked)| (supplier, rate, locked));
    (way, text(), text(), vec(line, 0..4), vec(text(), 0..3)).prop_map(
        |(way, crew, crew_rate, lines, hours)| {
            let items = ["base", "brick", "gravel-dust", "plate"];
            let stages = ["dig", "cut", "dance"];
            let mut order = Order {
                way,
                crew,
                crew_rate,
                lines: Vec::new(),
                stages: Vec::new(),
            };
            for (item, (supplier, rate, locked)) in items.into_iter().zip(lines) {
                order.lines.push(OrderLine {
                    item: item.to_owned(),
                    supplier,
                    rate,
                    locked,
                });
            }
            for (stage, hours) in stages.into_iter().zip(hours) {
                order.stages.push(StageHours {
                    stage: stage.to_owned(),
                    hours,
                });
            }
            // A line that holds nothing is not kept when something is written.
            order.lines.retain(|line| {
                line.item == "gravel-dust"
                    || !(line.supplier.is_empty() && line.rate.is_empty() && line.locked.is_empty())
            });
            order
                .stages
                .retain(|hours| hours.stage == "dance" || !hours.hours.is_empty());
            order
        },
    )
}

fn site() -> impl Strategy<Value = SiteFile> {
    let shown_in = prop_oneof![Just(ShownIn::FeetInches), Just(ShownIn::Metric)];
    (
        text(),
        text(),
        shown_in,
        vec(sign(), 0..3),
        line(),
        vec(pit(), 0..4),
        bed(),
        brick(),
        soil_and_frost(),
        (edge(), lay(), order()),
    )
        .prop_map(
            |(
                address,
                walk,
                shown_in,
                signs,
                line,
                pits,
                bed,
                brick,
                (soil, frost),
                (edge, lay, order),
            )| {
                SiteFile {
                    version: VERSION,
                    address,
                    walk,
                    shown_in,
                    signs,
                    line,
                    pits,
                    bed,
                    brick,
                    soil,
                    frost,
                    edge,
                    lay,
                    order,
                    build: Default::default(),
                    show: Default::default(),
                }
            },
        )
}

proptest! {
    #[test]
    fn a_site_is_read_as_it_was_written(site in site()) {
        let text = write_site(&site);
        prop_assert!(text.ends_with(")\n"));
        prop_assert_eq!(read_site(&text).unwrap(), site);
    }

    #[test]
    fn the_same_site_is_written_in_the_same_bytes(site in site()) {
        let text = write_site(&site);
        prop_assert_eq!(write_site(&read_site(&text).unwrap()), text);
    }

    #[test]
    fn a_text_is_kept_where_it_is_put_and_nowhere_else(site in site(), typed in text()) {
        for place in site.text_places() {
            let mut changed = site.clone();
            prop_assert!(changed.set_text(place, &typed));
            prop_assert_eq!(changed.text(place), Some(typed.as_str()));
            for other in site.text_places() {
                if other != place {
                    prop_assert_eq!(changed.text(other), site.text(other), "{:?} beside {:?}", other, place);
                }
            }
        }
    }

    #[test]
    fn whatever_was_typed_can_be_checked(site in site()) {
        let (_, findings) = site.checked(&underbrick_records::catalogue().unwrap());
        for finding in findings.iter() {
            prop_assert!(!finding.text.is_empty());
            // A line that nobody knows has no place of its own: it is told where the order begins.
            prop_assert!(
                site.text(finding.place).is_some()
                    || matches!(finding.place, Place::OrderWay | Place::OrderLine(_))
            );
        }
    }

    #[test]
    fn what_is_stored_for_what_was_typed_stays_so(site in site(), typed in text()) {
        for place in site.text_places() {
            let stored = site.normalised(place, &typed);
            prop_assert_eq!(site.normalised(place, &stored), stored);
        }
    }

    #[test]
    fn a_number_is_stored_so_that_it_can_be_read(whole in 18..90_u32, sixteenths in 1..16_u32) {
        let mut site = SiteFile::new("12 Alder Court", "front walk");
        let stored = site.normalised(Place::Width, &format!("{whole} {sixteenths}/16"));
        site.set_text(Place::Width, &stored);
        let (checked, findings) = site.checked(&underbrick_records::catalogue().unwrap());
        prop_assert_eq!(findings.iter().count(), 0);
        // Inches in metres, from the definition of the inch.
        let expected_m = (f64::from(whole) + f64::from(sixteenths) / 16.0) * 0.0254;
        prop_assert!((checked.line.width.unwrap().value - expected_m).abs() < 1e-12);
    }
}
