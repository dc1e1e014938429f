//! The keeper on a disk that works, one that is full, one that goes away, and in two windows at once.

mod power_cut;

use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, mpsc};
use std::time::Duration;

use underbrick_calc::place::Place;

use super::{KeepStatus, Keeper};
use crate::failure::RecordError;
use crate::history::{History, MOST_STATES};
use crate::open::OpenSite;
use crate::read::{read_site, write_site};
use crate::steps;
use crate::v1::SiteFile;
use crate::whole::{Disk, MachineDisk};

const LONG: Duration = Duration::from_secs(20);

fn site_with(width: &str) -> SiteFile {
    let mut site = SiteFile::new("12 Alder Court", "front walk");
    assert!(site.set_text(Place::Width, width));
    site
}

fn folder_with(site: &SiteFile) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("site.ron"), write_site(site)).unwrap();
    folder
}

fn start(folder: &Path, history: &History) -> Keeper {
    Keeper::start(folder.to_path_buf(), history, Box::new(|| {})).unwrap()
}

/// What the history says from where it stands: widths to go back to, the nearest first, the present one, widths to go forward to.
fn widths(history: &History) -> (Vec<String>, String, Vec<String>) {
    let width = |site: &SiteFile| site.line.width.clone();
    let (mut back, mut forth) = (history.clone(), history.clone());
    let before = std::iter::from_fn(|| back.undo())
        .map(|site| width(&site))
        .collect();
    let after = std::iter::from_fn(|| forth.redo())
        .map(|site| width(&site))
        .collect();
    (before, width(history.now()), after)
}

#[track_caller]
fn assert_widths(folder: &Path, before: &[&str], now: &str, after: &[&str]) {
    let opened = OpenSite::open(folder).unwrap();
    let (found_before, found_now, found_after) = widths(opened.history());
    assert_eq!(
        (found_before, found_now, found_after),
        (owned(before), now.to_owned(), owned(after))
    );
}

fn owned(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

/// One thing that a person does to the site.
#[derive(Clone, Copy, Debug)]
enum Act {
    Edit(&'static str),
    Undo,
    Redo,
}

fn act(history: &mut History, act: Act) -> SiteFile {
    match act {
        Act::Edit(width) => {
            let mut site = history.now().clone();
            site.set_text(Place::Width, width);
            history.push(site.clone());
            site
        }
        Act::Undo => history.undo().unwrap(),
        Act::Redo => history.redo().unwrap(),
    }
}

/// A disk that can be full: then whatever is written goes to the device that always is.
struct Fillable {
    is_full: Arc<AtomicBool>,
}

impl Disk for Fillable {
    fn make_folder(&self, path: &Path) -> io::Result<()> {
        MachineDisk.make_folder(path)
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if !self.is_full.load(Ordering::SeqCst) {
            return MachineDisk.write_new(path, bytes);
        }
        if cfg!(target_os = "linux") {
            OpenOptions::new()
                .write(true)
                .open("/dev/full")?
                .write_all(bytes)
        } else {
            Err(io::ErrorKind::StorageFull.into())
        }
    }

    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if self.is_full.load(Ordering::SeqCst) {
            return Err(io::ErrorKind::StorageFull.into());
        }
        MachineDisk.append(path, bytes)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        MachineDisk.rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        MachineDisk.remove(path)
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        MachineDisk.sync_folder(path)
    }
}

#[test]
fn undo_and_redo_survive_a_restart() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    for step in [
        Act::Edit("1 in"),
        Act::Edit("2 in"),
        Act::Edit("3 in"),
        Act::Undo,
    ] {
        let state = act(&mut history, step);
        keeper.keep(state, history.step());
    }
    drop(keeper);
    assert_widths(folder.path(), &["1 in", "0 in"], "2 in", &["3 in"]);

    // An edit after an undo drops what could have been redone, also after a restart.
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    let state = act(&mut history, Act::Edit("4 in"));
    keeper.keep(state, history.step());
    drop(keeper);
    assert_widths(folder.path(), &["2 in", "1 in", "0 in"], "4 in", &[]);
}

