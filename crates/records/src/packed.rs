//! A site as one file: a zip archive of `site.ron`, its list of changes and its pictures, that any program for archives opens. Its history
//! stays where it is.
//!
//! An archive comes from anywhere, so nothing of it is believed: not its names, not the sizes it states, not that it is one.

mod names;

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};

use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use self::names::{Named, named, plain_name};
use crate::changes::CHANGES;
use crate::failure::RecordError;
use crate::open::read_in_folder;
use crate::read::{LARGEST_FILE_BYTES, ReadError, read_site, text_of};
use crate::shelf::{Shelf, folder_name};
use crate::v1::SiteFile;
use crate::whole::{MachineDisk, beside, replace, settle, write_whole};

/// The folder of a site in which its pictures are.
const PICTURES: &str = "pictures";

/// Largest picture that is packed or unpacked: 64 MB.
pub const LARGEST_PICTURE_BYTES: u64 = 64 * 1024 * 1024;

/// Most pictures of one site.
pub const MOST_PICTURES: usize = 1000;

/// Largest archive, and the most that may come out of one: 1 GB.
pub const LARGEST_PACKED_BYTES: u64 = 1024 * 1024 * 1024;

/// Why a site could not be packed or unpacked. The path stands last.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PackError {
    /// The disk, or the site itself.
    #[error(transparent)]
    Record(#[from] RecordError),
    /// The file is no archive, or a broken one.
    #[error("this is no packed site, or only a part of one ({reason}): {}", .path.display())]
    NotPacked {
        /// What is wrong with it.
        reason: String,
        /// The archive.
        path: PathBuf,
    },
    /// Something stands in it that is no part of a site.
    #[error("it holds \"{name}\", which is no part of a packed site, so nothing of it was taken: {}", .path.display())]
    Stranger {
        /// Its name, with what cannot be shown replaced.
        name: String,
        /// The archive.
        path: PathBuf,
    },
    /// There is no site in it.
    #[error("it holds no site.ron, so it is no packed site: {}", .path.display())]
    NoSite {
        /// The archive.
        path: PathBuf,
    },
    /// The site in it cannot be read.
    #[error("its site.ron cannot be read, {error}: {}", .path.display())]
    Unreadable {
        /// Line, column and reason.
        error: ReadError,
        /// The archive.
        path: PathBuf,
    },
    /// Too much of something.
    #[error("{what} is more than the {limit} bytes that are taken: {}", .path.display())]
    TooLarge {
        /// What is too large.
        what: String,
        /// How much is taken.
        limit: u64,
        /// The archive or the picture.
        path: PathBuf,
    },
    /// More pictures than a site has.
    #[error("there are more than {limit} pictures: {}", .path.display())]
    TooMany {
        /// How many are taken.
        limit: usize,
        /// The archive or the folder of pictures.
        path: PathBuf,
    },
}

/// Packs the site in `folder` into a new file in `into`, named for its address; where such a file is there, with the first number that is
/// free. Gives the file.
///
/// # Errors
/// [`PackError`] with what stands in the way; then no file is left behind.
pub fn pack_into(folder: &Path, into: &Path) -> Result<PathBuf, PackError> {
    let (site, _) = read_in_folder(folder)?;
    fs::create_dir_all(into)
        .map_err(|error| RecordError::from_system("make a folder", into, &error))?;
    let name = folder_name(&site.address, &site.walk);
    let mut number = 1_u32;
    loop {
        let file = into.join(if number == 1 {
            format!("{name}.zip")
        } else {
            format!("{name}-{number}.zip")
        });
        match pack(folder, &file) {
            Err(PackError::Record(RecordError::AlreadyThere { .. })) if number < u32::MAX => {
                number += 1;
            }
            packed => return packed.map(|()| file),
        }
    }
}

