//! Undo and redo: the states of one site in the order in which they came about, and where in them the site stands.

use std::path::Path;
use std::sync::Arc;

use crate::steps;
use crate::v1::SiteFile;

/// How many states are kept, in memory and on disk.
pub(crate) const MOST_STATES: usize = 200;

/// The states of one site. It lives in memory; what [`crate::Keeper`] has put on disk of it is there again when the site is opened.
#[derive(Clone, Debug)]
pub struct History {
    /// Oldest first; numbers rise through `before`, `now` and what can be redone.
    before: Vec<State>,
    now: State,
    /// What can be redone, the nearest last.
    undone: Vec<State>,
    /// Higher than any number ever used in this folder.
    next_number: u64,
    /// `site.ron` as it was when the history was read.
    opened_text: Option<Arc<str>>,
}

#[derive(Clone, Debug)]
struct State {
    number: u64,
    site: Arc<SiteFile>,
    is_on_disk: bool,
}

/// Which state is to be kept, and after which one it came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    pub(crate) number: u64,
    pub(crate) after: Option<u64>,
}

impl History {
    /// A history that starts with this state, with nothing on disk yet.
    #[must_use]
    pub fn new(site: SiteFile) -> Self {
        let now = State {
            number: 1,
            site: Arc::new(site),
            is_on_disk: false,
        };
        Self {
            before: Vec::new(),
            now,
            undone: Vec::new(),
            next_number: 2,
            opened_text: None,
        }
    }

    /// The history beside a `site.ron` that was just read.
    ///
    /// The site stands at the state that equals it. Where several do, the one nearest to the place noted last; where none does, the
    /// file was changed by hand, and that becomes the newest state.
    pub(crate) fn open(folder: &Path, site: &SiteFile, text: &str) -> Self {
        let found = steps::read(folder);
        let mut before: Vec<State> = found
            .states
            .into_iter()
            .map(|(number, site)| State {
                number,
                site: Arc::new(site),
                is_on_disk: true,
            })
            .collect();
        let mut next_number = found.highest_number.saturating_add(1);
        let hint = found.at.unwrap_or(u64::MAX);
        let equal = before
            .iter()
            .enumerate()
            .filter(|(_, state)| *state.site == *site);
        let nearest = equal
            .min_by_key(|(_, state)| state.number.abs_diff(hint))
            .map(|(idx, _)| idx);
        let mut undone = nearest.map(|idx| before.split_off(idx)).unwrap_or_default();
        undone.reverse();
        let now = undone.pop().unwrap_or_else(|| {
            let by_hand = State {
                number: next_number,
                site: Arc::new(site.clone()),
                is_on_disk: false,
            };
            next_number = next_number.saturating_add(1);
            by_hand
        });
        Self {
            before,
            now,
            undone,
            next_number,
            opened_text: Some(Arc::from(text)),
        }
    }

    /// The state in which the site stands.
    #[must_use]
    pub fn now(&self) -> &SiteFile {
        &self.now.site
    }

    /// The step to hand to [`crate::Keeper::keep`] with the state in which the site stands.
    #[must_use]
    pub fn step(&self) -> Step {
        Step {
            number: self.now.number,
            after: self.before.last().map(|state| state.number),
        }
    }

    /// Adds a state after the present one; what could have been redone is dropped. A state equal to the present one adds nothing.
    pub fn push(&mut self, site: SiteFile) -> Step {
        if *self.now.site != site {
            let new = State {
                number: self.next_number,
                site: Arc::new(site),
                is_on_disk: false,
            };
            self.next_number = self.next_number.saturating_add(1);
            self.undone.clear();
            self.before.push(std::mem::replace(&mut self.now, new));
            let n_too_many = (self.before.len() + 1).saturating_sub(MOST_STATES);
            self.before.drain(..n_too_many);
        }
        self.step()
    }

    /// Goes back one state and gives it; `None` at the first.
    pub fn undo(&mut self) -> Option<SiteFile> {
        let earlier = self.before.pop()?;
        self.undone.push(std::mem::replace(&mut self.now, earlier));
        Some(self.now().clone())
    }

    /// Goes forward one state and gives it; `None` at the last.
    pub fn redo(&mut self) -> Option<SiteFile> {
        let later = self.undone.pop()?;
        self.before.push(std::mem::replace(&mut self.now, later));
        Some(self.now().clone())
    }

    /// Whether there is a state to go back to.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        !self.before.is_empty()
    }

    /// Whether there is a state to go forward to.
    #[must_use]
    pub const fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }

    pub(crate) fn shared_now(&self) -> Arc<SiteFile> {
        Arc::clone(&self.now.site)
    }

    /// The state of that number, or else the one before the present one, to see what is other now; `None` where the present one has
    /// that number, and where it is the first.
    pub(crate) fn state_to_compare(&self, number: u64) -> Option<Arc<SiteFile>> {
        if self.now.number == number {
            return None;
        }
        let mut states = self.before.iter().chain(&self.undone);
        let state = states.find(|state| state.number == number);
        state
            .or_else(|| self.before.last())
            .map(|state| Arc::clone(&state.site))
    }

    pub(crate) fn opened_text(&self) -> Option<&Arc<str>> {
        self.opened_text.as_ref()
    }

    /// States that are not on disk yet, with the step of each.
    pub(crate) fn not_on_disk(&self) -> Vec<(Step, Arc<SiteFile>)> {
        let mut after = None;
        let mut waiting = Vec::new();
        for state in self
            .before
            .iter()
            .chain([&self.now])
            .chain(self.undone.iter().rev())
        {
            if !state.is_on_disk {
                waiting.push((
                    Step {
                        number: state.number,
                        after,
                    },
                    Arc::clone(&state.site),
                ));
            }
            after = Some(state.number);
        }
        waiting
    }
}
