//! What stands on the page, from left to right: figures, fractions, marks and words, each with the character where it starts.

use super::exact::Exact;
use super::written::WrittenError;

/// The most digits before and after a decimal mark.
pub(super) const MOST_WHOLE_DIGITS: usize = 15;
const MOST_DECIMALS: usize = 12;

/// One thing on the page.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Mark {
    /// Digits, with or without decimals.
    Figure {
        value: Exact,
        is_whole: bool,
    },
    /// A fraction painted as one character.
    Fraction(Exact),
    Slash,
    Dash,
    Plus,
    Colon,
    Percent,
    Degree,
    Foot,
    Inch,
    /// Letters, made small, without the full stop of an abbreviation.
    Word(String),
    /// Something that is wrong in itself, to be reported when the reader comes to it.
    Wrong(WrittenError),
}

/// A mark and where it stands.
#[derive(Clone, Debug)]
pub(super) struct Placed<'a> {
    pub(super) mark: Mark,
    pub(super) text: &'a str,
    /// Counted from 1.
    pub(super) character: usize,
    pub(super) follows_space: bool,
}

impl Placed<'_> {
    pub(super) fn not_understood(&self) -> WrittenError {
        if let Mark::Wrong(error) = &self.mark {
            return error.clone();
        }
        WrittenError::NotUnderstood {
            what: shortened(self.text),
            character: self.character,
        }
    }
}

/// What stands in a text.
pub(super) fn marks_in(text: &str) -> Vec<Placed<'_>> {
    Scanner::of(text).marks()
}

/// Cuts a text into marks.
struct Scanner<'a> {
    text: &'a str,
    /// The characters, each with the byte where it starts.
    letters: Vec<(usize, char)>,
    next: usize,
}

impl<'a> Scanner<'a> {
    fn of(text: &'a str) -> Self {
        Self {
            text,
            letters: text.char_indices().collect(),
            next: 0,
        }
    }

