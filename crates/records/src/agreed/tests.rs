use super::*;
use crate::v1::Stamp;
use crate::{catalogue, read_site, write_site};
use proptest::prelude::*;
use underbrick_calc::findings::Weight;
use underbrick_calc::place::Place;

fn clause(key: &str, text: &str) -> site::Clause {
    site::Clause {
        key: key.to_owned(),
        text: text.to_owned(),
    }
}

fn clauses() -> Vec<site::Clause> {
    vec![
        clause("parties", "12 Alder Court, side door walk"),
        clause("price", "$4,310.00 to $5,120.00"),
        clause("scope-fall", "1/4 in für jeden Fuß ⅛"),
    ]
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

fn walk() -> SiteFile {
    SiteFile::new("12 Alder Court", "side door walk")
}

#[test]
fn the_hash_is_that_of_the_standard() {
    // FIPS 180-4 and the NIST CAVP example values: SHA-256 of "abc", and of the empty message.
    let of = |text: &str| hexadecimal(&Sha256::digest(text.as_bytes()));
    assert_eq!(
        of("abc"),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
    assert_eq!(
        of(""),
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    );
}

#[test]
fn another_language_gets_the_same_digest_from_the_same_words() {
    // Python 3: b = b"underbrick agreement 1\n" + struct.pack(">Q", len(clauses)); for each key and text in UTF-8:
    // b += struct.pack(">Q", len(word)) + word; hashlib.sha256(b).hexdigest().
    assert_eq!(agreement_bytes(&clauses()).len(), 179);
    assert_eq!(
        digest(&clauses()),
        "64a29143c3dac27da12814e1a72c8527ac9b4c3b66f1c67dada5ad276bf8a2dd"
    );
    assert_eq!(
        digest(&[]),
        "78a26001b9d557fc97d8071db701798bbb187ab651de3cee919c19b634a70e06"
    );
}

proptest! {
    #[test]
    fn no_two_lists_of_clauses_give_the_same_bytes(
        one in prop::collection::vec(("[a-c]{0,3}", "[a-c]{0,3}"), 0..4),
        other in prop::collection::vec(("[a-c]{0,3}", "[a-c]{0,3}"), 0..4),
    ) {
        let of = |list: &[(String, String)]| -> Vec<site::Clause> {
            list.iter().map(|(key, text)| clause(key, text)).collect()
        };
        prop_assert_eq!(
            one == other,
            agreement_bytes(&of(&one)) == agreement_bytes(&of(&other))
        );
    }
}

#[test]
fn what_is_agreed_stands_beside_what_was_agreed() {
    let mut file = walk();
    assert_eq!(file.agree(&clauses(), by("Rosa Lind")), Ok(0));
    // The same words again: one more signature.
    assert_eq!(file.agree(&clauses(), by(" Jon Marsh ")), Ok(0));
    assert_eq!(file.sign(0, by("Ida Lind")), Ok(()));
    let names = |file: &SiteFile, idx: usize| -> Vec<String> {
        let signatures = file.show.agreements[idx].signatures.iter();
        signatures.map(|signature| signature.name.clone()).collect()
    };
    assert_eq!(names(&file, 0), ["Rosa Lind", "Jon Marsh", "Ida Lind"]);
    let first = file.show.agreements[0].clone();

    let mut changed = clauses();
    changed[1].text = "$4,600.00".to_owned();
    assert_eq!(file.agree(&changed, by("Rosa Lind")), Ok(1));
    assert_eq!(file.show.agreements[0], first, "nothing changes it");
    assert_eq!(
        file.sign(0, by("Jon Marsh")),
        Err(AgreeFault::Followed { number: 1, last: 2 })
    );
    assert_eq!(
        file.sign(2, by("Jon Marsh")),
        Err(AgreeFault::NoAgreement { number: 3 })
    );
    assert_eq!(file.show.agreements[1].signatures.len(), 1);
}

#[test]
fn it_comes_back_from_the_file_as_it_was_signed() {
    let mut file = walk();
    file.agree(&clauses(), by("Rosa Lind")).unwrap();
    let read = read_site(&write_site(&file)).unwrap();
    assert_eq!(read, file);
    let (site, findings) = read.checked(&catalogue().unwrap());
    assert!(findings.at(Place::Agreement(0)).next().is_none());
    let agreement = &site.show.agreements[0];
    assert_eq!(agreement.clauses, clauses());
    assert_eq!(agreement.signatures[0].strokes[0].len(), 3);
}

#[test]
fn words_changed_in_the_file_are_told_with_the_number_of_the_agreement() {
    let mut file = walk();
    file.agree(&clauses(), by("Rosa Lind")).unwrap();
    let mut more = clauses();
    more.push(clause("dates", "It starts on 4 May."));
    file.agree(&more, by("Rosa Lind")).unwrap();
    let text = write_site(&file).replacen("$5,120.00", "$5,920.00", 1);
    let mut file = read_site(&text).unwrap();
    let (site, findings) = file.checked(&catalogue().unwrap());
    let as_signed = site
        .show
        .agreements
        .iter()
        .map(|agreement| agreement.is_as_signed);
    assert_eq!(as_signed.collect::<Vec<_>>(), [false, true]);
    let told: Vec<_> = findings.at(Place::Agreement(0)).collect();
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].weight, Weight::Warning);
    assert!(
        told[0]
            .text
            .starts_with("Agreement 1 is not what was signed")
    );
    assert!(findings.at(Place::Agreement(1)).next().is_none());
    // The one that stands may be signed; a changed one may not.
    assert_eq!(file.sign(1, by("Jon Marsh")), Ok(()));
    file.show.agreements.truncate(1);
    assert_eq!(
        file.sign(0, by("Jon Marsh")),
        Err(AgreeFault::Changed { number: 1 })
    );
}

