//! Marking: each line on the learner's own earlier values, and every wrong number held
//! against the wrong ways that lead to it.

use crate::chem::power::ten_to;
use crate::lesson::sums::entry::readings;
pub use crate::lesson::sums::entry::{Entry, read};
use crate::lesson::sums::expression::Expr;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::screen::{SAME, place};
use crate::lesson::sums::sheet::Otherwise;
use crate::lesson::sums::slip::{Slip, Way, ways};
use crate::lesson::sums::symbol::{Symbol, Unit};
pub use crate::lesson::sums::verdict::{Marked, Verdict, score};

/// How close an answer must come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance {
    /// Of a pH, with full marks.
    pub ph: f64,
    /// Of a pH, with a note on rounding too early.
    pub ph_rounded: f64,
    /// Of anything else, as a share of it; rounding to the figures asked for is right anyway.
    pub relative: f64,
}

impl Default for Tolerance {
    /// ±0.01, ±0.02 with a note, 1 %. Common practice, no source.
    fn default() -> Self {
        Self {
            ph: 0.01,
            ph_rounded: 0.02,
            relative: 0.01,
        }
    }
}

impl Tolerance {
    /// How many times as far off a number may be with a note on rounding.
    pub fn early(self) -> f64 {
        self.ph_rounded / self.ph
    }
}

/// How close a number must come to that of a wrong way, in pH or log₁₀ units.
pub const MATCH: f64 = 0.005;

/// Marks the lines that `problem` asks for, in their order. Lines left blank above a right
/// answer are not marked here; see [`score`].
pub fn mark(problem: &Problem, entries: &[Entry], tolerance: Tolerance) -> Vec<Marked> {
    let right = problem.sheet.right();
    let ways = ways(problem);
    let mut own: Vec<(Symbol, f64)> = Vec::new();
    let mut wrong: Vec<(Symbol, f64)> = Vec::new();
    let mut sound = true;
    // Whether the amount before was meant in mol, which says something of the next one.
    let mut in_large = None;
    let mark_line = |(place, symbol): (usize, Symbol)| {
        let entry = entries.get(place).copied().unwrap_or(Entry::Blank);
        let right = right.get(symbol);
        let verdict = |value| {
            let (problem, ways, own, wrong) = (problem, &ways[..], &own[..], &wrong[..]);
            let line = Marking {
                problem,
                ways,
                own,
                wrong,
                sound,
                symbol,
                value,
                tolerance,
            };
            line.verdict(right)
        };
        let (value, verdict) = match entry {
            Entry::Number(value) => (value, verdict(value)),
            Entry::Bare(value) => {
                let (chosen, verdict) = likelier(readings(value, right, in_large), verdict);
                in_large = Some(chosen > value);
                (chosen, verdict)
            }
            _ => {
                let verdict = Verdict::NotMarked(entry);
                return Marked { entry, verdict };
            }
        };
        own.push((symbol, value));
        if !matches!(verdict, Verdict::Right | Verdict::RoundedEarly) {
            wrong.push((symbol, value));
        }
        sound &= verdict.is_sound();
        let entry = Entry::Number(value);
        Marked { entry, verdict }
    };
    let asked = problem.asked().into_iter().enumerate();
    asked.map(mark_line).collect()
}

/// The reading that says something: one that earns its mark, or else one that a slip leads to.
fn likelier([first, second]: [f64; 2], verdict: impl Fn(f64) -> Verdict) -> (f64, Verdict) {
    let rank = |verdict: &Verdict| match verdict {
        Verdict::Slips(_) => 2,
        Verdict::TwoSlips(..) => 1,
        verdict if verdict.earns() => 3,
        _ => 0,
    };
    let ours = verdict(first);
    if ours.earns() {
        return (first, ours);
    }
    let theirs = verdict(second);
    if rank(&theirs) > rank(&ours) {
        (second, theirs)
    } else {
        (first, ours)
    }
}

/// How far a number in the line about `symbol` may be from the one `wanted` that it should be,
/// with so many `times` the tolerance.
fn band(problem: &Problem, symbol: Symbol, wanted: f64, tolerance: Tolerance, times: f64) -> f64 {
    if symbol.unit() == Unit::Scale {
        return tolerance.ph * times;
    }
    let figures = problem.sheet.find(symbol).map_or(3, |l| l.figures);
    (tolerance.relative * times * wanted.abs()).max(half_a_digit(wanted, figures))
}

/// How far from `right` a number in the line about `symbol` still earns its mark, be it with a
/// note on rounding.
pub fn allowed(problem: &Problem, symbol: Symbol, right: f64, tolerance: Tolerance) -> f64 {
    band(problem, symbol, right, tolerance, tolerance.early())
}

/// Half of the last digit of a value written to so many significant figures: what was
/// rounded as asked is right.
fn half_a_digit(value: f64, figures: usize) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    let digits = libm::floor(libm::log10(value.abs())) + 1.0;
    0.5 * ten_to(digits - f64::from(u8::try_from(figures).unwrap_or(u8::MAX)))
}

