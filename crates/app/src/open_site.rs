//! One open site on screen: rod, ground, what is written down, and the pad. Edits of the views are carried out here, after the views.

use std::path::PathBuf;

use egui::{Rect, Ui, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_calc::site::PictureOf;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::areas::{Areas, TITLE_HEIGHT};
use crate::canvas::lettering;
use crate::edit::{Edit, ShapeKind};
use crate::ground::{GroundView, cross_ui, first_cut, long_ui};
use crate::kept_rows::{KeptRows, known, known_share, places_in_order};
use crate::light::Light;
use crate::plan_view::{PlanViewState, plan_touched, plan_ui, with_plan};
use crate::platform::{Platform, device};
use crate::stops::build::{self, after_check, is_questioned, station_of};
use crate::stops::opened::{BuildList, Opened, OrderPart, Part, PictureShown, StagesShown};
use crate::stops::penetrometer::{RowStep, after_row, new_row};
use crate::stops::show::{PapersPlace, ShowPage, ShowView, show_ui};
use crate::stops::{Stop, entry_behind, is_soil, order, pictures, pit_of};
use crate::theme::{self, Ink, Theme, size};
use crate::title_bar::title_ui;
use crate::visit::Visit;
use crate::widgets::build::CheckTap;
use crate::widgets::build::full_size::full_size_ui;
use crate::widgets::build::live::live_ui;
use crate::widgets::build::station::station_ui;
use crate::widgets::key::Key;
use crate::widgets::pad::{Pad, PadAnswer, pad_ui};
use crate::widgets::pictures::{picture_ui, waiting_ui};
use crate::widgets::rod::{Notch, rod_ui};
use crate::widgets::rows::rows_ui;

/// One open site on screen.
pub(crate) struct Open {
    pub visit: Visit,
    stop: Stop,
    pad: Pad,
    ground: GroundView,
    plan: PlanViewState,
    opened: Opened,
    /// What has no value for the pad and is looked at: a choice behind a finding.
    looked_at: Option<Place>,
    /// The value being set has moved: its row is scrolled into sight once.
    scroll: bool,
    rows: KeptRows,
    /// What the homeowner is shown.
    show: ShowView,
    /// Where the person goes back to from there.
    before_show: Stop,
    /// Where its papers go.
    papers: PapersPlace,
    /// A folder to be shown in the device's own program.
    opens: Option<PathBuf>,
}

impl Open {
    pub fn new(visit: Visit) -> Self {
        let mut ground = GroundView::default();
        ground.cut_at(first_cut(&visit));
        Self {
            plan: PlanViewState::default(),
            visit,
            stop: Stop::Look,
            pad: Pad::default(),
            ground,
            opened: Opened::default(),
            looked_at: None,
            scroll: false,
            rows: KeptRows::default(),
            show: ShowView::default(),
            before_show: Stop::Look,
            papers: PapersPlace::default(),
            opens: None,
        }
    }

    /// Does what this device can do beside the window.
    pub fn serve_on(&mut self, platform: &dyn Platform) {
        self.papers = PapersPlace::on(platform);
    }

    /// Has the device show the folder that was asked for.
    pub fn open_asked(&mut self, platform: &dyn Platform) {
        let Some(folder) = self.opens.take() else {
            return;
        };
        // Empty, where nothing was made yet. Where it cannot be made, the device says that it is not there.
        drop(std::fs::create_dir_all(&folder));
        if let Err(why) = platform.open_folder(&folder) {
            self.show.say_not_opened(why);
        }
    }

    /// What the pad sets.
    pub const fn setting(&self) -> Option<Place> {
        self.pad.place()
    }

    pub fn go_to(&mut self, stop: Stop) {
        if self.stop != stop {
            self.looked_at = None;
            self.leave_pad();
            self.enter(stop);
            self.opened.picture = None;
            self.visit.look_into_pictures();
        }
    }

    fn enter(&mut self, stop: Stop) {
        if stop == Stop::Show && self.stop != Stop::Show {
            self.before_show = self.stop;
            self.show = ShowView::with(self.papers.clone());
        }
        self.stop = stop;
    }

    /// Goes to a page of what the homeowner is shown.
    pub fn show_page(&mut self, page: ShowPage) {
        self.go_to(Stop::Show);
        self.show.page = page;
    }

    pub fn set(&mut self, place: Place) {
        let place = entry_behind(place, &self.visit);
        if self.visit.record().text(place).is_none() {
            return;
        }
        self.opened.picture = match place {
            Place::PictureCaption(picture_idx) => Some(PictureShown::One(picture_idx)),
            _ => None,
        };
        let left = self.pad.set(Some(place), &self.visit);
        self.apply(left);
        self.visit.end_typing();
        self.looked_at = None;
        if !self.stop.shows(place) {
            self.stop = Stop::of(place);
        }
        self.opened.pit = pit_of(place).or(self.opened.pit);
        self.opened.soil |= is_soil(place);
        self.opened.order = OrderPart::of(place).or(self.opened.order);
        self.show_built(place);
        self.scroll = true;
    }

    /// Goes to where a reading is written down: to its value, or to where it is chosen.
    pub fn jump(&mut self, place: Place) {
        if self.visit.record().text(place).is_some() {
            self.set(place);
        } else {
            self.leave_pad();
            self.enter(Stop::of(place));
            self.opened.order = OrderPart::of(place).or(self.opened.order);
            self.show_built(place);
            self.looked_at = Some(place);
            self.scroll = true;
        }
    }

    /// Unfolds the stage that asks for what is set, and cuts the ground where it is read.
    fn show_built(&mut self, place: Place) {
        if Stop::of(place) != Stop::Build {
            return;
        }
        self.opened.station = None;
        self.opened.full_size = None;
        if let Some(stage) = build::stage_of(&self.visit, place) {
            self.opened.stages = StagesShown::Only(stage);
        }
        if let Some(station) = station_of(&self.visit, place) {
            self.ground.cut_at(station);
        }
        let list = match place {
            Place::DayDate(_)
            | Place::DayCrew(_)
            | Place::DayWeather(_)
            | Place::DayNotes(_)
            | Place::DeliveryItem(..)
            | Place::DeliveryCount(..) => Some(Part::BuildList(BuildList::Days)),
            _ => None,
        };
        if let Some(list) = list.filter(|list| !self.opened.shows(list)) {
            self.opened.turn(list);
        }
    }

    /// Writes down what stands on the pad, and leaves it there.
    pub fn write_down(&mut self) {
        let left = self.pad.leave();
        self.apply(left);
    }

    /// One step back: from the pad, then from the station that is shown alone. False where there is nothing to go back from but the site.
    /// What the homeowner is shown is left by holding its key alone: there it goes no further than to the first page.
    pub fn go_back(&mut self) -> bool {
        if self.stop == Stop::Show {
            self.show.page = ShowPage::default();
        } else if self.pad.place().is_some() {
            self.leave_pad();
        } else if self.opened.full_size.take().is_some() {
            return true;
        } else if self.opened.station.take().is_none() {
            self.leave_pad();
            return false;
        }
        true
    }

    fn leave_pad(&mut self) {
        let left = self.pad.set(None, &self.visit);
        self.apply(left);
        self.visit.end_typing();
    }

    /// Carries out edits in order, and goes where the person will want to be.
    fn apply(&mut self, edits: Vec<Edit>) {
        for edit in edits {
            self.visit.apply(&edit);
            match edit {
                Edit::AddSign => self.set(Place::Sign(
                    self.visit.record().signs.len().saturating_sub(1),
                )),
                Edit::AddPit => self.set(Place::PitStation(
                    self.visit.record().pits.len().saturating_sub(1),
                )),
                Edit::AddLayer(pit_idx) => {
                    let n_layers = self
                        .visit
                        .record()
                        .pits
                        .get(pit_idx)
                        .map_or(0, |pit| pit.layers.len());
                    self.set(Place::LayerMaterial(pit_idx, n_layers.saturating_sub(1)));
                }
                Edit::AddShot(_) => self.set(Place::ShotStation(
                    self.visit.record().line.shots.len().saturating_sub(1),
                )),
                Edit::BookStart | Edit::BookClose => {
                    self.set(Place::BookReading(self.n_sights().saturating_sub(1)));
                }
                Edit::BookSight => {
                    self.set(Place::BookStation(self.n_sights().saturating_sub(1)));
                }
                Edit::BookTurn => self.set(Place::BookReading(self.n_sights().saturating_sub(2))),
                Edit::BookStands(..) => self.pad.read_again(&self.visit),
                Edit::AddStraight => self.set(Place::LegLength(
                    self.visit.record().line.legs.len().saturating_sub(1),
                )),
                Edit::AddCurve => self.set(Place::LegRadius(
                    self.visit.record().line.legs.len().saturating_sub(1),
                )),
                Edit::FarEndFixed(true) => self.set(Place::FarEndBelowSill),
                Edit::Shape(ShapeKind::Steps) => self.set(Place::StepsAt),
                Edit::Shape(ShapeKind::Break) => self.set(Place::BreakAt),
                Edit::AddPenetrometerRow(pit_idx) => {
                    self.set(new_row(&self.visit, pit_idx));
                }
                Edit::AddOpening => self.set(Place::OpeningStation(
                    self.visit.record().lay.openings.len().saturating_sub(1),
                )),
                Edit::AddSampleBrick(_) => self.set(Place::SampleLength(
                    self.visit.record().lay.sample.len().saturating_sub(1),
                )),
                Edit::SecondBrick(true) => self.set(Place::SecondLength),
                Edit::AddSetUp => self.set(Place::SetUpRod(
                    self.visit.record().build.set_ups.len().saturating_sub(1),
                )),
                Edit::AddCheck { station, .. } => {
                    let last = self.visit.record().build.readings.len().saturating_sub(1);
                    self.set(match station {
                        Some(_) => Place::BuildValue(last),
                        None => Place::BuildStation(last),
                    });
                }
                Edit::AddSpot(_) => self.set(Place::SpotSize(
                    self.visit.record().build.spots.len().saturating_sub(1),
                )),
                Edit::AddDay => self.set(Place::DayCrew(
                    self.visit.record().build.days.len().saturating_sub(1),
                )),
                Edit::AddDelivery(day_idx) => {
                    let days = &self.visit.record().build.days;
                    let n_came = days.get(day_idx).map_or(0, |day| day.deliveries.len());
                    self.set(Place::DeliveryItem(day_idx, n_came.saturating_sub(1)));
                }
                Edit::CloseStage(_) => {
                    self.pad.set(None, &self.visit);
                    self.opened.stages = StagesShown::First;
                    let next = self
                        .visit
                        .results()
                        .build
                        .as_ref()
                        .and_then(|build| build::first_open(build).map(Place::HoldStage));
                    self.looked_at = next;
                    self.scroll = next.is_some();
                }
                Edit::CheckByRod(..) => self.pad.read_again(&self.visit),
                Edit::RemovePicture(_) => {
                    self.pad.set(None, &self.visit);
                    self.opened.picture = None;
                }
                Edit::RemoveOpening(_)
                | Edit::RemoveSampleBrick(_)
                | Edit::SecondBrick(false)
                | Edit::TakeWidth { .. }
                | Edit::Bond(_)
                | Edit::TakeBond(..)
                | Edit::RemoveSign(_)
                | Edit::RemovePit(_)
                | Edit::RemovePenetrometerRow(..)
                | Edit::RemoveLayer(..)
                | Edit::RemoveShot(_)
                | Edit::RemoveCheck(_)
                | Edit::RemoveSpot(_)
                | Edit::RemoveDay(_)
                | Edit::RemoveDelivery(..)
                | Edit::ReopenStage(_)
                | Edit::RemoveBookLine(_)
                | Edit::RemoveLeg(_)
                | Edit::FarEndFixed(false)
                | Edit::Shape(ShapeKind::Uniform | ShapeKind::Ramp)
                | Edit::Take(_)
                | Edit::Restraint(_)
                | Edit::ShownIn(_)
                | Edit::CrewReads(_) => {
                    self.pad.set(None, &self.visit);
                }
                Edit::Text { .. }
                | Edit::Risers(_)
                | Edit::SignSeverity(..)
                | Edit::BookSpread(_)
                | Edit::Hand(..)
                | Edit::PitEnded(..)
                | Edit::Firmness(..)
                | Edit::Moisture(..)
                | Edit::Ribbon(_)
                | Edit::Grit(_)
                | Edit::Varved(_)
                | Edit::Hammer(..)
                | Edit::DrivenInto(..)
                | Edit::Fabric(_)
                | Edit::Plant(_)
                | Edit::Courses(_)
                | Edit::StartSide(_)
                | Edit::ReturnAtDoor(_)
                | Edit::ReturnAtEnd(_)
                | Edit::EdgeOfSecond(_)
                | Edit::OrderWay(_)
                | Edit::Supplier(..)
                | Edit::Lock(..)
                | Edit::ConfirmCheck(_)
                | Edit::AddPictures { .. }
                | Edit::PictureOf(..)
                | Edit::BringPictureBack(_)
                | Edit::Agree { .. }
                | Edit::EdgeStands(_) => {}
            }
        }
    }

    fn n_sights(&self) -> usize {
        self.visit.record().line.book.rows.len()
    }

    /// Gives whether the person went back to the list.
    pub fn ui(&mut self, ui: &mut Ui) -> bool {
        let whole = ui.max_rect();
        self.visit.write_on(device::letter(ui));
        let areas = if whole.width() >= whole.height() {
            Areas::landscape(whole, theme::text_scale(ui))
        } else {
            Areas::portrait(whole, theme::text_scale(ui))
        };
        let theme = theme::current(ui);
        ui.painter()
            .rect_filled(whole, 0, theme::color(Ink::Paper, theme));
        if self.stop == Stop::Show {
            self.visit.take_picture_news(self.show.picture(&self.visit));
            let answer = show_ui(ui, whole, &mut self.show, &self.visit);
            self.apply(answer.edits);
            self.opens = answer.opens;
            if answer.leaves {
                self.stop = self.before_show;
                ui.request_repaint();
            }
            return false;
        }
        self.keys_of_the_desk(ui);
        self.pictures(ui);
        self.rows
            .refresh(&self.visit, self.pad.place(), &self.opened);
        let back = self.rod(ui, &areas);
        title_ui(ui, areas.title, &self.visit);
        let has_plan = self.light();
        let areas = if has_plan { areas.with_plan() } else { areas };
        let tapped = if self.picture(ui, &areas) {
            None
        } else if let Some(tapped) = self.built(ui, &areas) {
            tapped
        } else if has_plan {
            // The plan first: what is dragged there is in the section of the same frame.
            let tapped = self.plan(ui, areas.long);
            cross_ui(ui, areas.cross, &mut self.ground, &self.visit).or(tapped)
        } else {
            cross_ui(ui, areas.cross, &mut self.ground, &self.visit).or(long_ui(
                ui,
                areas.long,
                &mut self.ground,
                &self.visit,
            ))
        };
        let line = egui::Stroke::new(1.0, theme::color(Ink::Hairline, theme));
        let is_ground = self.opened.picture.is_none();
        if is_ground
            && (self.stop != Stop::Build
                || (self.opened.station.is_none() && self.opened.full_size.is_none()))
        {
            ui.painter()
                .hline(areas.cross.x_range(), areas.long.min.y, line);
        }
        self.entries(ui, &areas);
        if let Some(place) = tapped {
            self.set(place);
            ui.request_repaint();
        }
        waiting_ui(ui, areas.cross.union(areas.long), &self.belongs_to());
        back
    }

    /// What a picture that is dropped now belongs to, in words.
    fn belongs_to(&self) -> String {
        pictures::said(&self.visit, self.dropped_for())
    }

    fn dropped_for(&self) -> PictureOf {
        let shown = match self.opened.picture {
            Some(PictureShown::One(picture_idx)) => Some(picture_idx),
            _ => None,
        };
        pictures::dropped_for(
            &self.visit,
            self.stop,
            self.pad.place(),
            &self.opened,
            shown,
        )
    }

    /// As if the file were dropped on the window.
    pub fn take_in_picture(&mut self, from: PathBuf) {
        self.visit.take_in_picture(from, self.dropped_for());
    }

    /// Takes in what was dropped on the window, and what has come of pictures since.
    fn pictures(&mut self, ui: &Ui) {
        let (dropped, is_back) = ui.input(|input| {
            let is_back = input
                .events
                .iter()
                .any(|event| matches!(event, egui::Event::WindowFocused(true)));
            (input.raw.dropped_files.clone(), is_back)
        });
        let of = self.dropped_for();
        let has_dropped = !dropped.is_empty();
        for file in dropped {
            self.visit.take_in_picture(file.path().to_path_buf(), of);
        }
        if has_dropped {
            self.leave_pad();
            if !matches!(self.stop, Stop::Look | Stop::Build) {
                self.go_to(Stop::Look);
            }
        }
        if is_back {
            self.visit.look_into_pictures();
        }
        let large = match self.opened.picture {
            Some(PictureShown::One(picture_idx)) => Some(picture_idx),
            _ => None,
        };
        let n_named = self.visit.take_picture_news(large);
        let n_pictures = self.visit.record().show.pictures.len();
        if !self.visit.album().troubles().is_empty() {
            self.opened.picture = Some(PictureShown::Trouble);
        } else if n_named > 0 {
            self.opened.picture = Some(PictureShown::One(n_pictures.saturating_sub(1)));
        }
        if large.is_some_and(|picture_idx| picture_idx >= n_pictures) {
            self.opened.picture = None;
        }
        if has_dropped || n_named > 0 {
            ui.request_repaint();
        }
    }

    /// The picture that is looked at, in the place of the ground. Gives whether there is one.
    fn picture(&mut self, ui: &mut Ui, areas: &Areas) -> bool {
        let Some(view) = pictures::large(&self.visit, self.opened.picture) else {
            return false;
        };
        let area = areas.cross.union(areas.long);
        if let Some(part) = picture_ui(ui, area, &view) {
            self.turn_picture(part);
            ui.request_repaint();
        }
        true
    }

    fn turn_picture(&mut self, part: Part) {
        self.leave_pad();
        if self.opened.picture == Some(PictureShown::Trouble) {
            self.visit.picture_trouble_read();
        }
        self.opened.turn(part);
    }

    /// What stop Build shows in the place of the ground: one station of the stake table, or the live check under the cross-section.
    /// Gives what was tapped in the section; `None` where the ground is shown as ever.
    fn built(&mut self, ui: &mut Ui, areas: &Areas) -> Option<Option<Place>> {
        if self.stop != Stop::Build {
            return None;
        }
        if let Some(nth) = self.opened.station
            && let Some((station, view)) = build::stakes::one(&self.visit, nth)
        {
            self.ground.cut_at(station);
            if let Some(part) = station_ui(ui, areas.cross.union(areas.long), &view) {
                self.opened.turn(part);
                ui.request_repaint();
            }
            return Some(None);
        }
        if let Some(which) = self.opened.full_size
            && let Some(view) = build::full_size::view(&self.visit, which)
        {
            if let Some(part) = full_size_ui(ui, areas.cross.union(areas.long), &view) {
                self.opened.turn(part);
                ui.request_repaint();
            }
            return Some(None);
        }
        let live = build::live::live(&self.visit, self.pad.place()?)?;
        let tapped = cross_ui(ui, areas.cross, &mut self.ground, &self.visit);
        if let Some(edit) = live_ui(ui, areas.long, &live) {
            self.apply(vec![edit]);
            ui.request_repaint();
        }
        Some(tapped)
    }

    /// Lights what the open line of the order is measured from. Gives whether the plan is shown.
    fn light(&mut self) -> bool {
        let light: Option<Light> = (self.stop == Stop::Order)
            .then(|| order::light::light(&self.visit, &self.opened))
            .flatten();
        let has_plan =
            self.stop == Stop::Lay || light.as_ref().is_some_and(|light| light.plan.is_some());
        self.plan.light(light.clone());
        self.ground.light(light);
        has_plan
    }

    /// The plan; what fingers drag there is carried out before it is shown. Gives the value that was tapped.
    fn plan(&mut self, ui: &mut Ui, rect: Rect) -> Option<Place> {
        let revision = self.visit.revision();
        let said = with_plan(&self.visit, |input| {
            plan_touched(ui, rect, &mut self.plan, input, revision)
        })
        .unwrap_or_default();
        if said.own_step {
            self.visit.end_typing();
        }
        if let Some(edit) = &said.edit {
            self.visit.apply(edit);
            self.pad.read_again(&self.visit);
            self.rows
                .refresh(&self.visit, self.pad.place(), &self.opened);
        }
        let revision = self.visit.revision();
        let is_shown = with_plan(&self.visit, |input| {
            plan_ui(ui, rect, &mut self.plan, input, revision);
        });
        if is_shown.is_none() {
            no_plan(ui, rect);
        }
        said.tapped
            .filter(|place| !matches!(place, Place::Piece(_)))
    }

    fn keys_of_the_desk(&mut self, ui: &Ui) {
        use egui::{Key, KeyboardShortcut, Modifiers};
        let undo = KeyboardShortcut::new(Modifiers::COMMAND, Key::Z);
        let redo = KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
        if ui.input_mut(|input| input.consume_shortcut(&redo)) {
            self.step(false);
        } else if ui.input_mut(|input| input.consume_shortcut(&undo)) {
            self.step(true);
        }
        if ui.input(|input| input.key_pressed(Key::Escape)) {
            self.leave_pad();
        }
    }

    fn step(&mut self, back: bool) {
        let left = self.pad.leave();
        self.apply(left);
        if if back {
            self.visit.undo()
        } else {
            self.visit.redo()
        } {
            self.pad.read_again(&self.visit);
        }
    }

    fn rod(&mut self, ui: &mut Ui, areas: &Areas) -> bool {
        let theme = theme::current(ui);
        ui.painter()
            .rect_filled(areas.rod, 0, theme::color(Ink::Panel, theme));
        let notches: Vec<Notch> = self
            .rows
            .all()
            .map(|(stop, rows)| Notch {
                stop,
                known: if stop == Stop::Show {
                    f32::from(u8::from(!self.visit.site().show.agreements.is_empty()))
                } else {
                    known_share(rows)
                },
            })
            .collect();
        if let Some(stop) = rod_ui(ui, areas.staff, &notches, self.stop) {
            self.go_to(stop);
        }
        let back = Key::new("Sites").show(ui, areas.sites).clicked();
        if back {
            self.leave_pad();
        }
        let quiet = |enabled: bool| if enabled { Ink::Ink } else { Ink::Hairline };
        if Key::new("undo")
            .on(Ink::Panel, quiet(self.visit.can_undo()))
            .show(ui, areas.undo)
            .clicked()
        {
            self.step(true);
        }
        if Key::new("redo")
            .on(Ink::Panel, quiet(self.visit.can_redo()))
            .show(ui, areas.redo)
            .clicked()
        {
            self.step(false);
        }
        let word = match theme {
            Theme::Sun => "dim",
            Theme::Dim => "sun",
        };
        if Key::new(word)
            .on(Ink::Panel, Ink::Ink)
            .show(ui, areas.theme)
            .clicked()
        {
            theme::switch(ui);
        }
        back
    }

    fn entries(&mut self, ui: &mut Ui, areas: &Areas) {
        let theme = theme::current(ui);
        // The order is read more than it is set: without a value to set it has the room of the pad too.
        let is_pad_away =
            matches!(self.stop, Stop::Order | Stop::Build) && self.pad.place().is_none();
        let areas = &if is_pad_away {
            areas.without_pad()
        } else {
            *areas
        };
        ui.painter()
            .rect_filled(areas.entries, 0, theme::color(Ink::Panel, theme));
        let is_card = self.opened.picture.is_some();
        let rows = if is_card {
            self.rows.card()
        } else {
            self.rows.of(self.stop)
        };
        let head =
            Rect::from_min_size(areas.entries.min, vec2(areas.entries.width(), TITLE_HEIGHT));
        let (n_known, n_all) = known(self.rows.of(self.stop));
        let known_word = if self.stop == Stop::Build {
            "closed"
        } else {
            "known"
        };
        lettering::paint(
            ui.painter(),
            pos2(head.min.x + 20.0, head.center().y),
            Anchor::Left,
            &Text::bold(self.stop.word()),
            theme::sized(ui, size::TITLE),
            theme::color(Ink::Ink, theme),
        );
        lettering::paint(
            ui.painter(),
            pos2(head.max.x - 20.0, head.center().y + 2.0),
            Anchor::Right,
            &Text::regular(format!("{n_known} of {n_all} {known_word}")),
            theme::sized(ui, size::NOTE),
            theme::color(Ink::SecondInk, theme),
        );
        let list = Rect::from_min_max(
            pos2(areas.entries.min.x + size::MARGIN, head.max.y),
            pos2(areas.entries.max.x - 4.0, areas.entries.max.y),
        );
        let (set, scroll) = (
            self.pad.place().or(self.looked_at),
            std::mem::take(&mut self.scroll),
        );
        let stop = self.stop;
        let answer = ui
            .scope_builder(
                egui::UiBuilder::new()
                    .max_rect(list)
                    .id_salt(("rows", stop.word())),
                |ui| {
                    ui.set_clip_rect(list.intersect(ui.clip_rect()));
                    // Each site keeps its own: the next one is read from its top.
                    egui::ScrollArea::vertical()
                        .id_salt((self.visit.folder(), stop.word(), is_card))
                        .auto_shrink(false)
                        .show(ui, |ui| rows_ui(ui, rows, set, scroll))
                        .inner
                },
            )
            .inner;
        let order: Vec<Place> = rows
            .iter()
            .flat_map(|row| places_in_order(row, &self.visit))
            .collect();
        let pad_answer = if is_pad_away {
            PadAnswer::default()
        } else {
            ui.scope_builder(
                egui::UiBuilder::new().max_rect(areas.pad).id_salt("pad"),
                |ui| pad_ui(ui, areas.pad, &mut self.pad, &self.visit),
            )
            .inner
        };
        if let Some(place) = answer.jump {
            self.jump(place);
            ui.request_repaint();
        }
        if answer.opened == Some(Part::NextDevice) {
            device::next_letter(ui);
            self.visit.write_on(device::letter(ui));
            ui.request_repaint();
        } else if let Some(part @ Part::Picture(_)) = answer.opened {
            self.turn_picture(part);
            ui.request_repaint();
        } else if let Some(part) = answer.opened {
            if matches!(
                part,
                Part::Order(_)
                    | Part::Stages(_)
                    | Part::Station(_)
                    | Part::BuildList(_)
                    | Part::FullSize(_)
            ) {
                self.leave_pad();
            }
            self.opened.turn(part);
            ui.request_repaint();
        }
        if let Some(copies) = answer.copies
            && let Some(text) = order::send::text(&self.visit, &copies)
        {
            ui.copy_text(text);
            self.opened.copied = Some((copies, self.visit.revision()));
            ui.request_repaint();
        }
        self.after(ui, answer.tapped, answer.edits, pad_answer, &order);
    }

    fn after(
        &mut self,
        ui: &Ui,
        tapped: Option<Place>,
        edits: Vec<Edit>,
        pad: PadAnswer,
        order: &[Place],
    ) {
        let something = tapped.is_some() || !edits.is_empty() || !pad.edits.is_empty() || pad.next;
        self.apply(pad.edits);
        self.apply(edits);
        match tapped {
            Some(Place::Pit(pit_idx)) => {
                self.opened.pit = (self.opened.pit != Some(pit_idx)).then_some(pit_idx);
                self.leave_pad();
            }
            Some(Place::Soil) => {
                self.opened.soil = !self.opened.soil;
                self.leave_pad();
            }
            Some(place) => self.set(place),
            None => {}
        }
        if pad.next {
            self.next(order);
        }
        if something {
            ui.request_repaint();
        }
    }

    /// Goes on to the value after the one being set. What a layer is leads to how thick it is, where a reading stands to the reading.
    fn next(&mut self, order: &[Place]) {
        let Some(now) = self.pad.place() else { return };
        match now {
            Place::Sign(sign_idx) => return self.set(Place::SignStation(sign_idx)),
            Place::LayerMaterial(pit_idx, layer_idx) => {
                return self.set(Place::LayerThickness(pit_idx, layer_idx));
            }
            Place::ShotStation(shot_idx) => return self.set(Place::ShotReading(shot_idx)),
            Place::PenetrometerBlows(..) | Place::PenetrometerReading(..) => {
                if let Some(step) = after_row(&self.visit, now) {
                    return match step {
                        RowStep::To(place) => self.set(place),
                        RowStep::Do(edit) => self.apply(vec![edit]),
                    };
                }
            }
            Place::BookStation(row_idx) => return self.set(Place::BookReading(row_idx)),
            Place::BookReading(row_idx) => return self.after_sight(row_idx),
            Place::DeliveryItem(day_idx, nth) => {
                return self.set(Place::DeliveryCount(day_idx, nth));
            }
            place if Stop::of(place) == Stop::Build => return self.after_built(place),
            // Back to the whole order: what follows there is another line.
            place if Stop::of(place) == Stop::Order => return self.leave_pad(),
            _ => {}
        }
        let at = order.iter().position(|place| *place == now);
        match at.and_then(|at| order.get(at + 1)) {
            Some(place) => self.set(*place),
            None => self.leave_pad(),
        }
    }

    /// Goes on to the next check of the stage that was not read; a reading that is asked about stays on the pad.
    fn after_built(&mut self, now: Place) {
        match now {
            Place::BuildStation(idx) | Place::BuildOffset(idx) => {
                return self.set(Place::BuildValue(idx));
            }
            Place::SpotStation(idx) => return self.set(Place::SpotSize(idx)),
            Place::StageReason(stage) => return self.set(Place::StageInitials(stage)),
            Place::DayDate(idx) => return self.set(Place::DayCrew(idx)),
            Place::DayCrew(idx) => return self.set(Place::DayWeather(idx)),
            Place::DayWeather(idx) => return self.set(Place::DayNotes(idx)),
            _ => {}
        }
        if is_questioned(&self.visit, now) {
            return;
        }
        match after_check(&self.visit, now) {
            Some(CheckTap::Set(place)) => self.set(place),
            Some(CheckTap::Do(edit)) => self.apply(vec![edit]),
            Some(CheckTap::Open(_)) | None => self.leave_pad(),
        }
    }

    /// Goes on to the sight after one: where it stands where that is not written down, else its reading.
    fn after_sight(&mut self, row_idx: usize) {
        let (station, reading) = (
            Place::BookStation(row_idx + 1),
            Place::BookReading(row_idx + 1),
        );
        if self.visit.record().text(reading).is_none() {
            self.leave_pad();
        } else if self.visit.record().text(station).is_some_and(str::is_empty) {
            self.set(station);
        } else {
            self.set(reading);
        }
    }
}

/// Says why there is no plan.
fn no_plan(ui: &Ui, rect: Rect) {
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(rect, 0, theme::color(Ink::Paper, theme));
    lettering::paint(
        ui.painter(),
        rect.center(),
        Anchor::Middle,
        &Text::regular(
            "No plan yet: the run is not known. Measure its legs and its width at stop Line.",
        ),
        theme::sized(ui, size::NOTE),
        theme::color(Ink::SecondInk, theme),
    );
}
