//! What is agreed: the clauses, the signature, and what has changed since.

use egui::{Rect, Role, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::site::{Agreement, Clause};
use underbrick_records::v1::{Signature, Stamp};
use underbrick_sheets::agreement::{Change, ChangeKind, Standing, capital, heading};
use underbrick_sheets::owner::signed_on;

use super::told::Told;
use crate::edit::Edit;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;
use crate::widgets::key::{Key, cells};
use crate::widgets::show::prose;
use crate::widgets::show::signing::{Strokes, field_ui, lowest, paint_strokes};

/// What is about to be signed.
#[derive(Default)]
pub(super) struct Agreeing {
    name: String,
    strokes: Strokes,
    /// Why it was not signed.
    fault: Option<String>,
    /// One more signs what is signed already.
    signs_too: bool,
    /// The name is being typed.
    pub is_typing: bool,
}

/// Letters of a name that are taken.
const LONGEST_NAME: usize = 200;

/// Shows the page. Gives what was signed.
pub(super) fn page_ui(
    ui: &mut Ui,
    rect: Rect,
    view: &mut Agreeing,
    visit: &Visit,
    told: &Told,
) -> Vec<Edit> {
    let (words, panel) = if rect.width() > rect.height() {
        rect.split_left_right_at_fraction(0.58)
    } else {
        rect.split_top_bottom_at_y(rect.max.y - (0.5 * rect.height()).min(460.0))
    };
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(panel, 0, theme::color(Ink::Panel, theme));
    let inner = words.shrink2(vec2(24.0, 12.0));
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(inner).id_salt("clauses"),
        |ui| {
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    ui.spacing_mut().item_spacing.y = 8.0;
                    words_ui(ui, told);
                })
        },
    );
    let agreed = visit.site().show.agreements.last();
    let is_as_agreed = matches!(told.standing, Standing::AsAgreed { .. });
    let inner = panel.shrink2(vec2(20.0, 14.0));
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(inner).id_salt("signing"),
        |ui| match agreed {
            Some(agreed) if is_as_agreed && !view.signs_too => {
                signed_ui(ui, inner, view, agreed);
                Vec::new()
            }
            _ => sign_ui(ui, inner, view, visit, told),
        },
    )
    .inner
}

/// What has changed since it was agreed, then every clause as it is now.
fn words_ui(ui: &mut Ui, told: &Told) {
    match &told.standing {
        Standing::NotAgreed => prose::body(ui, "Nothing is agreed until it is signed."),
        Standing::AsAgreed { .. } => prose::said(
            ui,
            "This is what was agreed: nothing has changed since.",
            Ink::Right,
        ),
        Standing::Differs { changes, .. } => {
            prose::said(ui, "Something has changed since it was agreed.", Ink::Wrong);
            prose::body(
                ui,
                "What is struck out was agreed and is no more; what is underlined is new. It counts once it is signed.",
            );
            for change in changes {
                change_ui(ui, change);
            }
            ui.add_space(18.0);
            ui.separator();
            prose::title(ui, "All of it, as it is now");
        }
    }
    for clause in &told.terms.clauses {
        clause_ui(ui, clause);
    }
}

fn clause_ui(ui: &mut Ui, clause: &Clause) {
    prose::title(ui, heading(&clause.key));
    let lines: Vec<&str> = clause.text.lines().collect();
    match lines.as_slice() {
        [one] => prose::body(ui, one),
        _ => {
            for line in lines {
                prose::point(ui, line);
            }
        }
    }
}

fn change_ui(ui: &mut Ui, change: &Change) {
    prose::title(ui, heading(&change.key));
    match &change.kind {
        ChangeKind::Added { now } => {
            prose::said(ui, "New:", Ink::Right);
            prose::body(ui, now);
        }
        ChangeKind::Gone { agreed } => {
            prose::said(ui, "No longer said:", Ink::Wrong);
            prose::body(ui, agreed);
        }
        ChangeKind::Changed { words, .. } => prose::changed(ui, words),
    }
}

