//! The rows of every stop, kept until something that they show changes.

use underbrick_calc::place::Place;

use crate::stops::opened::Opened;
use crate::stops::{Stop, pictures};
use crate::visit::Visit;
use crate::widgets::book::BookPart;
use crate::widgets::build::BuildBit;
use crate::widgets::order::OrderBit;
use crate::widgets::rows::{Row, ValueState};

/// The rows of every stop, made when something they show has changed.
#[derive(Default)]
pub(crate) struct KeptRows {
    key: Option<([u64; 3], String, Option<Place>, Opened)>,
    stops: Vec<(Stop, Vec<Row>)>,
    /// What stands in the place of a stop's rows while a picture is shown large.
    card: Vec<Row>,
}

impl KeptRows {
    /// Makes them anew where the visit, the value being set or what is shown in full is another than before.
    pub fn refresh(&mut self, visit: &Visit, set: Option<Place>, opened: &Opened) {
        let revisions = [
            visit.revision(),
            visit.album().revision(),
            visit.changes().revision,
        ];
        let device = visit.device();
        let key = self.key.as_ref();
        let is_same = key.is_some_and(|(was_at, was_on, was_set, was)| {
            (*was_at, was_on, *was_set, was) == (revisions, &device, set, opened)
        });
        if !is_same {
            self.key = Some((revisions, device, set, opened.clone()));
            self.card = pictures::card(visit, opened.picture);
            self.stops = Stop::ALL
                .map(|stop| (stop, stop.rows(visit, set, opened)))
                .into();
        }
    }

    /// Every stop with its rows, in the order of the visit.
    pub fn all(&self) -> impl Iterator<Item = (Stop, &[Row])> {
        self.stops
            .iter()
            .map(|(stop, rows)| (*stop, rows.as_slice()))
    }

    /// Rows of the picture that is shown large.
    pub fn card(&self) -> &[Row] {
        &self.card
    }

    /// The rows of one stop.
    pub fn of(&self, stop: Stop) -> &[Row] {
        self.all()
            .find(|(at, _)| *at == stop)
            .map_or(&[], |(_, rows)| rows)
    }
}

/// Values of a row in the order in which they are asked for: what it is, where that is not written down yet, then how much. What is
/// folded away is asked for too: going there opens it.
pub(crate) fn places_in_order(row: &Row, visit: &Visit) -> Vec<Place> {
    match row {
        Row::Value(row) => {
            let is_open = |place: &Place| visit.record().text(*place).is_some_and(str::is_empty);
            row.left_place
                .filter(is_open)
                .into_iter()
                .chain([row.place])
                .collect()
        }
        Row::Book(BookPart::Line(line)) => line.places().collect(),
        Row::Folded(rows) => rows
            .iter()
            .flat_map(|row| places_in_order(row, visit))
            .collect(),
        Row::More { .. }
        | Row::Book(_)
        | Row::Heading { .. }
        | Row::Fold { .. }
        | Row::Choice { .. }
        | Row::Acts(_)
        | Row::Figure { .. }
        | Row::Cause(_)
        | Row::Offer(_)
        | Row::Order(_)
        | Row::Build(_)
        | Row::Pictures(_)
        | Row::Said { .. } => Vec::new(),
    }
}

/// How many values are known, of how many that are asked for, also in what is folded away. Where there are stages, how many of them are
/// closed.
pub(crate) fn known(rows: &[Row]) -> (usize, usize) {
    let stages = rows.iter().filter_map(|row| match row {
        Row::Build(BuildBit::Stage(stage)) => Some(stage.is_closed),
        _ => None,
    });
    let (n_closed, n_stages) = stages.fold((0, 0), |(n_closed, n_all), is_closed| {
        (n_closed + usize::from(is_closed), n_all + 1)
    });
    if n_stages > 0 {
        return (n_closed, n_stages);
    }
    let states = rows.iter().flat_map(states);
    states.fold((0, 0), |(n_known, n_all), state| {
        (
            n_known + usize::from(!matches!(state, ValueState::Missing | ValueState::Wrong)),
            n_all + 1,
        )
    })
}

fn states(row: &Row) -> Vec<ValueState> {
    match row {
        Row::Value(row) => vec![row.state],
        Row::Book(BookPart::Line(line)) => line.states().collect(),
        Row::Folded(rows) => rows.iter().flat_map(states).collect(),
        Row::Order(OrderBit::Line(row)) => vec![row.state],
        Row::More { .. }
        | Row::Book(_)
        | Row::Heading { .. }
        | Row::Fold { .. }
        | Row::Choice { .. }
        | Row::Acts(_)
        | Row::Figure { .. }
        | Row::Cause(_)
        | Row::Offer(_)
        | Row::Order(_)
        | Row::Build(_)
        | Row::Pictures(_)
        | Row::Said { .. } => Vec::new(),
    }
}

pub(crate) fn known_share(rows: &[Row]) -> f32 {
    let (n_known, n_all) = known(rows);
    if n_all == 0 {
        0.0
    } else {
        n_known as f32 / n_all as f32
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::widgets::rows::ValueRow;

    fn value(state: ValueState) -> Row {
        Row::Value(ValueRow {
            place: Place::Site,
            left_place: None,
            label: String::new(),
            value: String::new(),
            state,
            note: String::new(),
        })
    }

    #[test]
    fn what_is_folded_away_is_counted_too() {
        let folded = Row::Folded(vec![value(ValueState::Missing), value(ValueState::Known)]);
        let rows = [value(ValueState::Default), folded];
        assert_eq!(known(&rows), (2, 3));
    }
}
