//! Decimal numbers as people write them: money, units of sale, hours.

use super::written::WrittenError;
use rust_decimal::Decimal;

/// Most decimals that a number may have.
const MOST_DECIMALS: usize = 6;

/// A decimal number with a point, never below zero: `28.50`, `.5`, `7`.
///
/// # Errors
/// [`WrittenError`] with the character: nothing written, a sign or a letter, a second point, a point without digits behind it, a comma,
/// more than six decimals, a billion or more.
pub fn read_decimal(text: &str) -> Result<Decimal, WrittenError> {
    let written = text.trim();
    let Some(first) = text.find(|letter: char| !letter.is_whitespace()) else {
        return Err(WrittenError::Empty);
    };
    let before = text.get(..first).unwrap_or_default().chars().count();
    let mut point = None;
    for (at, letter) in written.chars().enumerate() {
        let character = before + at + 1;
        match letter {
            '0'..='9' => {}
            '.' if point.is_some() => {
                return Err(WrittenError::SecondMark {
                    mark: "decimal",
                    character,
                });
            }
            '.' => point = Some(at),
            ',' => return Err(WrittenError::CommaUnclear { character }),
            _ => {
                return Err(WrittenError::NotUnderstood {
                    what: letter.to_string(),
                    character,
                });
            }
        }
    }
    let n_letters = written.chars().count();
    if let Some(at) = point {
        let n_decimals = n_letters - at - 1;
        if n_decimals == 0 {
            return Err(WrittenError::NoDecimals {
                character: before + at + 1,
            });
        }
        if n_decimals > MOST_DECIMALS {
            return Err(WrittenError::TooManyDecimals {
                most: MOST_DECIMALS,
                character: before + 1,
            });
        }
    }
    let beyond = || WrittenError::Beyond {
        limit: "a billion",
        character: before + 1,
    };
    if point.unwrap_or(n_letters) > 18 {
        return Err(beyond());
    }
    let padded = if point == Some(0) {
        format!("0{written}")
    } else {
        written.to_owned()
    };
    match padded.parse::<Decimal>() {
        Ok(number) if number < Decimal::from(1_000_000_000) => Ok(number),
        _ => Err(beyond()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let said = match read_decimal(text) {
            Ok(number) => number.to_string(),
            Err(error) => error.to_string(),
        };
        assert!(said.contains(expected), "{text:?}: {said}");
    }

    #[test]
    fn decimals_are_read_as_written() {
        check("28.50", "28.50");
        check(" 7 ", "7");
        check(".5", "0.5");
        check("0", "0");
        check("000000000001.25", "1.25");
    }

    #[test]
    fn what_is_no_decimal_is_told_with_its_place() {
        check("", "nothing");
        check("-3", "“-” at character 1");
        check("3.5.1", "second decimal mark at character 4");
        check("3.", "character 2");
        check("1,250", "comma at character 2");
        check("12 a", "at character 3");
        check("0.1234567", "6 decimals");
        check("1000000000", "a billion");
        check("99999999999999999999999999999999", "a billion");
    }
}
