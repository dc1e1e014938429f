//! The whole window: site list, or rod, ground and what is written down. Edits of the views are carried out here, after the views.

use std::path::Path;
use std::sync::Arc;

use egui::{Context, Rect, Ui, pos2, vec2};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;
use underbrick_records::{KeepStatus, RecordError, Shelf, SiteFile};

use crate::canvas::lettering;
use crate::edit::Edit;
use crate::ground::{GroundView, cross_ui, first_cut, long_ui};
use crate::site_list::{ListAnswer, SiteList, list_ui};
use crate::stops::{Stop, entry_behind, pit_of};
use crate::theme::{self, Ink, Theme, size};
use crate::visit::Visit;
use crate::widgets::key::Key;
use crate::widgets::mark::Mark;
use crate::widgets::pad::{Pad, PadAnswer, pad_ui};
use crate::widgets::rod::{Notch, rod_ui};
use crate::widgets::rows::{Row, ValueState, elided, rows_ui};

/// Width of the gauge rod's column in landscape.
const ROD_WIDTH: f32 = 104.0;
/// Width of the entries in landscape.
const ENTRIES_WIDTH: f32 = 408.0;
/// Height of the pad.
const PAD_HEIGHT: f32 = 396.0;
/// Height of the title bar.
const TITLE_HEIGHT: f32 = 56.0;

/// The whole app, without a window of its own.
pub struct Shell {
    shelf: Shelf,
    catalogue: Arc<Catalogue>,
    screen: Screen,
}

enum Screen {
    List(SiteList),
    Site(Box<Open>),
}

/// One open site on screen.
struct Open {
    visit: Visit,
    stop: Stop,
    pad: Pad,
    ground: GroundView,
    open_pit: Option<usize>,
    /// The value being set has moved: its row is scrolled into sight once.
    scroll: bool,
    rows: KeptRows,
}

/// The rows of every stop, made when something they show has changed.
#[derive(Default)]
struct KeptRows {
    key: Option<(u64, Option<Place>, Option<usize>)>,
    stops: Vec<(Stop, Vec<Row>)>,
}

impl Shell {
    /// Starts with the list of sites.
    #[must_use]
    pub fn new(shelf: Shelf, catalogue: Catalogue) -> Self {
        let list = SiteList::read(&shelf);
        Self {
            shelf,
            catalogue: Arc::new(catalogue),
            screen: Screen::List(list),
        }
    }

    /// Opens the site in a folder.
    ///
    /// # Errors
    /// [`RecordError`] when it cannot be read or is open elsewhere; the list stays on screen and says so too.
    pub fn open(&mut self, folder: &Path, context: &Context) -> Result<(), RecordError> {
        let waking = context.clone();
        match Visit::open(
            folder,
            Arc::clone(&self.catalogue),
            Box::new(move || waking.request_repaint()),
        ) {
            Ok(visit) => {
                self.screen = Screen::Site(Box::new(Open::new(visit)));
                Ok(())
            }
            Err(error) => {
                let mut list = SiteList::read(&self.shelf);
                list.say_trouble(&error);
                self.screen = Screen::List(list);
                Err(error)
            }
        }
    }

    /// The open site, if any.
    #[must_use]
    pub fn visit(&self) -> Option<&Visit> {
        match &self.screen {
            Screen::List(_) => None,
            Screen::Site(open) => Some(&open.visit),
        }
    }

    /// Goes to a stop of the open site, as a tap on the rod does.
    pub fn go_to(&mut self, stop: Stop) {
        if let Screen::Site(open) = &mut self.screen {
            open.go_to(stop);
        }
    }

    /// Starts setting a value of the open site, as a tap on its row does.
    pub fn set(&mut self, place: Place) {
        if let Screen::Site(open) = &mut self.screen {
            open.set(place);
        }
    }

