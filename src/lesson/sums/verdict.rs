//! What became of a learner's lines, and the marks that they earn.

use crate::lesson::sums::entry::Entry;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::slip::Slip;
use crate::lesson::sums::symbol::Symbol;

/// What became of a line.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// Nothing to mark: blank, unreadable, without its unit.
    NotMarked(Entry),
    /// Right.
    Right,
    /// Right but for rounding too early.
    RoundedEarly,
    /// Right from the learner's own earlier ones, which are right but for their rounding.
    FollowsRounded,
    /// Not the right number, but right from the learner's own earlier ones.
    FollowsThrough,
    /// What these slips lead to: all give this number.
    Slips(Vec<Slip>),
    /// What two slips together lead to.
    TwoSlips(Slip, Slip),
    /// No known way leads there.
    Unknown,
}

impl Verdict {
    /// Whether the number is right, but for rounding here or above.
    pub const fn is_sound(&self) -> bool {
        matches!(
            self,
            Self::Right | Self::RoundedEarly | Self::FollowsRounded
        )
    }

    /// Whether an answer so marked earns the steps on the way to it that were left out.
    pub const fn earns_steps(&self) -> bool {
        matches!(self, Self::Right | Self::RoundedEarly)
    }

    /// Whether the line earns its mark.
    pub const fn earns(&self) -> bool {
        matches!(
            self,
            Self::Right | Self::RoundedEarly | Self::FollowsRounded | Self::FollowsThrough
        )
    }
}

/// A line as it was marked.
#[derive(Debug, Clone, PartialEq)]
pub struct Marked {
    /// What it was read as; never [`Entry::Bare`].
    pub entry: Entry,
    /// What became of it.
    pub verdict: Verdict,
}

/// Marks earned, of one for each line: a right answer earns those of the steps on the way to
/// it that were left out.
pub fn score(problem: &Problem, lines: &[Marked]) -> usize {
    let last = lines.last().map(|line| &line.verdict);
    let answered = last.is_some_and(Verdict::earns_steps);
    let earns = |(line, symbol): &(&Marked, Symbol)| {
        line.verdict.earns() || (answered && line.entry == Entry::Blank && problem.is_step(*symbol))
    };
    lines.iter().zip(problem.asked()).filter(earns).count()
}
