//! Everything that is handed over, as files: one table of what there is.

use underbrick_calc::Results;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::lay::Lay;
use underbrick_calc::line::Line;
use underbrick_calc::site::{Language, Letterhead, PictureOf, Site};
use underbrick_drawing::item::Sheet;
use underbrick_drawing::palette::Theme;
use underbrick_drawing::{
    Drawing, PlanView, cross_section, in_language, long_section_on_paper, plan_as_laid,
    plan_not_known, svg,
};

use crate::agreement::Design;
use crate::crew::{CrewSheet, Said, crew_message, crew_sheet, edge_drawing};
use crate::handover::{HandOver, hand_over};
use crate::order::{messages, order_csv, order_sheet};
use crate::order_list::order_list;
use crate::owner::{OwnerSheet, owner_message, owner_sheet, station_shown};
use crate::paper::{Document, Paper, PdfError, Picture, lay_out, write_pdf};
use crate::readings::readings_csv;
use crate::stakes::{stakes_csv, stakes_csv_head};
use crate::wording::on_one_line;

/// What sheets are made from.
#[derive(Clone, Copy)]
pub struct SheetSet<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its materials and prices.
    pub catalogue: &'a Catalogue,
    /// What follows.
    pub results: &'a Results,
    /// Who hands them over.
    pub letterhead: Option<&'a Letterhead>,
    /// Paper of the PDFs.
    pub paper: Paper,
    /// What the crew sheet is written in.
    pub language: Language,
    /// Date of the sheets: year, month, day.
    pub date: (i16, i8, i8),
    /// Pictures with what they belong to.
    pub pictures: &'a [(PictureOf, Picture)],
}

/// One sheet of the set.
#[derive(Clone, Copy)]
pub struct SheetKind {
    /// Name of its file.
    pub file: &'static str,
    /// What it is, in a few words.
    pub name: &'static str,
    made: Made,
}

