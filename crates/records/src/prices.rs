//! Price lists: the invented one that is built in, `assets/prices/starter.ron`, and a person's own in its place.

mod file;
mod fit;
mod texts;
mod units;

use underbrick_calc::catalogue::Material;
use underbrick_calc::order::PriceList;

use crate::fields_in::fields_in;
use crate::read::{
    ReadError, VersionOnly, from_ron, line_and_column, options, without_byte_order_mark,
};
use file::PricesFile;

/// The text of the built-in list: what a person's own starts from.
pub const BUILT_IN_PRICES: &str = include_str!("../../../assets/prices/starter.ron");

/// The only format of a list so far.
const PRICES_VERSION: u32 = 1;

/// Reads a price list.
///
/// # Errors
/// [`ReadError::Text`] with the line: a price that is not above zero or has no unit, a unit that is not known or does not fit what is sold or
/// carried, a pack that does not say what it holds, a currency, an item, a stage or a material that is not known, one that stands twice, a
/// share outside its limits; and an empty text, and a newer format.
pub fn read_prices(text: &str, materials: &[Material]) -> Result<PriceList, ReadError> {
    let text = without_byte_order_mark(text);
    if text.trim().is_empty() {
        return Err(ReadError::Empty);
    }
    let file = options().from_str::<PricesFile>(text);
    // A newer list is called newer and not misspelt, whatever else stands in it.
    let version = match &file {
        Ok(file) => file.version,
        Err(_) => options()
            .from_str::<VersionOnly>(text)
            .map_or(PRICES_VERSION, |file| file.version),
    };
    if version == 0 {
        let reason = format!("there is no format 0: the first is {PRICES_VERSION}");
        return Err(at_field(text, "version", 0, reason));
    }
    if version > PRICES_VERSION {
        return Err(ReadError::Newer {
            found: version,
            known: PRICES_VERSION,
        });
    }
    let file = file.map_err(|error| from_ron(&error))?;
    fit::list(file, materials).map_err(|wrong| at_field(text, wrong.field, wrong.nth, wrong.reason))
}

fn at_field(text: &str, name: &str, nth: usize, reason: String) -> ReadError {
    let at = fields_in(text, name).get(nth).copied().unwrap_or(0);
    let (line, column) = line_and_column(text, at);
    ReadError::Text {
        line,
        column,
        reason,
    }
}

#[cfg(test)]
mod tests;
