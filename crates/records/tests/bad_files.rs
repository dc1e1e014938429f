//! Files that are no sites: each is refused with line, column and reason, and left as it is.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::Path;

use underbrick_records::{
    EntryState, LARGEST_FILE_BYTES, OpenSite, ReadError, RecordError, Shelf, SiteFile, read_site,
    write_site,
};

fn good() -> String {
    let mut site = SiteFile::new("12 Alder Court", "front walk");
    site.line.width = "32 5/8 in".to_owned();
    write_site(&site)
}

/// The good file with one thing in it changed is refused at the line of that change, at that column or after it, in these words.
#[track_caller]
fn refused(from: &str, to: &str, words: &str) {
    let good = good();
    assert!(read_site(&good).is_ok());
    let at = good
        .find(from)
        .unwrap_or_else(|| panic!("{from} does not stand in the file"));
    let before = good.get(..at).unwrap();
    let line_of_change = before.matches('\n').count() + 1;
    let column_of_change = at - before.rfind('\n').map_or(0, |newline| newline + 1) + 1;
    match read_site(&good.replacen(from, to, 1)) {
        Err(ReadError::Text {
            line,
            column,
            reason,
        }) => {
            assert_eq!(line, line_of_change, "{reason}");
            assert!(
                column >= column_of_change,
                "column {column} is before {column_of_change}: {reason}"
            );
            assert!(reason.contains(words), "{reason}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_bare_number_is_refused_where_it_stands() {
    let width = "width: \"32 5/8 in\"";
    refused(
        width,
        "width: 32.625",
        "a bare number 32.625: write it in quotes with its unit",
    );
    refused(width, "width: 32", "a bare number 32: ");
    refused(width, "width: -3", "a bare number -3: ");
    refused(width, "width: NaN", "a bare number NaN: ");
    refused(width, "width: inf", "a bare number inf: ");
    refused(width, "width: -inf", "a bare number -inf: ");
    refused(width, "width: 1e400", "a bare number inf: ");
    refused(
        "address: \"12 Alder Court\"",
        "address: 12",
        "a bare number 12: ",
    );
}

#[test]
fn what_is_misspelt_is_named() {
    refused("width:", "widht:", "widht");
    refused("Sailor", "Sailer", "Sailer");
    refused("shown_in: FeetInches", "shown_in: Cubits", "Cubits");
    refused("fabric: false", "fabric: maybe", "boolean");
    refused("width: \"32 5/8 in\"", "width: [1, 2]", "a text in quotes");
    refused("version: 1", "version: 0", "there is no format 0");
}

#[test]
fn a_file_cut_short_is_refused() {
    let good = good();
    for n_bytes in 1..good.trim_end().len() {
        if let Some(cut) = good.get(..n_bytes) {
            assert!(read_site(cut).is_err(), "cut after {n_bytes} bytes");
        }
    }
}

#[test]
fn deep_brackets_are_refused_and_do_not_bring_the_program_down() {
    let deep = good().replacen("legs: [", &format!("legs: {}", "[".repeat(200_000)), 1);
    assert!(matches!(read_site(&deep), Err(ReadError::Text { .. })));
}

#[test]
fn nothing_is_no_site() {
    for text in ["", " \n\t\n", "\u{feff}", "\u{feff}\n"] {
        assert_eq!(read_site(text), Err(ReadError::Empty), "{text:?}");
    }
}

#[test]
fn a_newer_file_is_called_newer_whatever_stands_in_it() {
    let newer = good().replacen("version: 1", "version: 2", 1);
    let expected = ReadError::Newer { found: 2, known: 1 };
    assert_eq!(
        expected.to_string(),
        "written by a newer Underbrick: format 2, this one reads format 1"
    );
    assert_eq!(read_site(&newer), Err(expected.clone()));
    // A newer format may have fields and choices that nobody knows yet.
    assert_eq!(
        read_site(&newer.replacen("walk:", "garden: Big(trees: [1, 2]), walk:", 1)),
        Err(expected)
    );
}

#[test]
fn too_large_a_file_is_refused() {
    let limit = usize::try_from(LARGEST_FILE_BYTES).unwrap();
    let padded = |n_bytes: usize| {
        let good = good();
        format!("{good}{}", " ".repeat(n_bytes - good.len()))
    };
    assert!(read_site(&padded(limit)).is_ok());
    let bytes = LARGEST_FILE_BYTES + 1;
    assert_eq!(
        read_site(&padded(limit + 1)),
        Err(ReadError::TooLarge {
            bytes,
            limit: LARGEST_FILE_BYTES
        })
    );
}

#[test]
fn a_file_from_another_editor_is_read() {
    let site = read_site(&good()).unwrap();
    assert_eq!(
        read_site(&format!("\u{feff}{}", good().replace('\n', "\r\n"))).unwrap(),
        site
    );
    // What was not measured may be left out; a person's own comments may stand.
    let short = "/* by hand */ (version: 1, address: \"12 Alder Court\", walk: \"front walk\", shown_in: FeetInches, // feet
        line: (legs: [(shape: Straight())], width: \"32 5/8 in\"), bed: (base_material: \"crushed-stone\"), brick: (),
        edge: (stands: Sailor, restraint: Haunch()))";
    assert_eq!(read_site(short).unwrap(), site);
}

/// Puts `bytes` on a shelf between two good sites: it is reported as `expected` says, stays as it is, and the others are listed.
#[track_caller]
fn reported(bytes: &[u8], expected: impl Fn(&Path) -> RecordError, words: &str) {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let good = shelf
        .create(&SiteFile::new("1 Alder Court", "front walk"))
        .unwrap();
    let broken = folder.path().join("broken");
    fs::create_dir(&broken).unwrap();
    fs::write(broken.join("site.ron"), bytes).unwrap();
    let other = shelf
        .create(&SiteFile::new("2 Alder Court", "back walk"))
        .unwrap();

    let error = expected(&broken.join("site.ron"));
    assert_eq!(OpenSite::open(&broken).err(), Some(error.clone()));
    assert!(error.to_string().contains(words), "{error}");
    assert!(
        error
            .to_string()
            .ends_with(&*broken.join("site.ron").to_string_lossy()),
        "the path stands last: {error}"
    );
    let entries = shelf.list().unwrap();
    let state_of = |folder: &Path| {
        entries
            .iter()
            .find(|entry| entry.folder == folder)
            .map(|entry| entry.state.clone())
    };
    let ready = |address: &str, walk: &str| {
        Some(EntryState::Ready {
            address: address.to_owned(),
            walk: walk.to_owned(),
        })
    };
    assert_eq!(state_of(&broken), Some(EntryState::Broken(error)));
    assert_eq!(state_of(&good), ready("1 Alder Court", "front walk"));
    assert_eq!(state_of(&other), ready("2 Alder Court", "back walk"));

    assert_eq!(
        fs::read(broken.join("site.ron")).unwrap(),
        bytes,
        "kept byte for byte"
    );
    assert_eq!(
        fs::read_dir(&broken).unwrap().count(),
        1,
        "nothing is put beside it"
    );
}

fn unreadable(error: ReadError) -> impl Fn(&Path) -> RecordError {
    move |path| RecordError::Unreadable {
        error: error.clone(),
        path: path.to_path_buf(),
    }
}

#[test]
fn a_broken_file_is_reported_and_kept_and_does_not_stop_the_others() {
    let text = good().replacen("width: \"32 5/8 in\"", "width: NaN", 1);
    let error = read_site(&text).unwrap_err();
    let ReadError::Text { line, column, .. } = error.clone() else {
        panic!("{error:?}")
    };
    assert_eq!(text.lines().nth(line - 1).unwrap().trim(), "width: NaN,");
    reported(
        text.as_bytes(),
        unreadable(error),
        &format!("line {line}, column {column}: a bare number NaN"),
    );
}

#[test]
fn an_empty_newer_huge_or_binary_file_is_reported_and_kept() {
    reported(b"", unreadable(ReadError::Empty), "the file is empty");
    let newer = good().replacen("version: 1", "version: 7", 1);
    reported(
        newer.as_bytes(),
        unreadable(ReadError::Newer { found: 7, known: 1 }),
        "format 7, this one reads format 1",
    );
    let huge = vec![b' '; usize::try_from(LARGEST_FILE_BYTES).unwrap() + 5];
    let too_large = ReadError::TooLarge {
        bytes: LARGEST_FILE_BYTES + 5,
        limit: LARGEST_FILE_BYTES,
    };
    reported(&huge, unreadable(too_large), "8388613 bytes");
    let binary = b"(\n  version: 1, address: \"\xff\xfe\"".as_slice();
    let not_text = ReadError::Text {
        line: 2,
        column: 25,
        reason: "a byte that is not text (UTF-8)".to_owned(),
    };
    reported(
        binary,
        unreadable(not_text),
        "line 2, column 25: a byte that is not text",
    );
}