    /// Shows everything in the whole of `ui`.
    pub fn ui(&mut self, ui: &mut Ui) {
        let content = ui.content_rect();
        ui.scope_builder(
            egui::UiBuilder::new().max_rect(content),
            |ui| match &mut self.screen {
                Screen::List(list) => {
                    let answer = list_ui(ui, list);
                    if let Some(answer) = answer {
                        self.answer_list(answer, ui);
                    }
                }
                Screen::Site(open) => {
                    if open.ui(ui) {
                        self.screen = Screen::List(SiteList::read(&self.shelf));
                        ui.request_repaint();
                    }
                }
            },
        );
    }

    fn answer_list(&mut self, answer: ListAnswer, context: &Context) {
        match answer {
            // A site that cannot be opened is told about in the list itself.
            ListAnswer::Open(folder) => drop(self.open(&folder, context)),
            ListAnswer::New => match self.shelf.create(&SiteFile::new("", "front walk")) {
                Ok(folder) => {
                    if self.open(&folder, context).is_ok() {
                        self.set(Place::Address);
                    }
                }
                Err(error) => self.say_trouble(&error),
            },
            ListAnswer::CopySamples => match self.shelf.copy_samples() {
                Ok(_) => self.screen = Screen::List(SiteList::read(&self.shelf)),
                Err(error) => self.say_trouble(&error),
            },
            ListAnswer::SwitchTheme => switch_theme(context),
        }
        context.request_repaint();
    }

    fn say_trouble(&mut self, error: &RecordError) {
        if let Screen::List(list) = &mut self.screen {
            list.say_trouble(error);
        }
    }
}

fn switch_theme(context: &Context) {
    theme::set_theme(
        context,
        match theme::current(context) {
            Theme::Sun => Theme::Dim,
            Theme::Dim => Theme::Sun,
        },
    );
}

impl Open {
    fn new(visit: Visit) -> Self {
        let mut ground = GroundView::default();
        ground.cut_at(first_cut(&visit));
        let open_pit = (!visit.site().pits.is_empty()).then_some(0);
        Self {
            visit,
            stop: Stop::Look,
            pad: Pad::default(),
            ground,
            open_pit,
            scroll: false,
            rows: KeptRows::default(),
        }
    }

    fn go_to(&mut self, stop: Stop) {
        if self.stop != stop {
            self.leave_pad();
            self.stop = stop;
        }
    }

