//! The power is cut at every single write; what is found afterwards must be whole, and nothing may be lost.

use std::fs;
use std::io;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use super::{Act, LONG, act, folder_with, site_with, widths};
use crate::history::History;
use crate::keeper::Keeper;
use crate::keeper::writer::Writer;
use crate::lock::SiteLock;
use crate::open::OpenSite;
use crate::read::read_site;
use crate::whole::{Disk, MachineDisk};

/// A disk whose power goes after so many writes; the write during which it goes is half done. It does not wait for the machine's own
/// disk: the order of writes is what counts here.
struct PowerCut {
    n_left: AtomicUsize,
    tears: bool,
}

impl PowerCut {
    const fn after(n_writes: usize, tears: bool) -> Self {
        Self {
            n_left: AtomicUsize::new(n_writes),
            tears,
        }
    }

    const fn never() -> Self {
        Self::after(usize::MAX, false)
    }

    fn power(&self) -> io::Result<()> {
        let had = self
            .n_left
            .fetch_update(Ordering::SeqCst, Ordering::SeqCst, |n| n.checked_sub(1));
        had.map(|_| ())
            .map_err(|_| io::Error::other("the power is gone"))
    }
}

impl Disk for PowerCut {
    fn make_folder(&self, path: &Path) -> io::Result<()> {
        self.power()?;
        MachineDisk.make_folder(path)
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let was_last = self.n_left.load(Ordering::SeqCst) == 0;
        if was_last && self.tears {
            let half = bytes.len() / 2;
            fs::write(path, &bytes[..half])?;
        }
        self.power()?;
        fs::write(path, bytes)
    }

    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        self.power()?;
        MachineDisk.append(path, bytes)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.power()?;
        MachineDisk.rename(from, to)
    }

    /// Once the power is gone nothing is tidied up either.
    fn remove(&self, path: &Path) -> io::Result<()> {
        self.power()?;
        MachineDisk.remove(path)
    }

    fn sync_folder(&self, _path: &Path) -> io::Result<()> {
        self.power()
    }
}

fn writer_on(disk: Box<dyn Disk>, folder: &Path, history: &History) -> Writer {
    Writer::new(
        disk,
        folder.to_path_buf(),
        Some(SiteLock::take(folder).unwrap()),
        history,
    )
}

