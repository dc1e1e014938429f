//! Tables: columns as wide as their cells ask for, rows that are not parted, the head on every page.

use std::rc::Rc;

use underbrick_drawing::font::Weight;
use underbrick_drawing::item::Anchor;

use super::blocks::{NOTE, Setter, count, width_of};
use super::pages::Role;
use super::strip::{HAIRLINE, RULE, Strip, Type};
use super::wrap::{widest_word_em, wrap};
use super::{Align, BOX, Block, Column, DOT_MM, Table, TableRow};

/// Type of cells, in dots: 8.5 points, and where a table is wide the least.
const CELL: f64 = 15.0;
const LEAST_CELL: f64 = 11.5;
/// Type down to which a table of figures is set smaller so that no cell is broken: 7.4 points.
const WHOLE_CELL: f64 = 13.0;
/// Columns from which on a table is one of figures rather than of sentences.
const OF_FIGURES: usize = 6;
/// Space on both sides of a cell.
const BESIDE: f64 = 7.0;
/// Space above and below a row.
const ABOVE: f64 = 3.5;
/// Share of a page up to which a table is not parted.
const SHORT: f64 = 0.25;
/// Side of a box to tick.
const TICK: f64 = 15.0;
/// Least height of a row of a table with boxes: it is filled in by hand, 7 mm.
const BY_HAND: f64 = 35.0;

impl Setter {
    pub(super) fn table(&mut self, table: &Table) {
        if table.columns.is_empty() {
            return;
        }
        if !table.caption.is_empty() {
            let node = self.tree.add(Role::Paragraph, None);
            let set = Type::bold(NOTE + 1.0);
            for line in wrap(&table.caption, set.weight, set.size, self.width) {
                let mut strip = Strip::of_height(set.leading());
                strip.keeps_next = true;
                strip.tag(node, |strip| strip.text(0.0, 0.0, &line, set, Anchor::Left));
                self.strips.push(strip);
            }
        }
        let node = self.tree.add(Role::Table, None);
        let alike = self.alike.iter().find(|alike| alike.0 == table.columns);
        let columns = alike.map_or_else(
            || Columns::of(&table.columns, &[&table.rows], self.width),
            |alike| alike.1.clone(),
        );
        let set = Type::bold(columns.size);
        let heads: Vec<String> = table
            .columns
            .iter()
            .map(|column| column.head.clone())
            .collect();
        let at = self.strips.len();
        let row = self.tree.add(Role::Row, Some(node));
        let mut heads = self.row(
            &columns,
            &heads,
            set,
            (row, Role::HeadCell),
            (0.0, self.height),
        );
        let Some(mut head) = heads.pop() else { return };
        let under = head.height;
        head.rule(0.0, columns.whole(), under, RULE);
        head.height += 1.0;
        head.keeps_next = true;
        let repeated = Rc::new(Strip {
            keeps_next: false,
            tagged: Vec::new(),
            ..head.clone()
        });
        self.strips.extend(heads);
        self.strips.push(head);
        let most = self.height - repeated.height;
        let n_rows = table.rows.len();
        let is_filled_in = table
            .rows
            .iter()
            .any(|row| row.cells.iter().any(|cell| cell == BOX));
        let least = if is_filled_in {
            BY_HAND - 2.0 * ABOVE
        } else {
            0.0
        };
        for (nth, written) in table.rows.iter().enumerate() {
            let set = if written.is_strong {
                Type::bold(columns.size)
            } else {
                Type::regular(columns.size)
            };
            let row = self.tree.add(Role::Row, Some(node));
            let bounds = (least, most);
            let mut parts = self.row(&columns, &written.cells, set, (row, Role::Cell), bounds);
            let n_parts = parts.len();
            for (part, strip) in parts.iter_mut().enumerate() {
                let (is_first, is_end) = (part == 0, part + 1 == n_parts);
                if written.is_strong && !written.names_a_group() && is_first {
                    strip.rule(0.0, columns.whole(), 0.0, 1.0);
                }
                let under = strip.height;
                let is_last = is_end && nth + 1 == n_rows;
                strip.rule(
                    0.0,
                    columns.whole(),
                    under,
                    if is_last { RULE } else { HAIRLINE },
                );
                strip.head = Some(Rc::clone(&repeated));
                // Neither the first row nor the last stands alone on its page.
                let is_beside_end = nth == 0 || nth + 2 == n_rows || written.names_a_group();
                strip.keeps_next = is_end && n_parts == 1 && n_rows > 2 && is_beside_end;
                if is_last {
                    strip.height += 14.0;
                }
            }
            self.strips.append(&mut parts);
        }
        // A short table is not parted.
        let rows = self.strips.get_mut(at..).unwrap_or_default();
        let height: f64 = rows.iter().map(|strip| strip.height).sum();
        if height <= SHORT * self.height
            && let Some((_, before_last)) = rows.split_last_mut()
        {
            for strip in before_last {
                strip.keeps_next = true;
            }
        }
    }

