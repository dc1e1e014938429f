//! What an office asks, whoever orders, schedules, invoices and answers the telephone: answered by the sheets alone.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::Path;

use underbrick_calc::build::{HoldStage, Surface};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::place::Place;
use underbrick_calc::site::{Language, Site};
use underbrick_records::v1::{Signature, Stamp};
use underbrick_records::{OpenSite, SiteFile};
use underbrick_sheets::agreement::{Design, terms};
use underbrick_sheets::order::words::{plain_money, way_price_words};
use underbrick_sheets::paper::{Paper, as_text};
use underbrick_sheets::sheet_set::{SHEETS, SheetSet};

/// Sheets, each with what it must say.
type Answers<'a> = &'a [(&'a str, &'a [&'a str])];

fn stamp(at: &str) -> Stamp {
    Stamp {
        at: at.to_owned(),
        by: "JM".to_owned(),
        device: "tablet".to_owned(),
    }
}

fn checked(file: &SiteFile, catalogue: &Catalogue) -> Site {
    file.checked(catalogue).0
}

/// A walk that was agreed, changed, and is being built.
fn under_way(catalogue: &Catalogue) -> SiteFile {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let folder = root.join("sample-sites/short-straight-sunk-on-sand");
    let mut file = OpenSite::open(&folder).unwrap().site().clone();
    let site = checked(&file, catalogue);
    let results = compute(&site, catalogue);
    let agreed = terms(Design {
        site: &site,
        catalogue,
        results: &results,
        letterhead: None,
    });
    let by_finger = Signature {
        name: "Rosa Lind".to_owned(),
        strokes: vec![vec![(100, 200), (300, 150)]],
        stamp: stamp("2026-05-04T13:30:00Z"),
    };
    file.agree(&agreed.clauses, by_finger).unwrap();
    assert!(file.set_text(Place::SettingBed, "1 in"));
    // A Friday: the second day is the Monday after it.
    assert!(file.set_text(Place::WorkStart, "2026-05-15"));
    file.close_stage(HoldStage::LiftBrick, stamp("2026-05-15T16:00:00Z"));
    // Its top lies 2 1/4 in of brick less 1/8 in for the plate below the string: 2 1/8 in is right, 1 3/4 in is 3/8 in high.
    for (station, read) in [("3 ft", "2 1/8 in"), ("9 ft", "1 3/4 in")] {
        let idx = file.add_build_reading(
            station,
            "",
            Surface::SettingBed,
            false,
            stamp("2026-05-18T10:00:00Z"),
        );
        assert!(file.set_text(Place::BuildValue(idx), read));
    }
    file
}

/// A sheet of the set as text on one line.
fn sheet(set: &SheetSet<'_>, file: &str) -> String {
    let kind = SHEETS.iter().find(|kind| kind.file == file).unwrap();
    let text = match kind.document(set) {
        Some(document) => as_text(&document),
        None => String::from_utf8(kind.bytes(set).unwrap()).unwrap(),
    };
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn ten_questions_of_an_office_are_answered_from_the_sheets_alone() {
    let catalogue = underbrick_records::catalogue().unwrap();
    let site = checked(&under_way(&catalogue), &catalogue);
    let results = compute(&site, &catalogue);
    let set = SheetSet {
        site: &site,
        catalogue: &catalogue,
        results: &results,
        letterhead: None,
        paper: Paper::Letter,
        language: Language::English,
        date: (2026, 5, 18),
        pictures: &[],
    };
    let order = results.order.as_ref().unwrap();
    let chosen = order.chosen().unwrap();
    let price = way_price_words(order.currency, chosen);
    let total = format!("{:.2}", chosen.price.total.0);
    let ours = [
        chosen.price.material,
        chosen.price.delivery,
        chosen.price.taken_away,
        chosen.price.hire,
    ];
    let ours = ours
        .into_iter()
        .try_fold(
            Default::default(),
            |sum: underbrick_calc::order::Money, one| sum.plus(one),
        )
        .unwrap();
    let ours = plain_money(order.currency, ours);
    // Question, sheet, what it must say.
    let questions: [(&str, Answers<'_>); 10] = [
        (
            "What do we order, from whom, how much, at what rate?",
            &[
                (
                    "order.pdf",
                    &[
                        "Quarry",
                        "Crushed stone, dense graded",
                        "3 tons",
                        "$24.50 per ton",
                    ],
                ),
                (
                    "order.csv",
                    &["base,Bought,\"Crushed stone, dense graded\""],
                ),
                (
                    "suppliers.txt",
                    &["To Quarry", "Crushed stone, dense graded: 3 tons"],
                ),
            ],
        ),
        (
            "By when must it be there, and who brings it?",
            &[
                (
                    "order.pdf",
                    &["delivered", "day 1", "1: 15 May 2026", "2: 18 May 2026"],
                ),
                (
                    "suppliers.txt",
                    &["3 tons, on 15 May 2026", "Wet saw: 1 day, from 18 May 2026"],
                ),
            ],
        ),
        (
            "What is taken away, by whom?",
            &[(
                "order.pdf",
                &[
                    "Haulier",
                    "Unsuitable ground away",
                    "they take",
                    "2 yd³",
                    "Old brick away",
                    "we take",
                ],
            )],
        ),
        (
            "Which lines still lack an amount or a price?",
            &[(
                "order.pdf",
                &[
                    "Still open",
                    "Brick: how much of it is not known yet",
                    "Old brick away: how much",
                ],
            )],
        ),
        (
            "What will this cost us for material, delivery, tip and hire?",
            &[(
                "order.pdf",
                &[
                    "What it costs us, at least",
                    "All of it",
                    &ours,
                    "Our own truck",
                ],
            )],
        ),
        (
            "Was it agreed, by whom, when?",
            &[
                ("owner.pdf", &["Signed: Rosa Lind", "May 4, 2026"]),
                (
                    "order.pdf",
                    &["Agreed with the owner yes, agreement 1 of 4 May 2026"],
                ),
            ],
        ),
        (
            "What has changed since?",
            &[(
                "owner.pdf",
                &[
                    "a bed of sand 3/4\" thick",
                    "Now: On the stone goes a bed of sand 1\" thick",
                    "do not count until both sides have signed",
                ],
            )],
        ),
        (
            "When is the crew there, how many, for how long?",
            &[
                (
                    "owner.pdf",
                    &["May 15, 2026", "about 2 working days for 2 people"],
                ),
                ("order.pdf", &["Work starts 15 May 2026", "Working days 2"]),
            ],
        ),
        (
            "What do we write on the invoice, and is tax in it?",
            &[
                ("owner.pdf", &[&price, "Sales tax is in it"]),
                ("order.csv", &["total,Sum,Price", &total, "tax,Sum,Tax"]),
            ],
        ),
        (
            "They call: was anything out of tolerance, what is still open?",
            &[
                (
                    "hand-over.pdf",
                    &[
                        "2 levels were read; 1 is out of tolerance",
                        "no, high",
                        "Lift the brick closed",
                        "15 May 2026, JM",
                        "Not closed: Dig, trim, compact the bottom",
                    ],
                ),
                ("readings.csv", &["2,setting-bed,9.0000", ",high,ft,"]),
            ],
        ),
    ];
    for (question, sheets) in questions {
        for (file, answers) in sheets {
            let text = sheet(&set, file);
            for answer in *answers {
                assert!(
                    text.contains(answer),
                    "{question} {answer:?} is not in {file}:\n{text}"
                );
            }
        }
    }
}

#[test]
fn drawings_in_files_are_in_the_language_of_the_crew() {
    let catalogue = underbrick_records::catalogue().unwrap();
    let site = checked(&under_way(&catalogue), &catalogue);
    let results = compute(&site, &catalogue);
    let set = |language| SheetSet {
        site: &site,
        catalogue: &catalogue,
        results: &results,
        letterhead: None,
        paper: Paper::Letter,
        language,
        date: (2026, 5, 18),
        pictures: &[],
    };
    for (file, english, spanish) in [
        ("cross-section.svg", "brick, bed", "ladrillo, cama"),
        ("long-section.svg", "grade line", "línea de rasante"),
        ("edge.svg", "concrete haunch", "chaflán de concreto"),
        ("plan.svg", "start here", "empiece aquí"),
    ] {
        let in_english = sheet(&set(Language::English), file);
        let in_spanish = sheet(&set(Language::Spanish), file);
        assert!(in_english.contains(english), "{file}");
        assert!(in_spanish.contains(spanish), "{file}");
        assert!(!in_spanish.contains(english), "{file}");
    }
}
