//! Colours by meaning: the only place where a colour is written as a number.

/// What a colour means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// Ground of drawings.
    Paper,
    /// Ground of entries.
    Panel,
    /// Ground of the pad.
    Pad,
    /// Keys and rows.
    Key,
    /// Text and outlines.
    Ink,
    /// Notes.
    SecondInk,
    /// Hairlines between panels.
    Hairline,
    /// The line, and what is being set.
    Line,
    /// Ground of what is being set.
    LineGround,
    /// Right.
    Right,
    /// Wrong.
    Wrong,
    /// Not known, as found.
    NotKnown,
    /// Ground of fraction keys.
    FractionKey,
    /// Fired clay.
    Clay,
    /// Setting bed.
    SettingBed,
    /// Base, odd lifts.
    BaseOdd,
    /// Base, even lifts.
    BaseEven,
    /// Concrete.
    Concrete,
    /// Undisturbed ground.
    Ground,
    /// Ground that must come out.
    ComesOut,
    /// Ground beside the dig that is put back.
    Backfill,
    /// Timber of the forms.
    Timber,
    /// Hatch of fired clay.
    ClayMark,
    /// Hatch of the setting bed.
    SettingBedMark,
    /// Hatch of the base.
    BaseMark,
    /// Hatch of concrete.
    ConcreteMark,
    /// Hatch of undisturbed ground.
    GroundMark,
    /// Hatch of ground that must come out.
    ComesOutMark,
    /// Hatch of backfill.
    BackfillMark,
}

/// Light or dark surroundings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// For bright sun.
    #[default]
    Sun,
    /// For dusk and the van.
    Dim,
}

/// Red, green, blue of a meaning, from 0 to 255 in sRGB.
#[must_use]
pub const fn rgb(ink: Ink, theme: Theme) -> [u8; 3] {
    let value = match theme {
        Theme::Sun => match ink {
            Ink::Paper => 0xFB_FA_F6,
            Ink::Panel => 0xF0_ED_E4,
            Ink::Pad => 0xE4_E0_D4,
            Ink::Key => 0xFF_FF_FF,
            Ink::Ink => 0x14_18_1B,
            Ink::SecondInk => 0x3E_47_4D,
            Ink::Hairline => 0xC9_C4_B6,
            Ink::Line => 0x08_3F_80,
            Ink::LineGround => 0xDF_E9_F5,
            Ink::Right => 0x06_50_3A,
            Ink::Wrong => 0x8E_15_12,
            Ink::NotKnown => 0x5F_3A_00,
            Ink::FractionKey => 0xF5_E9_D0,
            Ink::Clay => 0xC5_6A_4B,
            Ink::SettingBed => 0xE3_D8_C2,
            Ink::BaseOdd => 0xBF_C3_C7,
            Ink::BaseEven => 0xCF_D2_D5,
            Ink::Concrete => 0xD9_D9_D4,
            Ink::Ground => 0x9C_8A_73,
            Ink::ComesOut => 0xE6_C8_83,
            Ink::Backfill => 0xB9_A8_8E,
            Ink::Timber => 0xD8_B8_86,
            Ink::ClayMark => 0x9E_4B_30,
            Ink::SettingBedMark => 0x94_82_5C,
            Ink::BaseMark => 0x6C_73_79,
            Ink::ConcreteMark => 0x70_70_6A,
            Ink::GroundMark => 0x6E_5E_49,
            Ink::ComesOutMark => 0x8F_6F_25,
            Ink::BackfillMark => 0x86_75_5B,
        },
        Theme::Dim => match ink {
            Ink::Paper => 0x14_18_1B,
            Ink::Panel => 0x1E_24_28,
            Ink::Pad => 0x2A_31_36,
            Ink::Key => 0x37_40_46,
            Ink::Ink => 0xF2_EE_E4,
            Ink::SecondInk => 0xB9_BF_C2,
            Ink::Hairline => 0x46_4F_55,
            Ink::Line => 0x8F_C1_FF,
            Ink::LineGround => 0x1F_33_4A,
            Ink::Right => 0x6F_D6_AE,
            Ink::Wrong => 0xFF_9A_8F,
            Ink::NotKnown => 0xF3_C5_6B,
            Ink::FractionKey => 0x4A4232,
            Ink::Clay => 0x8F4932,
            Ink::SettingBed => 0x7A_70_5B,
            Ink::BaseOdd => 0x55_5B_60,
            Ink::BaseEven => 0x63_69_6E,
            Ink::Concrete => 0x7E_7E_79,
            Ink::Ground => 0x54_49_3B,
            Ink::ComesOut => 0x7D_67_36,
            Ink::Backfill => 0x66_5A_48,
            Ink::Timber => 0x7A_62_40,
            Ink::ClayMark => 0xB8_6E_55,
            Ink::SettingBedMark => 0xA8_9C_82,
            Ink::BaseMark => 0x8F_96_9B,
            Ink::ConcreteMark => 0xAC_AC_A6,
            Ink::GroundMark => 0x80_70_5C,
            Ink::ComesOutMark => 0xB2_96_55,
            Ink::BackfillMark => 0x8F_80_69,
        },
    };
    bytes(value)
}

