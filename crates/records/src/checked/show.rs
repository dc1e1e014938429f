//! What is shown, agreed and handed over, checked.

use underbrick_calc::place::Place;
use underbrick_calc::site;

use super::Check;
use crate::v1::{Agreement, Language, PictureOf};

impl Check<'_> {
    pub(super) fn show(&mut self) -> site::ShowInput {
        let show = &self.file.show;
        site::ShowInput {
            crew_reads: match show.crew_reads {
                Language::English => site::Language::English,
                Language::Spanish => site::Language::Spanish,
            },
            pictures: show
                .pictures
                .iter()
                .map(|picture| site::Picture {
                    file: picture.file.clone(),
                    caption: picture.caption.clone(),
                    of: picture.of.into(),
                    stamp: self.stamp(Place::Site, &picture.stamp),
                })
                .collect(),
            agreements: show
                .agreements
                .iter()
                .map(|agreement| self.agreement(agreement))
                .collect(),
        }
    }

    fn agreement(&mut self, agreement: &Agreement) -> site::Agreement {
        site::Agreement {
            clauses: agreement
                .clauses
                .iter()
                .map(|clause| site::Clause {
                    key: clause.key.clone(),
                    text: clause.text.clone(),
                })
                .collect(),
            digest: agreement.digest.clone(),
            signatures: agreement
                .signatures
                .iter()
                .map(|signature| site::Signature {
                    name: signature.name.clone(),
                    strokes: signature.strokes.clone(),
                    stamp: self.stamp(Place::Site, &signature.stamp),
                })
                .collect(),
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
