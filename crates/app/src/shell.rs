//! The whole window: the site list, or one open site.

use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::time::{Duration, Instant};

use egui::{Context, Key, Modifiers, RawInput, Ui, ViewportCommand};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_calc::site::Letterhead;
use underbrick_records::{OwnTables, RecordError, Shelf, SiteFile, read_time_zone};

use crate::built::Clock;
use crate::exchange::Exchanging;
use crate::open_site::Open;
use crate::platform::{EdgesWatch, NoPlatform, Platform, keep_clear, set_keep_clear};
use crate::settings::WornSettings;
use crate::site_list::{ListAnswer, SiteList, list_ui};
use crate::stops::Stop;
use crate::stops::show::ShowPage;
use crate::theme;
use crate::visit::Visit;

/// How long the loss of the focus waits for the disk: the system may end the app soon after it.
const WAIT_WHEN_LEFT: Duration = Duration::from_millis(1500);

/// The whole app, without a window of its own.
pub struct Shell {
    shelf: Shelf,
    built_in: Catalogue,
    own: OwnTables,
    /// The built-in catalogue with the person's own tables over it.
    catalogue: Arc<Catalogue>,
    settings: WornSettings,
    /// Who hands sheets over.
    letterhead: Option<Letterhead>,
    screen: Screen,
    platform: Rc<dyn Platform>,
    edges: EdgesWatch,
    /// The device's own scale of type, as it was last.
    font_scale: f32,
    had_focus: bool,
}

enum Screen {
    List(Box<SiteList>),
    Site(Box<Open>),
}

impl Shell {
    /// Starts with the list of sites. A person's own tables are read from beside the site folders, where there are any.
    #[must_use]
    pub fn new(shelf: Shelf, built_in: Catalogue) -> Self {
        let own = shelf.own_tables();
        Self::with_tables(shelf, built_in, own)
    }

    /// As [`Shell::new`], with the person's own tables in those files. Where one cannot be used the list says why, and the built-in one is
    /// used.
    #[must_use]
    pub fn with_tables(shelf: Shelf, built_in: Catalogue, own: OwnTables) -> Self {
        // Now, and not at the first tap.
        read_time_zone();
        let mut shell = Self {
            settings: WornSettings::read(&shelf),
            shelf,
            catalogue: Arc::new(built_in.clone()),
            built_in,
            own,
            screen: Screen::List(Box::default()),
            platform: Rc::new(NoPlatform),
            edges: EdgesWatch::default(),
            font_scale: 1.0,
            had_focus: true,
            letterhead: None,
        };
        shell.show_list();
        shell
    }

    /// On this device.
    #[must_use]
    pub fn on(mut self, platform: Rc<dyn Platform>) -> Self {
        self.platform = platform;
        self.show_list();
        self
    }

    /// The device under the app.
    #[must_use]
    pub fn platform(&self) -> &Rc<dyn Platform> {
        &self.platform
    }

    /// Gives a context the text size and the light that were kept by an earlier start. Call it once, after [`theme::install`].
    pub fn put_on_settings(&self, context: &Context) {
        self.settings.put_on(context);
    }

