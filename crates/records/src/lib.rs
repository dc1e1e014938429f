//! The folder of sites: `site.ron` as plain text, whole-or-nothing writes, history. Knows nothing of screens, paper or formulas;
//! what a length means it asks of `underbrick_calc`.
//!
//! [`SiteFile`] is a site as typed: every length is text with its unit, and an empty text is a value that was not measured.
//! [`SiteFile::checked`] turns it into the checked types of the calculation, and keeps what cannot be read as typed.

pub mod v1;

mod local_time;
mod written;

mod agreed;
mod book_edits;
mod build_edits;
mod edits;
mod lay_edits;
mod normalised;
mod order_edits;
mod picture_edits;
mod values;

mod checked;

mod catalogue;
mod causes;
mod fields_in;
mod own_file;
mod own_tables;
mod prices;

mod letterhead;

mod layout;
mod read;

mod failure;

mod whole;

mod history;
mod steps;

mod changes;

mod lock;

mod keeper;

pub mod pictures;

mod open;

mod shelf;

mod packed;

mod settings;

mod aside;

pub use agreed::{AgreeFault, LARGEST_SIGNATURE, agreement_bytes, digest};
pub use aside::{Aside, AsideNews, write_into};
pub use catalogue::catalogue;
pub use causes::{BUILT_IN_CAUSES, read_causes, read_own_causes};
pub use changes::{Change, ChangeFault, ChangeList, How, Noted};
pub use failure::RecordError;
pub use history::{History, Step};
pub use keeper::{KeepStatus, Keeper};
pub use letterhead::{STARTER_LETTERHEAD, read_letterhead};
pub use local_time::read_time_zone;
pub use open::OpenSite;
pub use own_file::OwnFile;
pub use own_tables::{OwnRead, OwnTables};
pub use packed::{
    LARGEST_PACKED_BYTES, LARGEST_PICTURE_BYTES, MOST_PICTURES, PackError, pack, pack_into, unpack,
};
pub use prices::{BUILT_IN_PRICES, read_prices};
pub use read::{LARGEST_FILE_BYTES, ReadError, read_site, write_site};
pub use settings::{Light, Settings, SettingsKeeper};
pub use shelf::{Entry, EntryState, Shelf};
pub use v1::SiteFile;
pub use whole::write_whole;
