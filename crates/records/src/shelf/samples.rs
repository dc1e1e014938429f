//! The sample sites, built in: folder name and `site.ron`.

/// In the order in which they are copied.
pub const SAMPLES: [(&str, &str); 7] = [
    (
        "short-straight-sunk-on-sand",
        include_str!("../../../../sample-sites/short-straight-sunk-on-sand/site.ron"),
    ),
    (
        "curved-to-a-drive",
        include_str!("../../../../sample-sites/curved-to-a-drive/site.ron"),
    ),
    (
        "clay-seep-falls-to-house",
        include_str!("../../../../sample-sites/clay-seep-falls-to-house/site.ron"),
    ),
    (
        "metric",
        include_str!("../../../../sample-sites/metric/site.ron"),
    ),
    (
        "half-measured",
        include_str!("../../../../sample-sites/half-measured/site.ron"),
    ),
    (
        "steep-with-steps",
        include_str!("../../../../sample-sites/steep-with-steps/site.ron"),
    ),
    (
        "clay-with-frost",
        include_str!("../../../../sample-sites/clay-with-frost/site.ron"),
    ),
];
