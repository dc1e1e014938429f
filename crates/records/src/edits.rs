//! Things added and taken away: legs, readings, pits, layers, penetrometer rows. New ones stand at the end, not measured.

use crate::v1::{Hand, Layer, Leg, PenetrometerRow, Pit, Shot, ShotBy, Sign, SiteFile};

impl SiteFile {
    /// Adds a sign of which it is not said yet what it is; gives its index.
    pub fn add_sign(&mut self) -> usize {
        added(&mut self.signs, Sign::default())
    }

    /// Takes a sign out. False when there is no such sign.
    pub fn remove_sign(&mut self, sign_idx: usize) -> bool {
        let is_there = removed(&mut self.signs, sign_idx);
        if is_there {
            self.pictures_after_sign(sign_idx);
        }
        is_there
    }

    /// Adds a straight leg at the far end; gives its index.
    pub fn add_straight_leg(&mut self) -> usize {
        added(&mut self.line.legs, Leg::straight())
    }

    /// Adds a curved leg to that hand at the far end; gives its index.
    pub fn add_curved_leg(&mut self, hand: impl Into<Hand>) -> usize {
        added(&mut self.line.legs, Leg::curve(hand.into()))
    }

    /// Takes a leg out. False when there is no such leg.
    pub fn remove_leg(&mut self, leg_idx: usize) -> bool {
        removed(&mut self.line.legs, leg_idx)
    }

    /// Adds a reading of the old surface; gives its index.
    pub fn add_shot(&mut self, by: impl Into<ShotBy>) -> usize {
        let shot = Shot {
            station: String::new(),
            offset: String::new(),
            by: by.into(),
            reading: String::new(),
        };
        added(&mut self.line.shots, shot)
    }

    /// Takes a reading out. False when there is no such reading.
    pub fn remove_shot(&mut self, shot_idx: usize) -> bool {
        removed(&mut self.line.shots, shot_idx)
    }

    /// Adds a pit whose first layer is the old brick; gives its index.
    pub fn add_pit(&mut self) -> usize {
        let old_brick = Layer {
            material: "old-brick".to_owned(),
            ..Layer::default()
        };
        added(
            &mut self.pits,
            Pit {
                layers: vec![old_brick],
                ..Pit::default()
            },
        )
    }

    /// Takes a pit out. False when there is no such pit.
    pub fn remove_pit(&mut self, pit_idx: usize) -> bool {
        let is_there = removed(&mut self.pits, pit_idx);
        if is_there {
            self.pictures_after_pit(pit_idx);
        }
        is_there
    }

    /// Adds a layer at the bottom of a pit; gives its index. `None` when there is no such pit.
    pub fn add_layer(&mut self, pit_idx: usize, material: &str) -> Option<usize> {
        let pit = self.pits.get_mut(pit_idx)?;
        Some(added(
            &mut pit.layers,
            Layer {
                material: material.to_owned(),
                ..Layer::default()
            },
        ))
    }

    /// Takes a layer out of a pit. False when there is no such pit or layer.
    pub fn remove_layer(&mut self, pit_idx: usize, layer_idx: usize) -> bool {
        self.pits
            .get_mut(pit_idx)
            .is_some_and(|pit| removed(&mut pit.layers, layer_idx))
    }

    /// Adds a row to a pit's penetrometer; gives its index. `None` when there is no such pit.
    pub fn add_penetrometer_row(&mut self, pit_idx: usize) -> Option<usize> {
        let pit = self.pits.get_mut(pit_idx)?;
        Some(added(
            &mut pit.penetrometer.rows,
            PenetrometerRow::default(),
        ))
    }

    /// Takes a row out of a pit's penetrometer. False when there is no such pit or row.
    pub fn remove_penetrometer_row(&mut self, pit_idx: usize, row_idx: usize) -> bool {
        self.pits
            .get_mut(pit_idx)
            .is_some_and(|pit| removed(&mut pit.penetrometer.rows, row_idx))
    }
}

fn added<T>(list: &mut Vec<T>, item: T) -> usize {
    list.push(item);
    list.len() - 1
}

fn removed<T>(list: &mut Vec<T>, idx: usize) -> bool {
    let is_there = idx < list.len();
    if is_there {
        list.remove(idx);
    }
    is_there
}
