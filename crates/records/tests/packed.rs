//! A site as one file: out, in again, and what is done to whoever sends something else.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::io::{Cursor, Write as _};
use std::path::{Path, PathBuf};

use tempfile::TempDir;
use underbrick_records::{
    LARGEST_FILE_BYTES, OpenSite, PackError, RecordError, Shelf, SiteFile, pack, pack_into, unpack,
    write_site,
};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// A shelf with the samples; the curved one has two pictures and a list of changes.
fn samples() -> (TempDir, Shelf, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path().join("sites"));
    shelf.copy_samples().unwrap();
    let curved = shelf.path().join("curved-to-a-drive");
    fs::create_dir(curved.join("pictures")).unwrap();
    fs::write(
        curved.join("pictures/1.jpg"),
        b"no picture, but bytes \x00\xFF",
    )
    .unwrap();
    fs::write(curved.join("pictures/at the door ü.png"), vec![7; 100_000]).unwrap();
    fs::write(
        curved.join("changes.txt"),
        b"(what: \"Width\", to: \"4 ft\")\n torn \xFF",
    )
    .unwrap();
    (folder, shelf, curved)
}

/// Every file below a folder, with its bytes, but for what a site keeps for itself alone.
fn files(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    let mut stack = vec![folder.to_path_buf()];
    while let Some(path) = stack.pop() {
        for entry in fs::read_dir(&path).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                stack.push(path);
            } else {
                let bytes = fs::read(&path).unwrap();
                found.push((path.strip_prefix(folder).unwrap().to_path_buf(), bytes));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn every_sample_comes_back_as_it_went() {
    let (folder, shelf, _) = samples();
    let out = folder.path().join("out");
    let other = Shelf::at(folder.path().join("other"));
    for entry in shelf.list().unwrap() {
        let packed = pack_into(&entry.folder, &out).unwrap();
        let back = unpack(&packed, &other).unwrap();
        assert_eq!(files(&back), files(&entry.folder), "{}", packed.display());
    }
    assert_eq!(other.list().unwrap().len(), shelf.list().unwrap().len());
    let left: Vec<_> = files(&out)
        .into_iter()
        .filter(|(name, _)| name.extension().is_none_or(|ending| ending != "zip"))
        .collect();
    assert_eq!(left, []);
}

#[test]
fn the_same_site_is_the_same_bytes_and_nothing_is_written_over() {
    let (folder, _, curved) = samples();
    let out = folder.path().join("out");
    let first = pack_into(&curved, &out).unwrap();
    let bytes = fs::read(&first).unwrap();
    let second = pack_into(&curved, &out).unwrap();
    assert!(second.to_string_lossy().ends_with("-2.zip"), "{second:?}");
    assert_eq!(fs::read(&second).unwrap(), bytes);
    let there = PackError::Record(RecordError::AlreadyThere {
        path: first.clone(),
    });
    fs::write(&first, "mine").unwrap();
    assert_eq!(pack(&curved, &first), Err(there));
    assert_eq!(fs::read(&first).unwrap(), b"mine");
}

#[test]
fn a_site_that_is_there_is_kept_beside_the_one_that_comes() {
    let (folder, shelf, curved) = samples();
    let packed = pack_into(&curved, &folder.path().join("out")).unwrap();
    let before = files(&curved);
    let first = unpack(&packed, &shelf).unwrap();
    let second = unpack(&packed, &shelf).unwrap();
    assert!(first != second && first != curved && second != curved);
    assert_eq!(files(&curved), before);
    assert_eq!(files(&first), before);
    assert_eq!(files(&second), before);
}

#[test]
fn history_locks_and_links_stay_at_home() {
    let (folder, _, curved) = samples();
    fs::create_dir(curved.join("history")).unwrap();
    fs::write(curved.join("history/1.ron"), "old").unwrap();
    fs::write(curved.join(".lock"), "").unwrap();
    fs::write(curved.join("pictures/.thumbs"), "").unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink("/etc/hostname", curved.join("pictures/link.jpg")).unwrap();
    let packed = pack_into(&curved, &folder.path().join("out")).unwrap();
    let back = unpack(&packed, &Shelf::at(folder.path().join("other"))).unwrap();
    let names: Vec<_> = files(&back).into_iter().map(|(name, _)| name).collect();
    assert_eq!(
        names,
        [
            "changes.txt",
            "pictures/1.jpg",
            "pictures/at the door ü.png",
            "site.ron"
        ]
        .map(PathBuf::from)
    );
}

/// An archive of these files, as bytes.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    for (name, bytes) in files {
        archive.start_file(*name, options).unwrap();
        archive.write_all(bytes).unwrap();
    }
    archive.finish().unwrap().into_inner()
}

