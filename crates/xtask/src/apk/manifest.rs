//! The manifest for the level of Android that a package is made against.

/// Rows that an older Android does not know, each with the first level that does.
const NEWER: [(&str, u32); 2] = [
    ("android:dataExtractionRules", 31),
    ("android:enableOnBackInvokedCallback", 33),
];

/// The manifest without what `level` does not know, and the names of that. Such a row stands on a line of its own.
pub fn for_level(manifest: &str, level: u32) -> (String, Vec<&'static str>) {
    let mut left_out = Vec::new();
    let lines = manifest.lines().filter(|line| {
        let newer = NEWER.iter().find(|(name, since)| {
            *since > level
                && line
                    .trim_start()
                    .strip_prefix(name)
                    .is_some_and(|rest| rest.starts_with('='))
        });
        left_out.extend(newer.map(|(name, _)| *name));
        newer.is_none()
    });
    let kept: Vec<&str> = lines.collect();
    (kept.join("\n") + "\n", left_out)
}

/// The number that Android orders versions by, from `major.minor.patch`.
pub fn version_code(version: &str) -> u32 {
    version
        .split('.')
        .map(|part| part.parse::<u32>().unwrap_or(0).min(99))
        .fold(0, |code, part| code * 100 + part)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MANIFEST: &str = include_str!("../../../android/manifest/AndroidManifest.xml");

    #[test]
    fn an_older_level_gets_what_it_knows() {
        let (whole, left_out) = for_level(MANIFEST, 34);
        assert_eq!((whole.as_str(), left_out.len()), (MANIFEST, 0));
        let (known, left_out) = for_level(MANIFEST, 29);
        assert_eq!(left_out, NEWER.map(|(name, _)| name));
        assert_eq!(known.lines().count() + 2, MANIFEST.lines().count());
    }

    #[test]
    fn it_asks_for_nothing_and_is_never_made_twice() {
        assert!(!MANIFEST.contains("uses-permission"));
        assert!(MANIFEST.contains("android:allowBackup=\"false\""));
        // Everything of a configuration that Android 30 knows: what is not listed makes the activity anew.
        let changes = MANIFEST.split("android:configChanges=\"").nth(1).unwrap();
        let changes: Vec<&str> = changes.split('"').next().unwrap().split('|').collect();
        for change in [
            "mcc",
            "mnc",
            "locale",
            "touchscreen",
            "keyboard",
            "keyboardHidden",
            "navigation",
            "screenLayout",
            "fontScale",
            "uiMode",
            "orientation",
            "density",
            "screenSize",
            "smallestScreenSize",
            "layoutDirection",
            "colorMode",
        ] {
            assert!(changes.contains(&change), "{change}");
        }
    }

    #[test]
    fn versions_rise() {
        assert_eq!(version_code("0.1.0"), 100);
        assert_eq!(version_code("1.2.3"), 10_203);
    }
}
