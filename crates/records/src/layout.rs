//! How `site.ron` is laid out: what fits on a line stands on one, so that a reading is a line and a change of it is one too.

/// Longest line that is made by joining.
const LONGEST_LINE: usize = 110;

/// Joins every bracketed group that fits on one line. A list keeps a line for each of its things; points of a stroke fill
/// theirs.
///
/// `text` has one field a line, as it is written with every group spread out; quoted texts hold no line ends. The outermost group
/// stays spread out.
pub fn joined(text: &str) -> String {
    let mut outer: Vec<Group<'_>> = Vec::new();
    let mut group = Group {
        opener: "",
        lines: Vec::new(),
    };
    for line in text.lines() {
        if line.ends_with(['(', '[']) {
            outer.push(std::mem::replace(
                &mut group,
                Group {
                    opener: line,
                    lines: Vec::new(),
                },
            ));
        } else if line.trim_start().starts_with([')', ']']) {
            let Some(around) = outer.pop() else { break };
            let closed = std::mem::replace(&mut group, around).closed(line);
            group.lines.extend(closed);
        } else {
            group.lines.push(line.to_owned());
        }
    }
    let mut lines = group.lines;
    lines.push(String::new());
    lines.join("\n")
}

/// A bracketed group that is being read.
struct Group<'a> {
    opener: &'a str,
    lines: Vec<String>,
}

impl Group<'_> {
    /// The lines of the group with its brackets: one if it may be joined and fits.
    fn closed(self, closer: &str) -> Vec<String> {
        let things: Vec<&str> = self.lines.iter().map(|line| line.trim_start()).collect();
        let all = things.join(" ");
        let one_line = format!(
            "{}{}{}",
            self.opener,
            all.strip_suffix(',').unwrap_or(&all),
            closer.trim_start()
        );
        let is_list = self.opener.ends_with('[');
        let is_outermost = !self.opener.starts_with(' ');
        let is_spread_out = things.iter().any(|thing| thing.starts_with([')', ']']));
        if !is_list && !is_outermost && !is_spread_out && one_line.chars().count() <= LONGEST_LINE {
            return vec![one_line];
        }
        let mut lines = vec![self.opener.to_owned()];
        if is_list && !things.is_empty() && things.iter().all(|thing| is_point(thing)) {
            lines.extend(filled(&self.lines));
        } else {
            lines.extend(self.lines);
        }
        lines.push(closer.to_owned());
        lines
    }
}

/// Whether a line is a point of a stroke, such as `(412, 96),`.
fn is_point(thing: &str) -> bool {
    let inside = thing
        .strip_prefix('(')
        .and_then(|thing| thing.strip_suffix("),"));
    inside.is_some_and(|inside| {
        inside
            .chars()
            .all(|letter| letter.is_ascii_digit() || matches!(letter, ',' | ' ' | '-'))
    })
}

/// Lines joined as long as they fit, with the margin of the first.
fn filled(points: &[String]) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for point in points {
        let bare = point.trim_start();
        match lines.last_mut() {
            Some(line) if line.len() + 1 + bare.len() <= LONGEST_LINE => {
                line.push(' ');
                line.push_str(bare);
            }
            _ => lines.push(point.clone()),
        }
    }
    lines
}
