//! A picture is brought into the folder: the file as it is, under a name of its own, whole or not at all.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::Read as _;
use std::path::Path;

use super::name::{is_plain, path_of};
use super::{LARGEST_PICTURE_BYTES, PictureError, pictures_folder};
use crate::whole::write_whole;

/// How a picture is stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    Jpeg,
    Png,
}

impl PictureKind {
    /// By its first bytes, whatever the file is called.
    ///
    /// Source: JPEG begins with the marker SOI and that of a segment (ISO/IEC 10918-1 B.1.1), PNG with its signature (ISO/IEC
    /// 15948, 5.2).
    pub fn of(first: &[u8]) -> Option<Self> {
        if first.starts_with(&[0xff, 0xd8, 0xff]) {
            Some(Self::Jpeg)
        } else if first.starts_with(b"\x89PNG\r\n\x1a\n") {
            Some(Self::Png)
        } else {
            None
        }
    }

    const fn ending(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
        }
    }
}

/// Copies a file into the folder of pictures; gives the name that it has there, made of the date and a number. A file that lies in
/// that folder already stays as it is.
///
/// # Errors
/// [`PictureError`]; nothing of it is in the folder then.
pub fn bring_in(site_folder: &Path, from: &Path, date: &str) -> Result<String, PictureError> {
    let called = called(from);
    let folder = pictures_folder(site_folder);
    // Links are followed: what a person drops is what it leads to.
    let (bytes, kind) = bytes_of(from, &called)?;
    if let Some(file) = name_within(&folder, from) {
        return Ok(file);
    }
    let not_kept = |why: String| PictureError::NotKept {
        file: called.clone(),
        why,
    };
    refuse_a_linked_folder(&folder).map_err(|error| match error {
        PictureError::NotAFile { file } => not_kept(format!("{file} is no folder of its own")),
        other => other,
    })?;
    fs::create_dir_all(&folder)
        .map_err(|error| not_kept(format!("{error}: {}", folder.display())))?;
    let taken =
        names_in(&folder).map_err(|error| not_kept(format!("{error}: {}", folder.display())))?;
    let file = free_name(date, kind, &taken);
    write_whole(&folder.join(&file), &bytes).map_err(|error| not_kept(error.to_string()))?;
    Ok(file)
}

/// What a picture of the site is stored as, read whole.
///
/// # Errors
/// [`PictureError`]. A link is not followed: it could lead out of the folder.
pub fn bytes_in_folder(
    site_folder: &Path,
    file: &str,
) -> Result<(Vec<u8>, PictureKind), PictureError> {
    let path = plain_file(site_folder, file)?;
    bytes_of(&path, file)
}

/// The path of a picture of the site, which is there and is a file of its own.
///
/// # Errors
/// [`PictureError`].
pub fn plain_file(site_folder: &Path, file: &str) -> Result<std::path::PathBuf, PictureError> {
    let path = path_of(site_folder, file)?;
    refuse_a_linked_folder(&pictures_folder(site_folder))?;
    let about = fs::symlink_metadata(&path).map_err(|error| PictureError::reading(file, &error))?;
    if about.is_file() {
        Ok(path)
    } else {
        Err(PictureError::NotAFile {
            file: file.to_owned(),
        })
    }
}

/// Pictures in the folder that are in none of `named`, by name. Empty where there is no folder, or it cannot be read.
#[must_use]
pub fn unnamed(site_folder: &Path, named: &BTreeSet<String>) -> Vec<String> {
    let folder = pictures_folder(site_folder);
    if refuse_a_linked_folder(&folder).is_err() {
        return Vec::new();
    }
    let names = names_in(&folder).unwrap_or_default();
    names
        .into_iter()
        .filter(|file| !named.contains(file) && is_plain(file))
        .filter(|file| {
            plain_file(site_folder, file)
                .ok()
                .and_then(|path| first_bytes(&path))
                .is_some_and(|first| PictureKind::of(&first).is_some())
        })
        .collect()
}

fn refuse_a_linked_folder(folder: &Path) -> Result<(), PictureError> {
    match fs::symlink_metadata(folder) {
        Ok(about) if !about.is_dir() => Err(PictureError::NotAFile {
            file: "pictures".to_owned(),
        }),
        _ => Ok(()),
    }
}

