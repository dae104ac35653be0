//! Practice: one question at a time, as plain state, and the only way it changes.
//!
//! First the mixture is told, then come the lines. After a wrong try there is one retry,
//! then one line is shown, then the whole layout. What is typed is never changed.

use std::sync::Arc;

use crate::app::carried::Carried;
use crate::app::on_bench::put_on_bench;
use crate::app::plan::{Feedback, Plan, QuestionSet};
use crate::app::progress::{Level, Outcome, REMEMBERED, Subject, next_form, next_level};
use crate::app::recipe::Recipe;
use crate::app::task::{End, Manner, Task};
use crate::lesson::explain::{Built, Topic};
use crate::lesson::sums::form::Form;
use crate::lesson::sums::kind::Kind;
use crate::lesson::sums::question::question_by;

/// The state of practice.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Practice {
    /// The form that was chosen; `None` follows how the learner does.
    pub form: Option<Form>,
    /// The level that was chosen; `None` follows how the learner does.
    pub level: Option<Level>,
    /// The questions of the lesson.
    pub set: Arc<QuestionSet>,
    /// How questions are marked and spoken of.
    pub manner: Manner,
    /// Questions of the lesson that have ended, where it asks for a number of them.
    pub finished: Vec<Task>,
    /// What was done of the lesson's questions on an earlier visit.
    pub carried: Carried,
    /// Seed of the series of questions.
    pub seed: u64,
    /// Place of the question in its series, from 1.
    pub number: u32,
    /// The question; `None` before the first.
    pub task: Option<Task>,
    /// The explanation that is being built, if one is.
    pub explanation: Option<Built>,
    /// Results, oldest first.
    pub results: Vec<Outcome>,
    /// Questions that ended since the page was opened.
    pub ended: u32,
    /// Results that the device had kept from before.
    pub before: u32,
    /// Counts what became of the results: new ones, and clearing them.
    pub done: u32,
}

/// Something that happened in practice.
#[derive(Debug, Clone, PartialEq)]
pub enum PracticeAction {
    /// A series of questions began.
    Began {
        /// Its seed.
        seed: u64,
    },
    /// One particular question was opened, as from a link or a sheet.
    QuestionOpened {
        /// Its form.
        form: Form,
        /// How much of it is done already.
        level: Level,
        /// Its own seed.
        seed: u64,
    },
    /// A form was chosen, or that it follows the learner.
    FormChosen(Option<Form>),
    /// A level was chosen, or that it follows the learner.
    LevelChosen(Option<Level>),
    /// The mixture was said to be this.
    Sorted(Kind),
    /// A line now reads so.
    Typed {
        /// Place of the line among those asked for.
        place: usize,
        /// What stands in it.
        text: String,
    },
    /// The lines were handed in.
    Checked,
    /// One step was asked for.
    StepAsked,
    /// The whole layout was asked for.
    LayoutAsked,
    /// The next question was asked for.
    NextAsked,
    /// An explanation was opened.
    ExplanationOpened {
        /// What it explains.
        topic: Topic,
        /// Decides the order of its choices.
        seed: u64,
    },
    /// A clause of it was chosen.
    ClauseChosen {
        /// Its place.
        slot: usize,
        /// Which choice.
        choice: u8,
    },
    /// It was handed in.
    ExplanationChecked,
    /// The right clauses were asked for.
    ExplanationShown,
    /// What a course system kept of an earlier visit was read.
    Resumed(Carried),
    /// A kept record was read.
    ResultsRestored(Vec<Outcome>),
    /// The record was cleared.
    ResultsCleared,
}

/// The state after `action`. Pure: the same state and action give the same result.
pub fn practise(practice: &Practice, action: PracticeAction) -> Practice {
    let mut next = practice.clone();
    match action {
        PracticeAction::Began { seed } => {
            let seed = next.set.seed.map_or(seed, u64::from);
            // Who comes back goes on in the same series.
            let seed = next.carried.seed.unwrap_or(seed);
            (next.seed, next.number) = (seed, next.carried.count);
            next.ask();
        }
        PracticeAction::QuestionOpened { form, level, seed } => {
            next.number = next.number.saturating_add(1);
            next.task = Some(next.task_of(form, seed, level));
        }
        // Where the lesson says what is asked, nobody else does.
        PracticeAction::FormChosen(_) | PracticeAction::LevelChosen(_) if next.set.is_set() => {}
        PracticeAction::FormChosen(form) => {
            next.form = form;
            next.ask();
        }
        PracticeAction::LevelChosen(level) => {
            next.level = level;
            next.ask();
        }
        PracticeAction::NextAsked => next.ask(),
        PracticeAction::ExplanationOpened { topic, seed } => {
            next.explanation = Some(Built::new(topic, seed));
        }
        PracticeAction::ClauseChosen { slot, choice } => {
            next.explain(|built| built.with(slot, choice));
        }
        PracticeAction::ExplanationChecked => next.explain(Built::marked),
        PracticeAction::ExplanationShown => next.explain(Built::shown),
        PracticeAction::Resumed(carried) => next.carried = carried,
        PracticeAction::ResultsRestored(results) => {
            next.before = u32::try_from(results.len()).unwrap_or(u32::MAX);
            let earlier = results.into_iter().chain(next.results.drain(..));
            next.results = earlier.collect();
            next.forget();
        }
        PracticeAction::ResultsCleared => {
            next.results.clear();
            next.done = next.done.wrapping_add(1);
        }
        PracticeAction::Sorted(kind) => next.work(|task| task.sort(kind)),
        PracticeAction::Typed { place, text } => next.work(|task| task.write(place, text)),
        PracticeAction::Checked => next.work(Task::check),
        PracticeAction::StepAsked => next.work(Task::show_step),
        PracticeAction::LayoutAsked => next.work(|task| task.end = Some(End::Shown)),
    }
    next
}

