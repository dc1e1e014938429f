//! The whole window: the site list, or one open site.

use std::path::Path;
use std::sync::Arc;

use egui::{Context, Ui};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_records::{RecordError, Shelf, SiteFile};

use crate::open_site::Open;
use crate::site_list::{ListAnswer, SiteList, list_ui};
use crate::stops::Stop;
use crate::theme;
use crate::visit::Visit;

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

    /// What the pad sets, if anything.
    #[must_use]
    pub fn setting(&self) -> Option<Place> {
        match &self.screen {
            Screen::List(_) => None,
            Screen::Site(open) => open.setting(),
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
            ListAnswer::SwitchTheme => theme::switch(context),
        }
        context.request_repaint();
    }

    fn say_trouble(&mut self, error: &RecordError) {
        if let Screen::List(list) = &mut self.screen {
            list.say_trouble(error);
        }
    }
}
