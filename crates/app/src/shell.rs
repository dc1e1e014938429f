//! The whole window: the site list, or one open site.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Context, Ui};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_records::{OwnTables, RecordError, Shelf, SiteFile};

use crate::built::Clock;
use crate::open_site::Open;
use crate::settings::WornSettings;
use crate::site_list::{ListAnswer, SiteList, list_ui};
use crate::stops::Stop;
use crate::theme;
use crate::visit::Visit;

/// The whole app, without a window of its own.
pub struct Shell {
    shelf: Shelf,
    built_in: Catalogue,
    own: OwnTables,
    /// The built-in catalogue with the person's own tables over it.
    catalogue: Arc<Catalogue>,
    settings: WornSettings,
    screen: Screen,
}

enum Screen {
    List(SiteList),
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
        let mut shell = Self {
            settings: WornSettings::read(&shelf),
            shelf,
            catalogue: Arc::new(built_in.clone()),
            built_in,
            own,
            screen: Screen::List(SiteList::default()),
        };
        shell.show_list();
        shell
    }

    /// Gives a context the text size and the light that were kept by an earlier start. Call it once, after [`theme::install`].
    pub fn put_on_settings(&self, context: &Context) {
        self.settings.put_on(context);
    }

    /// Reads the folder of sites and the person's own tables, and shows the list.
    fn show_list(&mut self) {
        let mut list = SiteList::read(&self.shelf);
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
        if let Some(failure) = self.settings.failure() {
            list.say_settings_left_out(&failure);
        }
        self.screen = Screen::List(list);
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

    /// Shows everything in the whole of `ui`.
    pub fn ui(&mut self, ui: &mut Ui) {
        let content = ui.content_rect();
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
                    if open.ui(ui) {
                        self.show_list();
                        ui.request_repaint();
                    }
                }
            },
        );
        self.settings.keep_change(before, ui);
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
            ListAnswer::SwitchTheme => theme::switch(context),
            ListAnswer::NextTextSize => theme::next_text_size(context),
        }
        context.request_repaint();
    }

    fn say_trouble(&mut self, error: &RecordError) {
        if let Screen::List(list) = &mut self.screen {
            list.say_trouble(error);
        }
    }
}
