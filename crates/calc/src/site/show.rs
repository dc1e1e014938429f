//! What is shown, agreed and handed over: pictures, agreements with their signatures, the crew's language.

use super::Stamp;

/// What is kept of a site beside its readings.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShowInput {
    /// What the crew sheet and the cautions are written in.
    pub crew_reads: Language,
    /// Pictures, in the order in which they were added.
    pub pictures: Vec<Picture>,
    /// What was agreed, first to last: the last one stands.
    pub agreements: Vec<Agreement>,
    /// Day on which the work is to start: year, month, day.
    pub start: Option<(i16, i8, i8)>,
}

/// Who hands a sheet over, in that person's own words. It is no part of a site.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Letterhead {
    /// Name of the firm.
    pub name: String,
    /// Lines of its address.
    pub address: Vec<String>,
    /// Telephone; empty where none is given.
    pub phone: String,
    /// Number of the licence, with the word that stands before it; empty where none is given.
    pub licence: String,
    /// What is insured, and with whom; empty where nothing is given.
    pub insurance: String,
    /// Terms of the firm's own, a sentence or two each: when is paid, how long the price holds.
    pub terms: Vec<String>,
}

/// A language that the crew sheet and the cautions are written in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Language {
    /// English, as in the United States.
    #[default]
    English,
    /// Spanish, as in the United States.
    Spanish,
}

/// One picture: a file in the folder `pictures` of the site.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// Name of the file, without a folder.
    pub file: String,
    /// What it shows, in the person's own words; empty where nothing was said.
    pub caption: String,
    /// What it belongs to.
    pub of: PictureOf,
    /// When it was added, by whom, on which device.
    pub stamp: Stamp,
}

/// What a picture belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PictureOf {
    /// The walk as found.
    #[default]
    AsFound,
    /// A pit, by its number in [`super::Site::pits`], from 0.
    Pit(usize),
    /// A sign, by its number in [`super::Site::signs`], from 0.
    Sign(usize),
    /// A day of the log, by its number in [`super::BuildInput::days`], from 0.
    Day(usize),
    /// The walk as handed over.
    HandedOver,
}

/// What was agreed, word for word. It is never changed: a later one stands beside it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Agreement {
    /// The clauses as they were signed.
    pub clauses: Vec<Clause>,
    /// SHA-256 of the clauses, in small hexadecimal figures, as it was when they were signed.
    pub digest: String,
    /// Whether the clauses are, by their digest, those that were signed.
    pub is_as_signed: bool,
    /// Who signed.
    pub signatures: Vec<Signature>,
}

/// One clause of an agreement.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Clause {
    /// What it is about, such as `scope-base` or `price`: the same in every agreement.
    pub key: String,
    /// What it says.
    pub text: String,
}

/// A signature by finger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Signature {
    /// Whose, in letters.
    pub name: String,
    /// Strokes of the finger, each through these points: thousandths of the field's width to the right and down from its upper left corner.
    pub strokes: Vec<Vec<(i32, i32)>>,
    /// When, by whom it was taken, on which device.
    pub stamp: Stamp,
}
