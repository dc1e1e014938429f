//! What is built, from the ground up.

use super::Design;
use super::plain::{
    capital, counted, from_to, is_nothing, listed, size as size_of, steepness, way_in_plain_words,
};
use underbrick_calc::catalogue::Drainage;
use underbrick_calc::ground::Verdict;
use underbrick_calc::line::{GradeLine, Line, Run};
use underbrick_calc::order::{Item, NeedAmount, Way};
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::{Bond, CourseWay, EdgeStands, RestraintInput};
use underbrick_drawing::plain::material_in_plain_words;

pub(super) fn way(design: Design<'_>) -> Vec<String> {
    let way = design.site.order.way;
    let more = match way {
        Way::Relay => {
            "Only the brick and the sand right under it are renewed. The ground below stays as it is now."
        }
        Way::NewBase => {
            "The ground under the walk is dug out and replaced with crushed stone, packed hard; then your own brick goes back on top."
        }
        Way::NewBrick => {
            "The ground under the walk is dug out and replaced with crushed stone, packed hard; then new brick is laid on top."
        }
    };
    vec![format!("{}. {more}", way_in_plain_words(way))]
}

pub(super) fn size(design: Design<'_>) -> Vec<String> {
    let shown = design.shown();
    let Some(line) = &design.results.line else {
        return vec![
            "The walk is not measured yet, so its size and what it takes cannot be promised."
                .to_owned(),
        ];
    };
    let (narrowest, widest) = widths(&line.run);
    let mut text = format!(
        "The walk is {} long, and {} wide between its edge brick",
        shown.along(line.run.length()),
        from_to(shown, narrowest, widest),
    );
    if let Some(bed) = &design.results.bed {
        let edges = bed.edge.brick.across * 2.0;
        text += &format!(
            ", {} with it: {} in all",
            from_to(shown, narrowest + edges, widest + edges),
            shown.area(bed.earthwork.paved_area)
        );
    }
    vec![format!("{text}.")]
}

fn widths(run: &Run) -> (Length, Length) {
    let all = run
        .legs()
        .iter()
        .flat_map(|leg| [leg.width_at_start, leg.width_at_end]);
    let narrowest = all
        .clone()
        .reduce(|one, other| if other < one { other } else { one });
    let widest = all.reduce(|one, other| if other > one { other } else { one });
    (narrowest.unwrap_or_default(), widest.unwrap_or_default())
}

pub(super) fn brick_up(design: Design<'_>) -> Vec<String> {
    let Some(priced) = design.chosen() else {
        return Vec::new();
    };
    if design.site.order.way == Way::NewBrick {
        let mut text = "The old brick is taken up and taken away.".to_owned();
        if let Some(new) = pieces(design, Item::Brick) {
            text += &format!(" {} new bricks are brought.", thousands(new));
        }
        return vec![text];
    }
    let mut text = "The brick is lifted by hand, cleaned and stacked beside the walk.".to_owned();
    match priced.needs.n_reused {
        Some(reused) => {
            text += &format!(" About {} of them are laid again.", thousands(reused));
        }
        None => {
            text += " How many are good enough to be laid again is not known until they are up.";
        }
    }
    let new =
        pieces(design, Item::Brick).unwrap_or(0) + pieces(design, Item::SecondBrick).unwrap_or(0);
    if new > 0 {
        text += &format!(
            " {} bricks of the same size are bought to make up what is broken or missing; they may differ a little in colour.",
            thousands(new)
        );
    }
    vec![text]
}

/// How many pieces of an item the design asks for.
fn pieces(design: Design<'_>, item: Item) -> Option<u32> {
    match design.chosen()?.needs.of(item)?.amount {
        Some(NeedAmount::Pieces { n, .. }) => Some(n),
        _ => None,
    }
}

/// A count with a comma between thousands.
fn thousands(count: u32) -> String {
    let digits = count.to_string();
    let mut written = String::new();
    for (nth, digit) in digits.chars().enumerate() {
        if nth > 0 && (digits.len() - nth).is_multiple_of(3) {
            written.push(',');
        }
        written.push(digit);
    }
    written
}

pub(super) fn dig(design: Design<'_>) -> Vec<String> {
    let shown = design.shown();
    let Some(bed) = &design.results.bed else {
        return not_designed(design);
    };
    if !design.digs() {
        return vec![
            "The ground is not dug out. The old sand under the brick is taken off, the edges are dug free for the edge brick, and what lies below stays as it is."
                .to_owned(),
        ];
    }
    let depths = from_to(
        shown,
        bed.base_top_below_grade + bed.thinnest_base,
        bed.base_top_below_grade + bed.thickest_base,
    );
    let least = if is_depth_open(design) {
        "at least "
    } else {
        ""
    };
    let beyond = design
        .site
        .bed
        .side_extension
        .unwrap_or_else(underbrick_calc::defaults::side_extension);
    let mut text = format!(
        "The ground is dug out to {least}{depths} below the surface of the new walk, and {} further out than its edges on each side, so that the edges stand on stone too.",
        shown.length(beyond)
    );
    if let Some(carries) = carried_by(design) {
        text += &format!(" That is down to {carries}, which stays and is packed down.");
    }
    if bed.fabric {
        text += " A strong cloth is laid on the bottom, so that soil and stone stay apart.";
    }
    vec![text]
}