    fn set(&mut self, place: Place) {
        let place = entry_behind(place, &self.visit);
        if self.visit.record().text(place).is_none() {
            return;
        }
        let left = self.pad.set(Some(place), &self.visit);
        self.apply(left);
        self.visit.end_typing();
        self.stop = Stop::of(place);
        self.open_pit = pit_of(place).or(self.open_pit);
        self.scroll = true;
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
                Edit::AddStraight => self.set(Place::LegLength(
                    self.visit.record().line.legs.len().saturating_sub(1),
                )),
                Edit::AddCurve => self.set(Place::LegRadius(
                    self.visit.record().line.legs.len().saturating_sub(1),
                )),
                Edit::FarEndFixed(true) => self.set(Place::FarEndBelowSill),
                Edit::RemovePit(_)
                | Edit::RemoveLayer(..)
                | Edit::RemoveShot(_)
                | Edit::RemoveLeg(_)
                | Edit::FarEndFixed(false)
                | Edit::Restraint(_)
                | Edit::ShownIn(_) => {
                    self.pad.set(None, &self.visit);
                }
                Edit::Text { .. }
                | Edit::Hand(..)
                | Edit::PitEnded(..)
                | Edit::Firmness(..)
                | Edit::Moisture(..)
                | Edit::Fabric(_)
                | Edit::EdgeStands(_) => {}
            }
        }
    }

    /// Gives whether the person went back to the list.
    fn ui(&mut self, ui: &mut Ui) -> bool {
        let whole = ui.max_rect();
        let areas = if whole.width() >= whole.height() {
            Areas::landscape(whole)
        } else {
            Areas::portrait(whole)
        };
        let theme = theme::current(ui);
        ui.painter()
            .rect_filled(whole, 0, theme::color(Ink::Paper, theme));
        self.keys_of_the_desk(ui);
        self.make_rows();
        let back = self.rod(ui, &areas);
        title_ui(ui, areas.title, &self.visit);
        let tapped = cross_ui(ui, areas.cross, &mut self.ground, &self.visit).or(long_ui(
            ui,
            areas.long,
            &mut self.ground,
            &self.visit,
        ));
        let line = egui::Stroke::new(1.0, theme::color(Ink::Hairline, theme));
        ui.painter()
            .hline(areas.cross.x_range(), areas.long.min.y, line);
        self.entries(ui, &areas);
        if let Some(place) = tapped {
            self.set(place);
            ui.request_repaint();
        }
        back
    }

    fn make_rows(&mut self) {
        let key = Some((self.visit.revision(), self.pad.place(), self.open_pit));
        if self.rows.key != key {
            self.rows.key = key;
            self.rows.stops = Stop::ALL
                .into_iter()
                .map(|stop| {
                    (
                        stop,
                        stop.rows(&self.visit, self.pad.place(), self.open_pit),
                    )
                })
                .collect();
        }
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
            .stops
            .iter()
            .map(|(stop, rows)| Notch {
                stop: *stop,
                known: known_share(rows),
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
            switch_theme(ui);
        }
        back
    }

    fn entries(&mut self, ui: &mut Ui, areas: &Areas) {
        let theme = theme::current(ui);
        ui.painter()
            .rect_filled(areas.entries, 0, theme::color(Ink::Panel, theme));
        let rows = self
            .rows
            .stops
            .iter()
            .find(|(stop, _)| *stop == self.stop)
            .map(|(_, rows)| rows.as_slice())
            .unwrap_or_default();
        let head =
            Rect::from_min_size(areas.entries.min, vec2(areas.entries.width(), TITLE_HEIGHT));
        let (n_known, n_all) = known(rows);
        lettering::paint(
            ui.painter(),
            pos2(head.min.x + 20.0, head.center().y),
            Anchor::Left,
            &Text::bold(self.stop.word()),
            size::TITLE,
            theme::color(Ink::Ink, theme),
        );
        lettering::paint(
            ui.painter(),
            pos2(head.max.x - 20.0, head.center().y + 2.0),
            Anchor::Right,
            &Text::regular(format!("{n_known} of {n_all} known")),
            size::NOTE,
            theme::color(Ink::SecondInk, theme),
        );
        let list = Rect::from_min_max(
            pos2(areas.entries.min.x + size::MARGIN, head.max.y),
            pos2(areas.entries.max.x - 4.0, areas.entries.max.y),
        );
        let (set, scroll) = (self.pad.place(), std::mem::take(&mut self.scroll));
        let stop = self.stop;
        let answer = ui
            .scope_builder(
                egui::UiBuilder::new()
                    .max_rect(list)
                    .id_salt(("rows", stop.word())),
                |ui| {
                    ui.set_clip_rect(list.intersect(ui.clip_rect()));
                    egui::ScrollArea::vertical()
                        .id_salt(stop.word())
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
        let pad_answer = ui
            .scope_builder(
                egui::UiBuilder::new().max_rect(areas.pad).id_salt("pad"),
                |ui| pad_ui(ui, areas.pad, &mut self.pad, &self.visit),
            )
            .inner;
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
                self.open_pit = (self.open_pit != Some(pit_idx)).then_some(pit_idx);
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
            Place::LayerMaterial(pit_idx, layer_idx) => {
                return self.set(Place::LayerThickness(pit_idx, layer_idx));
            }
            Place::ShotStation(shot_idx) => return self.set(Place::ShotReading(shot_idx)),
            _ => {}
        }
        let at = order.iter().position(|place| *place == now);
        match at.and_then(|at| order.get(at + 1)) {
            Some(place) => self.set(*place),
            None => self.leave_pad(),
        }
    }
}

/// Values of a row in the order in which they are asked for: what it is, where that is not written down yet, then how much.
fn places_in_order(row: &Row, visit: &Visit) -> Vec<Place> {
    match row {
        Row::Value(row) => {
            let is_open = |place: &Place| visit.record().text(*place).is_some_and(str::is_empty);
            row.left_place
                .filter(is_open)
                .into_iter()
                .chain([row.place])
                .collect()
        }
        Row::Heading { .. }
        | Row::Fold { .. }
        | Row::Choice { .. }
        | Row::Acts(_)
        | Row::Figure { .. }
        | Row::Said { .. } => Vec::new(),
    }
}

/// How many values are known, of how many that are asked for.
fn known(rows: &[Row]) -> (usize, usize) {
    let states = rows.iter().filter_map(|row| match row {
        Row::Value(row) => Some(row.state),
        Row::Heading { .. }
        | Row::Fold { .. }
        | Row::Choice { .. }
        | Row::Acts(_)
        | Row::Figure { .. }
        | Row::Said { .. } => None,
    });
    states.fold((0, 0), |(n_known, n_all), state| {
        (
            n_known + usize::from(!matches!(state, ValueState::Missing | ValueState::Wrong)),
            n_all + 1,
        )
    })
}

fn known_share(rows: &[Row]) -> f32 {
    let (n_known, n_all) = known(rows);
    if n_all == 0 {
        0.0
    } else {
        n_known as f32 / n_all as f32
    }
}

fn title_ui(ui: &Ui, rect: Rect, visit: &Visit) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let (mark, word, ink) = match visit.keep_status() {
        KeepStatus::OnDisk => (Mark::Right, "on disk".to_owned(), Ink::Right),
        KeepStatus::Writing => (Mark::Note, "writing".to_owned(), Ink::SecondInk),
        KeepStatus::Failed { reason } => {
            (Mark::Wrong, format!("not on disk: {reason}"), Ink::Wrong)
        }
    };
    let word = elided(&word, false, size::NOTE, rect.width() * 0.55);
    let word_width = lettering::width(&Text::regular(word.as_str()), size::NOTE);
    let right = rect.max.x - 20.0;
    lettering::paint(
        painter,
        pos2(right, rect.center().y),
        Anchor::Right,
        &Text::regular(word),
        size::NOTE,
        theme::color(ink, theme),
    );
    mark.paint(
        painter,
        pos2(right - word_width - 14.0, rect.center().y),
        14.0,
        theme,
    );
    let room = rect.width() - word_width - 80.0;
    let address = if visit.site().address.trim().is_empty() {
        "no address yet"
    } else {
        visit.site().address.as_str()
    };
    let address = elided(address, true, size::TITLE, room);
    let address_width = lettering::width(&Text::bold(address.as_str()), size::TITLE);
    let left = rect.min.x + 20.0;
    lettering::paint(
        painter,
        pos2(left, rect.center().y),
        Anchor::Left,
        &Text::bold(address),
        size::TITLE,
        theme::color(Ink::Ink, theme),
    );
    let walk = elided(
        &visit.site().walk,
        false,
        size::LABEL,
        room - address_width - 20.0,
    );
    lettering::paint(
        painter,
        pos2(left + address_width + 20.0, rect.center().y + 1.0),
        Anchor::Left,
        &Text::regular(walk),
        size::LABEL,
        theme::color(Ink::SecondInk, theme),
    );
    painter.hline(
        rect.x_range(),
        rect.max.y,
        egui::Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
    );
}

