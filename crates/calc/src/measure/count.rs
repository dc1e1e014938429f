//! Counts as people write them: blows of a hammer.

use super::written::WrittenError;

/// The whole number that a person wrote: `5`, ` 12 `.
///
/// # Errors
/// The first thing from the left that is no figure; [`WrittenError::Beyond`] for a million and more.
pub fn read_count(text: &str) -> Result<u32, WrittenError> {
    let written = text.trim();
    let Some(first) = text.find(|letter: char| !letter.is_whitespace()) else {
        return Err(WrittenError::Empty);
    };
    let before = text.get(..first).unwrap_or_default().chars().count();
    let strange = written
        .chars()
        .enumerate()
        .find(|(_, letter)| !letter.is_ascii_digit());
    if let Some((at, letter)) = strange {
        return Err(WrittenError::NotUnderstood {
            what: letter.to_string(),
            character: before + at + 1,
        });
    }
    match written.parse::<u32>() {
        Ok(count) if count < 1_000_000 => Ok(count),
        _ => Err(WrittenError::Beyond {
            limit: "a million",
            character: before + 1,
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_numbers_are_read() {
        assert_eq!(read_count("5"), Ok(5));
        assert_eq!(read_count(" 012 "), Ok(12));
        assert_eq!(read_count("0"), Ok(0));
        assert_eq!(read_count("999999"), Ok(999_999));
    }

    #[track_caller]
    fn refused(text: &str, what: &str, character: usize) {
        assert_eq!(
            read_count(text),
            Err(WrittenError::NotUnderstood {
                what: what.to_owned(),
                character
            })
        );
    }

    #[test]
    fn anything_else_is_named_at_its_character() {
        assert_eq!(read_count("  "), Err(WrittenError::Empty));
        refused("2.5", ".", 2);
        refused("-3", "-", 1);
        refused(" 5 blows", " ", 3);
        refused("NaN", "N", 1);
        refused("½", "½", 1);
        assert!(matches!(
            read_count("1000000"),
            Err(WrittenError::Beyond { .. })
        ));
        assert!(matches!(
            read_count("99999999999999999999"),
            Err(WrittenError::Beyond { .. })
        ));
    }
}