/// Does all acts with a disk that lasts, cuts the power at every write of the last one in turn, and looks at what is left.
#[track_caller]
fn cut_at_every_write(acts: &[Act]) {
    let (last, earlier) = acts.split_last().unwrap();
    let mut n_cuts = 0;
    for n_writes in 0.. {
        let mut was_enough = true;
        for tears in [false, true] {
            let folder = folder_with(&site_with("0 in"));
            let mut history = OpenSite::open(folder.path()).unwrap().history().clone();
            let mut writer = writer_on(Box::new(PowerCut::never()), folder.path(), &history);
            for earlier in earlier {
                let state = act(&mut history, *earlier);
                writer.take(Arc::new(state), history.step());
                writer.write().unwrap();
            }
            drop(writer);
            let before = OpenSite::open(folder.path()).unwrap();
            assert_eq!(widths(before.history()), widths(&history), "before the cut");

            let mut history = before.history().clone();
            let (old_before, old_now, old_after) = widths(&history);
            let disk = PowerCut::after(n_writes, tears);
            let mut writer = writer_on(Box::new(disk), folder.path(), &history);
            let state = act(&mut history, *last);
            let (new_before, new_now, new_after) = widths(&history);
            writer.take(Arc::new(state), history.step());
            was_enough &= writer.write().is_ok();
            drop(writer);

            let context = format!("{acts:?}, power gone after {n_writes} writes, torn: {tears}");
            let text = fs::read_to_string(folder.path().join("site.ron")).unwrap();
            assert!(read_site(&text).is_ok(), "{context}: site.ron is not whole");
            let opened = OpenSite::open(folder.path()).unwrap();
            let (before, now, after) = widths(opened.history());
            assert!(
                now == old_now || now == new_now,
                "{context}: neither the old state nor the new"
            );

            // Whatever could be reached before and after the act can be reached; only what an edit drops from redo may be gone.
            let found: Vec<&String> = before.iter().chain([&now]).chain(&after).collect();
            let kept_by_both = |width: &&String| {
                let was =
                    old_before.contains(width) || **width == old_now || old_after.contains(width);
                let is =
                    new_before.contains(width) || **width == new_now || new_after.contains(width);
                was && is
            };
            let must_be_there = new_before
                .iter()
                .chain([&new_now])
                .chain(&new_after)
                .filter(kept_by_both);
            for width in must_be_there {
                assert!(
                    found.contains(&width),
                    "{context}: {width} is lost, found {found:?}"
                );
            }
            // Redo is given up only for an edit that is on disk.
            if !found.contains(&&new_now) {
                for width in old_before.iter().chain([&old_now]).chain(&old_after) {
                    assert!(
                        found.contains(&width),
                        "{context}: {width} is lost for an edit that is not there, found {found:?}"
                    );
                }
            }
            if was_enough {
                assert_eq!(
                    (before, now, after),
                    (new_before, new_now, new_after),
                    "{context}"
                );
            }

            // Undo, redo and edits go on to work, and are there after another start.
            let mut history = opened.history().clone();
            let disk = Box::new(PowerCut::never());
            let keeper =
                Keeper::start_on(disk, folder.path().to_path_buf(), &history, Box::new(|| {}))
                    .unwrap();
            if let Some(undone) = history.undo() {
                keeper.keep(undone, history.step());
                let redone = history.redo().unwrap();
                keeper.keep(redone, history.step());
            }
            let edited = act(&mut history, Act::Edit("77 in"));
            keeper.keep(edited, history.step());
            assert!(keeper.flush(LONG), "{context}");
            drop(keeper);
            let again = OpenSite::open(folder.path()).unwrap();
            assert_eq!(
                widths(again.history()),
                widths(&history),
                "{context}, opened again"
            );
            n_cuts += 1;
        }
        if was_enough {
            break;
        }
    }
    assert!(n_cuts > 10, "the writes were not counted: {n_cuts} cuts");
}

#[test]
fn first_edit_cut_short_loses_nothing() {
    cut_at_every_write(&[Act::Edit("1 in")]);
}

#[test]
fn later_edit_cut_short_loses_nothing() {
    cut_at_every_write(&[Act::Edit("1 in"), Act::Edit("2 in"), Act::Edit("3 in")]);
}

#[test]
fn undo_cut_short_loses_nothing() {
    cut_at_every_write(&[Act::Edit("1 in"), Act::Edit("2 in"), Act::Undo]);
}

#[test]
fn redo_cut_short_loses_nothing() {
    cut_at_every_write(&[
        Act::Edit("1 in"),
        Act::Edit("2 in"),
        Act::Undo,
        Act::Undo,
        Act::Redo,
    ]);
}

#[test]
fn edit_after_undo_cut_short_loses_nothing() {
    cut_at_every_write(&[
        Act::Edit("1 in"),
        Act::Edit("2 in"),
        Act::Edit("3 in"),
        Act::Undo,
        Act::Undo,
        Act::Edit("4 in"),
    ]);
}

#[test]
fn edit_back_to_an_earlier_value_cut_short_loses_nothing() {
    // 1 in stands twice: only the noted place tells which.
    cut_at_every_write(&[
        Act::Edit("1 in"),
        Act::Edit("2 in"),
        Act::Edit("1 in"),
        Act::Edit("3 in"),
        Act::Undo,
    ]);
    cut_at_every_write(&[
        Act::Edit("1 in"),
        Act::Edit("2 in"),
        Act::Edit("1 in"),
        Act::Undo,
        Act::Undo,
    ]);
}