fn first_bytes(path: &Path) -> Option<Vec<u8>> {
    let mut first = Vec::new();
    File::open(path)
        .ok()?
        .take(8)
        .read_to_end(&mut first)
        .ok()?;
    Some(first)
}

fn bytes_of(path: &Path, file: &str) -> Result<(Vec<u8>, PictureKind), PictureError> {
    let failed = |error| PictureError::reading(file, &error);
    let too_large = |bytes| PictureError::TooLarge {
        file: file.to_owned(),
        bytes,
    };
    // Asked before it is opened: opening a pipe would wait for its other end.
    let about = fs::metadata(path).map_err(failed)?;
    if !about.is_file() {
        return Err(PictureError::NotAFile {
            file: file.to_owned(),
        });
    }
    if about.len() > LARGEST_PICTURE_BYTES {
        return Err(too_large(about.len()));
    }
    let mut bytes = Vec::new();
    let opened = File::open(path).map_err(failed)?;
    // It may grow while it is read.
    opened
        .take(LARGEST_PICTURE_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    let n_bytes = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    if n_bytes > LARGEST_PICTURE_BYTES {
        return Err(too_large(n_bytes));
    }
    match PictureKind::of(&bytes) {
        Some(kind) => Ok((bytes, kind)),
        None => Err(PictureError::NeitherJpegNorPng {
            file: file.to_owned(),
        }),
    }
}

/// What a file is called where it comes from.
fn called(from: &Path) -> String {
    from.file_name()
        .unwrap_or(from.as_os_str())
        .to_string_lossy()
        .into_owned()
}

/// The name of a file that lies in the folder already.
fn name_within(folder: &Path, from: &Path) -> Option<String> {
    let lies_in = fs::canonicalize(from.parent()?).ok()?;
    let name = from.file_name()?.to_str()?;
    (lies_in == fs::canonicalize(folder).ok()? && is_plain(name)).then(|| name.to_owned())
}

fn names_in(folder: &Path) -> std::io::Result<BTreeSet<String>> {
    let mut names = BTreeSet::new();
    for entry in fs::read_dir(folder)? {
        if let Ok(name) = entry?.file_name().into_string() {
            names.insert(name);
        }
    }
    Ok(names)
}

/// The first number of that date that no file has, whatever its ending and its case.
fn free_name(date: &str, kind: PictureKind, taken: &BTreeSet<String>) -> String {
    let stems: BTreeSet<String> = taken
        .iter()
        .map(|name| {
            let stem = name.split_once('.').map_or(name.as_str(), |(stem, _)| stem);
            stem.to_lowercase()
        })
        .collect();
    let date = if is_plain(date) { date } else { "undated" };
    let mut number = 1_u32;
    let mut stem = format!("{date}-{number:02}");
    while stems.contains(&stem) {
        number += 1;
        stem = format!("{date}-{number:02}");
    }
    format!("{stem}.{}", kind.ending())
}

#[cfg(test)]
mod tests {
    use super::*;

    const JPEG: &[u8] = &[0xff, 0xd8, 0xff, 0xe0, 0, 2, 0xff, 0xd9];

    #[test]
    fn a_file_is_copied_byte_for_byte_under_a_name_of_its_own() {
        let place = tempfile::tempdir().unwrap();
        let site = place.path().join("the \"old\" walk");
        fs::create_dir(&site).unwrap();
        let from = place.path().join("IMG 4 \"door\".JPEG");
        fs::write(&from, JPEG).unwrap();
        for expected in ["2026-05-04-01.jpg", "2026-05-04-02.jpg"] {
            let file = bring_in(&site, &from, "2026-05-04").unwrap();
            assert_eq!(file, expected);
            assert_eq!(fs::read(pictures_folder(&site).join(&file)).unwrap(), JPEG);
        }
        fs::write(&from, b"\x89PNG\r\n\x1a\nrest").unwrap();
        assert_eq!(
            bring_in(&site, &from, "2026-05-04").unwrap(),
            "2026-05-04-03.png"
        );
        assert_eq!(bring_in(&site, &from, "../x").unwrap(), "undated-01.png");
        assert_eq!(names_in(&pictures_folder(&site)).unwrap().len(), 4);
    }

    #[test]
    fn a_file_that_lies_there_already_is_not_copied() {
        let site = tempfile::tempdir().unwrap();
        let folder = pictures_folder(site.path());
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join("stairs.jpg"), JPEG).unwrap();
        let file = bring_in(site.path(), &folder.join("stairs.jpg"), "2026-05-04").unwrap();
        assert_eq!(file, "stairs.jpg");
        assert_eq!(names_in(&folder).unwrap().len(), 1);
    }

    #[track_caller]
    fn check_refused(from: &Path, words: &str) {
        let site = tempfile::tempdir().unwrap();
        let error = bring_in(site.path(), from, "2026-05-04").unwrap_err();
        assert_eq!(error.to_string(), words);
        assert_eq!(fs::read_dir(site.path()).unwrap().count(), 0);
    }

    #[test]
    fn what_cannot_be_taken_in_says_why_and_leaves_nothing() {
        let place = tempfile::tempdir().unwrap();
        let at = |name: &str| place.path().join(name);
        check_refused(&at("gone.jpg"), "gone.jpg is not there");
        fs::create_dir(at("album.jpg")).unwrap();
        check_refused(
            &at("album.jpg"),
            "album.jpg is a folder or a link, and no file of its own",
        );
        fs::write(at("notes.jpg"), "no picture").unwrap();
        check_refused(
            &at("notes.jpg"),
            "notes.jpg is neither a JPEG nor a PNG by its first bytes",
        );
        fs::write(at("empty.png"), "").unwrap();
        check_refused(
            &at("empty.png"),
            "empty.png is neither a JPEG nor a PNG by its first bytes",
        );
        // A file with a hole takes no room on the disk.
        let large = File::create(at("film.jpg")).unwrap();
        large.set_len(40_000_001).unwrap();
        check_refused(&at("film.jpg"), "film.jpg has 40.1 MB; 40 MB is the most");
    }

    #[test]
    fn a_folder_that_cannot_be_made_is_told() {
        let place = tempfile::tempdir().unwrap();
        let from = place.path().join("a.jpg");
        fs::write(&from, JPEG).unwrap();
        let site = place.path().join("site");
        fs::create_dir(&site).unwrap();
        fs::write(site.join("pictures"), "a file stands there").unwrap();
        let error = bring_in(&site, &from, "2026-05-04").unwrap_err();
        assert_eq!(
            error.to_string(),
            "a.jpg cannot be kept: pictures is no folder of its own"
        );
    }

    #[cfg(unix)]
    #[test]
    fn a_link_in_the_folder_is_not_followed() {
        let place = tempfile::tempdir().unwrap();
        let site = place.path().join("site");
        let folder = pictures_folder(&site);
        fs::create_dir_all(&folder).unwrap();
        fs::write(place.path().join("elsewhere.jpg"), JPEG).unwrap();
        std::os::unix::fs::symlink(place.path().join("elsewhere.jpg"), folder.join("a.jpg"))
            .unwrap();
        let error = bytes_in_folder(&site, "a.jpg").unwrap_err();
        assert_eq!(
            error,
            PictureError::NotAFile {
                file: "a.jpg".to_owned()
            }
        );
        assert!(unnamed(&site, &BTreeSet::new()).is_empty());
        let error = bytes_in_folder(&site, "../../elsewhere.jpg").unwrap_err();
        assert!(matches!(error, PictureError::NoName { .. }), "{error}");
    }

    #[test]
    fn files_that_the_record_does_not_name_are_found() {
        let site = tempfile::tempdir().unwrap();
        assert!(unnamed(site.path(), &BTreeSet::new()).is_empty());
        let folder = pictures_folder(site.path());
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join("b c.jpg"), JPEG).unwrap();
        fs::write(folder.join("a.jpg"), JPEG).unwrap();
        fs::write(folder.join("notes.txt"), "the door sticks").unwrap();
        fs::write(folder.join("d.jpg.new"), JPEG.get(..2).unwrap()).unwrap();
        assert_eq!(unnamed(site.path(), &BTreeSet::new()), ["a.jpg", "b c.jpg"]);
        let named = BTreeSet::from(["a.jpg".to_owned()]);
        assert_eq!(unnamed(site.path(), &named), ["b c.jpg"]);
    }
}
