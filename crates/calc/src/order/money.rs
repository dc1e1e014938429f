//! Money, in decimal arithmetic.

use rust_decimal::{Decimal, RoundingStrategy};

/// An amount of money in the currency of its price list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(pub Decimal);

/// A currency.
///
/// # Source
/// ISO 4217 for code and minor unit; the sign as it is written where the currency is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency {
    /// Code of three letters.
    pub code: &'static str,
    /// Sign before the amount.
    pub sign: &'static str,
    /// Decimals of the minor unit.
    pub decimals: u32,
}

/// Currencies that a price list may name.
pub const CURRENCIES: [Currency; 9] = [
    currency("USD", "$"),
    currency("CAD", "CA$"),
    currency("MXN", "MX$"),
    currency("GBP", "£"),
    currency("EUR", "€"),
    currency("CHF", "CHF "),
    currency("AUD", "A$"),
    currency("NZD", "NZ$"),
    currency("ZAR", "R"),
];

const fn currency(code: &'static str, sign: &'static str) -> Currency {
    Currency {
        code,
        sign,
        decimals: 2,
    }
}

impl Default for Currency {
    fn default() -> Self {
        currency("USD", "$")
    }
}

impl Currency {
    /// The currency of that code, in capitals or not.
    #[must_use]
    pub fn of(code: &str) -> Option<Self> {
        CURRENCIES
            .into_iter()
            .find(|currency| currency.code.eq_ignore_ascii_case(code.trim()))
    }

    /// Rounded to the minor unit, halves away from zero.
    #[must_use]
    pub fn rounded(self, amount: Money) -> Money {
        Money(
            amount
                .0
                .round_dp_with_strategy(self.decimals, RoundingStrategy::MidpointAwayFromZero),
        )
    }

    /// An amount as it is written: `$1,234.50`, `−$20.00`.
    #[must_use]
    pub fn written(self, amount: Money) -> String {
        let rounded = self.rounded(amount).0;
        let digits = format!("{:.*}", self.decimals as usize, rounded.abs());
        let (whole, rest) = digits.split_once('.').unwrap_or((&digits, ""));
        let mut grouped = String::new();
        for (nth, digit) in whole.chars().enumerate() {
            if nth > 0 && (whole.len() - nth).is_multiple_of(3) {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        let minus = if rounded.is_sign_negative() && !rounded.is_zero() {
            "−"
        } else {
            ""
        };
        let point = if rest.is_empty() { "" } else { "." };
        format!("{minus}{}{grouped}{point}{rest}", self.sign)
    }
}

impl Money {
    /// So much in sum; `None` where it would leave 28 digits.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// So many times; `None` where it would leave 28 digits.
    #[must_use]
    pub fn times(self, number: Decimal) -> Option<Self> {
        self.0.checked_mul(number).map(Self)
    }
}