    /// Widths of the columns of all tables with the same columns: they stand under each other.
    pub(super) fn align_alike(&mut self, blocks: &[Block]) {
        let mut tables = Vec::new();
        tables_in(blocks, &mut tables);
        let mut alike: Vec<(&[Column], Vec<&[TableRow]>)> = Vec::new();
        for table in tables {
            match alike.iter_mut().find(|alike| alike.0 == table.columns) {
                Some((_, rows)) => rows.push(&table.rows),
                None => alike.push((&table.columns, vec![&table.rows])),
            }
        }
        self.alike = alike
            .into_iter()
            .filter(|(_, tables)| tables.len() > 1)
            .map(|(columns, tables)| (columns.to_vec(), Columns::of(columns, &tables, self.width)))
            .collect();
    }

    /// A row, at least `least` high; in several parts where it is higher than `most`.
    fn row(
        &mut self,
        columns: &Columns,
        cells: &[String],
        set: Type,
        (row, role): (usize, Role),
        (least, most): (f64, f64),
    ) -> Vec<Strip> {
        let page_width = self.width;
        let is_group = role == Role::Cell && set.weight == Weight::Bold && is_alone(cells);
        let lines: Vec<Vec<String>> = columns
            .all
            .iter()
            .zip(cells)
            .map(|(column, written)| {
                let width = if is_group { page_width } else { column.width };
                wrap(written, set.weight, set.size, width - 2.0 * BESIDE)
            })
            .collect();
        let nodes: Vec<usize> = lines
            .iter()
            .map(|_| self.tree.add(role.clone(), Some(row)))
            .collect();
        let is_head = role == Role::HeadCell;
        let n_lines = lines.iter().map(Vec::len).max().unwrap_or(1);
        let n_fit = lines_within(most - 2.0 * ABOVE - 15.0, set);
        (0..n_lines.max(1))
            .step_by(n_fit)
            .map(|from| {
                let part: Vec<&[String]> = lines
                    .iter()
                    .map(|lines| {
                        let to = lines.len().min(from.saturating_add(n_fit));
                        lines.get(from..to).unwrap_or_default()
                    })
                    .collect();
                row_part(columns, &part, &nodes, set, (is_head, least))
            })
            .collect()
    }
}

/// Whether the first cell is all that is written.
fn is_alone(cells: &[String]) -> bool {
    let [first, rest @ ..] = cells else {
        return false;
    };
    !first.is_empty() && !rest.is_empty() && rest.iter().all(String::is_empty)
}

impl TableRow {
    /// Whether the row is a heading of those below it: strong, and nothing but its first cell, which then runs over all columns.
    fn names_a_group(&self) -> bool {
        self.is_strong && is_alone(&self.cells)
    }
}

/// How many lines stand in a height; at least one.
pub(super) fn lines_within(height: f64, set: Type) -> usize {
    let mut n = 1;
    while set.leading() * count(n + 1) <= height {
        n += 1;
    }
    n
}

fn row_part(
    columns: &Columns,
    lines: &[&[String]],
    nodes: &[usize],
    set: Type,
    (is_head, least): (bool, f64),
) -> Strip {
    let n_lines = lines.iter().map(|lines| lines.len()).max().unwrap_or(1);
    let height = (set.leading() * count(n_lines)).max(least);
    let mut strip = Strip::of_height(height + 2.0 * ABOVE);
    let mut left = 0.0;
    for ((column, lines), node) in columns.all.iter().zip(lines).zip(nodes) {
        let (x, anchor) = match column.align {
            Align::Left => (left + column.beside(), Anchor::Left),
            Align::Right => (left + column.width - BESIDE, Anchor::Right),
            Align::Middle => (left + 0.5 * column.width, Anchor::Middle),
        };
        // Heads stand at the foot of their row, cells at its top; one line in the middle.
        let own = set.leading() * count(lines.len());
        let top = ABOVE
            + if is_head {
                height - own
            } else if lines.len() == 1 && least > 0.0 {
                0.5 * (height - own)
            } else {
                0.0
            };
        strip.tag(*node, |strip| {
            for (nth, line) in lines.iter().enumerate() {
                if line == BOX {
                    let side = match column.align {
                        Align::Left => x,
                        Align::Right => x - TICK,
                        Align::Middle => x - 0.5 * TICK,
                    };
                    strip.tick_box(side, ABOVE + 0.5 * height, TICK);
                } else {
                    strip.text(x, top + set.leading() * count(nth), line, set, anchor);
                }
            }
        });
        left += column.width;
    }
    strip
}