/// Packs the site in `folder` into a new file: the same bytes for the same site. A file that is there is not written over.
///
/// # Errors
/// [`RecordError::AlreadyThere`] where there is one, and as [`pack_into`].
pub fn pack(folder: &Path, file: &Path) -> Result<(), PackError> {
    let (_, text) = read_in_folder(folder)?;
    let changes = changes_of(folder)?;
    let pictures = pictures_of(folder)?;
    let there = |_| RecordError::AlreadyThere {
        path: file.to_path_buf(),
    };
    if fs::symlink_metadata(file).is_ok() {
        return Err(there(()).into());
    }
    let half_made = beside(file);
    let written = write(&half_made, (&text, changes.as_deref()), &pictures)
        // A link to it under its name fails where one is there, which a rename would not.
        .and_then(|()| name_new(&half_made, file));
    if written.is_err() {
        // What is left of it takes room; whether it goes makes no difference to the error.
        let _ = fs::remove_file(&half_made);
    }
    written
}

fn name_new(half_made: &Path, file: &Path) -> Result<(), PackError> {
    let named = match fs::hard_link(half_made, file) {
        Ok(()) => fs::remove_file(half_made),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            return Err(RecordError::AlreadyThere {
                path: file.to_path_buf(),
            }
            .into());
        }
        // A file system without links, as on most cards and tablets.
        Err(_) => fs::rename(half_made, file),
    };
    named.map_err(|error| RecordError::from_system("write", file, &error).into())
}