/// Where everything stands.
struct Areas {
    rod: Rect,
    staff: Rect,
    sites: Rect,
    undo: Rect,
    redo: Rect,
    theme: Rect,
    title: Rect,
    cross: Rect,
    long: Rect,
    entries: Rect,
    pad: Rect,
}

impl Areas {
    /// Rod at the left, ground in the middle, what is written down at the right.
    fn landscape(whole: Rect) -> Self {
        let entries_width = ENTRIES_WIDTH.min(whole.width() * 0.45);
        let rod = Rect::from_min_size(whole.min, vec2(ROD_WIDTH, whole.height()));
        let right = Rect::from_min_max(pos2(whole.max.x - entries_width, whole.min.y), whole.max);
        let middle =
            Rect::from_min_max(pos2(rod.max.x, whole.min.y), pos2(right.min.x, whole.max.y));
        let title = Rect::from_min_size(middle.min, vec2(middle.width(), TITLE_HEIGHT));
        let split = title.max.y + (middle.max.y - title.max.y) * 0.54;
        let inner = rod.shrink2(vec2(10.0, 12.0));
        let key =
            |top: f32| Rect::from_min_size(pos2(inner.min.x, top), vec2(inner.width(), size::KEY));
        let step = size::KEY + size::GAP;
        let theme = key(inner.max.y - size::KEY);
        let redo = key(theme.min.y - step);
        let undo = key(redo.min.y - step);
        let sites = key(inner.min.y);
        let pad_height = PAD_HEIGHT.min(whole.height() * 0.55);
        Self {
            rod,
            staff: Rect::from_min_max(
                pos2(rod.min.x, sites.max.y + 14.0),
                pos2(rod.max.x, undo.min.y - 14.0),
            ),
            sites,
            undo,
            redo,
            theme,
            title,
            cross: Rect::from_min_max(
                pos2(middle.min.x, title.max.y + 1.0),
                pos2(middle.max.x, split),
            ),
            long: Rect::from_min_max(pos2(middle.min.x, split), middle.max),
            entries: Rect::from_min_max(right.min, pos2(right.max.x, right.max.y - pad_height)),
            pad: Rect::from_min_max(pos2(right.min.x, right.max.y - pad_height), right.max),
        }
    }

