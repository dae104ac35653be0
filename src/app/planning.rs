//! A teacher sets up a lesson: the draft, and the only way it changes.

use crate::app::plan::{
    Access, Feedback, Hundredths, Look, MOST_PROMPTS, MOST_QUESTIONS, Part, Plan, TOLERANCES,
    Telling,
};
use crate::app::progress::Level;
use crate::lesson::conventions::Conventions;
use crate::lesson::markup::escaped;
use crate::lesson::sums::form::{FORMS, Form};

/// Something that a teacher did to the draft.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanAction {
    /// Whether a part can be used.
    AccessChosen(Part, Access),
    /// Whether it opens with the guided start.
    GuidedChosen(bool),
    /// A form was taken in, or out.
    FormSwitched(Form),
    /// How many questions; more than possible is as many as possible.
    CountChosen(u8),
    /// How much is done already.
    LevelChosen(Option<Level>),
    /// The same questions for everybody, from this seed; or everybody's own.
    SeedChosen(Option<u32>),
    /// When answers are spoken of.
    FeedbackChosen(Feedback),
    /// How things are written.
    ConventionsChosen(Conventions),
    /// How close a pH must come, in hundredths.
    ToleranceChosen(u8),
    /// Light or dark.
    LookChosen(Look),
    /// What the page that shows it in a frame is told.
    TellingChosen(Telling),
    /// The title reads so.
    TitleTyped(String),
    /// A prompt reads so.
    PromptTyped(usize, String),
}

/// The draft after `action`. Words stand in it as typed; a link has them tidied. Pure.
pub fn plan(draft: &Plan, action: PlanAction) -> Plan {
    let mut next = draft.clone();
    let questions = &mut next.questions;
    match action {
        PlanAction::AccessChosen(part, access) => next.access[part as usize] = access,
        PlanAction::GuidedChosen(guided) => next.guided = guided,
        PlanAction::FormSwitched(form) => {
            let without: Vec<_> = questions
                .forms
                .iter()
                .copied()
                .filter(|f| *f != form)
                .collect();
            let had = without.len() < questions.forms.len();
            // In teaching order, however they were chosen.
            let has = |f: &Form| without.contains(f) || (*f == form && !had);
            questions.forms = FORMS.into_iter().filter(has).collect();
        }
        PlanAction::CountChosen(count) => questions.count = count.min(MOST_QUESTIONS),
        PlanAction::LevelChosen(level) => questions.level = level,
        PlanAction::SeedChosen(seed) => questions.seed = seed,
        PlanAction::FeedbackChosen(feedback) => questions.feedback = feedback,
        PlanAction::ConventionsChosen(conventions) => next.conventions = conventions,
        PlanAction::ToleranceChosen(hundredths) => {
            let (low, high) = (*TOLERANCES.start(), *TOLERANCES.end());
            next.tolerance = Hundredths(hundredths.clamp(low, high));
        }
        PlanAction::LookChosen(look) => next.look = look,
        PlanAction::TellingChosen(telling) => next.telling = telling,
        PlanAction::TitleTyped(title) => next.title = title,
        PlanAction::PromptTyped(place, text) => {
            next.prompts.resize(MOST_PROMPTS, String::new());
            if let Some(prompt) = next.prompts.get_mut(place) {
                *prompt = text;
            }
        }
    }
    next
}

/// The text of a frame for a course page, which shows `plan` from `address`: it needs no more than
/// these four attributes, for many course pages strip all others.
pub fn frame(plan: &Plan, address: &str) -> String {
    format!(
        "<iframe src=\"{}\" width=\"100%\" height=\"760\" title=\"{}\"></iframe>",
        escaped(address),
        escaped(&plan.name()),
    )
}
