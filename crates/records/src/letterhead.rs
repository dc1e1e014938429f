//! Who hands a sheet over: a person's own `letterhead.ron`, and the invented one to start from, `assets/letterhead/starter.ron`.

use serde::{Deserialize, Deserializer};
use underbrick_calc::site::Letterhead;

use crate::fields_in::fields_in;
use crate::read::{
    ReadError, VersionOnly, from_ron, line_and_column, options, without_byte_order_mark,
};
use crate::written::written;

/// The text of the invented letterhead: what a person's own starts from.
pub const STARTER_LETTERHEAD: &str = include_str!("../../../assets/letterhead/starter.ron");

/// The only format of a letterhead so far.
const LETTERHEAD_VERSION: u32 = 1;

/// Longest line of a letterhead, in letters.
const LONGEST_LINE: usize = 200;
/// Longest term of the firm's own, in letters.
const LONGEST_TERM: usize = 2000;
/// Most lines of an address, and most terms.
const MOST_LINES: usize = 20;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "letterhead")]
struct LetterheadFile {
    #[serde(default = "first_version")]
    version: u32,
    #[serde(deserialize_with = "written")]
    name: String,
    #[serde(default)]
    address: Vec<Words>,
    #[serde(default, deserialize_with = "written")]
    phone: String,
    #[serde(default, deserialize_with = "written")]
    licence: String,
    #[serde(default, deserialize_with = "written")]
    insurance: String,
    #[serde(default)]
    terms: Vec<Words>,
}

const fn first_version() -> u32 {
    LETTERHEAD_VERSION
}

/// A quoted text in a list.
struct Words(String);

impl<'de> Deserialize<'de> for Words {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        written(deserializer).map(Self)
    }
}

/// Reads a letterhead.
///
/// # Errors
/// [`ReadError::Text`] with the line: a name that is missing, a line that is too long, too many lines; and an empty text, and a newer
/// format.
pub fn read_letterhead(text: &str) -> Result<Letterhead, ReadError> {
    let text = without_byte_order_mark(text);
    if text.trim().is_empty() {
        return Err(ReadError::Empty);
    }
    let file = options().from_str::<LetterheadFile>(text);
    // A newer letterhead is called newer and not misspelt, whatever else stands in it.
    let version = match &file {
        Ok(file) => file.version,
        Err(_) => options()
            .from_str::<VersionOnly>(text)
            .map_or(LETTERHEAD_VERSION, |file| file.version),
    };
    if version == 0 {
        let reason = format!("there is no format 0: the first is {LETTERHEAD_VERSION}");
        return Err(at_field(text, "version", reason));
    }
    if version > LETTERHEAD_VERSION {
        return Err(ReadError::Newer {
            found: version,
            known: LETTERHEAD_VERSION,
        });
    }
    let file = file.map_err(|error| from_ron(&error))?;
    if file.name.trim().is_empty() {
        let reason = "the name is empty: it says who hands the sheet over".to_owned();
        return Err(at_field(text, "name", reason));
    }
    let of = |words: Vec<Words>| words.into_iter().map(|words| words.0).collect::<Vec<_>>();
    let (address, terms) = (of(file.address), of(file.terms));
    let limits = [
        ("name", std::slice::from_ref(&file.name), LONGEST_LINE),
        ("address", &address, LONGEST_LINE),
        ("phone", std::slice::from_ref(&file.phone), LONGEST_LINE),
        ("licence", std::slice::from_ref(&file.licence), LONGEST_LINE),
        (
            "insurance",
            std::slice::from_ref(&file.insurance),
            LONGEST_LINE,
        ),
        ("terms", &terms, LONGEST_TERM),
    ];
    for (field, lines, longest) in limits {
        if lines.len() > MOST_LINES {
            let reason = format!("{field}: {} lines, more than {MOST_LINES}", lines.len());
            return Err(at_field(text, field, reason));
        }
        let letters = lines.iter().map(|line| line.chars().count()).max();
        if let Some(letters) = letters.filter(|letters| *letters > longest) {
            let reason = format!("{field}: a line of {letters} letters, more than {longest}");
            return Err(at_field(text, field, reason));
        }
    }
    let kept = |lines: Vec<String>| {
        let lines = lines.iter().map(|line| line.trim().to_owned());
        lines.filter(|line| !line.is_empty()).collect()
    };
    Ok(Letterhead {
        name: file.name.trim().to_owned(),
        address: kept(address),
        phone: file.phone.trim().to_owned(),
        licence: file.licence.trim().to_owned(),
        insurance: file.insurance.trim().to_owned(),
        terms: kept(terms),
    })
}

fn at_field(text: &str, name: &str, reason: String) -> ReadError {
    let at = fields_in(text, name).first().copied().unwrap_or(0);
    let (line, column) = line_and_column(text, at);
    ReadError::Text {
        line,
        column,
        reason,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_starter_is_read_and_only_the_name_must_be_there() {
        let starter = read_letterhead(STARTER_LETTERHEAD).unwrap();
        assert_eq!(starter.name, "Fernhollow Paving");
        assert_eq!((starter.address.len(), starter.terms.len()), (2, 2));
        let with_mark = format!("\u{feff}{}", STARTER_LETTERHEAD.replace('\n', "\r\n"));
        assert_eq!(read_letterhead(&with_mark).unwrap(), starter);
        let least = read_letterhead("(name: \" Marsh & Daughter \", address: [\"\"])").unwrap();
        let expected = Letterhead {
            name: "Marsh & Daughter".to_owned(),
            ..Letterhead::default()
        };
        assert_eq!(least, expected);
    }

    #[track_caller]
    fn refused(text: &str, at: (usize, usize), words: &str) {
        match read_letterhead(text) {
            Err(ReadError::Text {
                line,
                column,
                reason,
            }) => {
                assert_eq!((line, column), at, "{reason}");
                assert!(reason.contains(words), "{reason}");
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn what_is_wrong_is_told_with_line_and_column() {
        refused("(\n    name: \"\",\n)", (2, 5), "the name is empty");
        refused("(\n    name: 12,\n)", (2, 11), "a bare number 12");
        refused("(\n    name: \"A\",\n    fax: \"1\",\n)", (3, 5), "fax");
        let long = format!(
            "(\n    name: \"A\",\n    phone: \"{}\",\n)",
            "1".repeat(201)
        );
        refused(&long, (3, 5), "201 letters, more than 200");
        let many = format!("(name: \"A\", address: [{}])", "\"x\",".repeat(21));
        refused(&many, (1, 13), "21 lines, more than 20");
        refused("(name: \"A\", version: 0)", (1, 13), "there is no format 0");
        assert_eq!(read_letterhead(" \n"), Err(ReadError::Empty));
        let newer = read_letterhead("(version: 2, name: 7, whatever: [])");
        assert_eq!(newer, Err(ReadError::Newer { found: 2, known: 1 }));
    }
}
