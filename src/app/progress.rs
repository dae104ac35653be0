//! How a learner stands, objective by objective, from a short record of results; and what
//! follows from it: the next form and its level. Nothing is stored here.

use serde::{Deserialize, Serialize};

use crate::lesson::explain::{TOPICS, Topic};
use crate::lesson::sums::form::{FORMS, Form};

/// How much of a question is done already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Level {
    /// All but the last line.
    #[default]
    WorkedExample,
    /// The first half; the other lines show their formula.
    MissingSteps,
    /// Nothing.
    Whole,
}

/// All levels, easiest first.
pub const LEVELS: [Level; 3] = [Level::WorkedExample, Level::MissingSteps, Level::Whole];

/// What a result is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A question of this form.
    Sum(Form),
    /// An explanation.
    Explanation(Topic),
}

/// One result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outcome {
    /// What it is about.
    pub subject: Subject,
    /// How much was done already.
    pub level: Level,
    /// Whether the mixture was told right at once; for an explanation always.
    pub sorted: bool,
    /// Whether it was right without a wrong try and without help.
    pub clean: bool,
    /// Whether it was right in the end.
    pub solved: bool,
}

/// Results that are remembered; older ones no longer say how somebody stands.
pub const REMEMBERED: usize = 200;

/// How somebody stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Not tried.
    Untried,
    /// Not yet.
    NotYet,
    /// Nearly.
    Nearly,
    /// Secure.
    Secure,
}

/// What can be learned here: each form, each explanation, and telling mixtures apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Objective {
    /// Telling what a mixture is.
    Sorting,
    /// One subject.
    Of(Subject),
}

/// All of them, in teaching order.
pub fn objectives() -> impl Iterator<Item = Objective> {
    let sums = FORMS.into_iter().map(Subject::Sum);
    let explanations = TOPICS.into_iter().map(Subject::Explanation);
    [Objective::Sorting]
        .into_iter()
        .chain(explanations.chain(sums).map(Objective::Of))
}

/// How somebody stands in one objective, and where it goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    /// What can be learned.
    pub objective: Objective,
    /// How somebody stands in it.
    pub standing: Standing,
    /// The level at which it comes next.
    pub next: Level,
}

/// How somebody with these results, oldest first, stands in one objective, and what is next.
pub fn row(results: &[Outcome], objective: Objective) -> Row {
    Row {
        objective,
        standing: standing(results, objective),
        next: match objective {
            Objective::Of(Subject::Sum(form)) => next_level(results, form),
            Objective::Of(Subject::Explanation(_)) | Objective::Sorting => Level::Whole,
        },
    }
}

/// How somebody with these results, oldest first, stands in one objective.
pub fn standing(results: &[Outcome], objective: Objective) -> Standing {
    match objective {
        Objective::Sorting => {
            let sums = results.iter().rev().filter(|r| is_sum(r)).take(5);
            let (right, all) = sums.fold((0, 0), |(right, all), r| {
                (right + u8::from(r.sorted), all + 1)
            });
            match (right, all) {
                (_, 0) => Standing::Untried,
                (5, _) => Standing::Secure,
                (right, all) if 2 * right > all => Standing::Nearly,
                _ => Standing::NotYet,
            }
        }
        Objective::Of(subject) => {
            let mut latest = of(results, subject);
            let counts = |r: &Outcome| {
                r.clean && (r.level == Level::Whole || matches!(subject, Subject::Explanation(_)))
            };
            match (latest.next(), latest.next()) {
                (None, _) => Standing::Untried,
                (Some(last), Some(before)) if counts(last) && counts(before) => Standing::Secure,
                (Some(last), _) if last.clean => Standing::Nearly,
                (Some(last), Some(before)) if last.solved && counts(before) => Standing::Nearly,
                _ => Standing::NotYet,
            }
        }
    }
}

const fn is_sum(result: &Outcome) -> bool {
    matches!(result.subject, Subject::Sum(_))
}