    /// Ground on top, entries and pad below it, the rod along the bottom edge under the thumb.
    fn portrait(whole: Rect) -> Self {
        let rod = Rect::from_min_max(pos2(whole.min.x, whole.max.y - 96.0), whole.max);
        let pad_height = (PAD_HEIGHT + 60.0).min(whole.height() * 0.36);
        let lower = Rect::from_min_max(
            pos2(whole.min.x, rod.min.y - pad_height),
            pos2(whole.max.x, rod.min.y),
        );
        let title = Rect::from_min_size(whole.min, vec2(whole.width(), TITLE_HEIGHT));
        let split = title.max.y + (lower.min.y - title.max.y) * 0.56;
        let inner = rod.shrink2(vec2(10.0, 14.0));
        let key_width = 84.0;
        let key = |left: f32| {
            Rect::from_min_size(pos2(left, inner.min.y), vec2(key_width, inner.height()))
        };
        let step = key_width + size::GAP;
        let theme = key(inner.max.x - key_width);
        let redo = key(theme.min.x - step);
        let undo = key(redo.min.x - step);
        let sites = key(inner.min.x);
        let middle = lower.center().x;
        Self {
            rod,
            staff: Rect::from_min_max(
                pos2(sites.max.x + 14.0, rod.min.y),
                pos2(undo.min.x - 14.0, rod.max.y),
            ),
            sites,
            undo,
            redo,
            theme,
            title,
            cross: Rect::from_min_max(
                pos2(whole.min.x, title.max.y + 1.0),
                pos2(whole.max.x, split),
            ),
            long: Rect::from_min_max(pos2(whole.min.x, split), pos2(whole.max.x, lower.min.y)),
            entries: Rect::from_min_max(lower.min, pos2(middle, lower.max.y)),
            pad: Rect::from_min_max(pos2(middle, lower.min.y), lower.max),
        }
    }
}