/// The list of changes of a site, byte for byte; `None` where there is none.
fn changes_of(folder: &Path) -> Result<Option<Vec<u8>>, PackError> {
    let path = folder.join(CHANGES);
    let failed = |error: io::Error| RecordError::from_system("read", &path, &error);
    match fs::symlink_metadata(&path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        about if about.as_ref().is_ok_and(|about| !about.is_file()) => return Ok(None),
        about => about.map_err(failed)?,
    };
    let mut bytes = Vec::new();
    let file = File::open(&path).map_err(failed)?;
    file.take(LARGEST_FILE_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > LARGEST_FILE_BYTES {
        return Err(too_large(CHANGES.to_owned(), LARGEST_FILE_BYTES, &path));
    }
    Ok(Some(bytes))
}

/// The pictures of a site, by name. What stands beside them and is no plain file with a plain name is left where it is.
fn pictures_of(folder: &Path) -> Result<Vec<(String, PathBuf)>, PackError> {
    let path = folder.join(PICTURES);
    let failed = |error: io::Error| RecordError::from_system("list", &path, &error);
    let files = match fs::read_dir(&path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        files => files.map_err(failed)?,
    };
    let mut pictures = Vec::new();
    let mut n_bytes = 0_u64;
    for file in files {
        let file = file.map_err(failed)?;
        let about = fs::symlink_metadata(file.path())
            .map_err(|error| RecordError::from_system("read", &file.path(), &error))?;
        let Some(name) = file
            .file_name()
            .to_str()
            .filter(|name| plain_name(name))
            .map(str::to_owned)
        else {
            continue;
        };
        if !about.is_file() {
            continue;
        }
        n_bytes = n_bytes.saturating_add(about.len());
        if about.len() > LARGEST_PICTURE_BYTES {
            return Err(too_large(
                "a picture".to_owned(),
                LARGEST_PICTURE_BYTES,
                &file.path(),
            ));
        }
        pictures.push((name, file.path()));
    }
    if pictures.len() > MOST_PICTURES {
        return Err(PackError::TooMany {
            limit: MOST_PICTURES,
            path,
        });
    }
    if n_bytes > LARGEST_PACKED_BYTES - LARGEST_FILE_BYTES {
        return Err(too_large(
            "what all pictures take".to_owned(),
            LARGEST_PACKED_BYTES,
            &path,
        ));
    }
    pictures.sort();
    Ok(pictures)
}

fn write(
    file: &Path,
    (text, changes): (&str, Option<&[u8]>),
    pictures: &[(String, PathBuf)],
) -> Result<(), PackError> {
    let failed =
        |error: &io::Error| PackError::from(RecordError::from_system("write", file, error));
    let of_zip = |error: ZipError| match error {
        ZipError::Io(error) => failed(&error),
        other => failed(&io::Error::other(other)),
    };
    let created = OpenOptions::new()
        .write(true)
        .create(true)
        .truncate(true)
        .open(file);
    let mut archive = ZipWriter::new(created.map_err(|error| failed(&error))?);
    let options = SimpleFileOptions::default().large_file(false);
    let deflated = options.compression_method(CompressionMethod::Deflated);
    // Pictures are small as they are.
    let stored = options.compression_method(CompressionMethod::Stored);
    archive.start_file("site.ron", deflated).map_err(of_zip)?;
    archive
        .write_all(text.as_bytes())
        .map_err(|error| failed(&error))?;
    if let Some(changes) = changes {
        archive.start_file(CHANGES, deflated).map_err(of_zip)?;
        archive.write_all(changes).map_err(|error| failed(&error))?;
    }
    for (name, path) in pictures {
        archive
            .start_file(format!("{PICTURES}/{name}"), stored)
            .map_err(of_zip)?;
        let picture =
            File::open(path).map_err(|error| RecordError::from_system("read", path, &error))?;
        io::copy(&mut picture.take(LARGEST_PICTURE_BYTES), &mut archive)
            .map_err(|error| failed(&error))?;
    }
    let written = archive.finish().map_err(of_zip)?;
    written.sync_all().map_err(|error| failed(&error))
}

/// Unpacks a file into a new folder on the shelf, beside whatever is there, and gives the folder.
///
/// # Errors
/// [`PackError`] with what stands in the way; then nothing of it is on the shelf.
pub fn unpack(file: &Path, shelf: &Shelf) -> Result<PathBuf, PackError> {
    let mut archive = opened(file)?;
    let Looked {
        site,
        text,
        changes,
        pictures,
    } = looked_at(&mut archive, file)?;
    let folder = shelf.make_folder(&folder_name(&site.address, &site.walk))?;
    let taken = take_pictures(&mut archive, &pictures, &folder, file)
        .and_then(|()| match &changes {
            Some(bytes) => Ok(write_whole(&folder.join(CHANGES), bytes)?),
            None => Ok(()),
        })
        // Last of all: until it stands there the folder is no site.
        .and_then(|()| Ok(replace(&MachineDisk, &folder.join("site.ron"), &text)?))
        .and_then(|()| Ok(settle(&MachineDisk, &folder)?))
        .and_then(|()| Ok(settle(&MachineDisk, shelf.path())?));
    match taken {
        Ok(()) => Ok(folder),
        Err(error) => {
            // Only what was made here: the folder was not there before. The error that counts is the first one.
            let _ = fs::remove_dir_all(&folder);
            Err(error)
        }
    }
}

fn opened(file: &Path) -> Result<ZipArchive<File>, PackError> {
    let read_failed = |error: io::Error| RecordError::from_system("read", file, &error);
    // Asked before it is opened: opening a pipe would wait for its other end.
    let about = fs::metadata(file).map_err(read_failed)?;
    if !about.is_file() {
        return Err(RecordError::NotAFile {
            path: file.to_path_buf(),
        }
        .into());
    }
    if about.len() > LARGEST_PACKED_BYTES {
        return Err(too_large("it".to_owned(), LARGEST_PACKED_BYTES, file));
    }
    ZipArchive::new(File::open(file).map_err(read_failed)?).map_err(|error| of_archive(error, file))
}

/// A picture in an archive: where in it, and its name.
type PackedPicture = (usize, String);

/// What an archive holds.
struct Looked {
    site: SiteFile,
    text: String,
    changes: Option<Vec<u8>>,
    pictures: Vec<PackedPicture>,
}

/// Looks at everything in the archive before anything is written: the site, its text, and its pictures.
fn looked_at<R: Read + Seek>(
    archive: &mut ZipArchive<R>,
    file: &Path,
) -> Result<Looked, PackError> {
    if archive.len() > MOST_PICTURES + 3 {
        return Err(PackError::TooMany {
            limit: MOST_PICTURES,
            path: file.to_path_buf(),
        });
    }
    let (mut site, mut changes) = (None, None);
    let mut pictures: Vec<PackedPicture> = Vec::new();
    for idx in 0..archive.len() {
        let entry = archive
            .by_index_raw(idx)
            .map_err(|error| of_archive(error, file))?;
        let name = String::from_utf8_lossy(entry.name_raw()).into_owned();
        let is_plain =
            entry.name_raw() == name.as_bytes() && !entry.is_symlink() && !entry.encrypted();
        match named(&name).filter(|_| is_plain) {
            Some(Named::Site) => site = Some(idx),
            Some(Named::Changes) => changes = Some(idx),
            Some(Named::Picture(picture)) => {
                // A disk may hold `A.jpg` for `a.jpg`.
                let is_twice = pictures
                    .iter()
                    .any(|(_, other)| other.eq_ignore_ascii_case(picture));
                if is_twice {
                    return Err(stranger(&name, file));
                }
                pictures.push((idx, picture.to_owned()));
            }
            Some(Named::PicturesFolder) => {}
            None => return Err(stranger(&name, file)),
        }
    }
    let site = site.ok_or_else(|| PackError::NoSite {
        path: file.to_path_buf(),
    })?;
    let mut bytes = Vec::new();
    copy(
        archive,
        site,
        &mut bytes,
        ("its site.ron", LARGEST_FILE_BYTES),
        file,
    )?;
    let unreadable = |error| PackError::Unreadable {
        error,
        path: file.to_path_buf(),
    };
    let text = text_of(bytes).map_err(unreadable)?;
    let site = read_site(&text).map_err(unreadable)?;
    let changes = match changes {
        Some(idx) => {
            let mut bytes = Vec::new();
            let limit = ("its changes.txt", LARGEST_FILE_BYTES);
            copy(archive, idx, &mut bytes, limit, file)?;
            Some(bytes)
        }
        None => None,
    };
    Ok(Looked {
        site,
        text,
        changes,
        pictures,
    })
}

fn take_pictures<R: Read + Seek>(
    archive: &mut ZipArchive<R>,
    pictures: &[PackedPicture],
    folder: &Path,
    file: &Path,
) -> Result<(), PackError> {
    if pictures.is_empty() {
        return Ok(());
    }
    let into = folder.join(PICTURES);
    fs::create_dir(&into)
        .map_err(|error| RecordError::from_system("make a folder", &into, &error))?;
    let mut left = LARGEST_PACKED_BYTES;
    for (idx, name) in pictures {
        let path = into.join(name);
        let failed = |error: io::Error| RecordError::from_system("write", &path, &error);
        let mut picture = OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&path)
            .map_err(failed)?;
        let limit = ("one of its pictures", LARGEST_PICTURE_BYTES.min(left));
        left -= copy(archive, *idx, &mut picture, limit, file)?;
        picture.sync_all().map_err(failed)?;
    }
    settle(&MachineDisk, &into)?;
    Ok(())
}

