//! Which way up a picture is: what the camera wrote about how it was held.
//!
//! Source: Exif 2.32 (CIPA DC-008), 4.6.4, tag 0x0112; the directory is TIFF 6.0, section 2.

use super::decode::Pixels;

/// How the stored picture is turned to be seen upright: the number that the camera writes, 1 to 8.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Orientation(u8);

impl Orientation {
    /// As it is stored.
    pub const UPRIGHT: Self = Self(1);

    /// From what the camera wrote, from its byte order on. Upright where nothing is said, or what is said cannot be read.
    pub fn read(exif: &[u8]) -> Self {
        Self::found(exif).unwrap_or(Self::UPRIGHT)
    }

    fn found(exif: &[u8]) -> Option<Self> {
        let order = match exif.get(..2)? {
            b"II" => u16::from_le_bytes,
            b"MM" => u16::from_be_bytes,
            _ => return None,
        };
        let short = |at: usize| -> Option<u16> {
            Some(order(exif.get(at..at.checked_add(2)?)?.try_into().ok()?))
        };
        let is_little = exif.starts_with(b"II");
        let long = |at: usize| -> Option<usize> {
            let (first, second) = (short(at)?, short(at.checked_add(2)?)?);
            let (high, low) = if is_little {
                (second, first)
            } else {
                (first, second)
            };
            usize::try_from((u32::from(high) << 16) | u32::from(low)).ok()
        };
        if short(2)? != 42 {
            return None;
        }
        let directory = long(4)?;
        for nth in 0..usize::from(short(directory)?) {
            let entry = directory.checked_add(2 + 12 * nth)?;
            if short(entry)? == 0x0112 {
                // One short number: type 3, count 1.
                let is_short = short(entry + 2)? == 3 && long(entry + 4)? == 1;
                let number = u8::try_from(short(entry + 8)?).ok()?;
                return (is_short && (1..=8).contains(&number)).then_some(Self(number));
            }
        }
        None
    }

    /// The picture as it is to be seen.
    pub fn upright(self, stored: Pixels) -> Pixels {
        if self == Self::UPRIGHT {
            return stored;
        }
        let (width, height) = (stored.width, stored.height);
        let is_on_its_side = self.0 >= 5;
        let (seen_width, seen_height) = if is_on_its_side {
            (height, width)
        } else {
            (width, height)
        };
        let mut rgb = Vec::with_capacity(stored.rgb.len());
        for y in 0..seen_height {
            for x in 0..seen_width {
                // Which stored dot is seen at x, y: where its row 0 and its column 0 are seen is what the number says.
                let (column, row) = match self.0 {
                    2 => (width - 1 - x, y),
                    3 => (width - 1 - x, height - 1 - y),
                    4 => (x, height - 1 - y),
                    5 => (y, x),
                    6 => (y, height - 1 - x),
                    7 => (width - 1 - y, height - 1 - x),
                    8 => (width - 1 - y, x),
                    _ => (x, y),
                };
                rgb.extend_from_slice(&stored.dot(column, row));
            }
        }
        Pixels {
            width: seen_width,
            height: seen_height,
            rgb,
        }
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// The segment's content from the byte order on, with one tag before the orientation.
    pub fn exif(number: u16, is_little: bool) -> Vec<u8> {
        let short = |n: u16| {
            if is_little {
                n.to_le_bytes()
            } else {
                n.to_be_bytes()
            }
        };
        let long = |n: u32| {
            if is_little {
                n.to_le_bytes()
            } else {
                n.to_be_bytes()
            }
        };
        let mut bytes = if is_little {
            b"II".to_vec()
        } else {
            b"MM".to_vec()
        };
        bytes.extend(short(42));
        bytes.extend(long(8));
        bytes.extend(short(2));
        for (tag, value) in [(0x0103, 6), (0x0112, number)] {
            bytes.extend(short(tag));
            bytes.extend(short(3));
            bytes.extend(long(1));
            bytes.extend(short(value));
            bytes.extend(short(0));
        }
        bytes.extend(long(0));
        bytes
    }

    #[track_caller]
    fn check(exif: &[u8], expected: u8) {
        assert_eq!(Orientation::read(exif), Orientation(expected));
    }

    #[test]
    fn both_byte_orders_are_read_and_nonsense_is_upright() {
        for number in 1..=8 {
            check(&exif(u16::from(number), true), number);
            check(&exif(u16::from(number), false), number);
        }
        check(&exif(0, true), 1);
        check(&exif(9, false), 1);
        check(&[], 1);
        check(b"MM\0*", 1);
        check(b"MM\0*\xff\xff\xff\xff", 1);
        // Cut off anywhere, nothing breaks.
        let whole = exif(6, false);
        for end in 0..whole.len() {
            let _orientation = Orientation::read(whole.get(..end).unwrap());
        }
    }

    /// Where the four corners of a picture of three by two dots are seen: stored, its rows are `123` and `456`.
    #[track_caller]
    fn check_seen(number: u8, rows: &[&str]) {
        let stored = Pixels {
            width: 3,
            height: 2,
            rgb: b"123456".iter().flat_map(|dot| [*dot; 3]).collect(),
        };
        let seen = Orientation(number).upright(stored);
        assert_eq!(seen.height as usize, rows.len(), "{number}");
        for (y, row) in (0..).zip(rows) {
            let dots: Vec<u8> = (0..seen.width).map(|x| seen.dot(x, y)[0]).collect();
            assert_eq!(dots, row.as_bytes(), "{number}, row {y}");
        }
    }

    #[test]
    fn all_eight_are_seen_upright() {
        // Exif 2.32, 4.6.4: where the stored row 0 and column 0 are seen.
        check_seen(1, &["123", "456"]); // top, left
        check_seen(2, &["321", "654"]); // top, right
        check_seen(3, &["654", "321"]); // bottom, right
        check_seen(4, &["456", "123"]); // bottom, left
        check_seen(5, &["14", "25", "36"]); // left, top
        check_seen(6, &["41", "52", "63"]); // right, top
        check_seen(7, &["63", "52", "41"]); // right, bottom
        check_seen(8, &["36", "25", "14"]); // left, bottom
    }
}
