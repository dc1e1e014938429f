//! What it comes to: amounts one under the other, a rule over each sum.

use egui::{Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::theme::{self, Ink, size};
use crate::widgets::words::{Face, Words};

/// One amount.
#[derive(Clone, Debug)]
pub struct Sum {
    /// What it is.
    pub name: String,
    /// How much.
    pub amount: String,
    /// Whether those above it are summed here.
    pub is_sum: bool,
}

/// Shows amounts.
pub(super) fn sums_ui(ui: &mut Ui, sums: &[Sum]) {
    ui.spacing_mut().item_spacing.y = 0.0;
    for sum in sums {
        sum_ui(ui, sum);
    }
    ui.spacing_mut().item_spacing.y = size::GAP;
    ui.add_space(size::GAP);
}

fn sum_ui(ui: &mut Ui, sum: &Sum) {
    let line = theme::tall(ui, 34.0);
    let room = ui.available_width() - 28.0;
    let face = |is_bold: bool| {
        if is_bold {
            Face::bold(size::LABEL)
        } else {
            Face::regular(size::LABEL)
        }
    };
    let amount = Words::broken(ui, &sum.amount, face(true), room, Anchor::Right);
    let name_room = room - amount.width() - 12.0;
    let name = Words::broken(ui, &sum.name, face(sum.is_sum), name_room, Anchor::Left);
    let height = line + name.more().max(amount.more());
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let said = format!("{} {}", sum.name, sum.amount);
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, said.clone()));
    let theme = theme::current(ui);
    let ink = theme::color(Ink::Ink, theme);
    let painter = ui.painter();
    if sum.is_sum {
        painter.hline(rect.x_range(), rect.min.y + 1.0, Stroke::new(1.5, ink));
    }
    let middle = rect.min.y + line / 2.0;
    name.paint(painter, pos2(rect.min.x + 14.0, middle), ink);
    amount.paint(painter, pos2(rect.max.x - 14.0, middle), ink);
}
