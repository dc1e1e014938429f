//! The owner sheet and the agreement of every sample site, from its file to plain text.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::Weight;
use underbrick_calc::order::Way;
use underbrick_calc::place::Place;
use underbrick_calc::site::{Letterhead, PictureOf, Site};
use underbrick_calc::{Results, compute};
use underbrick_records::v1::{Signature, Stamp};
use underbrick_records::{
    OpenSite, STARTER_LETTERHEAD, SiteFile, read_letterhead, read_site, write_site,
};
use underbrick_sheets::agreement::{
    ChangeKind, Design, HEADINGS, Standing, clauses_text, standing, terms,
};
use underbrick_sheets::order::words::way_price_words;
use underbrick_sheets::owner::{OwnerSheet, owner_message, owner_sheet};
use underbrick_sheets::paper::{Block, Document, Paper, Picture, as_text};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests package stands in the root")
        .to_path_buf()
}

fn catalogue() -> Catalogue {
    underbrick_records::catalogue().unwrap()
}

fn samples() -> Vec<(String, Site)> {
    let catalogue = catalogue();
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root().join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    let read = folders.iter().map(|folder| {
        let (site, _) = OpenSite::open(folder).unwrap().site().checked(&catalogue);
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        (name, site)
    });
    read.collect()
}

fn letterhead() -> Letterhead {
    read_letterhead(STARTER_LETTERHEAD).unwrap()
}

fn document(site: &Site, letterhead: Option<&Letterhead>) -> (Document, String) {
    let catalogue = catalogue();
    let results = compute(site, &catalogue);
    let design = Design {
        site,
        catalogue: &catalogue,
        results: &results,
        letterhead,
    };
    let sheet = OwnerSheet {
        paper: Paper::Letter,
        date: "May 4, 2026",
        pictures: &[],
    };
    (owner_sheet(design, sheet), owner_message(design))
}

/// Compares with a golden file, or renews it where `UPDATE_GOLDEN` is set.
#[track_caller]
fn golden(name: &str, text: &str) {
    let file = root().join("tests/golden/owner").join(name);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&file, text).unwrap();
    }
    let expected = std::fs::read_to_string(&file).unwrap_or_default();
    assert!(
        expected == text,
        "{name} has changed: look at it, then renew with UPDATE_GOLDEN=1"
    );
}

#[test]
fn the_sheet_of_each_sample_reads_as_it_was_read_aloud() {
    for (name, site) in samples() {
        let (document, message) = document(&site, Some(&letterhead()));
        golden(&format!("{name}.txt"), &as_text(&document));
        golden(&format!("{name}.message.txt"), &message);
    }
}

/// The text without its line ends, so that a sentence can be found wherever its lines break.
fn on_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn results(site: &Site) -> Results {
    compute(site, &catalogue())
}

#[test]
fn every_number_on_the_sheet_is_that_of_the_results() {
    for (name, site) in samples() {
        let shown = site.shown_in;
        let results = results(&site);
        let (document, message) = document(&site, None);
        let (text, message) = (on_one_line(&as_text(&document)), on_one_line(&message));
        let line = results.line.as_ref().unwrap();
        let bed = results.bed.as_ref().unwrap();
        let order = results.order.as_ref().unwrap();
        let chosen = order.chosen().unwrap();
        let depth = |base| shown.length(bed.base_top_below_grade + base);
        let mut wanted = vec![
            site.address.clone(),
            format!("{} long", shown.along(line.run.length())),
            shown.area(bed.earthwork.paved_area),
            depth(bed.thinnest_base),
            depth(bed.thickest_base),
            format!("bed of sand {} thick", shown.length(bed.setting_bed)),
            format!("The brick is {} thick", shown.length(bed.unit_thickness)),
            format!("{} deep. It is held", shown.length(bed.edge.brick.depth)),
            shown.length(line.grade.start - line.grade.end),
            format!("The price is {}", way_price_words(order.currency, chosen)),
            format!("It takes about {} working day", chosen.programme.days.len()),
        ];
        wanted.extend(results.causes.first().map(|cause| cause.homeowner.clone()));
        let pits = &results.ground.as_ref().unwrap().pits;
        for pit in pits {
            wanted.push(format!("{} from the door", shown.along(pit.station)));
            let layers = pit.layers.iter().skip(1);
            wanted.extend(layers.filter_map(|layer| {
                let bottom = layer.bottom?;
                Some(format!("{} of ", shown.length(layer.top - bottom)))
            }));
        }
        for words in &wanted {
            assert!(text.contains(words.as_str()), "{name}: {words} in\n{text}");
        }
        for priced in &order.ways {
            let price = way_price_words(order.currency, priced);
            assert!(text.contains(&price), "{name}: {price}");
            assert!(message.contains(&price), "{name}: {price}");
        }
        for (key, _) in HEADINGS {
            let usually_there = !matches!(key, "not-cured" | "own-terms");
            let design_text = terms_of(&site, None);
            let has = design_text.iter().any(|clause| clause.key == key);
            assert!(has || !usually_there, "{name}: no clause {key}");
        }
    }
}