/// Who signed, and when.
fn signed_ui(ui: &mut Ui, rect: Rect, view: &mut Agreeing, agreed: &Agreement) {
    let (list, key) = rect.split_top_bottom_at_y(rect.max.y - size::KEY);
    ui.scope_builder(
        egui::UiBuilder::new()
            .max_rect(list.with_max_y(list.max.y - size::GAP))
            .id_salt("signed"),
        |ui| {
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    ui.spacing_mut().item_spacing.y = 8.0;
                    for signature in &agreed.signatures {
                        let day = signed_on(signature)
                            .map_or_else(|| "Agreed".to_owned(), |day| format!("Agreed on {day}"));
                        prose::lead(ui, &day);
                        prose::sentence(ui, &signature.name);
                        let width = (0.7 * ui.available_width()).min(320.0);
                        let height = width * lowest(&signature.strokes) / 1000.0;
                        let (field, _) = ui
                            .allocate_exact_size(vec2(width, height + 10.0), egui::Sense::hover());
                        let theme = theme::current(ui);
                        let ink = theme::color(Ink::Line, theme);
                        paint_strokes(ui.painter(), field, &signature.strokes, ink);
                        ui.separator();
                    }
                })
        },
    );
    if Key::new("sign as well").show(ui, key).clicked() {
        view.signs_too = true;
        ui.request_repaint();
    }
}

/// Name, field, and the keys under it.
fn sign_ui(ui: &mut Ui, rect: Rect, view: &mut Agreeing, visit: &Visit, told: &Told) -> Vec<Edit> {
    let words = match told.standing {
        Standing::NotAgreed => "I agree to this:",
        Standing::AsAgreed { .. } => "I agree to this too:",
        Standing::Differs { .. } => "I agree to the changes:",
    };
    let head = prose::height(ui, words, true, size::TITLE, rect.width());
    let at = |top: f32, height: f32| {
        Rect::from_min_size(pos2(rect.min.x, top), vec2(rect.width(), height))
    };
    let head = at(rect.min.y, head);
    let name = at(head.max.y + size::GAP, size::KEY);
    let fault_room = view.fault.as_ref().map_or(0.0, |fault| {
        prose::height(ui, fault, true, size::TITLE, rect.width()) + size::GAP
    });
    let below = size::KEY + size::GAP + fault_room;
    let field_height = (rect.max.y - below - name.max.y - 2.0 * size::GAP)
        .min(0.7 * rect.width())
        .max(80.0);
    let field = at(name.max.y + size::GAP, field_height);
    let keys = at(field.max.y + size::GAP, size::KEY);
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(head).id_salt("words"),
        |ui| prose::head(ui, words),
    );
    view.is_typing = name_ui(ui, name, &mut view.name);
    field_ui(ui, field, &mut view.strokes);
    let keys = cells(keys, 2);
    let (Some(clear), Some(sign)) = (keys.first(), keys.get(1)) else {
        return Vec::new();
    };
    let mut edits = Vec::new();
    if Key::new("clear").show(ui, *clear).clicked() {
        view.strokes.clear();
        view.fault = None;
        ui.request_repaint();
    }
    if Key::new("sign")
        .on(Ink::Line, Ink::Paper)
        .show(ui, *sign)
        .clicked()
    {
        edits.extend(signed(view, visit, told));
        ui.request_repaint();
    }
    if let Some(fault) = &view.fault {
        let under = at(sign.max.y + size::GAP, fault_room);
        ui.scope_builder(
            egui::UiBuilder::new().max_rect(under).id_salt("fault"),
            |ui| prose::said(ui, fault, Ink::Wrong),
        );
    }
    edits
}

/// The edit that signs; `None`, with why, where it cannot be signed.
fn signed(view: &mut Agreeing, visit: &Visit, told: &Told) -> Option<Edit> {
    let trial = visit.record().clone().agree(
        &told.terms.clauses,
        Signature {
            name: view.name.clone(),
            strokes: view.strokes.clone(),
            stamp: Stamp::default(),
        },
    );
    if let Err(fault) = trial {
        view.fault = Some(capital(&fault.to_string()));
        return None;
    }
    let was = std::mem::take(view);
    Some(Edit::Agree {
        clauses: told.terms.clauses.clone(),
        name: was.name,
        strokes: was.strokes,
    })
}

/// Gives whether it is being typed, or was until now.
fn name_ui(ui: &mut Ui, rect: Rect, name: &mut String) -> bool {
    let edit = egui::TextEdit::singleline(name)
        .hint_text("name of who signs")
        .font(theme::regular(theme::sized(ui, size::TITLE)))
        .char_limit(LONGEST_NAME)
        .align(egui::Align2::LEFT_CENTER);
    let response = ui.put(rect, edit);
    response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "name of who signs"));
    response.has_focus() || response.lost_focus()
}
