//! The list of sites: one per address, newest first, searchable.

use std::path::{Path, PathBuf};

use egui::{Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::catalogue::Catalogue;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;
use underbrick_records::{Entry, EntryState, RecordError, Shelf};

use crate::canvas::lettering;
use crate::exchange::{Exchanging, export_ui, import_ui, incoming_ui, said_ui};
use crate::own_mark::own_mark;
use crate::platform;
use crate::theme::{self, Ink, size};
use crate::widgets::key::Key;
use crate::widgets::mark::Mark;
use crate::widgets::rows::elided;

/// State of the list.
#[derive(Default)]
pub struct SiteList {
    entries: Vec<Entry>,
    looking_for: String,
    /// What went wrong last, in words.
    trouble: Option<String>,
    /// What became of the person's own tables, in words.
    tables: Vec<(Ink, String)>,
    /// Why the person's settings are not used, in words.
    settings: Option<String>,
    /// Whether a person is asked how much of the edges is to be kept clear.
    asks_keep_clear: bool,
    /// Sites going out and coming in.
    pub exchanging: Exchanging,
}

/// What was asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum ListAnswer {
    /// Open the site in this folder.
    Open(PathBuf),
    /// Start a new site.
    New,
    /// Copy the samples and show them.
    CopySamples,
    /// The other theme.
    SwitchTheme,
    /// The next text size.
    NextTextSize,
    /// Pack the site in this folder.
    Export(PathBuf),
    /// Choose a packed site.
    ChooseIncoming,
    /// Unpack this file.
    Import(PathBuf),
    /// Back to the sites.
    LeaveIncoming,
    /// Show the folder through which sites go out and come in.
    OpenExchange,
    /// Keep more clear at the edges of the screen, and after the most nothing.
    NextKeepClear,
}

impl SiteList {
    /// Reads the folder of sites.
    pub fn read(shelf: &Shelf) -> Self {
        match shelf.list() {
            Ok(entries) => Self {
                entries,
                ..Self::default()
            },
            Err(error) => Self {
                trouble: Some(error.to_string()),
                ..Self::default()
            },
        }
    }

    /// Shows what went wrong, above the list.
    pub fn say_trouble(&mut self, error: &RecordError) {
        self.trouble = Some(error.to_string());
    }

    /// Offers to keep the edges of the screen clear.
    pub const fn offer_to_keep_clear(&mut self) {
        self.asks_keep_clear = true;
    }

    /// Shows why the person's settings are not used.
    pub fn say_settings_left_out(&mut self, why: &str) {
        self.settings = Some(why.to_owned());
    }

    /// Shows that a person's own table of causes is in force.
    pub fn say_own_causes(&mut self, catalogue: &Catalogue, file: &Path) {
        let n_rules = catalogue.causes.rules().len();
        let words = format!(
            "{n_rules} rules for causes, with your own: {}",
            file.display()
        );
        self.tables.push((Ink::SecondInk, words));
    }

    /// Shows why it is not.
    pub fn say_left_out(&mut self, what: &str, error: &RecordError) {
        let words = format!("Your own {what} are left out, and the built-in ones used. {error}");
        self.tables.push((Ink::Wrong, words));
    }

    /// Shows that a person's own price list is in force.
    pub fn say_own_prices(&mut self, catalogue: &Catalogue, file: &Path) {
        let words = format!(
            "Prices: {}, your own: {}",
            catalogue.prices.name,
            file.display()
        );
        self.tables.push((Ink::SecondInk, words));
    }
}

