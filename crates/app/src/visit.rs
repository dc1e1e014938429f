//! One open site: the record, what follows from it, and the only place where it is changed.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::{Finding, Findings};
use underbrick_calc::place::Place;
use underbrick_calc::site::{Letterhead, PictureOf, ShotBy, Site};
use underbrick_calc::{Results, compute, compute_after};
use underbrick_records::v1::{FarEnd, GradeShape, LegShape, Restraint, Stamp};
use underbrick_records::{
    ChangeList, History, How, KeepStatus, Keeper, Noted, OpenSite, RecordError, SiteFile,
};
use underbrick_sheets::agreement::Design;

use crate::album::Album;
use crate::built::{self, Clock};
use crate::edit::{Edit, RestraintKind};
use crate::platform::device;
use crate::taken;

/// What wakes the window when the writer has news.
pub type Wake = Box<dyn Fn() + Send>;

/// One open site.
pub struct Visit {
    folder: PathBuf,
    catalogue: Arc<Catalogue>,
    history: History,
    keeper: Keeper,
    site: Site,
    reading: Findings,
    results: Results,
    revision: u64,
    /// The value that is being typed: its next text replaces the last step instead of making another.
    typing_at: Option<Place>,
    /// Who tells the time of what is written down while the walk is built.
    clock: Clock,
    /// The letter of this device.
    device: Option<char>,
    album: Album,
    /// Who hands sheets over.
    letterhead: Option<Letterhead>,
}

impl Visit {
    /// Opens the site in a folder. `wake` is called from another thread when there is news of the disk or of a picture.
    ///
    /// # Errors
    /// [`RecordError`] when it cannot be read, or is open in another window.
    pub fn open(folder: &Path, catalogue: Arc<Catalogue>, wake: Wake) -> Result<Self, RecordError> {
        let open = OpenSite::open(folder)?;
        let history = open.history().clone();
        let Some(folder) = open.folder().map(Path::to_path_buf) else {
            return Err(RecordError::NotAFolder {
                path: folder.to_path_buf(),
            });
        };
        let wake = Arc::new(Mutex::new(wake));
        let waker = |wake: &Arc<Mutex<Wake>>| -> Wake {
            let wake = Arc::clone(wake);
            Box::new(move || wake.lock().unwrap_or_else(PoisonError::into_inner)())
        };
        let keeper = Keeper::start(folder.clone(), &history, waker(&wake))?;
        let album = Album::open(folder.clone(), waker(&wake));
        let (site, reading) = history.now().checked(&catalogue);
        let results = compute(&site, &catalogue);
        Ok(Self {
            folder,
            catalogue,
            history,
            keeper,
            site,
            reading,
            results,
            revision: 0,
            typing_at: None,
            clock: built::device_clock,
            device: None,
            album,
            letterhead: None,
        })
    }

    /// The record as typed.
    #[must_use]
    pub fn record(&self) -> &SiteFile {
        self.history.now()
    }

    /// The record as understood.
    #[must_use]
    pub const fn site(&self) -> &Site {
        &self.site
    }

    /// What follows from it.
    #[must_use]
    pub const fn results(&self) -> &Results {
        &self.results
    }

    /// The materials.
    #[must_use]
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// Where it is kept.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Rises with every change.
    #[must_use]
    pub const fn revision(&self) -> u64 {
        self.revision
    }

    /// Findings of the reading and of the calculation.
    pub fn findings(&self) -> impl Iterator<Item = &Finding> {
        self.reading
            .iter()
            .chain(self.results.findings.iter())
            .chain(self.album.findings())
    }

    /// Findings at one place.
    pub fn findings_at(&self, place: Place) -> impl Iterator<Item = &Finding> {
        self.findings()
            .filter(move |finding| finding.place == place)
    }

    /// Whether every change is on disk.
    #[must_use]
    pub fn keep_status(&self) -> KeepStatus {
        self.keeper.status()
    }

    /// Waits until every change is on disk, at most so long. Gives whether it is.
    #[must_use]
    pub fn flush(&self, at_most: Duration) -> bool {
        self.keeper.flush(at_most)
    }

    /// Takes the time from another clock than the device's.
    pub fn tell_time_by(&mut self, clock: Clock) {
        self.clock = clock;
    }

    /// Whether the clock tells the time of the place, and not UTC.
    #[must_use]
    pub fn is_local_time(&self) -> bool {
        !(self.clock)().ends_with('Z')
    }

    /// What is written from now on is written on the device of that letter.
    pub(crate) const fn write_on(&mut self, device: Option<char>) {
        self.device = device;
    }

