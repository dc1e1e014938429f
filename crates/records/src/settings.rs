//! What a person has set for every site: `settings.ron` beside the site folders. Written by a thread of its own, whole or not at all,
//! and never over a file that cannot be read.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver, Sender};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::Duration;

use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use crate::failure::RecordError;
use crate::read::{ReadError, VersionOnly, from_ron, options, without_byte_order_mark};
use crate::whole::{Disk, MachineDisk, replace, settle, text_in};

/// The only format so far.
const SETTINGS_VERSION: u32 = 1;

/// How long the end waits for the disk.
const LAST_WAIT: Duration = Duration::from_secs(5);

/// What a person has set for every site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settings {
    version: u32,
    /// Size of all type, in percent of the design's.
    pub text_size_percent: u16,
    /// Colours for which light.
    pub light: Light,
    /// What is kept clear at every edge of the screen, in points.
    #[serde(default, skip_serializing_if = "is_none")]
    pub keep_clear: u16,
    /// The letter that tells this device from the others of a crew; `None` where there is one alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub device: Option<char>,
    /// Pixels that 100 mm on this device's screen take, as a person measured it; 0 where nobody did.
    #[serde(default, skip_serializing_if = "is_none_measured")]
    pub pixels_per_100_mm: u32,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands over a reference"
)]
const fn is_none(points: &u16) -> bool {
    *points == 0
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands over a reference"
)]
const fn is_none_measured(pixels: &u32) -> bool {
    *pixels == 0
}

/// The light that a screen is read in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Light {
    /// Bright sun.
    Sun,
    /// Dim light.
    Dim,
}

impl Settings {
    /// These settings in the newest format.
    #[must_use]
    pub const fn new(text_size_percent: u16, light: Light) -> Self {
        Self {
            version: SETTINGS_VERSION,
            text_size_percent,
            light,
            keep_clear: 0,
            device: None,
            pixels_per_100_mm: 0,
        }
    }

    /// The settings in a text.
    ///
    /// # Errors
    /// [`ReadError`] with line and column; a newer format and an empty text are told apart.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let text = without_byte_order_mark(text);
        if text.trim().is_empty() {
            return Err(ReadError::Empty);
        }
        let settings = options().from_str::<Self>(text);
        // A newer file is called newer and not misspelt, whatever else stands in it.
        let version = match &settings {
            Ok(settings) => settings.version,
            Err(_) => options()
                .from_str::<VersionOnly>(text)
                .map_or(SETTINGS_VERSION, |file| file.version),
        };
        if version > SETTINGS_VERSION {
            return Err(ReadError::Newer {
                found: version,
                known: SETTINGS_VERSION,
            });
        }
        settings.map_err(|error| from_ron(&error))
    }

    /// As text: the same bytes on every machine.
    #[must_use]
    pub fn written(&self) -> String {
        let pretty = PrettyConfig::new().new_line("\n").indentor("    ");
        match options().to_string_pretty(self, pretty) {
            Ok(text) => format!("// For every site; the light is Sun or Dim.\n{text}\n"),
            Err(error) => {
                // Numbers and a choice always have a form in this notation.
                debug_assert!(false, "settings that cannot be written: {error}");
                String::new()
            }
        }
    }

    /// The settings in a file; `None` where there is no such file.
    ///
    /// # Errors
    /// What stands in the way, the path last.
    pub fn of_file(path: &Path) -> Result<Option<Self>, RecordError> {
        let text = match text_in(path) {
            Err(RecordError::Missing { .. }) => return Ok(None),
            text => text?,
        };
        Self::read(&text)
            .map(Some)
            .map_err(|error| RecordError::Unreadable {
                error,
                path: path.to_path_buf(),
            })
    }
}

/// Keeps the settings on disk. Its thread starts with the first that are kept; dropping it waits a few seconds for the last.
#[derive(Debug)]
pub struct SettingsKeeper {
    path: PathBuf,
    mail: Option<Sender<Settings>>,
    shared: Arc<Shared>,
}

#[derive(Debug, Default)]
struct Shared {
    progress: Mutex<Progress>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct Progress {
    n_under_way: u64,
    failure: Option<String>,
}

impl SettingsKeeper {
    /// For settings in that file; it need not be there.
    #[must_use]
    pub fn of(path: PathBuf) -> Self {
        Self {
            path,
            mail: None,
            shared: Arc::default(),
        }
    }

    /// The file.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Hands over what is set now. Returns at once. A file that cannot be read stays as it is, and [`SettingsKeeper::failure`] says so.
    pub fn keep(&mut self, settings: Settings) {
        if self.mail.is_none() {
            self.mail = self.started();
        }
        self.shared.progress().n_under_way += 1;
        let is_sent = self
            .mail
            .as_ref()
            .is_some_and(|mail| mail.send(settings).is_ok());
        if !is_sent {
            self.shared.done(
                1,
                Some("the writer of the settings cannot be started".to_owned()),
            );
        }
    }

