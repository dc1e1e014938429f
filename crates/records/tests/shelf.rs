//! The folder of sites.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::Path;
use std::time::{Duration, SystemTime};

use underbrick_records::{EntryState, OpenSite, RecordError, Shelf, SiteFile, write_site};

fn site(address: &str) -> SiteFile {
    SiteFile::new(address, "front walk")
}

fn name(folder: &Path) -> String {
    folder.file_name().unwrap().to_string_lossy().into_owned()
}

#[test]
fn a_new_site_gets_a_folder_named_after_its_address() {
    let place = tempfile::tempdir().unwrap();
    // The shelf's own folder is made with the first site.
    let shelf = Shelf::at(place.path().join("underbrick").join("sites"));
    assert_eq!(shelf.list().unwrap(), []);
    let created =
        |address: &str, walk: &str| name(&shelf.create(&SiteFile::new(address, walk)).unwrap());
    assert_eq!(
        created("28 Quarry Lane", "front walk"),
        "28-quarry-lane-front-walk"
    );
    assert_eq!(
        created("28 Quarry Lane", "front walk"),
        "28-quarry-lane-front-walk-2"
    );
    assert_eq!(
        created("28 QUARRY lane", "Front Walk"),
        "28-quarry-lane-front-walk-3"
    );
    assert_eq!(created("../../etc/passwd", ""), "etc-passwd");
    assert_eq!(created("C:\\Windows\\*?<>|\"", "."), "c-windows");
    assert_eq!(created("O'Hara's, 3rd. ", ""), "oharas-3rd");
    assert_eq!(created("", ""), "site");
    assert_eq!(created("…", "—"), "site-2");
    assert_eq!(created("CON", ""), "site-con");
    assert_eq!(created("lpt1", ""), "site-lpt1");
    assert_eq!(created("Rue de l'Église 4", ""), "rue-de-l-glise-4");
    let long = created(&"Long Street ".repeat(400), "walk");
    assert!(
        long.len() <= 48 && long.starts_with("long-street-long-street"),
        "{long}"
    );
    assert_eq!(shelf.list().unwrap().len(), 12);
}

#[test]
fn the_site_written_last_stands_first() {
    let place = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(place.path());
    let now = SystemTime::now();
    for (number, age_s) in [(1, 50), (2, 10), (3, 30)] {
        let folder = shelf
            .create(&site(&format!("{number} Alder Court")))
            .unwrap();
        let file = fs::File::options()
            .append(true)
            .open(folder.join("site.ron"))
            .unwrap();
        file.set_modified(now - Duration::from_secs(age_s)).unwrap();
    }
    let addresses: Vec<EntryState> = shelf
        .list()
        .unwrap()
        .into_iter()
        .map(|entry| entry.state)
        .collect();
    let ready = |number: u32| EntryState::Ready {
        address: format!("{number} Alder Court"),
        walk: "front walk".to_owned(),
    };
    assert_eq!(addresses, [ready(2), ready(3), ready(1)]);
}

#[test]
fn only_sites_are_listed() {
    let place = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(place.path());
    fs::create_dir(place.path().join("pictures")).unwrap();
    fs::create_dir(place.path().join(".hidden")).unwrap();
    fs::write(
        place.path().join(".hidden").join("site.ron"),
        write_site(&site("1 Alder Court")),
    )
    .unwrap();
    fs::write(place.path().join("notes.txt"), "call the owner").unwrap();
    assert_eq!(shelf.list().unwrap(), []);
    // A history without its site was a site once: that is said.
    let lost = place.path().join("lost");
    fs::create_dir_all(lost.join("history")).unwrap();
    let entries = shelf.list().unwrap();
    assert_eq!(entries.len(), 1);
    assert_eq!(
        entries[0].state,
        EntryState::Broken(RecordError::NoSite { path: lost })
    );
}

#[test]
fn samples_are_copied_and_each_can_be_opened() {
    let place = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(place.path());
    let folders = shelf.copy_samples().unwrap();
    let names: Vec<String> = folders.iter().map(|folder| name(folder)).collect();
    let expected = [
        "short-straight-sunk-on-sand",
        "curved-to-a-drive",
        "clay-seep-falls-to-house",
        "metric",
        "half-measured",
        "steep-with-steps",
        "clay-with-frost",
    ];
    assert_eq!(names, expected);
    for folder in &folders {
        assert!(OpenSite::open(folder).is_ok());
    }
    // A second set of copies leaves the first alone.
    let again = shelf.copy_samples().unwrap();
    assert_eq!(name(&again[3]), "metric-2");
    assert_eq!(shelf.list().unwrap().len(), 14);
}