const fn bytes(value: u32) -> [u8; 3] {
    [
        (value >> 16 & 0xFF) as u8,
        (value >> 8 & 0xFF) as u8,
        (value & 0xFF) as u8,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    const WRITING: [(Ink, f64); 6] = [
        (Ink::Ink, 13.5),
        (Ink::SecondInk, 7.2),
        (Ink::Line, 7.8),
        (Ink::Right, 7.1),
        (Ink::Wrong, 7.0),
        (Ink::NotKnown, 7.4),
    ];
    const GROUNDS: [Ink; 3] = [Ink::Paper, Ink::Panel, Ink::Pad];
    const MARKS: [(Ink, Ink); 8] = [
        (Ink::Clay, Ink::ClayMark),
        (Ink::SettingBed, Ink::SettingBedMark),
        (Ink::BaseOdd, Ink::BaseMark),
        (Ink::BaseEven, Ink::BaseMark),
        (Ink::Concrete, Ink::ConcreteMark),
        (Ink::Ground, Ink::GroundMark),
        (Ink::ComesOut, Ink::ComesOutMark),
        (Ink::Backfill, Ink::BackfillMark),
    ];

    /// Contrast ratio as the Web Content Accessibility Guidelines 2.2 define it ("relative luminance", "contrast ratio").
    fn contrast(first: Ink, second: Ink, theme: Theme) -> f64 {
        let luminance = |ink: Ink| {
            let [red, green, blue] = rgb(ink, theme).map(|byte| {
                let share = f64::from(byte) / 255.0;
                if share <= 0.040_45 {
                    share / 12.92
                } else {
                    libm::pow((share + 0.055) / 1.055, 2.4)
                }
            });
            0.2126 * red + 0.7152 * green + 0.0722 * blue
        };
        let (first, second) = (luminance(first), luminance(second));
        (first.max(second) + 0.05) / (first.min(second) + 0.05)
    }

    #[test]
    fn the_formula_gives_the_published_ends() {
        // WCAG 2.2: ratios run from 1 to 21. White key (255) against itself 1.
        assert!((contrast(Ink::Key, Ink::Key, Theme::Sun) - 1.0).abs() < 1e-12);
        // Ink #14181B on white: L = 0.0090 by hand -> 1.05 / 0.0590 = 17.8.
        assert!((contrast(Ink::Key, Ink::Ink, Theme::Sun) - 17.8).abs() < 0.1);
    }

    #[test]
    fn writing_in_the_sun_reaches_the_figures_of_the_design() {
        for (ink, least) in WRITING {
            for ground in GROUNDS {
                let ratio = contrast(ink, ground, Theme::Sun);
                assert!(
                    ratio >= least - 0.06,
                    "{ink:?} on {ground:?}: {ratio:.2}, wanted {least}"
                );
            }
        }
    }

    #[test]
    fn writing_at_dusk_keeps_the_enhanced_level_on_paper() {
        // WCAG 2.2, success criterion 1.4.6: 7 to 1.
        for (ink, _) in WRITING {
            let ratio = contrast(ink, Ink::Paper, Theme::Dim);
            assert!(ratio >= 7.0, "{ink:?}: {ratio:.2}");
        }
    }

    #[test]
    fn a_hatch_can_be_seen_and_stays_calm() {
        for theme in [Theme::Sun, Theme::Dim] {
            for (fill, mark) in MARKS {
                let ratio = contrast(fill, mark, theme);
                assert!(
                    (1.5..4.0).contains(&ratio),
                    "{mark:?} on {fill:?}, {theme:?}: {ratio:.2}"
                );
            }
        }
    }
}
