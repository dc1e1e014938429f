//! Stop Build.
use super::opened::Opened;
use crate::visit::Visit;
use crate::widgets::rows::Row;
use underbrick_calc::place::Place;

pub(super) fn rows(_visit: &Visit, _set: Option<Place>, _opened: &Opened) -> Vec<Row> {
    Vec::new()
}
