use super::*;
use crate::pictures::orientation::tests::exif;
use jpeg_encoder::Encoder;

/// A JPEG whose left half is red, right half blue; progressive or not, with what the camera wrote.
fn halves(width: u16, height: u16, progressive: bool, exif: Option<&[u8]>) -> Vec<u8> {
    let rgb: Vec<u8> = (0..height)
        .flat_map(|_| {
            (0..width).flat_map(move |x| {
                if x < width / 2 {
                    [220, 30, 30]
                } else {
                    [30, 30, 220]
                }
            })
        })
        .collect();
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 90);
    encoder.set_progressive(progressive);
    if let Some(exif) = exif {
        let mut segment = b"Exif\0\0".to_vec();
        segment.extend_from_slice(exif);
        encoder.add_app_segment(1, segment).unwrap();
    }
    encoder
        .encode(&rgb, width, height, jpeg_encoder::ColorType::Rgb)
        .unwrap();
    bytes
}

fn png_of(width: u32, height: u32, color: ColorType, row: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(color);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().unwrap();
    let mut stream = writer.stream_writer().unwrap();
    for _ in 0..height {
        std::io::Write::write_all(&mut stream, row).unwrap();
    }
    stream.finish().unwrap();
    writer.finish().unwrap();
    bytes
}

fn of(bytes: &[u8], longest: u32) -> Result<Pixels, PictureError> {
    decoded(bytes, PictureKind::of(bytes).unwrap(), "a.jpg", longest)
}

/// Whether a dot is as red or as blue as it was stored, as near as JPEG keeps it.
#[track_caller]
fn check_dot(pixels: &Pixels, (x, y): (u32, u32), expected: [u8; 3]) {
    let dot = pixels.dot(x, y);
    let near = dot.iter().zip(expected).all(|(a, b)| a.abs_diff(b) <= 12);
    assert!(near, "{dot:?} at {x}, {y} is not {expected:?}");
}

const RED: [u8; 3] = [220, 30, 30];
const BLUE: [u8; 3] = [30, 30, 220];

#[test]
fn a_jpeg_comes_out_in_its_colours_whichever_way_it_is_stored() {
    for progressive in [false, true] {
        let pixels = of(&halves(64, 32, progressive, None), 1000).unwrap();
        assert_eq!((pixels.width, pixels.height), (64, 32));
        check_dot(&pixels, (4, 4), RED);
        check_dot(&pixels, (60, 28), BLUE);
        let small = of(&halves(64, 32, progressive, None), 16).unwrap();
        assert_eq!((small.width, small.height), (16, 8));
        check_dot(&small, (1, 1), RED);
        check_dot(&small, (14, 6), BLUE);
    }
}

#[test]
fn all_eight_orientations_stand_upright() {
    // Where the stored left half, red, is seen: column 0 of the file (Exif 2.32, 4.6.4).
    let seen = [
        (1, (64, 32), (4, 16)),
        (2, (64, 32), (60, 16)),
        (3, (64, 32), (60, 16)),
        (4, (64, 32), (4, 16)),
        (5, (32, 64), (16, 4)),
        (6, (32, 64), (16, 4)),
        (7, (32, 64), (16, 60)),
        (8, (32, 64), (16, 60)),
    ];
    for (number, size, red) in seen {
        for is_little in [true, false] {
            let bytes = halves(64, 32, false, Some(&exif(number, is_little)));
            let pixels = of(&bytes, 1000).unwrap();
            assert_eq!((pixels.width, pixels.height), size, "{number}");
            check_dot(&pixels, red, RED);
            check_dot(&pixels, (size.0 - 1 - red.0, size.1 - 1 - red.1), BLUE);
        }
    }
}

#[test]
fn a_png_of_every_kind_stands_on_white() {
    let grey = of(&png_of(2, 1, ColorType::Grayscale, &[7, 200]), 9).unwrap();
    assert_eq!(grey.rgb, [7, 7, 7, 200, 200, 200]);
    let grey = of(&png_of(2, 1, ColorType::GrayscaleAlpha, &[7, 255, 7, 0]), 9).unwrap();
    assert_eq!(grey.rgb, [7, 7, 7, 255, 255, 255]);
    let rgb = of(&png_of(1, 1, ColorType::Rgb, &[1, 2, 3]), 9).unwrap();
    assert_eq!(rgb.rgb, [1, 2, 3]);
    // Half of 100 and half of white: (100 * 128 + 255 * 127) / 255 = 177.2
    let rgba = of(&png_of(1, 1, ColorType::Rgba, &[100, 0, 255, 128]), 9).unwrap();
    assert_eq!(rgba.rgb, [177, 127, 255]);
}

#[test]
fn sixty_million_dots_of_png_are_read_row_by_row() {
    let (width, height) = (10_000, 6_000);
    let row = [120; 10_000];
    let bytes = png_of(width, height, ColorType::Grayscale, &row);
    assert!(bytes.len() < 200_000, "{} bytes", bytes.len());
    let pixels = of(&bytes, 400).unwrap();
    assert_eq!((pixels.width, pixels.height), (400, 240));
    assert!(pixels.rgb.iter().all(|value| *value == 120));
}

#[track_caller]
fn check_refused(bytes: &[u8], words: &str) {
    let error = of(bytes, 400).unwrap_err().to_string();
    assert!(error.contains(words), "{error}");
}

#[test]
fn what_cannot_be_shown_says_why() {
    // A head that promises more dots than there may be; the rest need not be there.
    let mut large = png_of(1, 1, ColorType::Grayscale, &[0]);
    let head = [(16, 20_000_u32), (20, 10_000)];
    for (at, side) in head {
        large
            .get_mut(at..at + 4)
            .unwrap()
            .copy_from_slice(&side.to_be_bytes());
    }
    let sum = crc(large.get(12..29).unwrap());
    large
        .get_mut(29..33)
        .unwrap()
        .copy_from_slice(&sum.to_be_bytes());
    check_refused(
        &large,
        "a.jpg has 200 million dots; 100 million is the most that is shown",
    );

    let whole = halves(64, 32, false, None);
    check_refused(
        whole.get(..whole.len() / 2).unwrap(),
        "a.jpg is broken: it ends too soon",
    );
    check_refused(&[0xff, 0xd8, 0xff], "a.jpg is broken: ");
    let whole = png_of(8, 8, ColorType::Rgb, &[9; 24]);
    check_refused(whole.get(..whole.len() - 20).unwrap(), "a.jpg is broken: ");
    let mut damaged = whole;
    *damaged.get_mut(45).unwrap() ^= 0x55;
    check_refused(&damaged, "a.jpg is broken: ");
}

/// CRC-32 as PNG has it (ISO/IEC 15948, annex D).
fn crc(bytes: &[u8]) -> u32 {
    let sum = bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ (0xedb8_8320 * (sum & 1))
        })
    });
    !sum
}

#[test]
fn a_picture_cut_anywhere_is_words_and_never_a_panic() {
    for whole in [
        halves(40, 24, false, Some(&exif(6, true))),
        halves(40, 24, true, None),
        png_of(9, 9, ColorType::Rgba, &[77; 36]),
    ] {
        for end in 8..whole.len() {
            let _either = of(whole.get(..end).unwrap(), 16);
            let mut damaged = whole.clone();
            *damaged.get_mut(end).unwrap() ^= 0xff;
            let _either = of(&damaged, 16);
        }
    }
}
