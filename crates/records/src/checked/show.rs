//! What is shown, agreed and handed over, checked.

use std::path::Path;

use jiff::civil::Date;
use underbrick_calc::field::full_name;
use underbrick_calc::place::Place;
use underbrick_calc::site;

use super::Check;
use crate::agreed::{digest, drawn};
use crate::pictures::path_of;
use crate::v1::{Agreement, Clause, Language, Picture, PictureOf, Signature};

impl Check<'_> {
    pub(super) fn show(&mut self) -> site::ShowInput {
        let show = &self.file.show;
        site::ShowInput {
            crew_reads: show.crew_reads.into(),
            pictures: show
                .pictures
                .iter()
                .enumerate()
                .map(|(idx, picture)| self.picture(idx, picture))
                .collect(),
            agreements: show
                .agreements
                .iter()
                .enumerate()
                .map(|(idx, agreement)| self.agreement(idx, agreement))
                .collect(),
            start: self.start(),
        }
    }

    /// A picture. What it belongs to and is not there leaves it with the walk as found, and a finding says so.
    fn picture(&mut self, idx: usize, picture: &Picture) -> site::Picture {
        let place = Place::Picture(idx);
        let name = full_name(place);
        if let Err(error) = path_of(Path::new(""), &picture.file) {
            self.warn(
                place,
                format!("{name}: {error}."),
                "It is kept as written and nothing is read there. Put the file into the folder pictures of this site and take it in anew.",
            );
        }
        let (thing, number, n_there) = match picture.of {
            PictureOf::Pit(number) => ("pit", number, self.file.pits.len()),
            PictureOf::Sign(number) => ("sign", number, self.file.signs.len()),
            PictureOf::Day(number) => ("day", number, self.file.build.days.len()),
            PictureOf::AsFound | PictureOf::HandedOver => ("", 1, 1),
        };
        let is_there = (1..=n_there).contains(&number);
        if !is_there {
            self.warn(
                place,
                format!("{name} belongs to {thing} {number}, which is not there."),
                "It is shown with the walk as found. Say anew what it belongs to.",
            );
        }
        site::Picture {
            file: picture.file.clone(),
            caption: picture.caption.clone(),
            of: if is_there {
                picture.of.into()
            } else {
                site::PictureOf::AsFound
            },
            stamp: self.stamp(place, &picture.stamp),
        }
    }

    /// An agreement as it stands in the file, and whether it is still what was signed.
    fn agreement(&mut self, idx: usize, agreement: &Agreement) -> site::Agreement {
        let place = Place::Agreement(idx);
        let clauses: Vec<site::Clause> = agreement.clauses.iter().map(Into::into).collect();
        let is_as_signed = digest(&clauses) == agreement.digest;
        if !is_as_signed {
            self.warn(
                place,
                format!(
                    "{} is not what was signed: its words were changed in the file after the signature.",
                    full_name(place)
                ),
                "Do not rely on it. Take the file from a copy made before the change, or agree anew.",
            );
        }
        let signatures = agreement.signatures.iter();
        let signatures = signatures.map(|signature| self.signature(place, signature));
        site::Agreement {
            digest: agreement.digest.clone(),
            is_as_signed,
            signatures: signatures.collect(),
            clauses,
        }
    }

    /// A signature; one that no finger can have drawn is kept without its strokes, and a finding says so.
    fn signature(&mut self, place: Place, signature: &Signature) -> site::Signature {
        let strokes = match drawn(&signature.strokes) {
            Ok(()) => signature.strokes.clone(),
            Err(fault) => {
                let who = signature.name.trim();
                self.warn(
                    place,
                    format!("{}, signature of {who:?}: {fault}.", full_name(place)),
                    "It is kept as written and not drawn.",
                );
                Vec::new()
            }
        };
        site::Signature {
            name: signature.name.clone(),
            strokes,
            stamp: self.stamp(place, &signature.stamp),
        }
    }

    fn start(&mut self) -> Option<(i16, i8, i8)> {
        let start = self.file.show.start.trim();
        let read: Option<Date> = start.parse().ok();
        if read.is_none() && !start.is_empty() {
            self.warn(
                Place::WorkStart,
                format!("{}: {start:?} is no date.", full_name(Place::WorkStart)),
                "It is kept as written and not used. Write it as 2026-05-04.",
            );
        }
        read.map(|date| (date.year(), date.month(), date.day()))
    }
}

impl From<&Clause> for site::Clause {
    fn from(clause: &Clause) -> Self {
        Self {
            key: clause.key.clone(),
            text: clause.text.clone(),
        }
    }
}

impl From<PictureOf> for site::PictureOf {
    /// Number 0 is none of them; it counts as one that is not there.
    fn from(of: PictureOf) -> Self {
        let idx = |number: usize| number.checked_sub(1).unwrap_or(usize::MAX);
        match of {
            PictureOf::AsFound => Self::AsFound,
            PictureOf::Pit(number) => Self::Pit(idx(number)),
            PictureOf::Sign(number) => Self::Sign(idx(number)),
            PictureOf::Day(number) => Self::Day(idx(number)),
            PictureOf::HandedOver => Self::HandedOver,
        }
    }
}

impl From<Language> for site::Language {
    fn from(language: Language) -> Self {
        match language {
            Language::English => Self::English,
            Language::Spanish => Self::Spanish,
        }
    }
}

impl From<site::Language> for Language {
    fn from(language: site::Language) -> Self {
        match language {
            site::Language::English => Self::English,
            site::Language::Spanish => Self::Spanish,
        }
    }
}
