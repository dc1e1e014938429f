//! Pictures named and taken away, and what they belong to when a pit, a sign or a day goes. The files stay in the folder: undo brings
//! a picture back, and so does [`SiteFile::bring_picture_back`].

use underbrick_calc::site;

use crate::v1::{Picture, PictureOf, SiteFile, Stamp};

impl SiteFile {
    /// Names a picture that lies in the folder of pictures; gives its index. `None`, and nothing is changed, where it is named already.
    pub fn add_picture(&mut self, file: &str, of: PictureOf, stamp: Stamp) -> Option<usize> {
        if self.show.pictures.iter().any(|there| there.file == file) {
            return None;
        }
        self.show.put_away.retain(|away| away != file);
        self.show.pictures.push(Picture {
            file: file.to_owned(),
            caption: String::new(),
            of,
            stamp,
        });
        Some(self.show.pictures.len() - 1)
    }

    /// Takes a picture out of the record; its file stays, and is remembered as put away. False when there is no such picture.
    pub fn remove_picture(&mut self, picture_idx: usize) -> bool {
        let is_there = picture_idx < self.show.pictures.len();
        if is_there {
            let picture = self.show.pictures.remove(picture_idx);
            self.put_away(picture);
        }
        is_there
    }

    /// Names a picture again that was put away, as one of the walk as found; gives its index. `None` when it was not.
    pub fn bring_picture_back(&mut self, file: &str, stamp: Stamp) -> Option<usize> {
        if !self.show.put_away.iter().any(|away| away == file) {
            return None;
        }
        self.add_picture(file, PictureOf::AsFound, stamp)
    }

    /// Says what a picture belongs to.
    pub fn set_picture_of(&mut self, picture_idx: usize, of: PictureOf) {
        if let Some(picture) = self.show.pictures.get_mut(picture_idx) {
            picture.of = of;
        }
    }

    /// A pit was taken out: its pictures show the walk as found, those of later pits go with them.
    pub(crate) fn pictures_after_pit(&mut self, pit_idx: usize) {
        for picture in &mut self.show.pictures {
            if let PictureOf::Pit(number) = picture.of {
                picture.of = after(number, pit_idx).map_or(PictureOf::AsFound, PictureOf::Pit);
            }
        }
    }

    /// A sign was taken out: its pictures show the walk as found, those of later signs go with them.
    pub(crate) fn pictures_after_sign(&mut self, sign_idx: usize) {
        for picture in &mut self.show.pictures {
            if let PictureOf::Sign(number) = picture.of {
                picture.of = after(number, sign_idx).map_or(PictureOf::AsFound, PictureOf::Sign);
            }
        }
    }

    /// A day was taken out of the log, and its pictures with it: they show neither the walk as found nor as handed over.
    pub(crate) fn pictures_after_day(&mut self, day_idx: usize) {
        for mut picture in std::mem::take(&mut self.show.pictures) {
            if let PictureOf::Day(number) = picture.of {
                let Some(number) = after(number, day_idx) else {
                    self.put_away(picture);
                    continue;
                };
                picture.of = PictureOf::Day(number);
            }
            self.show.pictures.push(picture);
        }
    }

    fn put_away(&mut self, picture: Picture) {
        if !self.show.put_away.contains(&picture.file) {
            self.show.put_away.push(picture.file);
        }
    }
}

/// The number of a thing after the one at an index was taken out; `None` where it was that one.
const fn after(number: usize, gone_idx: usize) -> Option<usize> {
    let gone = gone_idx + 1;
    if number == gone {
        None
    } else if number > gone {
        Some(number - 1)
    } else {
        Some(number)
    }
}

impl From<site::PictureOf> for PictureOf {
    fn from(of: site::PictureOf) -> Self {
        match of {
            site::PictureOf::AsFound => Self::AsFound,
            site::PictureOf::Pit(idx) => Self::Pit(idx.saturating_add(1)),
            site::PictureOf::Sign(idx) => Self::Sign(idx.saturating_add(1)),
            site::PictureOf::Day(idx) => Self::Day(idx.saturating_add(1)),
            site::PictureOf::HandedOver => Self::HandedOver,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site_with(of: &[PictureOf]) -> SiteFile {
        let mut site = SiteFile::new("3 Sample Lane", "");
        for (nth, of) in of.iter().enumerate() {
            site.add_picture(&format!("{nth}.jpg"), *of, Stamp::default());
        }
        site
    }

    #[track_caller]
    fn check(site: &SiteFile, of: &[(&str, PictureOf)], away: &[&str]) {
        let now: Vec<_> = site
            .show
            .pictures
            .iter()
            .map(|picture| (picture.file.as_str(), picture.of))
            .collect();
        assert_eq!(now, of);
        assert_eq!(site.show.put_away, away);
    }

    #[test]
    fn pictures_go_with_the_number_of_what_they_belong_to() {
        use PictureOf::{AsFound, Day, HandedOver, Pit, Sign};
        let mut site = site_with(&[Pit(1), Pit(2), Sign(2), Pit(3), HandedOver]);
        for _ in 0..3 {
            site.add_pit();
            site.add_sign();
        }
        assert!(site.remove_pit(1));
        let after_pit = [
            ("0.jpg", Pit(1)),
            ("1.jpg", AsFound),
            ("2.jpg", Sign(2)),
            ("3.jpg", Pit(2)),
            ("4.jpg", HandedOver),
        ];
        check(&site, &after_pit, &[]);
        assert!(!site.remove_pit(7));
        check(&site, &after_pit, &[]);
        assert!(site.remove_sign(0));
        assert_eq!(site.show.pictures[2].of, Sign(1));

        let mut site = site_with(&[Day(2), Day(1), AsFound, Day(3)]);
        for _ in 0..3 {
            site.add_day("2026-05-04", Stamp::default());
        }
        assert!(site.remove_day(0));
        check(
            &site,
            &[("0.jpg", Day(1)), ("2.jpg", AsFound), ("3.jpg", Day(2))],
            &["1.jpg"],
        );
    }

    #[test]
    fn a_picture_is_named_once_and_comes_back() {
        let mut site = site_with(&[PictureOf::Pit(1), PictureOf::HandedOver]);
        assert_eq!(
            site.add_picture("1.jpg", PictureOf::AsFound, Stamp::default()),
            None
        );
        assert!(site.remove_picture(0) && !site.remove_picture(1));
        check(&site, &[("1.jpg", PictureOf::HandedOver)], &["0.jpg"]);
        assert_eq!(site.bring_picture_back("7.jpg", Stamp::default()), None);
        assert_eq!(site.bring_picture_back("0.jpg", Stamp::default()), Some(1));
        site.set_picture_of(1, PictureOf::Pit(1));
        let back = [
            ("1.jpg", PictureOf::HandedOver),
            ("0.jpg", PictureOf::Pit(1)),
        ];
        check(&site, &back, &[]);
        site.remove_picture(1);
        // Taken in anew from the folder.
        assert_eq!(
            site.add_picture("0.jpg", PictureOf::AsFound, Stamp::default()),
            Some(1)
        );
        assert!(site.show.put_away.is_empty());
    }
}