/// Shows the list over the whole window.
pub fn list_ui(ui: &mut Ui, list: &mut SiteList) -> Option<ListAnswer> {
    let theme = theme::current(ui);
    let whole = ui.max_rect();
    ui.painter()
        .rect_filled(whole, 0, theme::color(Ink::Panel, theme));
    let column = Rect::from_center_size(
        whole.center(),
        vec2(whole.width().min(860.0), whole.height()),
    )
    .shrink2(vec2(24.0, 20.0));
    let mut answer = None;
    let head = Rect::from_min_size(column.min, vec2(column.width(), theme::tall(ui, 74.0)));
    own_mark(ui, pos2(head.min.x + 32.0, head.center().y), 52.0);
    lettering::paint(
        ui.painter(),
        pos2(head.min.x + 76.0, head.center().y - theme::tall(ui, 12.0)),
        Anchor::Left,
        &Text::bold("Underbrick"),
        theme::sized(ui, size::VALUE),
        theme::color(Ink::Ink, theme),
    );
    lettering::paint(
        ui.painter(),
        pos2(head.min.x + 76.0, head.center().y + theme::tall(ui, 18.0)),
        Anchor::Left,
        &Text::regular("one site for each address"),
        theme::sized(ui, size::NOTE),
        theme::color(Ink::SecondInk, theme),
    );
    let theme_key = Rect::from_min_size(
        pos2(head.max.x - 96.0, head.min.y + 5.0),
        vec2(96.0, size::KEY),
    );
    let word = match theme {
        theme::Theme::Sun => "dim",
        theme::Theme::Dim => "sun",
    };
    if Key::new(word).show(ui, theme_key).clicked() {
        answer = Some(ListAnswer::SwitchTheme);
    }
    let text_key = Rect::from_min_size(
        pos2(theme_key.min.x - size::GAP - 110.0, theme_key.min.y),
        vec2(110.0, size::KEY),
    );
    let percent = format!("{} %", theme::text_size(ui));
    if Key::two_lines(percent, "text size")
        .show(ui, text_key)
        .clicked()
    {
        answer = Some(ListAnswer::NextTextSize);
    }
    if list.asks_keep_clear {
        let points = platform::keep_clear(ui).whole_points();
        let rect = Rect::from_min_size(
            pos2(text_key.min.x - size::GAP - 110.0, text_key.min.y),
            vec2(110.0, size::KEY),
        );
        if Key::two_lines(points.to_string(), "edge clear")
            .show(ui, rect)
            .clicked()
        {
            answer = Some(ListAnswer::NextKeepClear);
        }
    }
    let tools = Rect::from_min_size(
        pos2(column.min.x, head.max.y + 10.0),
        vec2(column.width(), size::KEY),
    );
    let new_key = Rect::from_min_size(
        pos2(tools.max.x - 170.0, tools.min.y),
        vec2(170.0, size::KEY),
    );
    let search = Rect::from_min_max(tools.min, pos2(new_key.min.x - size::GAP, tools.max.y));
    if Key::new("new site")
        .on(Ink::Line, Ink::Paper)
        .show(ui, new_key)
        .clicked()
    {
        answer = Some(ListAnswer::New);
    }
    if !list.entries.is_empty() {
        search_ui(ui, search, &mut list.looking_for);
    }
    let body = Rect::from_min_max(pos2(column.min.x, tools.max.y + 12.0), column.max);
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(body).id_salt("sites"),
        |ui| {
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    if let Some(trouble) = &list.trouble {
                        words(ui, trouble, Ink::Wrong);
                    }
                    if let Some(said) = &list.settings {
                        words(ui, said, Ink::Wrong);
                    }
                    for (ink, said) in &list.tables {
                        words(ui, said, *ink);
                    }
                    answer = said_ui(ui, &list.exchanging).or(answer.take());
                    if list.exchanging.is_choosing() {
                        answer = incoming_ui(ui, &list.exchanging).or(answer.take());
                        return;
                    }
                    if list.entries.is_empty() {
                        answer = first_start_ui(ui).or(answer.take());
                    }
                    let wanted = list.looking_for.to_lowercase();
                    for entry in &list.entries {
                        if is_wanted(entry, &wanted) {
                            let exports = list.exchanging.is_there();
                            answer = entry_ui(ui, entry, exports).or(answer.take());
                        }
                    }
                    if !list.entries.is_empty() {
                        ui.add_space(10.0);
                        let (rect, _) = ui.allocate_exact_size(
                            vec2(ui.available_width(), size::KEY),
                            Sense::hover(),
                        );
                        if Key::new("open copies of the sample sites")
                            .on(Ink::Panel, Ink::Line)
                            .show(ui, rect)
                            .clicked()
                        {
                            answer = Some(ListAnswer::CopySamples);
                        }
                    }
                    answer = import_ui(ui, &list.exchanging).or(answer.take());
                });
        },
    );
    answer
}

