use super::*;
use underbrick_calc::lay::BrickSize;
use underbrick_calc::quantity::inches;

#[test]
fn how_far_off_in_words() {
    let feet = ShownIn::FeetInches;
    assert_eq!(off_words(inches(0.25), feet), "1/4\" wider");
    assert_eq!(off_words(inches(-0.1875), feet), "3/16\" narrower");
    assert_eq!(off_words(inches(0.000_01), feet), "on the mark");
    assert_eq!(off_words(inches(0.0), ShownIn::Metric), "on the mark");
    assert_eq!(off_words(inches(0.5), ShownIn::Metric), "12.7 mm wider");
}

#[test]
fn cuts_in_words() {
    let cut = |n_whole, n_ripped, to_in| RipCut {
        n_whole,
        n_ripped,
        to: inches(to_in),
    };
    assert_eq!(
        cut_words(cut(10, 1, 2.0), ShownIn::FeetInches),
        "10 whole courses and one cut to 2\""
    );
    assert_eq!(
        cut_words(cut(9, 2, 2.625), ShownIn::FeetInches),
        "9 whole courses and 2 cut to 2 5/8\""
    );
}

#[test]
fn length_by_thickness_in_words() {
    let words = |ratio| aspect_words(Aspect { ratio });
    // Row P3: at most 4 for feet, 3 for a street.
    assert_eq!(words(2.9), "for feet (4) and for a street (3)");
    assert_eq!(words(3.5), "for feet (4), not for a street (3)");
    assert_eq!(words(5.3), "not for feet: more than 4");
}

#[test]
fn the_size_is_written_fine() {
    let size = BrickSize {
        length: inches(24.125 / 3.0),
        width: inches(4.0),
        thickness: inches(2.25),
    };
    assert_eq!(
        fine_measure(Some(size.length), ShownIn::FeetInches).shown,
        "8.042\""
    );
    assert_eq!(fine_measure(None, ShownIn::Metric).shown, "not known");
}
