//! The one who fetches pictures: a thread of its own for one open site. What takes in a file and what decodes one can take a second,
//! so neither the window nor the one who writes the record waits for it.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread;

use super::bring::{bring_in, bytes_in_folder, unnamed};
use super::decode::{Pixels, decoded};
use super::paper::at_print_size;
use super::{PictureError, SMALL_DOTS};
use crate::failure::RecordError;

/// How large a picture is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PictureSize {
    /// For a row of pictures: at most [`SMALL_DOTS`] a side.
    Small,
    /// For the whole screen: at most [`super::PAPER_DOTS`] a side.
    Large,
}

/// What has come of what was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PictureNews {
    /// A file is in the folder now, whole and on the disk.
    TakenIn {
        /// What was asked with it, given back.
        of: crate::v1::PictureOf,
        /// Its name there.
        file: String,
    },
    /// A file was not taken in.
    NotTakenIn(PictureError),
    /// A picture of the site.
    Seen {
        /// Its name.
        file: String,
        /// How large it was asked for.
        size: PictureSize,
        /// Its dots, or why there are none.
        pixels: Result<Arc<Pixels>, PictureError>,
    },
    /// Pictures in the folder that were not named.
    Unnamed(Vec<String>),
}

/// Fetches the pictures of one open site. Dropping it does not wait: a file that is being taken in comes to lie in the folder all the
/// same.
#[derive(Debug)]
pub struct PictureHand {
    asked: Sender<Asked>,
    news: Receiver<PictureNews>,
}

#[derive(Debug)]
enum Asked {
    TakeIn {
        from: PathBuf,
        date: String,
        of: crate::v1::PictureOf,
    },
    List(BTreeSet<String>),
    Show(String, PictureSize),
}

impl Asked {
    /// What is done first: a file that a person gave may vanish, and who looks at one picture waits for it.
    const fn turn(&self) -> u8 {
        match self {
            Self::TakeIn { .. } => 0,
            Self::List(_) => 1,
            Self::Show(_, PictureSize::Large) => 2,
            Self::Show(_, PictureSize::Small) => 3,
        }
    }
}

impl PictureHand {
    /// Starts on the folder of a site. `wake` is called from its thread whenever there is news.
    ///
    /// # Errors
    /// [`RecordError::System`] where the system gives no thread.
    pub fn start(site_folder: PathBuf, wake: Box<dyn Fn() + Send>) -> Result<Self, RecordError> {
        let (asked, asked_of) = mpsc::channel();
        let (tell, news) = mpsc::channel();
        thread::Builder::new()
            .name("pictures".to_owned())
            .spawn(move || fetch_what_is_asked(&site_folder, &asked_of, &tell, &*wake))
            .map_err(|error| {
                RecordError::from_system("start a thread to read", Path::new("pictures"), &error)
            })?;
        Ok(Self { asked, news })
    }

    /// Asks for a file to be taken in, under a name made of `date`. `of` is given back with the news.
    pub fn take_in(&self, from: PathBuf, date: String, of: crate::v1::PictureOf) {
        self.ask(Asked::TakeIn { from, date, of });
    }

    /// Asks for a picture of the site.
    pub fn show(&self, file: String, size: PictureSize) {
        self.ask(Asked::Show(file, size));
    }

    /// Asks what lies in the folder beside `named`.
    pub fn list(&self, named: BTreeSet<String>) {
        self.ask(Asked::List(named));
    }

    /// What has come since it was last asked.
    pub fn news(&self) -> impl Iterator<Item = PictureNews> + '_ {
        self.news.try_iter()
    }

    /// Where the thread is gone there is no news either: nothing is lost, for the record names only what was taken in.
    fn ask(&self, asked: Asked) {
        let _ = self.asked.send(asked);
    }
}

fn fetch_what_is_asked(
    site_folder: &Path,
    asked: &Receiver<Asked>,
    tell: &Sender<PictureNews>,
    wake: &(dyn Fn() + Send),
) {
    let mut waiting: Vec<Asked> = Vec::new();
    loop {
        if waiting.is_empty() {
            match asked.recv() {
                Ok(first) => waiting.push(first),
                Err(_) => return,
            }
        }
        waiting.extend(asked.try_iter());
        // The first of those whose turn it is, in the order in which they were asked.
        let next = (0..waiting.len()).min_by_key(|nth| waiting.get(*nth).map(Asked::turn));
        let Some(next) = next else { continue };
        let news = match waiting.remove(next) {
            Asked::TakeIn { from, date, of } => match bring_in(site_folder, &from, &date) {
                Ok(file) => PictureNews::TakenIn { of, file },
                Err(error) => PictureNews::NotTakenIn(error),
            },
            Asked::List(named) => PictureNews::Unnamed(unnamed(site_folder, &named)),
            Asked::Show(file, size) => PictureNews::Seen {
                pixels: seen(site_folder, &file, size).map(Arc::new),
                file,
                size,
            },
        };
        if tell.send(news).is_err() {
            // The site was closed; what was given to be taken in is taken in.
            waiting.retain(|asked| matches!(asked, Asked::TakeIn { .. }));
        }
        wake();
    }
}

fn seen(site_folder: &Path, file: &str, size: PictureSize) -> Result<Pixels, PictureError> {
    match size {
        PictureSize::Large => at_print_size(site_folder, file),
        PictureSize::Small => {
            let (bytes, kind) = bytes_in_folder(site_folder, file)?;
            decoded(&bytes, kind, file, SMALL_DOTS)
        }
    }
}
