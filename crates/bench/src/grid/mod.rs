//! Bricks on a straight grid cut along a curved band, beside libraries that cut polygons.

mod json;
mod peers;
mod walks;

use std::hint::black_box;
use std::time::Instant;

use underbrick_calc::lay::{Clipper, Parts, Placed, PlanPoint, area_m2};

pub use json::{outline_json, print_json};

/// Rows and columns of bricks: 10,000.
const N_ROWS: u32 = 125;
const N_COLUMNS: u32 = 80;
/// A brick and its pitch.
const BRICK_M: (f64, f64) = (0.196, 0.096);
const PITCH_M: (f64, f64) = (0.2, 0.1);

/// A band and the bricks that are cut along it.
pub struct Task {
    pub band: Vec<PlanPoint>,
    pub bricks: Vec<[PlanPoint; 4]>,
}

pub fn print() -> anyhow::Result<()> {
    walks::print()?;
    for n_corners in [400, 2000] {
        let task = task(n_corners, 0.0);
        println!(
            "\n{} bricks of 196 x 96 mm cut along a curved band, 20 m by 2.2 m, {n_corners} edges:",
            task.bricks.len()
        );
        let (ours_ms, ours) = fastest(60, || cut(&task));
        println!(
            "  {:<44}{ours_ms:9.3} ms  {:.9} m2 in {} pieces",
            "ours, the band made ready each time", ours.0, ours.1
        );
        let (geo_ms, geo_m2) = peers::geo_one_call(&task);
        print_peer("geo, one call", geo_ms, ours_ms, 5.0);
        println!(
            "      {:.1e} m2 apart (geo works on a grid)",
            (geo_m2 - ours.0).abs()
        );
        match peers::shapely(&task) {
            Ok(shapely) => {
                print_peer(
                    "shapely, prepared and classified first",
                    shapely.classified_ms,
                    ours_ms,
                    10.0,
                );
                print_peer("shapely, one call", shapely.one_call_ms, ours_ms, 10.0);
                print_peer("shapely, every brick", shapely.every_ms, ours_ms, 10.0);
                println!("      {:.1e} m2 apart", (shapely.area_m2 - ours.0).abs());
            }
            Err(why) => println!("  shapely skipped, because {why}"),
        }
    }
    Ok(())
}

fn print_peer(name: &str, peer_ms: f64, ours_ms: f64, wanted: f64) {
    println!(
        "  {name:<44}{peer_ms:9.3} ms  ours is {:.1} times faster (to reach: {wanted})",
        peer_ms / ours_ms
    );
}

/// An S of two arcs, 20 m along the middle and 2.2 m wide, and bricks all over the ground that it spans, turned by an angle.
pub fn task(n_corners: u32, turned_rad: f64) -> Task {
    let n_stations = n_corners / 2;
    let side = |half_m: f64| {
        (0..n_stations).map(move |nth| {
            let along_m = 20.0 * f64::from(nth) / f64::from(n_stations - 1);
            spot_of_s(along_m, half_m)
        })
    };
    let mut band: Vec<PlanPoint> = side(1.1).collect();
    let mut left: Vec<PlanPoint> = side(-1.1).collect();
    left.reverse();
    band.append(&mut left);
    let (sin, cos) = libm::sincos(turned_rad);
    let turned = |right_m: f64, away_m: f64| PlanPoint {
        right_m: right_m * cos - away_m * sin,
        away_m: right_m * sin + away_m * cos,
    };
    let bricks = (0..N_ROWS)
        .flat_map(|row| (0..N_COLUMNS).map(move |column| (row, column)))
        .map(|(row, column)| {
            let left_m = f64::from(column) * PITCH_M.0 - 2.0137;
            let near_m = f64::from(row) * PITCH_M.1 - 0.0171;
            [
                turned(left_m, near_m),
                turned(left_m + BRICK_M.0, near_m),
                turned(left_m + BRICK_M.0, near_m + BRICK_M.1),
                turned(left_m, near_m + BRICK_M.1),
            ]
        })
        .collect();
    Task { band, bricks }
}

/// A quarter circle to the right and one back, each 10 m long.
fn spot_of_s(along_m: f64, offset_m: f64) -> PlanPoint {
    let radius_m = 10.0 / std::f64::consts::FRAC_PI_2;
    if along_m <= 10.0 {
        let (sin, cos) = libm::sincos(along_m / radius_m);
        PlanPoint {
            right_m: radius_m - (radius_m - offset_m) * cos,
            away_m: (radius_m - offset_m) * sin,
        }
    } else {
        let (sin, cos) = libm::sincos((20.0 - along_m) / radius_m);
        PlanPoint {
            right_m: radius_m + (radius_m + offset_m) * cos,
            away_m: 2.0 * radius_m - (radius_m + offset_m) * sin,
        }
    }
}

/// Area and number of pieces, each with the number of its brick.
fn cut(task: &Task) -> (f64, usize) {
    let clipper = Clipper::new(&task.band);
    let mut parts = Parts::default();
    let mut spots: Vec<PlanPoint> = Vec::with_capacity(task.bricks.len() * 2);
    let mut pieces: Vec<(usize, usize)> = Vec::with_capacity(task.bricks.len() / 2);
    for (brick_idx, brick) in task.bricks.iter().enumerate() {
        match clipper.place(brick, &mut parts) {
            Placed::Outside => {}
            Placed::Inside => {
                spots.extend_from_slice(brick);
                pieces.push((brick_idx, spots.len()));
            }
            Placed::Cut => {
                for outline in parts.iter() {
                    spots.extend_from_slice(outline);
                    pieces.push((brick_idx, spots.len()));
                }
            }
        }
    }
    let mut start = 0;
    let mut total_m2 = 0.0;
    for &(_, end) in &pieces {
        total_m2 += area_m2(spots.get(start..end).unwrap_or_default());
        start = end;
    }
    (black_box(total_m2), black_box(pieces).len())
}

/// The least of so many costs, and what the last gave.
pub fn fastest<T>(n_times: u32, mut work: impl FnMut() -> T) -> (f64, T) {
    let mut result = work();
    let mut least_ms = f64::INFINITY;
    for _ in 0..n_times {
        let started = Instant::now();
        result = black_box(work());
        least_ms = least_ms.min(started.elapsed().as_secs_f64() * 1000.0);
    }
    (least_ms, result)
}
