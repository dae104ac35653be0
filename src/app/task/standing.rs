//! How a question stands: what was tried, what helped, what is left.

use crate::app::task::{End, Filled, Task, TaskLine};
use crate::lesson::sums::entry::Entry;
use crate::lesson::sums::mark::Marked;

impl Task {
    /// Whether a number was handed in already.
    pub fn is_tried(&self) -> bool {
        self.lines.iter().any(|line| line.first.is_some())
    }

    /// Whether it was right in the end.
    pub fn is_solved(&self) -> bool {
        match self.end {
            Some(End::Solved) => true,
            Some(End::HandedIn) => self.first_marks().is_some_and(|(own, most)| own == most),
            Some(End::Shown) | None => false,
        }
    }

    /// Ends it if something was filled in and all of it can be read, or if it is handed in with
    /// nothing in it for the second time: nobody has to be able to do a question to leave it. What
    /// was not handed in is no try.
    pub(super) fn hand_in(&mut self) {
        let entries = self.lines.iter().filter_map(|line| line.marked.as_ref());
        let readable = |marked: &Marked| matches!(marked.entry, Entry::Blank | Entry::Number(_));
        if self.is_tried() && entries.into_iter().all(readable) {
            self.end = Some(End::HandedIn);
            return;
        }
        let is_empty = self.lines.iter().all(|line| line.text.trim().is_empty());
        self.end = (is_empty && self.handed_empty).then_some(End::HandedIn);
        self.handed_empty = is_empty;
        for line in &mut self.lines {
            line.first = None;
        }
    }

    /// Whether all that was handed in is right as it stands, with lines still to be filled in.
    pub fn is_right_so_far(&self) -> bool {
        let own = self.lines.iter().filter(|l| l.filled == Filled::ByLearner);
        let mut earned = false;
        for line in own {
            match &line.marked {
                Some(marked) if marked.verdict.earns() => earned = true,
                Some(marked) if marked.entry == Entry::Blank => {}
                _ => return false,
            }
        }
        earned && self.end.is_none()
    }

    /// Whether help was given: a line, or the layout.
    pub fn is_helped(&self) -> bool {
        let shown = |line: &TaskLine| line.filled == Filled::AsHelp;
        self.end == Some(End::Shown) || self.lines.iter().any(shown)
    }

    /// Marks of the first tries, line by line, of those to be had; `None` before the end, and
    /// without any try. A line that was left out has its mark if the answer was right at once.
    pub fn first_marks(&self) -> Option<(usize, usize)> {
        self.end.filter(|_| self.is_tried())?;
        let last = self.lines.last().and_then(|line| line.first);
        let left_out = last == Some(true) && !self.is_helped();
        let own = || {
            let own = |line: &&TaskLine| line.filled != Filled::FromTheStart;
            self.lines.iter().filter(own)
        };
        let earned = own().filter(|line| line.first.unwrap_or(left_out));
        Some((earned.count(), own().count()))
    }

    /// Whether the last line alone is enough for all marks.
    pub fn answer_is_enough(&self) -> bool {
        let (problem, lines) = (&self.question.problem, &self.lines);
        let own = lines.iter().filter(|l| l.filled == Filled::ByLearner);
        own.rev().skip(1).all(|line| problem.is_step(line.symbol))
    }
}
