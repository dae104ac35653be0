//! One question being worked on: its lines, what became of them, and how much help there was.

mod standing;

use std::sync::Arc;

use crate::app::plan::Feedback;
use crate::app::progress::Level;
use crate::lesson::sums::entry::{Entry, read_line};
use crate::lesson::sums::form::PhBy;
use crate::lesson::sums::kind::{Kind, kind};
use crate::lesson::sums::mark::{Marked, Tolerance, Verdict, mark, score};
use crate::lesson::sums::question::Question;
use crate::lesson::sums::solution::Solution;
use crate::lesson::sums::symbol::Symbol;

/// Wrong choices after which the kind of mixture is told.
const SORT_TRIES: u8 = 2;

/// How questions are marked and spoken of.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Manner {
    /// How close an answer must come.
    pub tolerance: Tolerance,
    /// When answers are spoken of.
    pub feedback: Feedback,
    /// How the pH of a buffer is worked out.
    pub by: PhBy,
}

/// A question being worked on.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// The question.
    pub question: Arc<Question>,
    /// Its worked solution.
    pub solution: Arc<Solution>,
    /// How much of it was done already.
    pub level: Level,
    /// How it is marked and spoken of.
    pub manner: Manner,
    /// What the mixture was last said to be.
    pub choice: Option<Kind>,
    /// Wrong choices so far.
    pub wrong_choices: u8,
    /// One for each line that the question asks for.
    pub lines: Vec<TaskLine>,
    /// Times that lines were handed in with something wrong in them.
    pub wrong_tries: u8,
    /// Whether it was just handed in with nothing in it.
    pub handed_empty: bool,
    /// How it ended, once it has.
    pub end: Option<End>,
}

/// A line of a question.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskLine {
    /// What it is about.
    pub symbol: Symbol,
    /// Who fills it in.
    pub filled: Filled,
    /// What stands in it, as typed.
    pub text: String,
    /// What it was read as and what became of it, when it was last handed in; `None` once
    /// it is typed in again.
    pub marked: Option<Marked>,
    /// Whether the first number that was handed in here earned its mark; `None` before.
    pub first: Option<bool>,
}

/// Who fills in a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Filled {
    /// The learner.
    ByLearner,
    /// It is there from the start.
    FromTheStart,
    /// It was shown on the way.
    AsHelp,
}

/// How a question ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Every line has its mark.
    Solved,
    /// The whole layout was shown.
    Shown,
    /// It was handed in, right or wrong; that is told after the last question.
    HandedIn,
}

/// What there is to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Say what the mixture is.
    Sorting,
    /// Fill in the lines.
    Lines,
    /// Nothing: look at the layout, then go on.
    Over,
}

/// Whether line `place` of `lines` is there from the start: all but the last of a worked
/// example; of missing steps, the first half, and two are always left.
const fn is_there(level: Level, place: usize, lines: usize) -> bool {
    let left = match level {
        Level::WorkedExample => 1,
        Level::MissingSteps if lines > 4 => lines.div_ceil(2),
        Level::MissingSteps => 2,
        Level::Whole => lines,
    };
    place + left < lines
}

impl Task {
    /// A question at a level, nothing done yet.
    pub fn new(question: Question, level: Level, manner: Manner) -> Self {
        let asked = question.problem.asked();
        let count = asked.len();
        let line = |(place, symbol)| TaskLine {
            symbol,
            filled: if is_there(level, place, count) {
                Filled::FromTheStart
            } else {
                Filled::ByLearner
            },
            text: String::new(),
            marked: None,
            first: None,
        };
        Self {
            lines: asked.into_iter().enumerate().map(line).collect(),
            solution: Arc::new(Solution::of_question(&question)),
            question: Arc::new(question),
            level,
            manner,
            choice: None,
            wrong_choices: 0,
            wrong_tries: 0,
            handed_empty: false,
            end: None,
        }
    }

    /// What there is to do.
    pub fn stage(&self) -> Stage {
        if self.end.is_some() {
            Stage::Over
        } else if self.choice == Some(self.kind()) || self.wrong_choices >= self.sort_tries() {
            Stage::Lines
        } else {
            Stage::Sorting
        }
    }

    /// Wrong choices after which it goes on.
    const fn sort_tries(&self) -> u8 {
        match self.manner.feedback {
            Feedback::AtOnce => SORT_TRIES,
            Feedback::AtTheEnd => 1,
        }
    }