fn site_text() -> String {
    write_site(&SiteFile::new("12 Slate Row", "front walk"))
}

/// The bytes with every `from` replaced by `to`, which is as long: names that the writer itself would not write.
fn renamed(mut bytes: Vec<u8>, from: &str, to: &str) -> Vec<u8> {
    assert_eq!(from.len(), to.len());
    let mut n_times = 0;
    for at in 0..bytes.len() - from.len() {
        if bytes[at..].starts_with(from.as_bytes()) {
            bytes[at..at + to.len()].copy_from_slice(to.as_bytes());
            n_times += 1;
        }
    }
    assert!(n_times >= 2, "in its own head and in the list at the end");
    bytes
}

/// Unpacks bytes that must be refused with such words, and nothing of which may be anywhere afterwards.
#[track_caller]
fn check_refused(bytes: &[u8], words: &str) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("in.zip");
    fs::write(&file, bytes).unwrap();
    let shelf = Shelf::at(folder.path().join("deep/down/sites"));
    let refused = unpack(&file, &shelf).expect_err(words).to_string();
    assert!(refused.contains(words), "{refused}");
    assert!(refused.ends_with("in.zip"), "{refused}");
    assert_eq!(shelf.list().unwrap(), []);
    let left: Vec<_> = files(folder.path())
        .into_iter()
        .map(|(name, _)| name)
        .collect();
    assert_eq!(left, [PathBuf::from("in.zip")], "{words}");
}

#[test]
fn names_that_lead_elsewhere_are_refused() {
    let text = site_text();
    let whole = archive(&[
        ("site.ron", text.as_bytes()),
        ("pictures/1234567.jpg", b"x"),
    ]);
    for name in [
        "../../../1234567.jpg",
        "/tmp/../tmp/1234.jpg",
        "pictures/../../x.jpg",
        "pictures/..\\..\\x.jpg",
        "pictures/12/4567.jpg",
        "pictures/.234567.jpg",
        "pictures/12345\n7.jpg",
        "C:ctures/1234567.jpg",
        "history0/1234567.jpg",
    ] {
        check_refused(
            &renamed(whole.clone(), "pictures/1234567.jpg", name),
            "is no part of a packed site",
        );
    }
    let twice = archive(&[
        ("site.ron", text.as_bytes()),
        ("pictures/a.jpg", b"x"),
        ("pictures/A.JPG", b"y"),
    ]);
    check_refused(&twice, "pictures/A.JPG");
}

#[test]
fn a_link_is_refused() {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default();
    archive.start_file("site.ron", options).unwrap();
    archive.write_all(site_text().as_bytes()).unwrap();
    archive
        .add_symlink("pictures/1.jpg", "/etc/passwd", options)
        .unwrap();
    let bytes = archive.finish().unwrap().into_inner();
    check_refused(&bytes, "pictures/1.jpg");
}

