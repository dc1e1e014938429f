//! Names of picture files: none of them leads out of its folder.

use std::path::{Component, Path, PathBuf};

use super::{PictureError, pictures_folder};

/// The file of a name that stands in a record, which is not opened.
///
/// # Errors
/// [`PictureError::NoName`] where the name is none or leads elsewhere, on whatever system it was written.
pub fn path_of(site_folder: &Path, file: &str) -> Result<PathBuf, PictureError> {
    if is_plain(file) {
        Ok(pictures_folder(site_folder).join(file))
    } else {
        Err(PictureError::NoName {
            file: file.to_owned(),
        })
    }
}

/// Whether a name is that of a file and no way to another place: a record may come from another system, so that what parts folders
/// on any of them is refused on all.
pub fn is_plain(file: &str) -> bool {
    let mut parts = Path::new(file).components();
    let is_one = matches!(
        (parts.next(), parts.next()),
        (Some(Component::Normal(part)), None) if part == file
    );
    is_one && !file.contains(['/', '\\', ':', '\0']) && file.trim() != ""
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(file: &str, expected: bool) {
        assert_eq!(is_plain(file), expected, "{file:?}");
    }

    #[test]
    fn no_name_leads_out_of_the_folder() {
        check("2026-05-04-1.jpg", true);
        check("the \"low\" end, 2nd step.JPG", true);
        check("señal número 2.png", true);
        check("..jpg", true);
        check("", false);
        check("  ", false);
        check(".", false);
        check("..", false);
        check("../site.ron", false);
        check("..\\site.ron", false);
        check("/etc/passwd", false);
        check("C:\\walk.jpg", false);
        check("C:walk.jpg", false);
        check("pits/1.jpg", false);
        check("1.jpg/", false);
        check("./1.jpg", false);
        check("1.jpg\0", false);
    }
}