struct Marking<'a> {
    problem: &'a Problem,
    ways: &'a [Way],
    /// The learner's values of the lines above.
    own: &'a [(Symbol, f64)],
    /// Those of them that are not right.
    wrong: &'a [(Symbol, f64)],
    /// Whether all of them are right, but for rounding.
    sound: bool,
    symbol: Symbol,
    value: f64,
    tolerance: Tolerance,
}

impl Marking<'_> {
    fn verdict(&self, right: Option<f64>) -> Verdict {
        let Some(right) = right else {
            return Verdict::Unknown;
        };
        if self.comes_to(right, 1.0) {
            return Verdict::Right;
        }
        // A number that a known wrong way gives exactly is that wrong way, even if it lies
        // within the band for rounding too early.
        let (slips, rounding) = self.slips();
        if !slips.is_empty() {
            return Verdict::Slips(slips);
        }
        let early = self.tolerance.early();
        if rounding || self.comes_to(right, early) {
            return Verdict::RoundedEarly;
        }
        if self.follows(early) && self.is_possible() {
            return if self.sound {
                Verdict::FollowsRounded
            } else {
                Verdict::FollowsThrough
            };
        }
        self.two_slips()
            .map_or(Verdict::Unknown, |(a, b)| Verdict::TwoSlips(a, b))
    }

    /// No mark for a number that cannot be and is not remarked upon.
    fn is_possible(&self) -> bool {
        match self.symbol {
            Symbol::Ph => (0.0..=14.0).contains(&self.value),
            _ => self.symbol.unit() == Unit::Scale || self.value > 0.0,
        }
    }

    /// Whether the number follows from the learner's own values: as they stand there, or
    /// with the right ones among them unrounded, as a calculator keeps them.
    fn follows(&self, times: f64) -> bool {
        [self.own, self.wrong].into_iter().any(|fixed| {
            let value = self.value_by(&[], fixed);
            value.is_some_and(|value| self.comes_to(value, times))
        })
    }

    fn comes_to(&self, wanted: f64, times: f64) -> bool {
        let band = band(self.problem, self.symbol, wanted, self.tolerance, times);
        (self.value - wanted).abs() <= band + SAME * wanted.abs()
    }

    fn value_by(&self, formulas: &[(Symbol, Expr)], fixed: &[(Symbol, f64)]) -> Option<f64> {
        let otherwise = Otherwise { formulas, fixed };
        self.problem.sheet.values(otherwise).get(self.symbol)
    }

    /// Whether the number is that of the wrong formulas, which must show in this line.
    fn is_by(&self, formulas: &[(Symbol, Expr)]) -> bool {
        // A wrong way can lead to a negative amount: it is compared by its size.
        let sized = |value: f64| match self.symbol.unit() {
            Unit::Scale => Some((1.0, value)),
            _ => Some((value.signum(), place(self.symbol, value.abs())?)),
        };
        let Some((sign, ours)) = sized(self.value) else {
            return false;
        };
        // Lines above may have been rounded when they were handed in; then the number fits
        // the unrounded ones better.
        [self.own, &[]].into_iter().any(|fixed| {
            let at = |formulas| {
                let value = self.value_by(formulas, fixed)?;
                sized(value)
            };
            let (Some((was, right)), Some((is, wrong))) = (at(&[]), at(formulas)) else {
                return false;
            };
            let shows = was * is < 0.0 || (wrong - right).abs() > SAME;
            shows && sign * is > 0.0 && (ours - wrong).abs() <= MATCH + SAME
        })
    }

    /// The slips that lead here, and whether rounding too early does.
    fn slips(&self) -> (Vec<Slip>, bool) {
        // A way that changes nothing between here and the learner's own values is not shown.
        if self.follows(1.0) && !self.own.is_empty() {
            return (Vec::new(), false);
        }
        let mut slips = Vec::new();
        let mut rounding = false;
        for way in self.ways {
            if self.is_by(&way.formulas) {
                if way.slip == Slip::EarlyRounding {
                    rounding = true;
                } else if !slips.contains(&way.slip) {
                    slips.push(way.slip);
                }
            }
        }
        (slips, rounding)
    }

    fn two_slips(&self) -> Option<(Slip, Slip)> {
        let mut found = None;
        for (n, first) in self.ways.iter().enumerate() {
            for second in &self.ways[n + 1..] {
                let apart = first
                    .formulas
                    .iter()
                    .all(|(a, _)| second.formulas.iter().all(|(b, _)| a != b));
                let usable = first.slip != Slip::EarlyRounding
                    && second.slip != Slip::EarlyRounding
                    && first.slip != second.slip;
                if apart
                    && usable
                    && self.is_by(&[&first.formulas[..], &second.formulas[..]].concat())
                {
                    // Two explanations are none.
                    if found.is_some() {
                        return None;
                    }
                    found = Some((first.slip, second.slip));
                }
            }
        }
        found
    }
}