#[test]
fn what_is_no_packed_site_is_told_apart() {
    check_refused(b"", "this is no packed site");
    check_refused(b"not a zip at all", "this is no packed site");
    check_refused(&archive(&[]), "holds no site.ron");
    check_refused(&archive(&[("pictures/1.jpg", b"x")]), "holds no site.ron");
    check_refused(&archive(&[("site.ron", b"")]), "the file is empty");
    check_refused(
        &archive(&[("site.ron", b"(version: 1, adress: \"\")")]),
        "line 1, column",
    );
    check_refused(
        &archive(&[("site.ron", b"(version: 99)")]),
        "newer Underbrick",
    );
    check_refused(
        &archive(&[("site.ron", &[0xFF, 0xFE, 0x80])]),
        "site.ron cannot be read",
    );
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path().join("sites"));
    let nothing = unpack(&folder.path().join("gone.zip"), &shelf);
    assert!(matches!(
        nothing,
        Err(PackError::Record(RecordError::Missing { .. }))
    ));
    let no_file = unpack(folder.path(), &shelf);
    assert!(matches!(
        no_file,
        Err(PackError::Record(RecordError::NotAFile { .. }))
    ));
}

#[test]
fn what_swells_is_cut_off() {
    // Thirty megabytes of blanks in thirty kilobytes.
    let blanks = vec![b' '; 30 * 1024 * 1024];
    let bomb = archive(&[("site.ron", &blanks)]);
    assert!(bomb.len() < 100_000);
    check_refused(&bomb, "its site.ron is more than the 8388608 bytes");
    assert_eq!(LARGEST_FILE_BYTES, 8_388_608);

    let text = site_text();
    let names: Vec<String> = (0..1003)
        .map(|number| format!("pictures/{number}.jpg"))
        .collect();
    let mut many: Vec<(&str, &[u8])> = vec![("site.ron", text.as_bytes())];
    many.extend(names.iter().map(|name| (name.as_str(), b"x".as_slice())));
    check_refused(&archive(&many), "more than 1000 pictures");
}

/// The sizes that an archive states are not what comes out of it: each place in which they stand is changed in turn.
#[test]
fn an_archive_cut_short_or_changed_anywhere_gives_an_error_or_the_site() {
    let text = site_text();
    let whole = archive(&[
        ("site.ron", text.as_bytes()),
        ("pictures/1.jpg", b"some bytes"),
    ]);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("in.zip");
    for length in 0..whole.len() {
        fs::write(&file, &whole[..length]).unwrap();
        let shelf = Shelf::at(folder.path().join("short"));
        assert!(unpack(&file, &shelf).is_err(), "cut at {length}");
    }
    let mut n_refused = 0;
    for at in 0..whole.len() {
        for bit in [0, 3, 7] {
            let mut bytes = whole.clone();
            bytes[at] ^= 1 << bit;
            fs::write(&file, &bytes).unwrap();
            let shelf = Shelf::at(folder.path().join("changed"));
            match unpack(&file, &shelf) {
                Ok(back) => {
                    // What does not count was changed, such as a date; or the name of a picture.
                    let site = OpenSite::open(&back).unwrap();
                    assert_eq!(write_site(site.site()), text, "byte {at}, bit {bit}");
                    fs::remove_dir_all(&back).unwrap();
                }
                Err(_) => n_refused += 1,
            }
            assert_eq!(shelf.list().unwrap(), [], "byte {at}, bit {bit}");
        }
    }
    assert!(n_refused > whole.len(), "{n_refused}");
}

#[test]
fn a_place_that_cannot_be_written_is_told() {
    let (folder, _, curved) = samples();
    let file = folder.path().join("a-file");
    fs::write(&file, "").unwrap();
    assert!(matches!(
        pack_into(&curved, &file),
        Err(PackError::Record(_))
    ));
    let packed = pack_into(&curved, &folder.path().join("out")).unwrap();
    let into_a_file = unpack(&packed, &Shelf::at(&file));
    assert!(matches!(
        into_a_file,
        Err(PackError::Record(RecordError::NotAFolder { .. }))
    ));
}