fn terms_of(site: &Site, letterhead: Option<&Letterhead>) -> Vec<underbrick_calc::site::Clause> {
    let catalogue = catalogue();
    let results = compute(site, &catalogue);
    terms(Design {
        site,
        catalogue: &catalogue,
        results: &results,
        letterhead,
    })
    .clauses
}

/// The part of a text from one heading to the next.
fn under<'a>(text: &'a str, heading: &str) -> &'a str {
    let start = text
        .find(&format!("\n{heading}\n"))
        .unwrap_or_else(|| panic!("no heading {heading} in\n{text}"));
    let rest = &text[start + heading.len() + 2..];
    let headings = HEADINGS.iter().map(|(_, heading)| *heading);
    let others = headings.chain(["How it slopes", "What can be chosen", "What we agree on"]);
    let end = others
        .filter_map(|other| rest.find(&format!("\n{other}\n")))
        .min();
    end.map_or(rest, |end| &rest[..end])
}

#[test]
fn ten_questions_of_a_homeowner_are_answered_from_the_sheet_alone() {
    let (_, mut site) = samples()
        .into_iter()
        .find(|(name, _)| name == "curved-to-a-drive")
        .unwrap();
    site.show.start = Some((2026, 5, 11));
    let (document, _) = document(&site, Some(&letterhead()));
    let text = as_text(&document);
    // Question, heading under which the answer stands, the answer.
    let questions: [(&str, &str, &[&str]); 10] = [
        (
            "Why is my walk so bad?",
            "What is wrong with it",
            &["The walk was laid on garden soil.", "cannot stay level"],
        ),
        (
            "Do I get my own brick back?",
            "The brick comes up",
            &["The brick is lifted by hand, cleaned and stacked"],
        ),
        (
            "How deep will you dig up my yard?",
            "Digging",
            &[
                "1'-1 11/16\" below the surface of the new walk",
                "6\" further out",
            ],
        ),
        (
            "What stops it from sinking again?",
            "The stone under the walk",
            &[
                "Crushed stone is filled in",
                "packed down by machine",
                "stays firm, dry or wet",
            ],
        ),
        (
            "Will water run to my door again?",
            "Where the water goes",
            &[
                "slopes down and away from the house",
                "1/4\" for every foot",
            ],
        ),
        (
            "What does it cost, and can it cost more?",
            "Price",
            &["at least $5,200 to $5,720", "Not in it"],
        ),
        (
            "When do you come, and for how long?",
            "When",
            &["May 11, 2026", "about 5 working days"],
        ),
        (
            "What about the tree roots?",
            "What this does not mend",
            &["There are roots in the ground", "needs other work as well"],
        ),
        (
            "What if you find something bad down there?",
            "If something changes",
            &["work stops at that place", "signed by both"],
        ),
        (
            "Must I look after anything while you work?",
            "Please take care",
            &["use another door", "keep children and pets away"],
        ),
    ];
    for (question, heading, answers) in questions {
        let part = on_one_line(under(&text, heading));
        for answer in answers {
            assert!(part.contains(answer), "{question} {answer} not in:\n{part}");
        }
    }
}

#[test]
fn no_trade_word_stands_on_the_sheet() {
    const TRADE: [&str; 23] = [
        "subgrade",
        " base ",
        "base.",
        " lift ",
        " lifts",
        "setting bed",
        "grade line",
        "haunch",
        "sailor",
        "soldier",
        "stretcher",
        "screed",
        "restraint",
        "geotextile",
        "jointing",
        "notch",
        "spoil",
        "undercut",
        "offset",
        "station",
        "cross-fall",
        "datum",
        "pit ",
    ];
    for (name, site) in samples() {
        for way in Way::ALL {
            let mut site = site.clone();
            site.order.way = way;
            let (document, message) = document(&site, None);
            for text in [on_one_line(&as_text(&document)), on_one_line(&message)] {
                // Words of the table of causes are a person's own, "stone base" among them.
                let own: Vec<String> = results(&site)
                    .causes
                    .iter()
                    .map(|cause| cause.homeowner.clone())
                    .collect();
                let text = own
                    .iter()
                    .fold(text, |text, own| text.replace(own.as_str(), ""));
                for word in TRADE {
                    let at = text.to_lowercase().find(word);
                    let near = at.map(|at| {
                        text[at.saturating_sub(40)..]
                            .chars()
                            .take(90)
                            .collect::<String>()
                    });
                    assert!(at.is_none(), "{name}, {way:?}: {word:?} in {near:?}");
                }
            }
        }
    }
}

