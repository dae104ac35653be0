//! Progress in words: what can be learned, how somebody stands, and what to do next.

use crate::app::practice::Practice;
use crate::app::progress::{Level, Objective, Outcome, Row, Standing, Subject, row};
use crate::lesson::explain::Topic;
use crate::lesson::markup::html;
use crate::lesson::sums::form::Form;

/// What can be learned, as "you can …".
pub const fn objective(objective: Objective) -> &'static str {
    match objective {
        Objective::Sorting => "Tell what a mixture is before you calculate",
        Objective::Of(Subject::Explanation(topic)) => match topic {
            Topic::AddedAcid => "Explain how a buffer meets added acid",
            Topic::AddedAlkali => "Explain how a buffer meets added alkali",
            Topic::AlkalineBuffer => "Explain an alkaline buffer",
            Topic::Water => "Explain why water holds no pH",
            Topic::SmallAmounts => "Explain why a buffer takes small amounts only",
        },
        Objective::Of(Subject::Sum(form)) => match form {
            Form::Concentrations => "Work out pH from two concentrations",
            Form::TwoVolumes => "Work out pH from two volumes mixed",
            Form::AcidWithAlkali => "Work out pH from a weak acid and strong alkali",
            Form::BaseWithAcid => "Work out pH from a weak base and strong acid",
            Form::SaltMass => "Work out pH from a mass of salt",
            Form::AddedAcid => "Work out what added acid does to a buffer",
            Form::AddedAlkali => "Work out what added alkali does to a buffer",
            Form::Exhausted => "Work out pH once a buffer has run out",
            Form::Equivalence => "Work out pH at the equivalence point",
            Form::HalfNeutralized => "Use half-neutralisation: pH = pKₐ",
            Form::Dilution => "Say what dilution does to a buffer",
            Form::KaFromPh => "Work out Kₐ from a measured pH",
            Form::RecipeBySalt => "Work out the mass of salt for a wanted pH",
            Form::RecipeByAlkali => "Work out the volume of alkali for a wanted pH",
            Form::ChooseAcid => "Choose the acid for a wanted pH",
            Form::WeakAcidAlone => "Tell a weak acid alone from a buffer",
        },
    }
}

/// What an explanation is about, as "you can …".
pub const fn of_topic(topic: Topic) -> &'static str {
    objective(Objective::Of(Subject::Explanation(topic)))
}

/// How somebody stands in one objective and what to do next, as markup.
pub fn stands(results: &[Outcome], objective: Objective) -> String {
    let row = row(results, objective);
    let sign = match row.standing {
        Standing::Untried => "·",
        Standing::NotYet => "○",
        Standing::Nearly => "◐",
        Standing::Secure => "●",
    };
    let parts = [
        "<span aria-hidden=\"true\">",
        sign,
        "</span> <strong>",
        standing(row.standing),
        "</strong> · ",
        &html(next(&row)),
    ];
    parts.concat()
}

/// How somebody stands.
pub const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Untried => "not tried",
        Standing::NotYet => "not yet",
        Standing::Nearly => "nearly",
        Standing::Secure => "secure",
    }
}

/// What to do next.
pub const fn next(row: &Row) -> &'static str {
    match (row.objective, row.standing) {
        (_, Standing::Secure) => "Come back to it in a few days.",
        (Objective::Sorting, Standing::Untried) => "It starts every question.",
        (Objective::Sorting, _) => "Before you choose, compare the amounts of what reacts.",
        (Objective::Of(Subject::Explanation(_)), Standing::Untried) => "Build it once.",
        (Objective::Of(Subject::Explanation(_)), _) => "Build it once more, right first time.",
        (Objective::Of(Subject::Sum(_)), _) => match row.next {
            Level::WorkedExample => "Read a worked example and finish its last line.",
            Level::MissingSteps => "Fill in the missing steps of one more.",
            Level::Whole => "Do a whole one without help, then one more.",
        },
    }
}

/// What comes next, whatever the list says.
pub fn suggestion(practice: &Practice) -> String {
    let form = practice.next_form();
    let next = row(&practice.results, Objective::Of(Subject::Sum(form)));
    ["Next for you: ", objective(next.objective), "."].concat()
}

/// What the words mean.
pub const WHAT_IT_MEANS: &str = "Secure: the last two whole questions right, first time and without help. For telling mixtures apart: the last five.";

/// Asks whether to keep it.
pub const KEEP: &str = "Keep this on this device";

/// What is kept.
pub const WHAT_IS_KEPT: &str =
    "Only which question, which level, and whether it was right. Nothing leaves this device.";

/// The browser does not keep anything.
pub const REFUSED: &str =
    "This browser does not let the page keep anything here. It lasts until you leave the page.";

/// Deletes it.
pub const CLEAR: &str = "Clear all results";

/// Asks once more.
pub const CLEAR_FOR_GOOD: &str = "Clear for good?";

/// Clears them after all.
pub const DO_CLEAR: &str = "Yes, clear";

/// Leaves them.
pub const DO_NOT_CLEAR: &str = "No";

/// Said once it is deleted.
pub const CLEARED: &str = "All results are cleared. Nothing is kept on this device.";

/// Goes to practise one objective.
pub const GO: &str = "Practise";