/// Whether the depth of the dig is only the least.
pub(super) fn is_depth_open(design: Design<'_>) -> bool {
    let pits = design.results.ground.as_ref().map(|ground| &ground.pits);
    pits.is_none_or(|pits| pits.is_empty() || pits.iter().any(|pit| !pit.unsuitable_bottom.found))
}

/// What the walk stands on: what the pits show at their bottom, each once.
fn carried_by(design: Design<'_>) -> Option<String> {
    let pits = &design.results.ground.as_ref()?.pits;
    let mut names: Vec<String> = Vec::new();
    for pit in pits {
        let last = pit.layers.last()?;
        if last.verdict != Verdict::Stays {
            return None;
        }
        let name = material_in_plain_words(design.catalogue, &last.material);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    (!names.is_empty()).then(|| listed(&names))
}

/// Why nothing can be said of what lies under the brick.
fn not_designed(design: Design<'_>) -> Vec<String> {
    let why = if design.results.line.is_none() {
        "the walk is not measured"
    } else {
        "the stone for it is not chosen"
    };
    vec![format!(
        "What is built under the brick cannot be said yet: {why}."
    )]
}

pub(super) fn base(design: Design<'_>) -> Vec<String> {
    let Some(bed) = design.results.bed.as_ref().filter(|_| design.digs()) else {
        return Vec::new();
    };
    let stone = material_in_plain_words(design.catalogue, &design.site.bed.base_material);
    let thick = from_to(design.shown(), bed.thinnest_base, bed.thickest_base);
    let layers = bed.lifts.each.len();
    let least = if is_depth_open(design) {
        "at least "
    } else {
        ""
    };
    let lift = design.shown().length(bed.lifts.full_compacted);
    let how = match layers {
        0 | 1 => "in one layer, packed down by machine until it is hard".to_owned(),
        n => format!(
            "in up to {n} layers of no more than {lift} each, every one packed down by machine until it is hard"
        ),
    };
    let key = &design.site.bed.base_material;
    let drains = design
        .catalogue
        .find(key)
        .is_some_and(|material| material.drainage == Drainage::Free);
    let water = if drains {
        ", and water runs away through it"
    } else {
        ""
    };
    vec![format!(
        "{} is filled in, {least}{thick} thick when it is packed, {how}. Packed like this it stays firm, dry or wet{water}.",
        capital(&stone)
    )]
}

pub(super) fn edge(design: Design<'_>) -> Vec<String> {
    let shown = design.shown();
    let Some(bed) = &design.results.bed else {
        return Vec::new();
    };
    let brick = match design.site.edge.stands {
        EdgeStands::Sailor | EdgeStands::Soldier => "a row of brick on end",
        EdgeStands::Header => "a row of brick lying flat, end on to the walk",
        EdgeStands::Stretcher => "a row of brick lying flat along the walk",
        EdgeStands::Rowlock => "a row of brick on its side",
    };
    let held = match design.site.edge.restraint {
        RestraintInput::Haunch { height, width, .. } => {
            use underbrick_calc::defaults;
            let height = height.unwrap_or_else(defaults::haunch_height);
            let width = width.unwrap_or_else(defaults::haunch_width);
            format!(
                "It is held from behind with concrete, {} high and {} wide, out of sight below the ground, to keep the walk from spreading.",
                shown.length(height),
                shown.length(width)
            )
        }
        RestraintInput::Spiked { spacing } => {
            let spacing = spacing.unwrap_or_else(underbrick_calc::defaults::spike_spacing);
            format!(
                "It is held from behind by a strip with a spike every {}, to keep the walk from spreading.",
                shown.length(spacing)
            )
        }
        RestraintInput::Nothing => {
            "Nothing is built to hold it, so that the walk may spread over the years.".to_owned()
        }
    };
    vec![format!(
        "Along both sides goes {brick}, {} deep. {held}",
        shown.length(bed.edge.brick.depth)
    )]
}

pub(super) fn bed(design: Design<'_>) -> Vec<String> {
    let Some(bed) = &design.results.bed else {
        return Vec::new();
    };
    let on = if design.digs() {
        "On the stone"
    } else {
        "On what is there now, its hollows filled"
    };
    vec![format!(
        "{on} goes a bed of sand {} thick, drawn off flat. It is kept thin, because thick sand settles.",
        design.shown().length(bed.setting_bed)
    )]
}

pub(super) fn brick(design: Design<'_>) -> Vec<String> {
    let shown = design.shown();
    let Some(bed) = &design.results.bed else {
        return Vec::new();
    };
    let whose = match design.site.order.way {
        Way::NewBrick => "New brick",
        Way::Relay | Way::NewBase => "The brick",
    };
    let joint = design
        .site
        .brick
        .joint
        .unwrap_or_else(underbrick_calc::defaults::joint);
    let mut lines = vec![format!(
        "{whose} is laid {}. Brick that has to be cut is sawn.",
        pattern(design)
    )];
    lines.push(format!(
        "The brick is {} thick. The gaps between are about {} wide; sand is swept into them, a machine settles the brick, and the gaps are filled once more.",
        shown.length(bed.unit_thickness),
        shown.length(joint)
    ));
    lines
}

fn pattern(design: Design<'_>) -> &'static str {
    let lay = &design.site.lay;
    match (lay.bond, lay.courses) {
        (Bond::Running, CourseWay::Along) => {
            "in rows along the walk, the ends of one row set off against those of the next"
        }
        (Bond::Running, CourseWay::Across) => {
            "in rows across the walk, the ends of one row set off against those of the next"
        }
        (Bond::Stack, _) => "in straight rows, all gaps in line both ways",
        (Bond::BasketTwoOnTwo, _) => {
            "in squares of two bricks each, turned against one another like a chessboard (basket weave)"
        }
        (Bond::BasketTwoOnOne, _) => {
            "as a basket weave, two bricks side by side and one across their ends"
        }
        (Bond::Herringbone90, _) => "in a zigzag, square to the walk (herringbone)",
        (Bond::Herringbone45, _) => "in a zigzag, slantwise to the walk (herringbone)",
    }
}

pub(super) fn fall(design: Design<'_>) -> Vec<String> {
    let shown = design.shown();
    let Some(line) = &design.results.line else {
        return vec!["How the walk will slope is not known yet: it is not measured.".to_owned()];
    };
    let grade = &line.grade;
    let below = -grade.start;
    let starts = if is_nothing(shown, below) {
        "level with the underside of your door sill".to_owned()
    } else if in_metres(below) > 0.0 {
        format!(
            "{} below the underside of your door sill",
            shown.length(below)
        )
    } else {
        format!(
            "{} above the underside of your door sill",
            shown.length(size_of(below))
        )
    };
    let mut lines = vec![format!(
        "At the door the new walk lies {starts}. {} {}",
        slope(design, grade),
        far_end(design, line)
    )];
    let risers = grade.risers();
    if let [first, rest @ ..] = risers.as_slice() {
        let (mut least, mut most) = (first.height, first.height);
        for riser in rest {
            least = if riser.height < least {
                riser.height
            } else {
                least
            };
            most = if riser.height > most {
                riser.height
            } else {
                most
            };
        }
        lines.push(format!(
            "Because the ground drops too far for one slope, there are {} of {}.",
            counted(risers.len(), "step"),
            from_to(shown, least, most)
        ));
    }
    if grade.cross_fall.ratio().abs() > 1e-6 {
        let side = if grade.cross_fall.ratio() > 0.0 {
            "right"
        } else {
            "left"
        };
        lines.push(format!(
            "It also slopes a little to the {side}, as you look from the door: {}.",
            steepness(shown, grade.cross_fall)
        ));
    }
    lines
}

fn slope(design: Design<'_>, grade: &GradeLine) -> String {
    let shown = design.shown();
    let falls: Vec<_> = grade
        .pieces()
        .iter()
        .filter(|piece| !piece.is_tread)
        .map(|piece| piece.fall)
        .collect();
    let rises = falls.iter().any(|fall| fall.ratio() < -1e-6);
    let (flattest, steepest) = (grade.flattest(), grade.steepest());
    let (flat, steep) = (steepness(shown, flattest), steepness(shown, steepest));
    if rises {
        return "It does not slope away from the door all along: part of it rises, and water there runs back."
            .to_owned();
    }
    if flat == steep {
        format!(
            "It slopes down and away from the house, {flat}, so that rain runs off and not to the door."
        )
    } else {
        format!(
            "It slopes down and away from the house, from {flat} to {steep}, so that rain runs off and not to the door."
        )
    }
}

fn far_end(design: Design<'_>, line: &Line) -> String {
    let shown = design.shown();
    let drop = line.grade.start - line.grade.end;
    let lower = if is_nothing(shown, drop) {
        "as high as at the door".to_owned()
    } else if in_metres(drop) > 0.0 {
        format!("{} lower than at the door", shown.length(drop))
    } else {
        format!("{} higher than at the door", shown.length(size_of(drop)))
    };
    if line.grade.end_is_fixed {
        format!("At its far end it is {lower} and meets what is there.")
    } else {
        format!("At its far end it is {lower}.")
    }
}