#[test]
fn opening_a_site_writes_nothing() {
    let folder = folder_with(&site_with("0 in"));
    let history = OpenSite::open(folder.path()).unwrap().history().clone();
    drop(start(folder.path(), &history));
    assert!(!steps::folder(folder.path()).exists());
}

#[test]
fn a_file_changed_by_hand_is_the_newest_state() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    let state = act(&mut history, Act::Edit("1 in"));
    keeper.keep(state, history.step());
    drop(keeper);

    let by_hand =
        write_site(&site_with("9 in")).replace("// One", "// Measured again by Ann.\n// One");
    fs::write(folder.path().join("site.ron"), &by_hand).unwrap();
    assert_widths(folder.path(), &["1 in", "0 in"], "9 in", &[]);

    // It is kept in the history with the next edit.
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    let state = act(&mut history, Act::Edit("10 in"));
    keeper.keep(state, history.step());
    drop(keeper);
    assert_widths(folder.path(), &["9 in", "1 in", "0 in"], "10 in", &[]);
}

#[test]
fn a_file_changed_while_it_is_open_is_copied_before_it_is_written_over() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    let by_hand = write_site(&site_with("9 in"));
    fs::write(folder.path().join("site.ron"), &by_hand).unwrap();
    let state = act(&mut history, Act::Edit("1 in"));
    keeper.keep(state, history.step());
    drop(keeper);
    assert_eq!(
        fs::read_to_string(folder.path().join("site-changed-elsewhere-1.ron")).unwrap(),
        by_hand
    );
    assert_eq!(
        OpenSite::open(folder.path()).unwrap().site().line.width,
        "1 in"
    );
}

#[test]
fn a_broken_state_in_the_history_is_passed_over() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    for width in ["1 in", "2 in"] {
        let state = act(&mut history, Act::Edit(width));
        keeper.keep(state, history.step());
    }
    drop(keeper);
    fs::write(steps::state_path(folder.path(), 2), "(version: 1, addr").unwrap();
    fs::write(steps::at_path(folder.path()), [0xff, 0xfe, 0x00]).unwrap();
    assert_widths(folder.path(), &["0 in"], "2 in", &[]);
}

#[test]
fn only_the_newest_two_hundred_states_are_kept() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    for number in 1..=230 {
        let site = site_with(&format!("{number} in"));
        let step = history.push(site.clone());
        keeper.keep(site, step);
    }
    assert!(keeper.flush(LONG));
    drop(keeper);
    assert_eq!(steps::numbers(folder.path()).unwrap().len(), MOST_STATES);
    let opened = OpenSite::open(folder.path()).unwrap();
    assert_eq!(widths(opened.history()), widths(&history));
    assert_eq!(widths(opened.history()).0.last().unwrap(), "31 in"); // 31 … 230 are 200
}

#[test]
fn every_state_is_in_the_history_however_fast_they_come() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let keeper = start(folder.path(), &history);
    let mut expected = Vec::new();
    for number in 1..=60 {
        let site = site_with(&format!("{number} in"));
        expected.insert(0, format!("{} in", number - 1));
        let step = history.push(site.clone());
        keeper.keep(Arc::new(site), step);
    }
    assert!(keeper.flush(LONG));
    assert_eq!(keeper.status(), KeepStatus::OnDisk);
    // The last state is in site.ron before the keeper is dropped.
    assert_eq!(
        read_site(&fs::read_to_string(folder.path().join("site.ron")).unwrap()).unwrap(),
        site_with("60 in")
    );
    drop(keeper);
    let (before, now, after) = widths(OpenSite::open(folder.path()).unwrap().history());
    assert_eq!(
        (before, now, after),
        (expected, "60 in".to_owned(), Vec::new())
    );
}