    /// The letter of this device; `None` where it has none.
    #[must_use]
    pub const fn device_letter(&self) -> Option<char> {
        self.device
    }

    /// What this device is called in the record.
    #[must_use]
    pub fn device(&self) -> String {
        device::name(self.device)
    }

    /// Who changed what, and when, oldest first, as far as it was read.
    #[must_use]
    pub fn changes(&self) -> Arc<ChangeList> {
        self.keeper.changes()
    }

    /// The pictures of the site, as far as they are fetched.
    #[must_use]
    pub const fn album(&self) -> &Album {
        &self.album
    }

    /// Has a file taken in as a picture, beside the window: it is named in the record once it lies in the site's folder.
    pub fn take_in_picture(&mut self, from: PathBuf, of: PictureOf) {
        let date: String = (self.clock)()
            .chars()
            .take_while(|letter| *letter != 'T')
            .collect();
        self.album.take_in(from, date, of.into());
    }

    /// What was said about pictures was read.
    pub(crate) fn picture_trouble_read(&mut self) {
        self.album.said();
    }

    /// Looks again at what lies in the folder of pictures.
    pub(crate) fn look_into_pictures(&mut self) {
        self.album.look_into_folder();
    }

    /// Takes over what was fetched of pictures; asks for what is not fetched yet. Gives how many pictures were named by it.
    pub(crate) fn take_picture_news(&mut self, large: Option<usize>) -> usize {
        let mut n_named = 0;
        for (of, file) in self.album.take_news() {
            self.apply(&Edit::AddPictures {
                files: vec![file],
                of,
            });
            n_named += 1;
        }
        self.album.ask(self.history.now(), large);
        n_named
    }

    /// Hands sheets over in that name.
    pub fn hand_over_as(&mut self, letterhead: Option<Letterhead>) {
        self.letterhead = letterhead;
    }

    /// Who hands sheets over; `None` where nobody wrote it down.
    #[must_use]
    pub const fn letterhead(&self) -> Option<&Letterhead> {
        self.letterhead.as_ref()
    }

    /// What an owner is told, and agrees on, is made from this.
    #[must_use]
    pub fn design(&self) -> Design<'_> {
        Design {
            site: &self.site,
            catalogue: &self.catalogue,
            results: &self.results,
            letterhead: self.letterhead.as_ref(),
        }
    }

    /// The catalogue, to be worked with beside the window.
    #[must_use]
    pub fn shared_catalogue(&self) -> Arc<Catalogue> {
        Arc::clone(&self.catalogue)
    }

    /// Today: year, month, day; `None` where the clock says nothing that can be read.
    #[must_use]
    pub fn today(&self) -> Option<(i16, i8, i8)> {
        let now = (self.clock)();
        let mut parts = now.split('T').next()?.split('-');
        let date = (
            parts.next()?.parse().ok()?,
            parts.next()?.parse().ok()?,
            parts.next()?.parse().ok()?,
        );
        parts.next().is_none().then_some(date)
    }

    /// Carries out an edit: changes the record, keeps the state before it for undo, computes, and has it written.
    pub fn apply(&mut self, edit: &Edit) {
        let mut record = self.record().clone();
        let stamp = Stamp {
            at: (self.clock)(),
            by: match edit {
                // Whoever writes his initials down stands behind that already.
                Edit::Text {
                    place: Place::Initials,
                    typed,
                } => typed.trim().to_owned(),
                _ => record.build.initials.trim().to_owned(),
            },
            device: self.device(),
        };
        if !built::change(&mut record, edit, &stamp) {
            change(&mut record, edit);
        }
        if record == *self.record() {
            return;
        }
        let typing_at = match edit {
            Edit::Text { place, .. } => Some(*place),
            _ => None,
        };
        let goes_on = typing_at.is_some() && typing_at == self.typing_at;
        if goes_on {
            self.history.undo();
        }
        self.typing_at = typing_at;
        let step = self.history.push(record);
        let noted = Noted {
            stamp,
            how: How::Written,
            goes_on,
        };
        self.keeper
            .keep_noted(self.history.now().clone(), step, noted);
        self.recompute();
    }

    /// The next text at the same value makes a step of its own again.
    pub fn end_typing(&mut self) {
        self.typing_at = None;
    }

    /// Takes the last step back. False when there is none.
    pub fn undo(&mut self) -> bool {
        let record = self.history.undo();
        self.moved_to(record, How::TakenBack)
    }

    /// Takes it forward again. False when there is none.
    pub fn redo(&mut self) -> bool {
        let record = self.history.redo();
        self.moved_to(record, How::BroughtBack)
    }

    /// Whether there is a step to take back.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether there is a step to take forward.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    fn moved_to(&mut self, record: Option<SiteFile>, how: How) -> bool {
        let by = self.record().build.initials.trim();
        let noted = Noted {
            stamp: Stamp {
                at: (self.clock)(),
                by: by.to_owned(),
                device: self.device(),
            },
            how,
            goes_on: false,
        };
        let Some(record) = record else { return false };
        self.typing_at = None;
        self.keeper.keep_noted(record, self.history.step(), noted);
        self.recompute();
        true
    }

    fn recompute(&mut self) {
        let (site, reading) = self.history.now().checked(&self.catalogue);
        self.site = site;
        self.reading = reading;
        let laid_before = self.results.lay.take();
        self.results = compute_after(&self.site, &self.catalogue, laid_before);
        self.revision += 1;
        self.album.match_findings(self.history.now());
    }
}