fn first_start_ui(ui: &mut Ui) -> Option<ListAnswer> {
    words(
        ui,
        "No site yet. Start with the address in front of you, or look at how it is done on invented walks.",
        Ink::SecondInk,
    );
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 84.0), Sense::hover());
    Key::two_lines(
        "open copies of the sample sites",
        "they are yours to change",
    )
    .on(Ink::LineGround, Ink::Line)
    .show(ui, rect)
    .clicked()
    .then_some(ListAnswer::CopySamples)
}

pub fn words(ui: &mut Ui, words: &str, ink: Ink) {
    let theme = theme::current(ui);
    let color = theme::color(ink, theme);
    let galley = ui.painter().layout(
        words.to_owned(),
        theme::regular(theme::sized(ui, size::LABEL)),
        color,
        ui.available_width() - 8.0,
    );
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), galley.size().y + 20.0),
        Sense::hover(),
    );
    let name = words.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    ui.painter()
        .galley(rect.min + vec2(4.0, 8.0), galley, color);
}

fn search_ui(ui: &mut Ui, rect: Rect, looking_for: &mut String) {
    let edit = egui::TextEdit::singleline(looking_for)
        .hint_text("look for an address")
        .font(theme::regular(theme::sized(ui, size::TITLE)))
        .char_limit(80)
        .align(egui::Align2::LEFT_CENTER);
    let response = ui.put(rect, edit);
    response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "look for an address"));
}

fn is_wanted(entry: &Entry, wanted: &str) -> bool {
    match &entry.state {
        EntryState::Ready { address, walk } => {
            address.to_lowercase().contains(wanted) || walk.to_lowercase().contains(wanted)
        }
        EntryState::Broken(_) => true,
    }
}

fn entry_ui(ui: &mut Ui, entry: &Entry, exports: bool) -> Option<ListAnswer> {
    let folder = entry
        .folder
        .file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default();
    let (title, note, broken) = match &entry.state {
        EntryState::Ready { address, walk } => (
            if address.is_empty() {
                folder
            } else {
                address.clone()
            },
            walk.clone(),
            false,
        ),
        EntryState::Broken(error) => (folder, error.to_string(), true),
    };
    let height = theme::tall(ui, if broken { 92.0 } else { size::ROW });
    let (mut rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    if exports && !broken {
        let (rest, is_tapped) = export_ui(ui, rect, &title, &entry.folder);
        if is_tapped {
            return Some(ListAnswer::Export(entry.folder.clone()));
        }
        rect = rest;
    }
    let response = ui.interact(
        rect,
        ui.scope_id().with(("entry", &entry.folder)),
        Sense::click(),
    );
    let name = title.clone();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, !broken, name.clone()));
    let theme = theme::current(ui);
    let painter = ui.painter();
    painter.rect(
        rect,
        size::CORNER,
        theme::color(Ink::Key, theme),
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        StrokeKind::Inside,
    );
    let room = rect.width() - 40.0;
    let title_ink = theme::color(Ink::Ink, theme);
    lettering::paint(
        painter,
        pos2(rect.min.x + 18.0, rect.min.y + theme::tall(ui, 24.0)),
        Anchor::Left,
        &Text::bold(elided(&title, true, theme::sized(ui, size::TITLE), room)),
        theme::sized(ui, size::TITLE),
        title_ink,
    );
    if broken {
        Mark::Wrong.paint(
            painter,
            pos2(rect.min.x + 26.0, rect.min.y + theme::tall(ui, 54.0)),
            15.0,
            theme,
        );
        let mut job = egui::text::LayoutJob::simple(
            format!("cannot be read, and is left as it is: {note}"),
            theme::regular(theme::sized(ui, size::NOTE)),
            Mark::Wrong.color(theme),
            room - 26.0,
        );
        job.wrap.max_rows = 2;
        let galley = painter.layout_job(job);
        painter.galley(
            pos2(rect.min.x + 42.0, rect.min.y + theme::tall(ui, 44.0)),
            galley,
            Mark::Wrong.color(theme),
        );
    } else {
        lettering::paint(
            painter,
            pos2(rect.min.x + 18.0, rect.min.y + theme::tall(ui, 51.0)),
            Anchor::Left,
            &Text::regular(elided(&note, false, theme::sized(ui, size::NOTE), room)),
            theme::sized(ui, size::NOTE),
            theme::color(Ink::SecondInk, theme),
        );
    }
    (response.clicked() && !broken).then(|| ListAnswer::Open(entry.folder.clone()))
}