#[test]
fn a_site_with_nothing_measured_says_so_and_guesses_nothing() {
    let (site, _) = SiteFile::new("", "").checked(&catalogue());
    let (document, message) = document(&site, None);
    let text = on_one_line(&as_text(&document));
    for words in [
        "not written down",
        "nobody has looked under the brick",
        "The walk is not measured yet",
        "cannot be said yet: the walk is not measured",
        "How the walk will slope is not known yet",
        "How many days it takes is not known yet",
        "The day on which the work starts is not set yet",
        "No hole was dug",
        "There is nothing to draw yet",
    ] {
        assert!(text.contains(words), "{words} in\n{text}");
    }
    assert!(message.contains("no address yet"));
    // No size is given: no figure with a unit stands anywhere.
    assert!(!text.contains("0\""), "{text}");
    assert!(!text.contains("0 mm"), "{text}");
}

#[test]
fn a_way_that_keeps_the_old_ground_promises_no_new_stone() {
    for (name, mut site) in samples() {
        site.order.way = Way::Relay;
        let clauses = terms_of(&site, None);
        assert!(
            !clauses.iter().any(|clause| clause.key == "scope-base"),
            "{name}"
        );
        let text = clauses_text(&clauses);
        assert!(text.contains("The ground is not dug out"), "{name}");
        site.order.way = Way::NewBrick;
        let text = clauses_text(&terms_of(&site, None));
        assert!(
            text.contains("The old brick is taken up and taken away"),
            "{name}"
        );
        assert!(!text.contains("your own brick goes back"), "{name}");
    }
}

fn by(name: &str) -> Signature {
    Signature {
        name: name.to_owned(),
        strokes: vec![vec![(100, 200), (300, 150), (420, 260)]],
        stamp: Stamp {
            at: "2026-05-04T13:30:00Z".to_owned(),
            by: "JM".to_owned(),
            device: "tablet".to_owned(),
        },
    }
}

/// How a record stands to what was agreed in it, read from its file anew.
fn stands(file: &SiteFile) -> (Standing, Site) {
    let catalogue = catalogue();
    let read = read_site(&write_site(file)).unwrap();
    let (site, findings) = read.checked(&catalogue);
    let results = compute(&site, &catalogue);
    let design = Design {
        site: &site,
        catalogue: &catalogue,
        results: &results,
        letterhead: None,
    };
    let tampered = (0..9).any(|idx| findings.at(Place::Agreement(idx)).next().is_some());
    assert!(!tampered, "what was signed is as it was signed");
    (standing(&site, &terms(design)), site)
}