/// What stands in the way of a signature, in words; the record stays as it was.
#[track_caller]
fn refused(signature: Signature, words: &str) {
    let mut file = walk();
    let fault = file.agree(&clauses(), signature.clone()).unwrap_err();
    assert!(fault.to_string().contains(words), "{fault}");
    assert_eq!(file, walk());
    file.agree(&clauses(), by("Rosa Lind")).unwrap();
    let before = file.clone();
    assert!(file.sign(0, signature).is_err());
    assert_eq!(file, before);
}

#[test]
fn a_signature_that_is_none_is_refused_in_words() {
    let strokes = |strokes: Vec<Vec<(i32, i32)>>| Signature {
        strokes,
        ..by("Rosa Lind")
    };
    refused(by("  "), "the name of who signs is missing");
    refused(by(&"x".repeat(201)), "201 letters, more than 200");
    refused(strokes(vec![]), "nothing is drawn");
    refused(
        strokes(vec![vec![], vec![(5, 5), (5, 5)]]),
        "nothing is drawn",
    );
    refused(
        strokes(vec![vec![(1, 1), (1001, 2)]]),
        "1001 across and 2 down",
    );
    refused(strokes(vec![vec![(1, 1), (2, -1)]]), "outside its field");
    let endless = vec![(0..20_001).map(|nth| (nth % 1000, 7)).collect()];
    refused(strokes(endless), "20001 points, more than 20000");
    let fault = walk().agree(&[], by("Rosa Lind")).unwrap_err();
    assert_eq!(fault, AgreeFault::NoClause);
}

#[test]
fn the_largest_signature_is_kept_and_read_again() {
    let mut file = walk();
    let largest = Signature {
        strokes: vec![(0..20_000).map(|nth| (nth % 1001, nth % 999)).collect()],
        ..by("Rosa Lind")
    };
    file.agree(&clauses(), largest).unwrap();
    let text = write_site(&file);
    assert!(text.len() < 400_000, "{}", text.len());
    assert_eq!(read_site(&text).unwrap(), file);
}

#[test]
fn a_file_with_a_signature_that_no_finger_drew_is_read_and_told() {
    let mut file = walk();
    file.agree(&clauses(), by("Rosa Lind")).unwrap();
    file.show.agreements[0].signatures[0].strokes = vec![vec![(i32::MIN, 0), (i32::MAX, 0)]];
    file.show.start = "next spring".to_owned();
    let (site, findings) = file.checked(&catalogue().unwrap());
    assert!(site.show.agreements[0].signatures[0].strokes.is_empty());
    let told = findings.at(Place::Agreement(0)).next().unwrap();
    assert!(told.text.contains("Rosa Lind"), "{}", told.text);
    assert_eq!(site.show.start, None);
    let told = findings.at(Place::WorkStart).next().unwrap();
    assert!(
        told.text.contains("\"next spring\" is no date"),
        "{}",
        told.text
    );
    file.show.start = "2026-05-04".to_owned();
    let (site, _) = file.checked(&catalogue().unwrap());
    assert_eq!(site.show.start, Some((2026, 5, 4)));
}