    /// Reads the folder of sites and the person's own tables, and shows the list.
    fn show_list(&mut self) {
        let mut list = SiteList::read(&self.shelf);
        list.exchanging = Exchanging::on(&*self.platform);
        if !self.platform.are_edges_sure() {
            list.offer_to_keep_clear();
        }
        let read = self.own.over(&self.built_in);
        match &read.causes_fault {
            Some(error) => list.say_left_out("causes", error),
            None if read.catalogue.causes != self.built_in.causes => {
                list.say_own_causes(&read.catalogue, self.own.causes.path());
            }
            None => {}
        }
        match &read.prices_fault {
            Some(error) => list.say_left_out("prices", error),
            None if read.catalogue.prices != self.built_in.prices => {
                list.say_own_prices(&read.catalogue, self.own.prices.path());
            }
            None => {}
        }
        self.catalogue = Arc::new(read.catalogue);
        self.letterhead = read.letterhead;
        if let Some(failure) = self.settings.failure() {
            list.say_settings_left_out(&failure);
        }
        self.screen = Screen::List(Box::new(list));
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
            Ok(mut visit) => {
                visit.hand_over_as(self.letterhead.clone());
                let mut open = Open::new(visit);
                open.serve_on(&*self.platform);
                self.screen = Screen::Site(Box::new(open));
                Ok(())
            }
            Err(error) => {
                self.show_list();
                self.say_trouble(&error);
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

    /// What the pad sets, if anything.
    #[must_use]
    pub fn setting(&self) -> Option<Place> {
        match &self.screen {
            Screen::List(_) => None,
            Screen::Site(open) => open.setting(),
        }
    }

    /// Has the open site take the time of what is written down from another clock than the device's.
    pub fn tell_time_by(&mut self, clock: Clock) {
        if let Screen::Site(open) = &mut self.screen {
            open.visit.tell_time_by(clock);
        }
    }

    /// Has the open site take in a file as a picture, as if it were dropped on the window: for hosts that hand files over another way.
    pub fn take_in_picture(&mut self, from: PathBuf) {
        if let Screen::Site(open) = &mut self.screen {
            open.take_in_picture(from);
        }
    }

    /// Goes to a stop of the open site, as a tap on the rod does.
    pub fn go_to(&mut self, stop: Stop) {
        if let Screen::Site(open) = &mut self.screen {
            open.go_to(stop);
        }
    }

    /// Goes to a page of what the homeowner is shown, as a tap on the rod and on its word does.
    pub fn show_page(&mut self, page: ShowPage) {
        if let Screen::Site(open) = &mut self.screen {
            open.show_page(page);
        }
    }

    /// Starts setting a value of the open site, as a tap on its row does.
    pub fn set(&mut self, place: Place) {
        if let Screen::Site(open) = &mut self.screen {
            open.set(place);
        }
    }

    /// Goes to where something stands, as a tap on a reading behind a finding does: a line of the order is opened.
    pub fn look_at(&mut self, place: Place) {
        if let Screen::Site(open) = &mut self.screen {
            open.jump(place);
        }
    }

    /// Tells egui what the device covers of the window. To be called with the input of each frame, before it.
    pub fn before_frame(&mut self, context: &Context, raw: &mut RawInput) {
        self.edges.hand_over(self.platform.edges(), context, raw);
    }

    /// Writes down what stands on the pad and waits for the disk, some time at most. Gives whether everything is there. Called when the
    /// focus is lost; a host calls it when the system says that the app is put away.
    pub fn leave(&mut self) -> bool {
        let started = Instant::now();
        let is_site_on_disk = match &mut self.screen {
            Screen::List(_) => true,
            Screen::Site(open) => {
                open.write_down();
                open.visit.flush(WAIT_WHEN_LEFT)
            }
        };
        self.settings
            .flush(WAIT_WHEN_LEFT.saturating_sub(started.elapsed()))
            && is_site_on_disk
    }

    /// Shows everything in the whole of `ui`.
    pub fn ui(&mut self, ui: &mut Ui) {
        let content = ui.content_rect();
        self.follow_font_scale(ui);
        self.back_key(ui);
        let before = WornSettings::worn(ui);
        ui.scope_builder(
            egui::UiBuilder::new().max_rect(content),
            |ui| match &mut self.screen {
                Screen::List(list) => {
                    if let Some(trouble) = self.settings.trouble() {
                        list.say_settings_left_out(trouble);
                        self.settings.said();
                    }
                    let answer = list_ui(ui, list);
                    if let Some(answer) = answer {
                        self.answer_list(answer, ui);
                    }
                }
                Screen::Site(open) => {
                    let is_back = open.ui(ui);
                    open.open_asked(&*self.platform);
                    if is_back {
                        self.show_list();
                        ui.request_repaint();
                    }
                }
            },
        );
        self.settings.keep_change(before, ui);
        self.edges.look_again(ui);
        let has_focus = ui.input(|input| input.focused);
        if self.had_focus && !has_focus {
            // What is not on disk by then stays in memory and is tried again; the title bar says so.
            let _is_on_disk = self.leave();
        }
        self.had_focus = has_focus;
    }

    /// Takes the device's size of type, until the person sets one.
    fn follow_font_scale(&mut self, context: &Context) {
        let scale = self.platform.font_scale();
        if scale.to_bits() != self.font_scale.to_bits() {
            self.font_scale = scale;
            if !self.settings.is_set() {
                theme::set_text_size(context, theme::percent_of(scale));
            }
        }
    }

    /// One step back for each press: what is open closes, then the list, then the app is left.
    fn back_key(&mut self, ui: &Ui) {
        let is_pressed = ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::BrowserBack));
        if !is_pressed {
            return;
        }
        ui.request_repaint();
        match &mut self.screen {
            Screen::Site(open) => {
                if !open.go_back() {
                    self.show_list();
                }
            }
            Screen::List(list) => {
                if list.exchanging.leave() {
                    return;
                }
                if self.platform.back_leaves() {
                    let _is_on_disk = self.leave();
                    ui.send_viewport_cmd(ViewportCommand::Close);
                }
            }
        }
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
                Ok(_) => self.show_list(),
                Err(error) => self.say_trouble(&error),
            },
            ListAnswer::Import(file) => {
                let Screen::List(list) = &self.screen else {
                    return;
                };
                let (ink, said) = list.exchanging.import(&file, &self.shelf);
                self.show_list();
                self.with_exchange(|exchanging| exchanging.say(ink, said));
            }
            ListAnswer::Export(folder) => {
                self.with_exchange(|exchanging| exchanging.export(&folder));
            }
            ListAnswer::ChooseIncoming => self.with_exchange(Exchanging::choose),
            ListAnswer::LeaveIncoming => self.with_exchange(|exchanging| {
                exchanging.leave();
            }),
            ListAnswer::OpenExchange => {
                let platform = Rc::clone(&self.platform);
                self.with_exchange(|exchanging| exchanging.show_folder(&*platform));
            }
            ListAnswer::SwitchTheme => theme::switch(context),
            ListAnswer::NextTextSize => theme::next_text_size(context),
            ListAnswer::NextKeepClear => set_keep_clear(context, keep_clear(context).next()),
        }
        context.request_repaint();
    }

    fn with_exchange(&mut self, change: impl FnOnce(&mut Exchanging)) {
        if let Screen::List(list) = &mut self.screen {
            change(&mut list.exchanging);
        }
    }

    fn say_trouble(&mut self, error: &RecordError) {
        if let Screen::List(list) = &mut self.screen {
            list.say_trouble(error);
        }
    }
}
