//! Which names in an archive are part of a site. No other is taken, so that none can lead out of the folder that is made for it.

use crate::changes::CHANGES;

/// What a name in an archive stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Named<'a> {
    /// The record.
    Site,
    /// The list of changes.
    Changes,
    /// A picture, by its name alone.
    Picture(&'a str),
    /// The folder of the pictures, which some programs pack as well.
    PicturesFolder,
}

/// What a name stands for; `None` for any other.
pub fn named(name: &str) -> Option<Named<'_>> {
    match name {
        "site.ron" => Some(Named::Site),
        CHANGES => Some(Named::Changes),
        "pictures/" => Some(Named::PicturesFolder),
        _ => name
            .strip_prefix("pictures/")
            .filter(|picture| plain_name(picture))
            .map(Named::Picture),
    }
}

/// Whether every file system takes it as the name of a plain file, and as nothing else.
pub fn plain_name(name: &str) -> bool {
    let stem = name
        .split('.')
        .next()
        .unwrap_or_default()
        .to_ascii_lowercase();
    let is_device = matches!(stem.as_str(), "con" | "prn" | "aux" | "nul")
        || stem
            .strip_prefix("com")
            .or_else(|| stem.strip_prefix("lpt"))
            .is_some_and(|rest| rest.len() == 1);
    let is_taken = |character: char| !character.is_control() && !r#"/\:*?"<>|"#.contains(character);
    !name.is_empty()
        && name.len() <= 120
        && !name.starts_with(['.', ' '])
        && !name.ends_with(['.', ' '])
        && !is_device
        && name.chars().all(is_taken)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_site_and_its_pictures_are_taken() {
        assert_eq!(named("site.ron"), Some(Named::Site));
        assert_eq!(named("changes.txt"), Some(Named::Changes));
        assert_eq!(named("pictures/"), Some(Named::PicturesFolder));
        for name in [
            "1.jpg",
            "patio hinten ü.png",
            "2026-11-25 door.jpeg",
            "console.jpg",
        ] {
            assert_eq!(
                named(&format!("pictures/{name}")),
                Some(Named::Picture(name))
            );
        }
    }

    #[test]
    fn whatever_leads_elsewhere_is_not() {
        for name in [
            "",
            "/",
            "/site.ron",
            "./site.ron",
            "../site.ron",
            "Site.ron",
            "site.ron/",
            "site.ron.new",
            "history/1.ron",
            ".lock",
            "pictures",
            "pictures//1.jpg",
            "/pictures/1.jpg",
            "pictures/../site.ron",
            "pictures/..",
            "pictures/.",
            "pictures/../../x",
            "pictures/a/b.jpg",
            r"pictures\1.jpg",
            r"pictures/..\..\x",
            "pictures/C:x",
            "pictures/.hidden",
            "pictures/a\0b",
            "pictures/a\nb",
            "pictures/nul",
            "pictures/COM1.jpg",
            "pictures/x.",
            "pictures/x ",
            "pictures/a*b",
            "PICTURES/1.jpg",
        ] {
            assert_eq!(named(name), None, "{name:?}");
        }
        assert_eq!(named(&format!("pictures/{}", "x".repeat(121))), None);
    }
}