impl Practice {
    /// The desk of a lesson, with nothing done yet.
    pub fn of(plan: &Plan) -> Self {
        Self {
            set: Arc::new(plan.questions.clone()),
            manner: Manner {
                tolerance: plan.tolerance.tolerance(),
                feedback: plan.questions.feedback(),
                by: plan.conventions.ph_by,
            },
            ..Self::default()
        }
    }

    /// Whether all questions of the lesson have ended; never where it asks for no number.
    pub fn set_is_over(&self) -> bool {
        self.set.count > 0 && self.carried.with(&self.finished).count >= self.set.count.into()
    }

    /// Whether how it went is still to be told, after the last question.
    pub fn tells_later(&self) -> bool {
        self.manner.feedback == Feedback::AtTheEnd && !self.set_is_over()
    }

    /// The mixture of the question as a recipe, where the bench can make it.
    pub fn recipe(&self) -> Option<Recipe> {
        put_on_bench(&self.task.as_ref()?.question)
    }

    /// The form that comes next where none is chosen.
    pub fn next_form(&self) -> Form {
        next_form(&self.results, self.before.wrapping_add(self.ended))
    }

    /// The next question of the series.
    fn ask(&mut self) {
        if self.set_is_over() {
            return;
        }
        self.number = self.number.saturating_add(1);
        let form = self.form.or_else(|| self.set.form(self.number));
        let form = form.unwrap_or_else(|| self.next_form());
        let level = self.level.or(self.set.level);
        let level = level.unwrap_or_else(|| next_level(&self.results, form));
        let seed = question_seed(self.seed, self.number);
        self.task = Some(self.task_of(form, seed, level));
    }

    fn task_of(&self, form: Form, seed: u64, level: Level) -> Task {
        let question = question_by(form, seed, self.manner.by);
        Task::new(question, level, self.manner)
    }

    /// Does something with the question, and remembers how it ended if that ends it.
    fn work(&mut self, step: impl FnOnce(&mut Task)) {
        let Some(task) = self.task.as_mut().filter(|task| task.end.is_none()) else {
            return;
        };
        step(task);
        if task.end.is_some() {
            let outcome = Outcome {
                subject: Subject::Sum(task.question.problem.form),
                level: task.level,
                sorted: task.wrong_choices == 0 && task.choice.is_some(),
                clean: task.is_solved() && task.wrong_tries == 0 && !task.is_helped(),
                solved: task.is_solved(),
            };
            if self.set.count > 0 {
                self.finished.push(task.clone());
            }
            self.ended = self.ended.wrapping_add(1);
            self.remember(outcome);
        }
    }

    /// Does something with the explanation, and remembers how it went once it is complete.
    fn explain(&mut self, step: impl FnOnce(&Built) -> Built) {
        let Some(built) = self.explanation.as_ref().filter(|b| !b.is_complete()) else {
            return;
        };
        let built = step(built);
        if built.is_complete() {
            self.remember(Outcome {
                subject: Subject::Explanation(built.topic),
                level: Level::Whole,
                sorted: true,
                clean: built.wrong == 0 && !built.helped,
                solved: !built.helped,
            });
        }
        self.explanation = Some(built);
    }

    fn remember(&mut self, outcome: Outcome) {
        self.results.push(outcome);
        self.done = self.done.wrapping_add(1);
        self.forget();
    }

    fn forget(&mut self) {
        let old = self.results.len().saturating_sub(REMEMBERED);
        self.results.drain(..old);
    }
}

/// The seed of one question of a series (the finalizer of SplitMix64, which spreads
/// neighboring numbers over all words).
pub const fn question_seed(series: u64, number: u32) -> u64 {
    let mut z = series.wrapping_add((number as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15));
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}