#[test]
fn a_full_disk_is_said_and_everything_is_written_once_there_is_room() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let is_full = Arc::new(AtomicBool::new(true));
    let (news, heard) = mpsc::channel();
    let disk = Box::new(Fillable {
        is_full: Arc::clone(&is_full),
    });
    let wake = Box::new(move || news.send(()).unwrap_or_default());
    let keeper = Keeper::start_on(disk, folder.path().to_path_buf(), &history, wake).unwrap();
    for width in ["1 in", "2 in"] {
        let state = act(&mut history, Act::Edit(width));
        keeper.keep(state, history.step());
    }
    heard.recv_timeout(LONG).unwrap();
    match keeper.status() {
        KeepStatus::Failed { reason } => {
            assert!(reason.starts_with("the disk is full"), "{reason}");
        }
        other => panic!("{other:?}"),
    }
    assert!(!keeper.flush(Duration::from_millis(50)));
    assert_eq!(
        OpenSite::open(folder.path()).unwrap().site(),
        &site_with("0 in"),
        "the last whole site still stands"
    );
    let left_over = fs::read_dir(folder.path()).unwrap().filter(|entry| {
        entry
            .as_ref()
            .unwrap()
            .path()
            .extension()
            .is_some_and(|e| e == "new")
    });
    assert_eq!(left_over.count(), 0);

    is_full.store(false, Ordering::SeqCst);
    assert!(keeper.flush(LONG), "it is tried again by itself");
    assert_eq!(keeper.status(), KeepStatus::OnDisk);
    heard.recv_timeout(LONG).unwrap();
    drop(keeper);
    assert_widths(folder.path(), &["1 in", "0 in"], "2 in", &[]);
}

#[test]
fn a_history_that_cannot_be_written_does_not_hold_up_the_site() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    // A file where the history's folder would stand: as root, who may write anywhere, permissions prove nothing.
    fs::write(steps::folder(folder.path()), "").unwrap();
    let (news, heard) = mpsc::channel();
    let keeper = Keeper::start(
        folder.path().to_path_buf(),
        &history,
        Box::new(move || news.send(()).unwrap_or_default()),
    )
    .unwrap();
    let state = act(&mut history, Act::Edit("1 in"));
    keeper.keep(state, history.step());
    heard.recv_timeout(LONG).unwrap();
    match keeper.status() {
        KeepStatus::Failed { reason } => assert!(reason.contains("history"), "{reason}"),
        other => panic!("{other:?}"),
    }
    assert_eq!(
        OpenSite::open(folder.path()).unwrap().site(),
        &site_with("1 in")
    );
    fs::remove_file(steps::folder(folder.path())).unwrap();
    assert!(keeper.flush(LONG));
    drop(keeper);
    assert_widths(folder.path(), &["0 in"], "1 in", &[]);
}

#[test]
fn a_folder_that_goes_away_is_said_and_the_state_is_kept_until_it_is_back() {
    let shelf = tempfile::tempdir().unwrap();
    let folder = shelf.path().join("walk");
    fs::create_dir(&folder).unwrap();
    fs::write(folder.join("site.ron"), write_site(&site_with("0 in"))).unwrap();
    let mut history = OpenSite::open(&folder).unwrap().history().clone();
    let (news, heard) = mpsc::channel();
    let keeper = Keeper::start(
        folder.clone(),
        &history,
        Box::new(move || news.send(()).unwrap_or_default()),
    )
    .unwrap();
    let elsewhere = shelf.path().join("elsewhere");
    fs::rename(&folder, &elsewhere).unwrap();
    fs::write(&folder, "a file in the folder's place").unwrap();
    let state = act(&mut history, Act::Edit("1 in"));
    keeper.keep(state, history.step());
    heard.recv_timeout(LONG).unwrap();
    assert!(
        matches!(keeper.status(), KeepStatus::Failed { .. }),
        "{:?}",
        keeper.status()
    );
    fs::remove_file(&folder).unwrap();
    fs::rename(&elsewhere, &folder).unwrap();
    assert!(keeper.flush(LONG));
    drop(keeper);
    assert_widths(&folder, &["0 in"], "1 in", &[]);
}