    /// What the mixture is.
    pub fn kind(&self) -> Kind {
        kind(&self.question)
    }

    /// Whether open lines show their formula.
    pub fn shows_formulas(&self) -> bool {
        self.level == Level::MissingSteps
    }

    /// Marks to be had: one for each line that the learner fills in.
    pub fn most_marks(&self) -> usize {
        let own = self.lines.iter().filter(|l| l.filled == Filled::ByLearner);
        own.count()
    }

    /// The right value of a line.
    pub fn right(&self, symbol: Symbol) -> Option<f64> {
        self.question.problem.sheet.right().get(symbol)
    }

    pub(super) fn sort(&mut self, kind: Kind) {
        if self.stage() != Stage::Sorting {
            return;
        }
        self.choice = Some(kind);
        if kind != self.kind() {
            self.wrong_choices += 1;
        }
    }

    pub(super) fn write(&mut self, place: usize, text: String) {
        if let Some(line) = self.lines.get_mut(place) {
            line.text = text;
            line.marked = None;
            self.handed_empty = false;
        }
    }

    pub(super) fn check(&mut self) {
        if self.stage() != Stage::Lines {
            return;
        }
        let wrong = self.mark(true);
        if self.manner.feedback == Feedback::AtTheEnd {
            self.hand_in();
            return;
        }
        let Some(place) = wrong else { return };
        self.wrong_tries += 1;
        match self.wrong_tries {
            1 => {}
            2 => self.show(place),
            _ => self.end = Some(End::Shown),
        }
    }

    /// Marks the lines as they stand, `all` of them or those that were marked before, and ends the
    /// question if nothing is left to do. The place of the first number that is wrong: junk is
    /// not, it costs nothing.
    fn mark(&mut self, all: bool) -> Option<usize> {
        let counts = |line: &TaskLine| all || line.marked.is_some();
        let problem = &self.question.problem;
        let right = problem.sheet.right();
        let entry = |line: &TaskLine| match (line.filled, right.get(line.symbol)) {
            (Filled::FromTheStart | Filled::AsHelp, Some(value)) => Entry::Number(value),
            _ if !counts(line) => Entry::Blank,
            _ => read_line(problem, line.symbol, &line.text),
        };
        let entries: Vec<Entry> = self.lines.iter().map(entry).collect();
        let marked = mark(problem, &entries, self.manner.tolerance);
        let complete = score(problem, &marked) == self.lines.len();
        let mut wrong = None;
        for (place, (line, marked)) in self.lines.iter_mut().zip(marked).enumerate() {
            if line.filled != Filled::ByLearner || !counts(line) {
                continue;
            }
            let earns = marked.verdict.earns();
            if matches!(marked.entry, Entry::Number(_)) {
                line.first.get_or_insert(earns);
                if !earns {
                    wrong = wrong.or(Some(place));
                }
            }
            line.marked = Some(marked);
        }
        if complete {
            self.end = Some(End::Solved);
        }
        wrong
    }

    /// Shows the first line that has no mark yet.
    pub(super) fn show_step(&mut self) {
        let earns = |line: &TaskLine| line.marked.as_ref().is_some_and(|m| m.verdict.earns());
        let open = |line: &TaskLine| line.filled == Filled::ByLearner && !earns(line);
        if self.stage() == Stage::Lines
            && let Some(place) = self.lines.iter().position(open)
        {
            self.show(place);
        }
    }

    /// Shows one line. If it was the last one left, there is nothing more to do; else the others
    /// follow from it now, and may be right as they stand.
    fn show(&mut self, place: usize) {
        self.lines[place].filled = Filled::AsHelp;
        if self.most_marks() == 0 || place + 1 == self.lines.len() {
            self.end = Some(End::Shown);
        } else if self.is_tried() {
            let follows = |line: &TaskLine| {
                let verdict = line.marked.as_ref().map(|m| &m.verdict);
                matches!(
                    verdict,
                    Some(Verdict::FollowsThrough | Verdict::FollowsRounded)
                )
            };
            let followed: Vec<bool> = self.lines.iter().map(follows).collect();
            self.mark(false);
            // What followed from the line that stood there has to be worked out anew: no slip.
            for (line, followed) in self.lines.iter_mut().zip(followed) {
                if followed && line.marked.as_ref().is_some_and(|m| !m.verdict.earns()) {
                    line.marked = None;
                }
            }
        }
    }
}
