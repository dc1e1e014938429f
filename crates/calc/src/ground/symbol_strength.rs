//! How strong ground is by its symbol alone, where nobody drove a cone into it.

use super::strength::Cbr;

/// The published range of CBR for soils of one symbol.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SymbolStrength {
    /// Weakest: what is designed for.
    pub least: Cbr,
    /// Strongest.
    pub most: Cbr,
}

/// Where the ranges stand.
pub const TABLE: &str = "FHWA-NHI-05-037, table 5-28";

/// Symbol, least and most CBR.
const RANGES: [(&str, f64, f64); 14] = [
    ("GW", 60.0, 80.0),
    ("GP", 35.0, 60.0),
    ("GM", 40.0, 80.0),
    ("GC", 20.0, 40.0),
    ("SW", 20.0, 40.0),
    ("SP", 15.0, 25.0),
    ("SM", 20.0, 40.0),
    ("SC", 10.0, 20.0),
    ("ML", 5.0, 15.0),
    ("CL", 5.0, 15.0),
    ("OL", 4.0, 8.0),
    ("MH", 4.0, 8.0),
    ("CH", 3.0, 5.0),
    ("OH", 3.0, 5.0),
];

/// The range of a symbol; a double one, `SW-SC`, takes the lower of both at each end. `None` for what is no symbol.
///
/// # Source
/// [`TABLE`], after the Corps of Engineers (1953), seen as transcribed by others. That the lower of two counts is common practice, no
/// source.
#[must_use]
pub fn by_symbol(symbol: &str) -> Option<SymbolStrength> {
    let mut together: Option<SymbolStrength> = None;
    for part in symbol.split('-') {
        let (_, least, most) = RANGES.iter().find(|(name, ..)| *name == part)?;
        let (least, most) = (Cbr::of_percent(*least), Cbr::of_percent(*most));
        together = Some(match together {
            None => SymbolStrength { least, most },
            Some(before) => SymbolStrength {
                least: if least < before.least {
                    least
                } else {
                    before.least
                },
                most: if most < before.most {
                    most
                } else {
                    before.most
                },
            },
        });
    }
    together
}

impl SymbolStrength {
    /// `5 to 15`.
    #[must_use]
    pub fn words(self) -> String {
        let plain = |cbr: Cbr| format!("{:.0}", cbr.percent());
        format!("{} to {}", plain(self.least), plain(self.most))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Category;

    #[track_caller]
    fn check(symbol: &str, words: &str, category: Category) {
        let found = by_symbol(symbol).unwrap();
        assert_eq!(found.words(), words, "{symbol}");
        assert_eq!(found.least.category(), category, "{symbol}");
    }

    /// The sanity table under row D23: FHWA-NHI-05-037, table 5-28; classes by UFC 3-250-01, table 4-1.
    #[test]
    fn a_symbol_has_its_published_range() {
        check("GW", "60 to 80", Category::A);
        check("GP", "35 to 60", Category::A);
        check("GM", "40 to 80", Category::A);
        check("GC", "20 to 40", Category::A);
        check("SW", "20 to 40", Category::A);
        check("SP", "15 to 25", Category::A);
        check("SM", "20 to 40", Category::A);
        check("SC", "10 to 20", Category::B);
        check("ML", "5 to 15", Category::C);
        check("CL", "5 to 15", Category::C);
        check("OL", "4 to 8", Category::D);
        check("MH", "4 to 8", Category::D);
        check("CH", "3 to 5", Category::D);
        check("OH", "3 to 5", Category::D);
    }

    #[test]
    fn a_double_symbol_takes_the_weaker() {
        check("CL-ML", "5 to 15", Category::C);
        check("SW-SC", "10 to 20", Category::B);
        check("GP-GM", "35 to 60", Category::A);
        check("SC-SM", "10 to 20", Category::B);
        for none in ["", "XX", "CL-", "clay"] {
            assert_eq!(by_symbol(none), None, "{none}");
        }
    }
}
