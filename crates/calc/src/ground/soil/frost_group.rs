//! How a soil takes frost: the groups of the published table, all that fit, the worst first.

use crate::measure::amount::plain;

/// A frost group, from the best to the worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FrostGroup {
    /// Does not heave.
    Nfs,
    /// May heave; a laboratory must say.
    Pfs,
    /// Gravels that heave little.
    S1,
    /// Sands that heave little.
    S2,
    /// Heaves.
    F1,
    /// Heaves more.
    F2,
    /// Heaves much.
    F3,
    /// Heaves most.
    F4,
}

impl FrostGroup {
    /// As the table writes it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Nfs => "NFS",
            Self::Pfs => "PFS",
            Self::S1 => "S1",
            Self::S2 => "S2",
            Self::F1 => "F1",
            Self::F2 => "F2",
            Self::F3 => "F3",
            Self::F4 => "F4",
        }
    }

    /// Whether it heaves, by the table; what only a laboratory can say counts as not.
    #[must_use]
    pub const fn heaves(self) -> bool {
        !matches!(self, Self::Nfs | Self::Pfs)
    }

    /// The frost-area soil support index; `None` for what does not heave.
    ///
    /// # Source
    /// UFC 3-260-02, Table 3-5: F1 and S1 9.0, F2 and S2 6.5, F3 and F4 3.5.
    #[must_use]
    pub const fn support_index(self) -> Option<f64> {
        match self {
            Self::Nfs | Self::Pfs => None,
            Self::S1 | Self::F1 => Some(9.0),
            Self::S2 | Self::F2 => Some(6.5),
            Self::F3 | Self::F4 => Some(3.5),
        }
    }
}

/// What the table must know of a soil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FrostSoil {
    /// More gravel than sand, with so many percent finer than 0.02 mm.
    Gravel {
        /// Percent finer than 0.02 mm.
        finer: f64,
    },
    /// Sand, with so many percent finer than 0.02 mm.
    Sand {
        /// Percent finer than 0.02 mm.
        finer: f64,
        /// Whether it is a very fine silty sand; `None` where that is not known.
        very_fine_silty: Option<bool>,
    },
    /// Silt of any kind.
    Silt,
    /// Clay of that plasticity index.
    Clay {
        /// Liquid less plastic limit; `None` where it was not tested.
        plasticity_index: Option<f64>,
    },
    /// Thin bands of silt and clay.
    VarvedClay,
}

/// One group that fits, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct FrostGroupFound {
    /// The group.
    pub group: FrostGroup,
    /// Its line in the table: `F2b`.
    pub line: &'static str,
    /// Why it fits.
    pub why: String,
}

/// The table that is used.
pub const TABLE: &str = "UFC 3-250-01, frost groups by percent finer than 0.02 mm";

/// The share finer than 0.02 mm by that of the fines: about a half, while the fines are under 18 %. `None` from there on.
///
/// # Source
/// A rough rule seen once, CRREL SR 97-13: weak.
#[must_use]
pub fn rough_finer_than_002(fines: f64) -> Option<f64> {
    (0.0..18.0).contains(&fines).then_some(fines / 2.0)
}

