//! What was done of a lesson's questions, as it is told to a course system and read back from it:
//! a few numbers, `v1;seed;questions;right at once;marks;marks to be had`.

use crate::app::practice::Practice;
use crate::app::task::{Filled, Task};

/// The form that is written, and the only one that is read.
const FORM: &str = "v1";

/// Questions done, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Carried {
    /// Seed of their series; `None` for no earlier visit.
    pub seed: Option<u64>,
    /// How many.
    pub count: u32,
    /// Right at the first try, the kind of mixture too.
    pub right: u32,
    /// Marks of the first tries.
    pub marks: u32,
    /// Marks to be had.
    pub most: u32,
}

/// What a course system is told.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// 0 to 100; `None` before the first question.
    pub score: Option<f64>,
    /// Whether all questions are done.
    pub done: bool,
    /// What it keeps for the next visit.
    pub state: String,
}

/// Marks of a question's first tries, and those to be had; none where there was no try.
pub fn marks(task: &Task) -> (u32, u32) {
    let own = task
        .lines
        .iter()
        .filter(|l| l.filled != Filled::FromTheStart);
    let (own, most) = task.first_marks().unwrap_or((0, own.count()));
    (
        u32::try_from(own).unwrap_or(0),
        u32::try_from(most).unwrap_or(0),
    )
}

impl Carried {
    /// This and what has been done since.
    pub fn with(self, finished: &[Task]) -> Self {
        finished.iter().fold(self, |sum, task| {
            let (own, most) = marks(task);
            let right = own == most && task.wrong_tries == 0 && task.wrong_choices == 0;
            Self {
                count: sum.count.saturating_add(1),
                right: sum.right.saturating_add(right.into()),
                marks: sum.marks.saturating_add(own),
                most: sum.most.saturating_add(most),
                ..sum
            }
        })
    }

    /// What a course system kept; `None` for anything else.
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.split(';');
        if parts.next()? != FORM {
            return None;
        }
        let seed = parts.next()?.parse().ok()?;
        let mut number = || parts.next()?.parse().ok();
        let carried = Self {
            seed: Some(seed),
            count: number()?,
            right: number()?,
            marks: number()?,
            most: number()?,
        };
        let sound = carried.right <= carried.count && carried.marks <= carried.most;
        sound.then_some(carried)
    }
}

impl Practice {
    /// What a course system is told; nothing where the lesson asks for no number of questions.
    pub fn report(&self) -> Option<Report> {
        if self.set.count == 0 {
            return None;
        }
        let done = self.carried.with(&self.finished);
        let numbers = [done.count, done.right, done.marks, done.most].map(|n| n.to_string());
        let share = f64::from(done.marks) / f64::from(done.most.max(1));
        Some(Report {
            score: (done.count > 0).then(|| libm::round(1000.0 * share) / 10.0),
            done: self.set_is_over(),
            state: [FORM, &self.seed.to_string(), &numbers.join(";")].join(";"),
        })
    }
}