/// The results of one subject, latest first.
fn of(results: &[Outcome], subject: Subject) -> impl Iterator<Item = &Outcome> {
    results.iter().rev().filter(move |r| r.subject == subject)
}

/// The level at which a form comes next: one up after a clean result, one down after one
/// that was not solved. Who is secure in three forms starts a new one half-way.
pub fn next_level(results: &[Outcome], form: Form) -> Level {
    match of(results, Subject::Sum(form)).next() {
        None if secure_forms(results) >= 3 => Level::MissingSteps,
        None => Level::WorkedExample,
        Some(last) => match (last.level, last.clean, last.solved) {
            (Level::WorkedExample, true, _) | (Level::Whole, _, false) => Level::MissingSteps,
            (Level::MissingSteps, true, _) => Level::Whole,
            (Level::MissingSteps, _, false) => Level::WorkedExample,
            (level, ..) => level,
        },
    }
}

fn is_secure(results: &[Outcome], form: Form) -> bool {
    standing(results, Objective::Of(Subject::Sum(form))) == Standing::Secure
}

fn secure_forms(results: &[Outcome]) -> usize {
    FORMS
        .iter()
        .filter(|form| is_secure(results, **form))
        .count()
}

/// The form that comes next after `ended` questions: the first in teaching order that is not
/// secure, and every third time the one that was asked longest ago.
pub fn next_form(results: &[Outcome], ended: u32) -> Form {
    let sums: Vec<Form> = results
        .iter()
        .filter_map(|r| match r.subject {
            Subject::Sum(form) => Some(form),
            Subject::Explanation(_) => None,
        })
        .collect();
    let last = |form: &Form| sums.iter().rposition(|f| f == form);
    let oldest = || {
        FORMS
            .into_iter()
            .filter(|f| last(f).is_some())
            .min_by_key(last)
    };
    let open = FORMS.into_iter().find(|form| !is_secure(results, *form));
    let again = ended % 3 == 2 || open.is_none();
    let returning = oldest().filter(|form| again && Some(form) != sums.last());
    returning.or(open).unwrap_or(Form::Concentrations)
}

/// A record as it may be kept on a device, if its owner asks: numbers, no names, no times.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    /// The format; others are not read.
    pub version: u8,
    /// For each result: its subject, its level, and what became of it as bits.
    pub results: Vec<(u8, u8, u8)>,
}

/// The format that is written.
pub const VERSION: u8 = 1;

/// Explanations are counted from here, forms from 0; both in the order of version 1, which
/// new ones are added to at the end.
const EXPLANATIONS: u8 = 64;

impl Kept {
    /// The record of these results.
    pub fn of(results: &[Outcome]) -> Self {
        let entry = |result: &Outcome| {
            let subject = match result.subject {
                Subject::Sum(form) => form as u8,
                Subject::Explanation(topic) => EXPLANATIONS + topic as u8,
            };
            let flags = [result.sorted, result.clean, result.solved];
            let bits = flags
                .iter()
                .fold(0, |bits, flag| 2 * bits + u8::from(*flag));
            (subject, result.level as u8, bits)
        };
        Self {
            version: VERSION,
            results: results.iter().map(entry).collect(),
        }
    }

    /// The results; what cannot be read is left out. `None` for another format, which is none
    /// of this version's business.
    pub fn results(&self) -> Option<Vec<Outcome>> {
        let entry = |&(subject, level, bits): &(u8, u8, u8)| {
            let subject = match subject.checked_sub(EXPLANATIONS) {
                None => Subject::Sum(*FORMS.get(usize::from(subject))?),
                Some(topic) => Subject::Explanation(*TOPICS.get(usize::from(topic))?),
            };
            Some(Outcome {
                subject,
                level: *LEVELS.get(usize::from(level))?,
                sorted: bits & 4 != 0,
                clean: bits & 2 != 0,
                solved: bits & 1 != 0,
            })
        };
        let results = self.results.iter().take(REMEMBERED);
        (self.version == VERSION).then(|| results.filter_map(entry).collect())
    }
}
