//! Agreements: frozen with a digest when they are signed, signed by finger, and never changed.
//!
//! Nothing here changes a word of what was signed. What is agreed later stands beside it, and the last one stands. That the person takes
//! the last step back is something else: the state before the signature is then on screen again, as with every edit, and the history
//! keeps both.

use sha2::{Digest as _, Sha256};
use underbrick_calc::site;

use crate::v1::{Agreement, Clause, Signature, SiteFile};

/// Most points of all strokes of a signature: a finger that draws for five minutes at 60 points a second makes fewer.
pub const LARGEST_SIGNATURE: usize = 20_000;

/// Largest coordinate of a stroke: the field is a thousand wide, and no higher than that.
const EDGE: i32 = 1000;

/// Longest name of who signs, in letters.
const LONGEST_NAME: usize = 200;

/// Why something was not signed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AgreeFault {
    /// There is nothing to agree on.
    #[error("there is nothing to agree on: no clause is written")]
    NoClause,
    /// Nobody is named.
    #[error("the name of who signs is missing")]
    NoName,
    /// The name is too long.
    #[error("the name has {letters} letters, more than {limit}")]
    LongName {
        /// Its letters.
        letters: usize,
        /// The most.
        limit: usize,
    },
    /// Nothing was drawn.
    #[error("nothing is drawn: sign with a finger")]
    Empty,
    /// No finger draws so much.
    #[error("the signature has {points} points, more than {limit}")]
    TooLarge {
        /// Its points.
        points: usize,
        /// [`LARGEST_SIGNATURE`].
        limit: usize,
    },
    /// A point lies outside the field.
    #[error("a point of the signature, {x} across and {y} down, lies outside its field of {limit}")]
    Outside {
        /// Across, in thousandths of the field's width.
        x: i32,
        /// Down, in thousandths of the field's width.
        y: i32,
        /// The largest.
        limit: i32,
    },
    /// There is no such agreement.
    #[error("there is no agreement {number}")]
    NoAgreement {
        /// Counted from 1.
        number: usize,
    },
    /// Another one stands in its place.
    #[error("agreement {number} no longer stands: agreement {last} was made after it")]
    Followed {
        /// Counted from 1.
        number: usize,
        /// The last one.
        last: usize,
    },
    /// Its words are not those that were signed.
    #[error(
        "agreement {number} is not what was signed: its words were changed in the file; agree anew"
    )]
    Changed {
        /// Counted from 1.
        number: usize,
    },
}

/// The clauses as bytes, for a digest that others can work out again: the line `underbrick agreement 1` with its line feed, then the
/// number of clauses, then for each clause the length of its key, its key, the length of its text, its text. Numbers are 8 bytes, the
/// highest first, lengths are those in bytes, and words are in UTF-8 as they stand. With every length told, no two lists of clauses give
/// the same bytes.
#[must_use]
pub fn agreement_bytes(clauses: &[site::Clause]) -> Vec<u8> {
    let number = |count: usize| u64::try_from(count).unwrap_or(u64::MAX).to_be_bytes();
    let mut bytes = b"underbrick agreement 1\n".to_vec();
    bytes.extend(number(clauses.len()));
    for clause in clauses {
        for words in [&clause.key, &clause.text] {
            bytes.extend(number(words.len()));
            bytes.extend(words.as_bytes());
        }
    }
    bytes
}

/// The digest of the clauses: SHA-256 of [`agreement_bytes`], in 64 small hexadecimal figures.
///
/// # Source
/// FIPS 180-4, Secure Hash Standard.
#[must_use]
pub fn digest(clauses: &[site::Clause]) -> String {
    hexadecimal(&Sha256::digest(agreement_bytes(clauses)))
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Whether a finger can have drawn these strokes.
pub(crate) fn drawn(strokes: &[Vec<(i32, i32)>]) -> Result<(), AgreeFault> {
    let points: usize = strokes.iter().map(Vec::len).sum();
    if points > LARGEST_SIGNATURE {
        return Err(AgreeFault::TooLarge {
            points,
            limit: LARGEST_SIGNATURE,
        });
    }
    let field = 0..=EDGE;
    let outside = strokes
        .iter()
        .flatten()
        .find(|(x, y)| !field.contains(x) || !field.contains(y));
    if let Some((x, y)) = outside {
        return Err(AgreeFault::Outside {
            x: *x,
            y: *y,
            limit: EDGE,
        });
    }
    let moves = |stroke: &Vec<(i32, i32)>| stroke.iter().any(|at| Some(at) != stroke.first());
    if strokes.iter().any(moves) {
        Ok(())
    } else {
        Err(AgreeFault::Empty)
    }
}

impl SiteFile {
    /// Agrees on clauses: they are frozen with their digest and signed. Where they are, word for word, those of the agreement that
    /// stands, it is signed once more instead. Gives the index of the agreement.
    ///
    /// # Errors
    /// [`AgreeFault`] where there is no clause, no name, or nothing drawn; the record is then as before.
    pub fn agree(
        &mut self,
        clauses: &[site::Clause],
        signature: Signature,
    ) -> Result<usize, AgreeFault> {
        if clauses.is_empty() {
            return Err(AgreeFault::NoClause);
        }
        let signature = signed(signature)?;
        let digest = digest(clauses);
        let written: Vec<Clause> = clauses.iter().map(Clause::from).collect();
        match self.show.agreements.last_mut() {
            Some(last) if last.clauses == written && last.digest == digest => {
                last.signatures.push(signature);
            }
            _ => self.show.agreements.push(Agreement {
                clauses: written,
                digest,
                signatures: vec![signature],
            }),
        }
        Ok(self.show.agreements.len().saturating_sub(1))
    }

    /// Signs an agreement that was signed before: a second owner, or the contractor.
    ///
    /// # Errors
    /// [`AgreeFault`] where there is no such agreement, where another one stands in its place, where its words are not those that were
    /// signed, and where there is no name or nothing drawn; the record is then as before.
    pub fn sign(&mut self, agreement_idx: usize, signature: Signature) -> Result<(), AgreeFault> {
        let number = agreement_idx.saturating_add(1);
        let last = self.show.agreements.len();
        let Some(agreement) = self.show.agreements.get_mut(agreement_idx) else {
            return Err(AgreeFault::NoAgreement { number });
        };
        if number < last {
            return Err(AgreeFault::Followed { number, last });
        }
        let clauses: Vec<site::Clause> = agreement.clauses.iter().map(Into::into).collect();
        if digest(&clauses) != agreement.digest {
            return Err(AgreeFault::Changed { number });
        }
        agreement.signatures.push(signed(signature)?);
        Ok(())
    }
}

/// A signature with a name and with something drawn; spaces round the name are left out.
fn signed(signature: Signature) -> Result<Signature, AgreeFault> {
    let name = signature.name.trim();
    if name.is_empty() {
        return Err(AgreeFault::NoName);
    }
    let letters = name.chars().count();
    if letters > LONGEST_NAME {
        return Err(AgreeFault::LongName {
            letters,
            limit: LONGEST_NAME,
        });
    }
    drawn(&signature.strokes)?;
    Ok(Signature {
        name: name.to_owned(),
        ..signature
    })
}

impl From<&site::Clause> for Clause {
    fn from(clause: &site::Clause) -> Self {
        Self {
            key: clause.key.clone(),
            text: clause.text.clone(),
        }
    }
}

#[cfg(test)]
mod tests;