#[test]
fn a_shelf_where_nothing_can_be_written_says_so() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("file");
    fs::write(&file, "").unwrap();
    // Root may write into a folder without permission; nobody may write into a file as if it were a folder.
    let on_a_file = Shelf::at(&file);
    assert_eq!(
        on_a_file.list(),
        Err(RecordError::NotAFolder { path: file.clone() })
    );
    assert_eq!(
        on_a_file.create(&site("1 Alder Court")),
        Err(RecordError::NotAFolder { path: file.clone() })
    );
    let under_a_file = Shelf::at(file.join("sites"));
    assert!(under_a_file.create(&site("1 Alder Court")).is_err());
    assert_eq!(fs::read(&file).unwrap(), b"");
}

#[cfg(unix)]
#[test]
fn a_folder_without_write_permission_says_so() {
    use std::os::unix::fs::PermissionsExt;
    let place = tempfile::tempdir().unwrap();
    fs::set_permissions(place.path(), fs::Permissions::from_mode(0o555)).unwrap();
    let is_root = fs::write(place.path().join("try"), "").is_ok();
    let created = Shelf::at(place.path()).create(&site("1 Alder Court"));
    fs::set_permissions(place.path(), fs::Permissions::from_mode(0o755)).unwrap();
    // Root may write anywhere; for everyone else it must be refused in words.
    let refused = matches!(
        created,
        Err(RecordError::NotAllowed {
            doing: "make a folder",
            ..
        })
    );
    assert!(is_root || refused, "{created:?}");
}

#[test]
fn what_is_no_site_is_said() {
    let place = tempfile::tempdir().unwrap();
    let path = place.path().to_path_buf();
    assert_eq!(
        OpenSite::open(&path).err(),
        Some(RecordError::NoSite { path: path.clone() })
    );
    let gone = path.join("gone");
    assert_eq!(
        OpenSite::open(&gone).err(),
        Some(RecordError::Missing { path: gone })
    );
    let folder_for_file = path.join("site.ron");
    fs::create_dir(&folder_for_file).unwrap();
    assert_eq!(
        OpenSite::open(&path).err(),
        Some(RecordError::NotAFile {
            path: folder_for_file
        })
    );
}

#[test]
fn a_file_by_itself_can_be_opened() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("draft.ron");
    fs::write(&file, write_site(&site("1 Alder Court"))).unwrap();
    let opened = OpenSite::open(&file).unwrap();
    assert_eq!(
        (opened.site().address.as_str(), opened.folder()),
        ("1 Alder Court", None)
    );
    let in_folder = place.path().join("site.ron");
    fs::write(&in_folder, write_site(&site("2 Alder Court"))).unwrap();
    let opened = OpenSite::open(&in_folder).unwrap();
    assert_eq!(
        (opened.site().address.as_str(), opened.folder()),
        ("2 Alder Court", Some(place.path()))
    );
}

#[cfg(unix)]
#[test]
fn a_link_in_place_of_the_file_is_refused_and_a_link_to_a_folder_is_followed() {
    use std::os::unix::fs::symlink;
    let place = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(place.path());
    let real = shelf.create(&site("1 Alder Court")).unwrap();
    let linked = place.path().join("linked");
    fs::create_dir(&linked).unwrap();
    symlink(real.join("site.ron"), linked.join("site.ron")).unwrap();
    let expected = RecordError::Link {
        path: linked.join("site.ron"),
    };
    assert_eq!(OpenSite::open(&linked).err(), Some(expected));
    let alias = place.path().join("alias");
    symlink(&real, &alias).unwrap();
    assert_eq!(
        OpenSite::open(&alias).unwrap().site().address,
        "1 Alder Court"
    );
    // A link to nowhere is a missing file, not a site.
    symlink(place.path().join("nowhere"), place.path().join("dangling")).unwrap();
    assert!(matches!(
        OpenSite::open(place.path().join("dangling")),
        Err(RecordError::Missing { .. })
    ));
    assert_eq!(shelf.list().unwrap().len(), 3);
}
