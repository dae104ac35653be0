//! A lesson on paper: the questions that a class gets on its screens from the same seed.
//!
//! Paper can neither follow how a learner does nor go on for ever. What it settles in place of
//! that is settled in the lesson that its link opens too, so both ask the same.

pub mod handout;
pub mod wrong;

use crate::app::code::code;
use crate::app::link;
use crate::app::plan::{Access, LONGEST_PROMPT, LONGEST_TITLE, Part, Plan, tidy};
use crate::app::practice::question_seed;
use crate::lesson::sums::expression::rounded;
use crate::lesson::sums::form::FORMS;
use crate::lesson::sums::question::{Question, question_by};
use crate::lesson::sums::symbol::{Symbol, Unit};

/// Questions of a sheet where the lesson goes on for ever.
pub const USUAL_COUNT: u8 = 6;

/// The sheet of a lesson.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The lesson, with the forms, the number and the seed of the questions settled, and the
    /// teacher's words tidied.
    pub lesson: Plan,
    /// The seed of the questions.
    pub seed: u32,
    /// The questions, in turn.
    pub questions: Vec<Question>,
}

/// A link that opens the questions of a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opens {
    /// The whole address.
    pub address: String,
    /// The same as a code for a camera.
    pub code: Option<String>,
}

impl Sheet {
    /// The sheet of `plan`; `seed` is for a lesson that fixes none.
    pub fn of(plan: &Plan, seed: u32) -> Self {
        let mut lesson = plan.clone();
        lesson.title = tidy(&plan.title, LONGEST_TITLE);
        let prompts = plan.prompts.iter().map(|text| tidy(text, LONGEST_PROMPT));
        lesson.prompts = prompts.filter(|text| !text.is_empty()).collect();
        let set = &mut lesson.questions;
        let seed = *set.seed.get_or_insert(seed);
        if set.count == 0 {
            set.count = USUAL_COUNT;
        }
        if set.forms.is_empty() {
            set.forms = FORMS.into_iter().take(set.count.into()).collect();
        }
        let numbers = 1..=u32::from(set.count);
        let by = lesson.conventions.ph_by;
        let forms = numbers.filter_map(|number| Some((number, set.form(number)?)));
        let questions = forms
            .map(|(number, form)| question_by(form, question_seed(seed.into(), number), by))
            .collect();
        Self {
            lesson,
            seed,
            questions,
        }
    }

    /// Marks of one question: one for each line.
    pub fn marks(question: &Question) -> usize {
        question.problem.asked().len()
    }

    /// Marks of all questions.
    pub fn all_marks(&self) -> usize {
        self.questions.iter().map(Self::marks).sum()
    }

    /// What opens the same questions from the page at `address`, with a code called `name`: the
    /// lesson, or the lesson without the teacher's words, which stand on the paper, where they
    /// would make the code too fine. `None` where the lesson keeps practice closed.
    pub fn opens(&self, address: &str, name: &str) -> Option<Opens> {
        if self.lesson.access(Part::Practice) != Access::Open {
            return None;
        }
        let opens = |plan: &Plan| {
            let address = [address, &link::write(plan).written()].concat();
            let code = code(&address, name);
            Opens { address, code }
        };
        let whole = opens(&self.lesson);
        if whole.code.is_some() {
            return Some(whole);
        }
        let mut wordless = self.lesson.clone();
        wordless.title.clear();
        wordless.prompts.clear();
        Some(opens(&wordless))
    }
}

/// A value as it is written down: a pH to two decimal places, anything else to three figures.
pub(super) fn as_written(symbol: Symbol, value: f64) -> f64 {
    match symbol.unit() {
        Unit::Scale => libm::round(value * 100.0) / 100.0,
        _ => rounded(value, 3),
    }
}