fn change(record: &mut SiteFile, edit: &Edit) {
    match edit {
        Edit::Text { place, typed } => {
            let text = record.normalised(*place, typed);
            record.set_text(*place, &text);
        }
        Edit::ShownIn(shown_in) => record.shown_in = (*shown_in).into(),
        Edit::CrewReads(language) => record.show.crew_reads = (*language).into(),
        Edit::AddSign => {
            record.add_sign();
        }
        Edit::RemoveSign(sign_idx) => {
            record.remove_sign(*sign_idx);
        }
        Edit::SignSeverity(sign_idx, severity) => {
            if let Some(sign) = record.signs.get_mut(*sign_idx) {
                sign.severity = (*severity).into();
            }
        }
        Edit::AddStraight => {
            record.add_straight_leg();
        }
        Edit::AddCurve => {
            record.add_curved_leg(underbrick_calc::site::Hand::Right);
        }
        Edit::RemoveLeg(leg_idx) => {
            record.remove_leg(*leg_idx);
        }
        Edit::Hand(leg_idx, turned) => {
            if let Some(LegShape::Curve { hand, .. }) =
                record.line.legs.get_mut(*leg_idx).map(|leg| &mut leg.shape)
            {
                *hand = (*turned).into();
            }
        }
        Edit::FarEndFixed(fixed) => match (fixed, &record.line.far_end) {
            (true, FarEnd::Free) => {
                record.line.far_end = FarEnd::Fixed {
                    below_sill: String::new(),
                }
            }
            (false, FarEnd::Fixed { .. }) => record.line.far_end = FarEnd::Free,
            (true, FarEnd::Fixed { .. }) | (false, FarEnd::Free) => {}
        },
        Edit::Shape(kind) => {
            if taken::kind_of(&record.line.shape) != *kind {
                record.line.shape = taken::new_shape(*kind);
            }
        }
        Edit::Risers(risers) => {
            if let GradeShape::Steps { n_risers, .. } = &mut record.line.shape {
                *n_risers = (*risers).max(1);
            }
        }
        Edit::Take(taking) => taken::write_down(record, taking),
        Edit::AddShot(by) => {
            let by: ShotBy = *by;
            record.add_shot(by);
        }
        Edit::RemoveShot(shot_idx) => {
            record.remove_shot(*shot_idx);
        }
        Edit::BookStart => {
            record.start_book();
        }
        Edit::BookSight => {
            record.add_intermediate_sight();
        }
        Edit::BookTurn => {
            record.turn_book();
        }
        Edit::BookClose => {
            record.close_book();
        }
        Edit::BookStands(row_idx, stands) => {
            record.stand_sight_on(*row_idx, (*stands).into());
        }
        Edit::RemoveBookLine(row_idx) => {
            record.remove_book_line(*row_idx);
        }
        Edit::BookSpread(spread) => record.line.book.spread = *spread,
        Edit::AddPit => {
            record.add_pit();
        }
        Edit::RemovePit(pit_idx) => {
            record.remove_pit(*pit_idx);
        }
        Edit::AddLayer(pit_idx) => {
            record.add_layer(*pit_idx, "");
        }
        Edit::RemoveLayer(pit_idx, layer_idx) => {
            record.remove_layer(*pit_idx, *layer_idx);
        }
        Edit::PitEnded(pit_idx, ended) => {
            if let Some(pit) = record.pits.get_mut(*pit_idx) {
                pit.ended = (*ended).into();
            }
        }
        Edit::Firmness(pit_idx, layer_idx, firmness) => {
            if let Some(layer) = record
                .pits
                .get_mut(*pit_idx)
                .and_then(|pit| pit.layers.get_mut(*layer_idx))
            {
                layer.firmness = firmness.map(Into::into);
            }
        }
        Edit::Moisture(pit_idx, layer_idx, moisture) => {
            if let Some(layer) = record
                .pits
                .get_mut(*pit_idx)
                .and_then(|pit| pit.layers.get_mut(*layer_idx))
            {
                layer.moisture = moisture.map(Into::into);
            }
        }
        Edit::Ribbon(ribbon) => record.soil.ribbon = ribbon.map(Into::into),
        Edit::Grit(grit) => record.soil.grit = grit.map(Into::into),
        Edit::Varved(varved) => record.soil.varved = *varved,
        Edit::AddPenetrometerRow(pit_idx) => {
            record.add_penetrometer_row(*pit_idx);
        }
        Edit::RemovePenetrometerRow(pit_idx, row_idx) => {
            record.remove_penetrometer_row(*pit_idx, *row_idx);
        }
        Edit::Hammer(pit_idx, hammer) => {
            if let Some(pit) = record.pits.get_mut(*pit_idx) {
                pit.penetrometer.hammer = (*hammer).into();
            }
        }
        Edit::DrivenInto(pit_idx, driven_into) => {
            if let Some(pit) = record.pits.get_mut(*pit_idx) {
                pit.penetrometer.driven_into = (*driven_into).into();
            }
        }
        Edit::Bond(bond) => record.lay.bond = (*bond).into(),
        Edit::TakeBond(bond, courses) => {
            record.lay.bond = (*bond).into();
            record.lay.courses = (*courses).into();
        }
        Edit::Courses(way) => record.lay.courses = (*way).into(),
        Edit::StartSide(side) => record.lay.start_side = (*side).into(),
        Edit::ReturnAtDoor(laid) => record.lay.return_at_door = *laid,
        Edit::ReturnAtEnd(laid) => record.lay.return_at_end = *laid,
        Edit::AddOpening => {
            record.add_opening();
        }
        Edit::RemoveOpening(opening_idx) => {
            record.remove_opening(*opening_idx);
        }
        Edit::AddSampleBrick(of_second) => {
            record.add_sample_brick(*of_second);
        }
        Edit::RemoveSampleBrick(brick_idx) => {
            record.remove_sample_brick(*brick_idx);
        }
        Edit::SecondBrick(is_there) => record.set_second_brick(*is_there),
        Edit::OrderWay(way) => record.set_way(*way),
        Edit::Supplier(item, supplier) => record.set_supplier(*item, supplier.as_deref()),
        Edit::Lock(item, count) => record.lock(*item, *count),
        Edit::EdgeOfSecond(of_second) => record.lay.edge_of_second = *of_second,
        Edit::TakeWidth {
            clear,
            joint,
            stands,
        } => taken::write_width(record, *clear, *joint, *stands),
        Edit::RemovePicture(picture_idx) => {
            record.remove_picture(*picture_idx);
        }
        Edit::PictureOf(picture_idx, of) => record.set_picture_of(*picture_idx, (*of).into()),
        // Carried out with the time, by its own file.
        Edit::AddSetUp
        | Edit::AddCheck { .. }
        | Edit::RemoveCheck(_)
        | Edit::ConfirmCheck(_)
        | Edit::CheckByRod(..)
        | Edit::AddSpot(_)
        | Edit::RemoveSpot(_)
        | Edit::CloseStage(_)
        | Edit::ReopenStage(_)
        | Edit::AddDay
        | Edit::RemoveDay(_)
        | Edit::AddDelivery(_)
        | Edit::RemoveDelivery(..)
        | Edit::AddPictures { .. }
        | Edit::BringPictureBack(_)
        | Edit::Agree { .. } => {}
        Edit::Fabric(laid) => record.bed.fabric = *laid,
        Edit::Plant(plant) => record.bed.plant = (*plant).into(),
        Edit::EdgeStands(stands) => record.edge.stands = (*stands).into(),
        Edit::Restraint(kind) => {
            let is_same = matches!(
                (kind, &record.edge.restraint),
                (RestraintKind::Haunch, Restraint::Haunch { .. })
                    | (RestraintKind::Spiked, Restraint::Spiked { .. })
                    | (RestraintKind::Nothing, Restraint::Nothing)
            );
            if !is_same {
                record.edge.restraint = match kind {
                    RestraintKind::Haunch => Restraint::haunch(),
                    RestraintKind::Spiked => Restraint::spiked(),
                    RestraintKind::Nothing => Restraint::Nothing,
                };
            }
        }
    }
}