#[derive(Clone, Copy)]
enum Made {
    Document(fn(&SheetSet<'_>) -> Document),
    Text(fn(&SheetSet<'_>) -> String),
}

/// All sheets, in the order in which they are made.
pub const SHEETS: &[SheetKind] = &[
    SheetKind {
        file: "owner.pdf",
        name: "owner sheet",
        made: Made::Document(owner),
    },
    SheetKind {
        file: "crew.pdf",
        name: "crew sheet",
        made: Made::Document(crew),
    },
    SheetKind {
        file: "order.pdf",
        name: "order list",
        made: Made::Document(order),
    },
    SheetKind {
        file: "hand-over.pdf",
        name: "hand-over record",
        made: Made::Document(handed_over),
    },
    SheetKind {
        file: "set-out.csv",
        name: "set-out table",
        made: Made::Text(set_out),
    },
    SheetKind {
        file: "order.csv",
        name: "order for a spreadsheet",
        made: Made::Text(order_table),
    },
    SheetKind {
        file: "readings.csv",
        name: "readings as built",
        made: Made::Text(readings),
    },
    SheetKind {
        file: "owner.txt",
        name: "message to the owner",
        made: Made::Text(owner_text),
    },
    SheetKind {
        file: "crew.txt",
        name: "message to the crew",
        made: Made::Text(crew_text),
    },
    SheetKind {
        file: "suppliers.txt",
        name: "messages to suppliers",
        made: Made::Text(suppliers),
    },
    SheetKind {
        file: "cross-section.svg",
        name: "cross-section",
        made: Made::Text(section_across),
    },
    SheetKind {
        file: "long-section.svg",
        name: "long section",
        made: Made::Text(section_along),
    },
    SheetKind {
        file: "edge.svg",
        name: "edge detail",
        made: Made::Text(edge),
    },
    SheetKind {
        file: "plan.svg",
        name: "plan",
        made: Made::Text(plan),
    },
];

impl SheetKind {
    /// The document, for those that are one; to be looked at before it is written.
    #[must_use]
    pub fn document(&self, set: &SheetSet<'_>) -> Option<Document> {
        match self.made {
            Made::Document(made) => Some(made(set)),
            Made::Text(_) => None,
        }
    }

    /// The whole file: the same bytes for the same set.
    ///
    /// # Errors
    /// [`PdfError`] where a picture cannot be taken over.
    pub fn bytes(&self, set: &SheetSet<'_>) -> Result<Vec<u8>, PdfError> {
        match self.made {
            Made::Document(made) => write_pdf(&lay_out(&made(set), set.paper)),
            Made::Text(made) => Ok(made(set).into_bytes()),
        }
    }
}

impl<'a> SheetSet<'a> {
    fn design(&self) -> Design<'a> {
        Design {
            site: self.site,
            catalogue: self.catalogue,
            results: self.results,
            letterhead: self.letterhead,
        }
    }

    /// Name and telephone, on one line.
    fn from(&self) -> String {
        let Some(letterhead) = self.letterhead else {
            return String::new();
        };
        let parts = [&letterhead.name, &letterhead.phone].map(|part| on_one_line(part));
        parts
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(", ")
    }

    fn date(&self) -> String {
        let (year, month, day) = self.date;
        crate::dates::in_words(year, month, day)
    }

    fn laid(&self) -> Option<(&'a Line, &'a Lay)> {
        self.results.line.as_ref().zip(self.results.lay.as_ref())
    }
}

fn owner(set: &SheetSet<'_>) -> Document {
    let date = set.date();
    let sheet = OwnerSheet {
        paper: set.paper,
        date: &date,
        pictures: set.pictures,
    };
    owner_sheet(set.design(), sheet)
}

fn crew(set: &SheetSet<'_>) -> Document {
    for_crew(set, crew_sheet)
}

fn crew_text(set: &SheetSet<'_>) -> String {
    for_crew(set, crew_message)
}

fn edge(set: &SheetSet<'_>) -> String {
    for_crew(set, edge_drawing).map_or_else(String::new, |drawing| svg::write(&drawing, Theme::Sun))
}

/// Something made from what the crew sheet is made from.
fn for_crew<T>(set: &SheetSet<'_>, make: impl FnOnce(CrewSheet<'_>) -> T) -> T {
    let (year, month, day) = set.date;
    let said = Said::of(set.language, set.site.shown_in);
    let date = said.date(year, month, day);
    make(CrewSheet {
        site: set.site,
        catalogue: set.catalogue,
        results: set.results,
        paper: set.paper,
        date: &date,
        from: &set.from(),
        language: set.language,
    })
}

fn order(set: &SheetSet<'_>) -> Document {
    order_list(
        set.site,
        set.catalogue,
        set.results.order.as_ref(),
        &set.date(),
        &set.from(),
    )
}

fn handed_over(set: &SheetSet<'_>) -> Document {
    hand_over(HandOver {
        site: set.site,
        catalogue: set.catalogue,
        results: set.results,
        paper: set.paper,
        date: &set.date(),
        from: &set.from(),
        pictures: set.pictures,
    })
}

fn set_out(set: &SheetSet<'_>) -> String {
    match (&set.results.line, &set.results.build) {
        (Some(line), Some(build)) => stakes_csv(set.site, line, build),
        _ => stakes_csv_head(),
    }
}

fn order_table(set: &SheetSet<'_>) -> String {
    let order = set.results.order.as_ref();
    order.map_or_else(String::new, |order| {
        order_csv(&order_sheet(set.site, order, &set.catalogue.prices))
    })
}

fn readings(set: &SheetSet<'_>) -> String {
    readings_csv(set.site, set.results.build.as_ref())
}

fn owner_text(set: &SheetSet<'_>) -> String {
    owner_message(set.design())
}

fn suppliers(set: &SheetSet<'_>) -> String {
    let Some(order) = &set.results.order else {
        return String::new();
    };
    let messages = messages(set.site, order);
    let texts: Vec<String> = messages.into_iter().map(|message| message.text).collect();
    texts.join("\n\n")
}

/// The sheet that a drawing in a file is laid out for.
const DRAWN: Sheet = Sheet {
    width: 1200.0,
    height: 640.0,
    text_scale: 1.0,
};

/// A drawing as a file, in the language of the crew sheet, which it goes with.
fn drawn(set: &SheetSet<'_>, make: impl FnOnce() -> Drawing) -> String {
    svg::write(&in_language(set.language, make), Theme::Sun)
}

fn section_across(set: &SheetSet<'_>) -> String {
    let station = station_shown(set.design());
    drawn(set, || {
        cross_section(set.site, set.catalogue, set.results, station, DRAWN)
    })
}

fn section_along(set: &SheetSet<'_>) -> String {
    let station = station_shown(set.design());
    drawn(set, || {
        long_section_on_paper(set.site, set.catalogue, set.results, station, DRAWN)
    })
}

fn plan(set: &SheetSet<'_>) -> String {
    let sheet = Sheet {
        width: 1600.0,
        height: 1200.0,
        ..DRAWN
    };
    let Some((line, lay)) = set.laid() else {
        return drawn(set, || plan_not_known(set.site, set.results, sheet));
    };
    let view = PlanView::whole(set.site, &line.run, sheet);
    drawn(set, || plan_as_laid(set.site, line, lay, view, sheet))
}