#[test]
fn one_site_is_written_by_one_window() {
    let folder = folder_with(&site_with("0 in"));
    let history = OpenSite::open(folder.path()).unwrap().history().clone();
    let first = start(folder.path(), &history);
    let second = Keeper::start(folder.path().to_path_buf(), &history, Box::new(|| {}));
    let path = folder.path().to_path_buf();
    assert_eq!(second.err(), Some(RecordError::OpenElsewhere { path }));
    // Reading needs no lock.
    assert!(OpenSite::open(folder.path()).is_ok());
    drop(first);
    drop(start(folder.path(), &history));
}

#[test]
fn what_was_opened_before_someone_else_wrote_must_be_opened_again() {
    let folder = folder_with(&site_with("0 in"));
    let stale = OpenSite::open(folder.path()).unwrap().history().clone();
    let mut history = stale.clone();
    let keeper = start(folder.path(), &history);
    let state = act(&mut history, Act::Edit("1 in"));
    keeper.keep(state, history.step());
    drop(keeper);
    let late = Keeper::start(folder.path().to_path_buf(), &stale, Box::new(|| {}));
    let path = folder.path().join("site.ron");
    assert_eq!(late.err(), Some(RecordError::ChangedElsewhere { path }));
    assert_widths(folder.path(), &["0 in"], "1 in", &[]);
}

#[test]
fn there_must_be_a_folder_to_keep_a_site_in() {
    let folder = tempfile::tempdir().unwrap();
    let history = History::new(site_with("0 in"));
    let gone = folder.path().join("gone");
    let missing = Keeper::start(gone.clone(), &history, Box::new(|| {}));
    assert_eq!(missing.err(), Some(RecordError::Missing { path: gone }));
    let file = folder.path().join("file");
    fs::write(&file, "").unwrap();
    let not_a_folder = Keeper::start(file.clone(), &history, Box::new(|| {}));
    assert_eq!(
        not_a_folder.err(),
        Some(RecordError::NotAFolder { path: file })
    );
}

#[test]
fn a_file_that_was_never_opened_is_not_written_over() {
    let refused = |text: &str| {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("site.ron");
        fs::write(&path, text).unwrap();
        let history = History::new(site_with("1 in"));
        let keeper = Keeper::start(folder.path().to_path_buf(), &history, Box::new(|| {}));
        assert_eq!(
            keeper.err(),
            Some(RecordError::ChangedElsewhere { path: path.clone() })
        );
        assert_eq!(fs::read_to_string(path).unwrap(), text);
    };
    refused("");
    refused("(version: 1, addr");
    refused("(version: 2)");
    refused(&write_site(&site_with("1 in")));

    // Where there is no site yet, one may be started.
    let folder = tempfile::tempdir().unwrap();
    let history = History::new(site_with("1 in"));
    let keeper = start(folder.path(), &history);
    keeper.keep(history.now().clone(), history.step());
    drop(keeper);
    assert_widths(folder.path(), &[], "1 in", &[]);
}

#[test]
fn what_could_not_be_opened_again_is_never_written() {
    let folder = folder_with(&site_with("0 in"));
    let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
    let (news, heard) = mpsc::channel();
    let wake = Box::new(move || news.send(()).unwrap_or_default());
    let keeper = Keeper::start(folder.path().to_path_buf(), &history, wake).unwrap();
    let mut newer = site_with("1 in");
    newer.version = 9;
    let step = history.push(newer.clone());
    keeper.keep(newer, step);
    heard.recv_timeout(LONG).unwrap();
    let status = keeper.status();
    assert!(matches!(status, KeepStatus::Failed { .. }), "{status:?}");
    drop(keeper);
    assert_widths(folder.path(), &[], "0 in", &[]);
}