    fn marks(mut self) -> Vec<Placed<'a>> {
        let mut marks = Vec::new();
        let mut follows_space = false;
        while let Some(letter) = self.at(0) {
            if letter.is_whitespace() {
                follows_space = true;
                self.next += 1;
                continue;
            }
            let start = self.next;
            let mark = self.mark(letter);
            let text = self
                .text
                .get(self.byte(start)..self.byte(self.next))
                .unwrap_or_default();
            marks.push(Placed {
                mark,
                text,
                character: start + 1,
                follows_space,
            });
            follows_space = false;
        }
        marks
    }

    /// The mark that starts with this letter, and past it.
    fn mark(&mut self, letter: char) -> Mark {
        let starts_decimals =
            is_decimal_mark(letter) && self.at(1).is_some_and(|digit| digit.is_ascii_digit());
        if letter.is_ascii_digit() || starts_decimals {
            return self.figure().unwrap_or_else(Mark::Wrong);
        }
        self.next += 1;
        match letter {
            '/' | '\u{2044}' | '\u{2215}' => Mark::Slash,
            '-' | '\u{2212}' | '\u{2010}' | '\u{2011}' | '\u{2013}' => Mark::Dash,
            '+' => Mark::Plus,
            ':' | '\u{2236}' => Mark::Colon,
            '%' => Mark::Percent,
            '°' | 'º' => Mark::Degree,
            '"' | '″' | '”' | '“' => Mark::Inch,
            _ if is_foot_mark(letter) && self.at(0).is_some_and(is_foot_mark) => {
                self.next += 1;
                Mark::Inch
            }
            _ if is_foot_mark(letter) => Mark::Foot,
            _ => match painted_fraction(letter) {
                Some(value) => Mark::Fraction(value),
                None if letter.is_alphabetic() => self.word(letter),
                None => Mark::Wrong(WrittenError::NotUnderstood {
                    what: letter.to_string(),
                    character: self.next,
                }),
            },
        }
    }

    fn word(&mut self, first: char) -> Mark {
        let mut word: String = first.to_lowercase().collect();
        while let Some(letter) = self.at(0).filter(|letter| letter.is_alphabetic()) {
            word.extend(letter.to_lowercase());
            self.next += 1;
        }
        if self.at(0) == Some('.') {
            self.next += 1;
        }
        Mark::Word(word)
    }

    fn figure(&mut self) -> Result<Mark, WrittenError> {
        let character = self.next + 1;
        let whole = self.digits();
        let decimal_mark = self.at(0).filter(|letter| is_decimal_mark(*letter));
        if decimal_mark.is_some() {
            self.next += 1;
        }
        let mark_character = self.next;
        let decimals = if decimal_mark.is_some() {
            self.digits()
        } else {
            ""
        };
        if self.at(0).is_some_and(is_decimal_mark) && decimal_mark.is_some() {
            let second = self.next + 1;
            self.pass_over_rest_of_figure();
            return Err(WrittenError::SecondMark {
                mark: "decimal",
                character: second,
            });
        }
        if decimal_mark.is_some() && decimals.is_empty() {
            return Err(WrittenError::NoDecimals {
                character: mark_character,
            });
        }
        if decimal_mark == Some(',') && may_set_off_thousands(whole, decimals) {
            return Err(WrittenError::CommaUnclear {
                character: mark_character,
            });
        }
        let whole = whole.trim_start_matches('0');
        if whole.len() > MOST_WHOLE_DIGITS {
            return Err(WrittenError::TooManyDigits {
                most: MOST_WHOLE_DIGITS,
                character,
            });
        }
        if decimals.len() > MOST_DECIMALS {
            return Err(WrittenError::TooManyDecimals {
                most: MOST_DECIMALS,
                character,
            });
        }
        let (mut value, mut scale) = (0, 1);
        for digit in whole.bytes().chain(decimals.bytes()) {
            value = value * 10 + i128::from(digit.saturating_sub(b'0'));
        }
        for _ in decimals.bytes() {
            scale *= 10;
        }
        let value = Exact::ratio(value, scale).unwrap_or(Exact::ZERO);
        Ok(Mark::Figure {
            value,
            is_whole: decimals.is_empty(),
        })
    }

    fn digits(&mut self) -> &'a str {
        let start = self.next;
        while self.at(0).is_some_and(|letter| letter.is_ascii_digit()) {
            self.next += 1;
        }
        self.text
            .get(self.byte(start)..self.byte(self.next))
            .unwrap_or_default()
    }

    fn pass_over_rest_of_figure(&mut self) {
        while self
            .at(0)
            .is_some_and(|letter| letter.is_ascii_digit() || is_decimal_mark(letter))
        {
            self.next += 1;
        }
    }

    fn at(&self, ahead: usize) -> Option<char> {
        self.letters
            .get(self.next + ahead)
            .map(|(_, letter)| *letter)
    }

    fn byte(&self, letter_idx: usize) -> usize {
        self.letters
            .get(letter_idx)
            .map_or(self.text.len(), |(byte, _)| *byte)
    }
}

const fn is_decimal_mark(letter: char) -> bool {
    matches!(letter, '.' | ',')
}

const fn is_foot_mark(letter: char) -> bool {
    matches!(letter, '\'' | '′' | '’' | '‘')
}

/// `1,200` is twelve hundred to one mason and one and a fifth to another; `0,125`, `1,2` and `1200,125` can only be decimals.
fn may_set_off_thousands(whole: &str, decimals: &str) -> bool {
    (1..=3).contains(&whole.len()) && !whole.starts_with('0') && decimals.len() == 3
}

const fn painted_fraction(letter: char) -> Option<Exact> {
    match letter {
        '¼' => Exact::ratio(1, 4),
        '½' => Exact::ratio(1, 2),
        '¾' => Exact::ratio(3, 4),
        '⅛' => Exact::ratio(1, 8),
        '⅜' => Exact::ratio(3, 8),
        '⅝' => Exact::ratio(5, 8),
        '⅞' => Exact::ratio(7, 8),
        _ => None,
    }
}

/// A text short enough to stand in a message.
pub(super) fn shortened(text: &str) -> String {
    const MOST: usize = 16;
    match text.char_indices().nth(MOST) {
        Some((byte, _)) => format!("{}…", text.get(..byte).unwrap_or_default()),
        None => text.to_owned(),
    }
}