#[test]
fn a_later_edit_is_shown_against_what_was_agreed_and_can_be_agreed_in_turn() {
    let folder = root().join("sample-sites/short-straight-sunk-on-sand");
    let mut file = OpenSite::open(&folder).unwrap().site().clone();
    let (nothing, site) = stands(&file);
    assert_eq!(nothing, Standing::NotAgreed);
    assert!(nothing.finding().is_none());

    file.agree(&terms_of(&site, None), by("Rosa Lind")).unwrap();
    let (agreed, site) = stands(&file);
    assert_eq!(agreed, Standing::AsAgreed { number: 1 });
    assert!(agreed.words().contains("nothing has changed"));
    assert!(agreed.finding().is_none());
    let text = as_text(&document(&site, None).0);
    assert!(text.contains("Signed: Rosa Lind [signed, 3 points] May 4, 2026"));
    assert!(text.contains(&site.show.agreements[0].digest), "{text}");

    // What changes nothing of the terms changes nothing of the agreement: who reads the crew sheet.
    file.show.crew_reads = underbrick_records::v1::Language::Spanish;
    assert_eq!(stands(&file).0, Standing::AsAgreed { number: 1 });

    assert!(file.set_text(Place::SettingBed, "1 in"));
    assert!(file.set_text(Place::WorkStart, "2026-05-11"));
    let (differs, site) = stands(&file);
    let Standing::Differs { number: 1, changes } = &differs else {
        panic!("{differs:?}");
    };
    let bed = changes
        .iter()
        .find(|change| change.key == "scope-bed")
        .unwrap();
    let ChangeKind::Changed { agreed, now, .. } = &bed.kind else {
        panic!("{bed:?}");
    };
    assert!(agreed.contains("3/4\" thick") && now.contains("1\" thick"));
    assert!(changes.iter().any(|change| change.key == "dates"));
    assert!(!changes.iter().any(|change| change.key == "excluded"));
    let finding = differs.finding().unwrap();
    assert_eq!(
        (finding.place, finding.weight),
        (Place::Agreement(0), Weight::Warning)
    );
    let text = on_one_line(&as_text(&document(&site, None).0));
    // What was signed stands as it was signed, and the change beside it.
    assert!(text.contains("a bed of sand 3/4\" thick"), "{text}");
    assert!(
        text.contains("Now: On the stone goes a bed of sand 1\" thick"),
        "{text}"
    );
    assert!(
        text.contains("do not count until both sides have signed"),
        "{text}"
    );

    // A word changed in the file is told on the sheet too.
    let mut changed_by_hand = site.clone();
    changed_by_hand.show.agreements[0].is_as_signed = false;
    let by_hand = on_one_line(&as_text(&document(&changed_by_hand, None).0));
    assert!(
        by_hand.contains("These are not the words that were signed"),
        "{by_hand}"
    );
    assert!(!by_hand.contains("These words are sealed"), "{by_hand}");

    let first = file.show.agreements[0].clone();
    file.agree(&terms_of(&site, None), by("Rosa Lind")).unwrap();
    assert_eq!(stands(&file).0, Standing::AsAgreed { number: 2 });
    assert_eq!(file.show.agreements[0], first);
    let text = as_text(&document(&stands(&file).1, None).0);
    assert!(text.contains("What was agreed (agreement 2)"));
}

#[test]
fn words_of_a_stranger_stay_on_their_lines() {
    let (_, mut site) = samples().swap_remove(0);
    site.address = format!("12\u{1b}[31m Alder\nCourt {}", "long ".repeat(40));
    site.walk = "вход والباب 玄関\t".to_owned();
    let letterhead = Letterhead {
        name: "A\nB".to_owned(),
        terms: vec!["one\ntwo".to_owned()],
        ..Letterhead::default()
    };
    let clauses = terms_of(&site, Some(&letterhead));
    assert_eq!(
        clauses,
        terms_of(&site, Some(&letterhead)),
        "the same design, the same words"
    );
    for clause in &clauses {
        let is_steering = |letter: char| letter.is_control() && letter != '\n';
        assert!(!clause.text.chars().any(is_steering), "{}", clause.text);
    }
    let text_of = |key: &str| {
        let clause = clauses.iter().find(|clause| clause.key == key);
        clause.map(|clause| clause.text.clone()).unwrap_or_default()
    };
    assert!(
        text_of("parties").starts_with("A B rebuilds the вход والباب 玄関 at 12 [31m Alder Court")
    );
    assert_eq!(text_of("own-terms"), "one two");
}

#[test]
fn pictures_stand_where_they_say_something() {
    let (_, site) = samples().swap_remove(0);
    let catalogue = catalogue();
    let results = compute(&site, &catalogue);
    let design = Design {
        site: &site,
        catalogue: &catalogue,
        results: &results,
        letterhead: None,
    };
    let picture = |caption: &str| Picture {
        caption: caption.to_owned(),
        bytes: Err("not read in this test".to_owned()),
        width: 0,
        height: 0,
    };
    let mut pictures = vec![
        (PictureOf::Day(0), picture("the crew at work")),
        (PictureOf::Pit(0), picture("the first hole")),
        (PictureOf::AsFound, picture("the door")),
    ];
    pictures.extend((0..9).map(|nth| (PictureOf::AsFound, picture(&format!("view {nth}")))));
    let sheet = OwnerSheet {
        paper: Paper::A4,
        date: "",
        pictures: &pictures,
    };
    let document = owner_sheet(design, sheet);
    let shown: Vec<&str> = document
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Picture(picture) => Some(picture.caption.as_str()),
            _ => None,
        })
        .collect();
    // One beside the finding, then those of before the work, eight at the most.
    assert_eq!(shown.len(), 9);
    assert_eq!(shown[..2], ["the door", "the first hole"]);
    assert!(!shown.contains(&"the crew at work"));
    assert!(as_text(&document).contains("2 more pictures are kept with the site"));
}