/// Copies one file out of an archive, which may have stated any size. Gives how many bytes.
fn copy<R: Read + Seek>(
    archive: &mut ZipArchive<R>,
    idx: usize,
    to: &mut impl Write,
    (what, limit): (&str, u64),
    file: &Path,
) -> Result<u64, PackError> {
    let entry = archive
        .by_index(idx)
        .map_err(|error| of_archive(error, file))?;
    let n_bytes = io::copy(&mut entry.take(limit.saturating_add(1)), to).map_err(|error| {
        match error.kind() {
            io::ErrorKind::StorageFull
            | io::ErrorKind::QuotaExceeded
            | io::ErrorKind::PermissionDenied => {
                PackError::Record(RecordError::from_system("write", file, &error))
            }
            _ => PackError::NotPacked {
                reason: error.to_string(),
                path: file.to_path_buf(),
            },
        }
    })?;
    if n_bytes > limit {
        return Err(too_large(what.to_owned(), limit, file));
    }
    Ok(n_bytes)
}

fn of_archive(error: ZipError, file: &Path) -> PackError {
    match error {
        ZipError::Io(error) if error.kind() != io::ErrorKind::UnexpectedEof => {
            RecordError::from_system("read", file, &error).into()
        }
        other => PackError::NotPacked {
            reason: other.to_string(),
            path: file.to_path_buf(),
        },
    }
}

fn stranger(name: &str, file: &Path) -> PackError {
    let shown = |character: char| {
        if character.is_control() {
            '\u{FFFD}'
        } else {
            character
        }
    };
    PackError::Stranger {
        name: name.chars().take(100).map(shown).collect(),
        path: file.to_path_buf(),
    }
}

fn too_large(what: String, limit: u64, path: &Path) -> PackError {
    PackError::TooLarge {
        what,
        limit,
        path: path.to_path_buf(),
    }
}
