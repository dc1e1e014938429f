//! Pictures of the open site as far as they were fetched. A thread of the records fetches them; here is only what has come.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use underbrick_calc::findings::{Finding, Findings};
use underbrick_calc::site::PictureOf;
use underbrick_records::SiteFile;
use underbrick_records::pictures::{
    PictureError, PictureHand, PictureNews, PictureSize, Pixels, note_picture,
};
use underbrick_records::v1;

/// A picture, as far as it was fetched.
#[derive(Clone, Debug, Default)]
pub enum Look {
    /// It is on its way.
    #[default]
    Awaited,
    /// Here it is, under a number that no other has.
    Here(u64, Arc<Pixels>),
    /// It cannot be shown: why, in words.
    Broken(String),
}

/// Numbers of pictures, so that one is never taken for another that was fetched at another time.
static NEXT_NUMBER: AtomicU64 = AtomicU64::new(0);

/// A number that no picture has.
pub(crate) fn next_number() -> u64 {
    NEXT_NUMBER.fetch_add(1, Ordering::Relaxed)
}

/// Pictures of one site.
#[derive(Debug, Default)]
pub struct Album {
    /// Who fetches them; none where the system gave no thread.
    hand: Option<PictureHand>,
    small: BTreeMap<String, Look>,
    /// The one that is looked at, large.
    large: Option<(String, Look)>,
    faults: BTreeMap<String, PictureError>,
    findings: Findings,
    /// In the folder, and not in the record.
    unnamed: Vec<String>,
    /// What the folder was last compared with.
    compared: Option<BTreeSet<String>>,
    n_awaited: usize,
    troubles: Vec<String>,
    revision: u64,
}

impl Album {
    /// Of the site in a folder. `wake` is called from another thread when something was fetched.
    pub(crate) fn open(site_folder: PathBuf, wake: Box<dyn Fn() + Send>) -> Self {
        let (hand, troubles) = match PictureHand::start(site_folder, wake) {
            Ok(hand) => (Some(hand), Vec::new()),
            Err(error) => (None, vec![error.to_string()]),
        };
        Self {
            hand,
            troubles,
            ..Self::default()
        }
    }

    /// Rises when something has come.
    #[must_use]
    pub const fn revision(&self) -> u64 {
        self.revision
    }

    /// A picture for a row of pictures.
    #[must_use]
    pub fn small(&self, file: &str) -> Look {
        self.small.get(file).cloned().unwrap_or_default()
    }

    /// A picture for the whole screen; the small one until that has come.
    #[must_use]
    pub fn large(&self, file: &str) -> Look {
        match &self.large {
            Some((large, look @ (Look::Here(..) | Look::Broken(_)))) if large == file => {
                look.clone()
            }
            _ => self.small(file),
        }
    }

    /// Files in the folder that the record neither names nor has put away.
    #[must_use]
    pub fn unnamed(&self) -> &[String] {
        &self.unnamed
    }

    /// How many files are being taken in.
    #[must_use]
    pub const fn n_awaited(&self) -> usize {
        self.n_awaited
    }

    /// What could not be taken in, each in words.
    #[must_use]
    pub fn troubles(&self) -> &[String] {
        &self.troubles
    }

    /// Pictures of the record that cannot be shown.
    pub(crate) fn findings(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter()
    }

    pub(crate) fn take_in(&mut self, from: PathBuf, date: String, of: v1::PictureOf) {
        if let Some(hand) = &self.hand {
            hand.take_in(from, date, of);
            self.n_awaited += 1;
            self.revision += 1;
        }
    }

    /// What was said was read.
    pub(crate) fn said(&mut self) {
        self.troubles.clear();
        self.revision += 1;
    }

    /// Compares the folder with the record again, though the record is as before.
    pub(crate) fn look_into_folder(&mut self) {
        self.compared = None;
    }

    /// Takes in what has come; gives what lies in the folder now and is to be named.
    pub(crate) fn take_news(&mut self) -> Vec<(PictureOf, String)> {
        let news: Vec<PictureNews> = self.hand.iter().flat_map(PictureHand::news).collect();
        if !news.is_empty() {
            self.revision += 1;
        }
        let mut came = Vec::new();
        for news in news {
            match news {
                PictureNews::TakenIn { of, file } => {
                    self.n_awaited = self.n_awaited.saturating_sub(1);
                    came.push((of.into(), file));
                }
                PictureNews::NotTakenIn(error) => {
                    self.n_awaited = self.n_awaited.saturating_sub(1);
                    self.troubles.push(error.to_string());
                }
                PictureNews::Unnamed(files) => self.unnamed = files,
                PictureNews::Seen { file, size, pixels } => self.seen(file, size, pixels),
            }
        }
        came
    }

    fn seen(&mut self, file: String, size: PictureSize, pixels: Result<Arc<Pixels>, PictureError>) {
        let look = match pixels {
            Ok(pixels) => {
                self.faults.remove(&file);
                Look::Here(next_number(), pixels)
            }
            Err(error) => {
                let words = error.to_string();
                self.faults.insert(file.clone(), error);
                Look::Broken(words)
            }
        };
        match size {
            PictureSize::Small => {
                self.small.insert(file, look);
            }
            PictureSize::Large => {
                if let Some((large, kept)) = &mut self.large
                    && *large == file
                {
                    *kept = look;
                }
            }
        }
    }

    /// Asks for every picture of the record that was not asked for yet, and for the one that is looked at.
    pub(crate) fn ask(&mut self, record: &SiteFile, large: Option<usize>) {
        self.match_findings(record);
        let Some(hand) = &self.hand else { return };
        let pictures = &record.show.pictures;
        for picture in pictures {
            if !self.small.contains_key(&picture.file) {
                hand.show(picture.file.clone(), PictureSize::Small);
                self.small.insert(picture.file.clone(), Look::Awaited);
            }
        }
        let large = large.and_then(|idx| pictures.get(idx));
        if large.map(|picture| &picture.file) != self.large.as_ref().map(|(file, _)| file) {
            self.large = large.map(|picture| {
                hand.show(picture.file.clone(), PictureSize::Large);
                (picture.file.clone(), Look::Awaited)
            });
        }
        let named: BTreeSet<String> = pictures
            .iter()
            .map(|picture| &picture.file)
            .chain(&record.show.put_away)
            .cloned()
            .collect();
        if self.compared.as_ref() != Some(&named) {
            hand.list(named.clone());
            self.compared = Some(named);
        }
    }

    /// A finding for each picture that cannot be shown, at the number that it has now.
    pub(crate) fn match_findings(&mut self, record: &SiteFile) {
        let mut findings = Findings::default();
        for (idx, picture) in record.show.pictures.iter().enumerate() {
            if let Some(error) = self.faults.get(&picture.file) {
                note_picture(idx, error, &mut findings);
            }
        }
        self.findings = findings;
    }
}
