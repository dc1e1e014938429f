//! Goes over the marks of a text from left to right and makes numbers of them.

use super::exact::Exact;
use super::marks::{MOST_WHOLE_DIGITS, Mark, Placed, marks_in, shortened};
use super::written::WrittenError;

/// The most digits in either part of a fraction.
const MOST_FRACTION_DIGITS: usize = 6;

/// A number as it was read: `2`, `2.25`, `2 1/4`, `1/4`, and where it started.
#[derive(Clone, Copy, Debug)]
pub(super) struct Number {
    pub(super) value: Exact,
    pub(super) is_whole: bool,
    pub(super) character: usize,
}

/// Goes over the marks from left to right.
pub(super) struct Reader<'a> {
    marks: Vec<Placed<'a>>,
    next: usize,
}

impl<'a> Reader<'a> {
    /// # Errors
    /// [`WrittenError::Empty`] if there is nothing but space.
    pub(super) fn of(text: &'a str) -> Result<Self, WrittenError> {
        let marks = marks_in(text);
        if marks.is_empty() {
            Err(WrittenError::Empty)
        } else {
            Ok(Self { marks, next: 0 })
        }
    }

    pub(super) fn peek(&self) -> Option<&Mark> {
        self.ahead(0).map(|placed| &placed.mark)
    }

    pub(super) fn peek_word(&self) -> Option<&str> {
        if let Some(Mark::Word(word)) = self.peek() {
            Some(word)
        } else {
            None
        }
    }

    pub(super) fn skip(&mut self) {
        self.next += 1;
    }

    /// Passes over the next mark if it is this one.
    pub(super) fn skip_if(&mut self, mark: &Mark) -> bool {
        let is_it = self.peek() == Some(mark);
        self.next += usize::from(is_it);
        is_it
    }

    /// Passes over the next word if it is one of these.
    pub(super) fn skip_word(&mut self, words: &[&str]) -> bool {
        let is_one = self.peek_word().is_some_and(|word| words.contains(&word));
        self.next += usize::from(is_one);
        is_one
    }

    /// Whether a minus stood here; passes over a plus or a minus.
    pub(super) fn sign(&mut self) -> bool {
        let negative = self.skip_if(&Mark::Dash);
        if !negative {
            self.skip_if(&Mark::Plus);
        }
        negative
    }

    /// Whether a number starts here.
    pub(super) fn at_number(&self) -> bool {
        matches!(self.peek(), Some(Mark::Figure { .. } | Mark::Fraction(_)))
    }

    /// Whether the next mark is a dash with no space on either side.
    pub(super) fn at_tight_dash(&self) -> bool {
        let is_tight = |ahead| self.ahead(ahead).is_none_or(|placed| !placed.follows_space);
        self.peek() == Some(&Mark::Dash) && is_tight(0) && is_tight(1)
    }

    /// A number with or without a fraction: `2`, `2.25`, `1/4`, `2 1/4`, `2-1/4`, `2¼`.
    ///
    /// # Errors
    /// What stands in its place, or what is wrong with its fraction.
    pub(super) fn number(&mut self) -> Result<Number, WrittenError> {
        let Some(first) = self.ahead(0) else {
            return Err(self.unfinished());
        };
        let character = first.character;
        let (value, is_whole) = match first.mark {
            Mark::Fraction(value) => {
                self.skip();
                (value, false)
            }
            Mark::Figure { .. } if self.slash_is_ahead(1) => (self.fraction()?, false),
            Mark::Figure { value, is_whole } => {
                self.skip();
                if is_whole && self.skip_to_fraction() {
                    (self.whole_and_fraction(value, character)?, false)
                } else {
                    (value, is_whole)
                }
            }
            _ => return Err(first.not_understood()),
        };
        Ok(Number {
            value,
            is_whole,
            character,
        })
    }

    /// Nothing may be left.
    ///
    /// # Errors
    /// The first mark that is left.
    pub(super) fn end(&self) -> Result<(), WrittenError> {
        let Some(left) = self.ahead(0) else {
            return Ok(());
        };
        let is_second = self
            .marks
            .iter()
            .take(self.next)
            .any(|placed| placed.mark == left.mark);
        let character = left.character;
        Err(match left.mark {
            Mark::Foot if is_second => WrittenError::SecondMark {
                mark: "foot",
                character,
            },
            Mark::Inch if is_second => WrittenError::SecondMark {
                mark: "inch",
                character,
            },
            _ => left.not_understood(),
        })
    }

    /// What to report when the next mark is not what it should be: that mark, or that nothing follows the last.
    pub(super) fn unexpected(&self) -> WrittenError {
        self.ahead(0)
            .map_or_else(|| self.unfinished(), Placed::not_understood)
    }

    fn unfinished(&self) -> WrittenError {
        self.marks
            .last()
            .map_or(WrittenError::Empty, |last| WrittenError::Unfinished {
                after: shortened(last.text),
                character: last.character,
            })
    }

    fn whole_and_fraction(
        &mut self,
        whole: Exact,
        character: usize,
    ) -> Result<Exact, WrittenError> {
        let fraction = self.number()?;
        if !fraction.value.is_below(1) {
            return Err(WrittenError::FractionNotBelowOne {
                character: fraction.character,
            });
        }
        whole
            .plus(fraction.value)
            .ok_or(WrittenError::TooManyDigits {
                most: MOST_WHOLE_DIGITS,
                character,
            })
    }

    /// If a fraction belongs to the whole number that was just read, stands before it and says so.
    fn skip_to_fraction(&mut self) -> bool {
        let after_dash = usize::from(self.at_tight_dash());
        let is_fraction = match self.ahead(after_dash).map(|placed| &placed.mark) {
            Some(Mark::Fraction(_)) => true,
            Some(Mark::Figure { .. }) => self.slash_is_ahead(after_dash + 1),
            _ => false,
        };
        if is_fraction {
            self.next += after_dash;
        }
        is_fraction
    }

    fn slash_is_ahead(&self, ahead: usize) -> bool {
        self.ahead(ahead)
            .is_some_and(|placed| placed.mark == Mark::Slash)
    }

    /// `1/4`, the reader standing before it.
    fn fraction(&mut self) -> Result<Exact, WrittenError> {
        let (above, _) = self.fraction_part()?;
        self.skip();
        let (below, character) = self.fraction_part()?;
        above
            .over(below)
            .ok_or(WrittenError::NothingBelowLine { character })
    }

    fn fraction_part(&mut self) -> Result<(Exact, usize), WrittenError> {
        let Some(part) = self.ahead(0) else {
            return Err(self.unfinished());
        };
        let character = part.character;
        let Mark::Figure { value, is_whole } = part.mark else {
            return Err(part.not_understood());
        };
        if !is_whole {
            return Err(WrittenError::BrokenFraction { character });
        }
        if !value.is_below(1_000_000) {
            return Err(WrittenError::TooManyDigits {
                most: MOST_FRACTION_DIGITS,
                character,
            });
        }
        self.skip();
        Ok((value, character))
    }

    fn ahead(&self, ahead: usize) -> Option<&Placed<'a>> {
        self.marks.get(self.next + ahead)
    }
}