/// One line of the table for gravels or sands: group, line, least and most percent finer than 0.02 mm.
type Band = (FrostGroup, &'static str, f64, f64);

const GRAVEL: [Band; 6] = [
    (FrostGroup::F3, "F3a", 20.0, 100.0),
    (FrostGroup::F2, "F2a", 10.0, 20.0),
    (FrostGroup::F1, "F1", 6.0, 10.0),
    (FrostGroup::S1, "S1", 3.0, 6.0),
    (FrostGroup::Pfs, "PFS", 1.5, 3.0),
    (FrostGroup::Nfs, "NFS", 0.0, 1.5),
];

const SAND: [Band; 5] = [
    (FrostGroup::F3, "F3b", 15.0, 100.0),
    (FrostGroup::F2, "F2b", 6.0, 15.0),
    (FrostGroup::S2, "S2", 3.0, 6.0),
    (FrostGroup::Pfs, "PFS", 3.0, 10.0),
    (FrostGroup::Nfs, "NFS", 0.0, 3.0),
];

/// Plasticity index that parts the clays of the table: it names those above and those below.
const CLAY_INDEX: f64 = 12.0;

/// Every group of the table that fits, the worst first; empty for a share that is no number from 0 to 100.
///
/// # Source
/// UFC 3-250-01, Tables 19-2 and 20-2. "Over 15" and "over 20" begin past the number, all other bands take both their ends.
#[must_use]
pub fn frost_groups(soil: FrostSoil) -> Vec<FrostGroupFound> {
    let found = |group, line, why: &str| FrostGroupFound {
        group,
        line,
        why: why.to_owned(),
    };
    match soil {
        FrostSoil::Gravel { finer } => from_bands(&GRAVEL, finer, "gravelly soils"),
        FrostSoil::Sand {
            finer,
            very_fine_silty,
        } => {
            let mut groups = from_bands(&SAND, finer, "sands");
            if finer > 15.0 && finer <= 100.0 {
                let worse = "very fine silty sands with over 15 % finer than 0.02 mm";
                match very_fine_silty {
                    Some(true) => groups = vec![found(FrostGroup::F4, "F4b", worse)],
                    Some(false) => {}
                    None => groups.insert(
                        0,
                        found(
                            FrostGroup::F4,
                            "F4b",
                            "very fine silty sands with over 15 % finer than 0.02 mm, and whether this one is very fine is not known",
                        ),
                    ),
                }
            }
            groups
        }
        FrostSoil::Silt => vec![found(FrostGroup::F4, "F4a", "all silts")],
        FrostSoil::VarvedClay => vec![found(
            FrostGroup::F4,
            "F4d",
            "clays in thin bands with silt",
        )],
        FrostSoil::Clay { plasticity_index } => clay(plasticity_index),
    }
}

fn clay(plasticity_index: Option<f64>) -> Vec<FrostGroupFound> {
    let low = |why: String| FrostGroupFound {
        group: FrostGroup::F4,
        line: "F4c",
        why,
    };
    let high = |why: String| FrostGroupFound {
        group: FrostGroup::F3,
        line: "F3c",
        why,
    };
    match plasticity_index {
        Some(index) if index > CLAY_INDEX => vec![high(format!(
            "clays with a plasticity index over 12, here {}",
            plain(index)
        ))],
        Some(index) if index < CLAY_INDEX => vec![low(format!(
            "clays with a plasticity index under 12, here {}",
            plain(index)
        ))],
        Some(index) if index.is_finite() => {
            let why = "the table names clays over 12 and under 12, and this one has exactly 12";
            vec![low(why.to_owned()), high(why.to_owned())]
        }
        Some(_) => Vec::new(),
        None => {
            let why = "the plasticity index was not tested";
            vec![
                low(format!("clays with a plasticity index under 12: {why}")),
                high(format!("clays with a plasticity index over 12: {why}")),
            ]
        }
    }
}

fn from_bands(bands: &[Band], finer: f64, what: &str) -> Vec<FrostGroupFound> {
    let fits = |&&(_, _, least, most): &&Band| {
        let is_over = most >= 100.0;
        finer <= most
            && if is_over {
                finer > least
            } else {
                finer >= least
            }
    };
    let fitting: Vec<&Band> = bands.iter().filter(fits).collect();
    let n_fitting = fitting.len();
    fitting
        .into_iter()
        .map(|&(group, line, least, most)| {
            let band = if most >= 100.0 {
                format!("over {} %", plain(least))
            } else {
                format!("{} to {} %", plain(least), plain(most))
            };
            let more = match (n_fitting > 1, group) {
                (true, FrostGroup::Pfs) => {
                    "; the bands overlap, a laboratory's frost test would decide"
                }
                (true, _) => "; the bands overlap",
                (false, FrostGroup::Pfs) => "; a laboratory's frost test would decide",
                (false, _) => "",
            };
            FrostGroupFound {
                group,
                line,
                why: format!(
                    "{what} with {band} finer than 0.02 mm, here {}{more}",
                    plain(finer)
                ),
            }
        })
        .collect()
}