    fn started(&self) -> Option<Sender<Settings>> {
        let (mail, received) = mpsc::channel();
        let (path, shared) = (self.path.clone(), Arc::clone(&self.shared));
        thread::Builder::new()
            .name("settings keeper".to_owned())
            .spawn(move || write_what_comes(&MachineDisk, &path, &received, &shared))
            .ok()
            .map(|_| mail)
    }

    /// Why the settings that were kept last are not on disk, in words with the path last; `None` while they are under way, too.
    #[must_use]
    pub fn failure(&self) -> Option<String> {
        self.shared.progress().failure.clone()
    }

    /// Waits until all that was handed over has been written or refused, at most so long. Gives whether it is on disk.
    #[must_use]
    pub fn flush(&self, at_most: Duration) -> bool {
        let waited = self
            .shared
            .changed
            .wait_timeout_while(self.shared.progress(), at_most, |progress| {
                progress.n_under_way > 0
            })
            .unwrap_or_else(PoisonError::into_inner);
        waited.0.n_under_way == 0 && waited.0.failure.is_none()
    }
}

impl Drop for SettingsKeeper {
    fn drop(&mut self) {
        // A disk that does not answer must not hold up the window for ever.
        let _is_on_disk = self.flush(LAST_WAIT);
    }
}

impl Shared {
    fn progress(&self) -> MutexGuard<'_, Progress> {
        self.progress.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn done(&self, n_done: u64, failure: Option<String>) {
        let mut progress = self.progress();
        progress.n_under_way = progress.n_under_way.saturating_sub(n_done);
        progress.failure = failure;
        drop(progress);
        self.changed.notify_all();
    }
}

fn write_what_comes(disk: &dyn Disk, path: &Path, mail: &Receiver<Settings>, shared: &Shared) {
    while let Ok(first) = mail.recv() {
        let (mut n_received, mut last) = (1, first);
        for next in mail.try_iter() {
            n_received += 1;
            last = next;
        }
        let failure = write(disk, path, &last).err();
        shared.done(n_received, failure.map(|error| error.to_string()));
    }
}

/// Only a file that can be read may be written over, or none at all.
fn write(disk: &dyn Disk, path: &Path, settings: &Settings) -> Result<(), RecordError> {
    if Settings::of_file(path)? == Some(*settings) {
        return Ok(());
    }
    let folder = path.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder)
        .map_err(|error| RecordError::from_system("make a folder", folder, &error))?;
    replace(disk, path, &settings.written())?;
    settle(disk, folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    const WAIT: Duration = Duration::from_secs(20);

    #[test]
    fn what_is_kept_is_read_again() {
        let folder = tempfile::tempdir().unwrap();
        // The folder of the sites is not there yet.
        let path = folder.path().join("sites/settings.ron");
        assert_eq!(Settings::of_file(&path), Ok(None));
        let mut keeper = SettingsKeeper::of(path.clone());
        for percent in [100, 115, 130] {
            keeper.keep(Settings::new(percent, Light::Dim));
        }
        assert!(keeper.flush(WAIT));
        drop(keeper);
        let kept = Settings::new(130, Light::Dim);
        assert_eq!(Settings::of_file(&path), Ok(Some(kept)));
        assert_eq!(fs::read_to_string(&path).unwrap(), kept.written());
        let beside: Vec<_> = fs::read_dir(path.parent().unwrap()).unwrap().collect();
        assert_eq!(beside.len(), 1, "{beside:?}");
    }

    #[track_caller]
    fn check_stays(text: &str, words: &str) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("settings.ron");
        fs::write(&path, text).unwrap();
        let refused = Settings::of_file(&path).unwrap_err().to_string();
        assert!(refused.contains(words), "{refused}");
        let mut keeper = SettingsKeeper::of(path.clone());
        keeper.keep(Settings::new(160, Light::Sun));
        assert!(!keeper.flush(WAIT));
        let said = keeper.failure().unwrap();
        assert!(
            said.contains(words) && said.contains("settings.ron"),
            "{said}"
        );
        assert_eq!(fs::read_to_string(&path).unwrap(), text);
    }

    #[test]
    fn a_file_that_cannot_be_read_stays_as_it_is() {
        check_stays("", "the file is empty");
        check_stays(
            "(version: 1, text_size_percent: big, light: Sun)",
            "line 1, column ",
        );
        check_stays("(version: 1, text_size_percent: 100, light: Moon)", "Moon");
        check_stays("(version: 2, voice: Loud)", "newer Underbrick: format 2");
    }

    #[test]
    fn a_place_that_cannot_be_written_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("sites");
        fs::write(&file, "no folder").unwrap();
        let mut keeper = SettingsKeeper::of(file.join("settings.ron"));
        keeper.keep(Settings::new(100, Light::Dim));
        assert!(!keeper.flush(WAIT));
        assert!(keeper.failure().is_some());
    }
}