fn tables_in<'b>(blocks: &'b [Block], tables: &mut Vec<&'b Table>) {
    for block in blocks {
        match block {
            Block::Table(table) => tables.push(table),
            Block::Together(blocks) => tables_in(blocks, tables),
            Block::Heading(..)
            | Block::Text(..)
            | Block::List(..)
            | Block::Caution(_)
            | Block::Facts(_)
            | Block::Figure(_)
            | Block::Figures(_)
            | Block::Picture(_)
            | Block::Signature(_)
            | Block::WriteIn(..)
            | Block::NewPage => {}
        }
    }
}

#[derive(Clone, Debug)]
pub(super) struct Columns {
    all: Vec<Width>,
    size: f64,
}

#[derive(Clone, Debug)]
struct Width {
    width: f64,
    align: Align,
    is_first: bool,
}

impl Width {
    /// The first column stands flush with the rest of the page.
    const fn beside(&self) -> f64 {
        if self.is_first { 0.0 } else { BESIDE }
    }
}

impl Columns {
    fn of(columns: &[Column], tables: &[&[TableRow]], most: f64) -> Self {
        let fits_whole = |size: &f64| asked(columns, tables, *size).1.iter().sum::<f64>() <= most;
        let sizes = [CELL, CELL - 0.5, CELL - 1.0, CELL - 1.5, WHOLE_CELL];
        let of_figures = columns.len() >= OF_FIGURES;
        let mut sizes = sizes.into_iter().filter(|_| of_figures);
        let mut size = sizes.find(fits_whole).unwrap_or(CELL);
        loop {
            let (least, natural) = asked(columns, tables, size);
            let (least_sum, natural_sum): (f64, f64) = (least.iter().sum(), natural.iter().sum());
            if least_sum > most && size > LEAST_CELL {
                size -= 0.5;
                continue;
            }
            let widths: Vec<f64> = if natural_sum <= most {
                // A table that nearly fills the page fills it.
                let spare = if natural_sum > 0.6 * most {
                    most - natural_sum
                } else {
                    0.0
                };
                let each = spare / count(natural.len().max(1));
                natural.iter().map(|width| width + each).collect()
            } else if least_sum <= most {
                let share = (most - least_sum) / (natural_sum - least_sum).max(1e-9);
                least
                    .iter()
                    .zip(&natural)
                    .map(|(least, natural)| least + share * (natural - least))
                    .collect()
            } else {
                least.iter().map(|width| width * most / least_sum).collect()
            };
            let all = widths
                .into_iter()
                .zip(columns)
                .enumerate()
                .map(|(nth, (width, column))| Width {
                    width,
                    align: column.align,
                    is_first: nth == 0,
                })
                .collect();
            return Self { all, size };
        }
    }

    fn whole(&self) -> f64 {
        self.all.iter().map(|column| column.width).sum()
    }
}

/// Least and natural width of each column.
fn asked(columns: &[Column], tables: &[&[TableRow]], size: f64) -> (Vec<f64>, Vec<f64>) {
    let (bold, plain) = (Type::bold(size), Type::regular(size));
    columns
        .iter()
        .enumerate()
        .map(|(nth, column)| {
            let mut least = column.least_mm / DOT_MM;
            // A head may stand in several lines.
            least = least.max(size * widest_word_em(&column.head, bold.weight) + 2.0 * BESIDE);
            let mut natural = least.max(width_of(&column.head, bold.weight, size) + 2.0 * BESIDE);
            for row in tables
                .iter()
                .copied()
                .flatten()
                .filter(|row| !row.names_a_group())
            {
                let Some(cell) = row.cells.get(nth) else {
                    continue;
                };
                let set = if row.is_strong { bold } else { plain };
                least = least.max(size * widest_word_em(cell, set.weight) + 2.0 * BESIDE);
                let widest = cell
                    .split('\n')
                    .map(|line| width_of(line, set.weight, size))
                    .fold(0.0, f64::max);
                natural = natural.max(widest + 2.0 * BESIDE);
            }
            // What just fits is not parted by a rounding.
            (least + 0.1, natural.max(least) + 0.1)
        })
        .unzip()
}
