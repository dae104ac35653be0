//! Practice in words: choices, buttons, and where somebody is in a question.

use crate::app::desk::Page;
use crate::app::plan::Feedback;
use crate::app::progress::{Level, Objective, Subject};
use crate::app::task::{End, Filled, Stage, Task};
use crate::app::words::objective::objective;
use crate::lesson::sums::form::Form;

/// What the pages of practice are together.
pub const PAGES: &str = "Practice";

/// A page of practice.
pub const fn page(page: Page) -> &'static str {
    match page {
        Page::Questions => "Questions",
        Page::Explanations => "Explain",
        Page::Standing => "How you stand",
    }
}

/// Said where the page around a frame is told results: by whom it was set so, nobody can know.
pub const TOLD: &str = "This lesson is set so that the page around it is told how each question went: its kind, its level and the marks. It is told no answer as you typed it, and no name.";

/// A working without markup.
pub const AS_TEXT: &str = "As plain text, to copy";

/// Above a worked solution.
pub const LAYOUT: &str = "The layout";

/// Above what can be chosen.
pub const CHOICES: &str = "Choose questions";

/// The choice that follows the learner.
pub const AUTO: &str = "Follow how I do";

/// Above the forms.
pub const FORM: &str = "Kind of question";

/// Above the levels.
pub const LEVEL: &str = "How much is done for you";

/// A form, as it is chosen.
pub const fn form(form: Form) -> &'static str {
    objective(Objective::Of(Subject::Sum(form)))
}

/// A level, as it is chosen.
pub const fn level(level: Level) -> &'static str {
    match level {
        Level::WorkedExample => "Worked example: finish the last line",
        Level::MissingSteps => "Missing steps: the formulas are there",
        Level::Whole => "Whole question",
    }
}

/// Hands in the lines: marked at once, or after the last question.
pub const fn check(feedback: Feedback) -> &'static str {
    match feedback {
        Feedback::AtOnce => CHECK,
        Feedback::AtTheEnd => "Hand in",
    }
}

/// Hands in something that is marked at once.
pub const CHECK: &str = "Check";

/// Shows one line.
pub const SHOW_STEP: &str = "Show one step";

/// Shows the whole layout.
pub const SHOW_LAYOUT: &str = "Show the layout";

/// Goes on.
pub const NEXT: &str = "Next question";

/// Puts the question's mixture on the bench.
pub const ON_THE_BENCH: &str = "Put this mixture on the bench";

/// The keys that a phone's number pad may lack: what they type, and their names.
pub const KEYS: [(&str, &str); 4] = [
    ("−", "minus"),
    ("×10", "×10, times ten to the power"),
    (".", "decimal point"),
    (",", "decimal comma"),
];

/// Names the keys.
pub const KEYS_NAME: &str = "Keys";

/// Where somebody is in a question, in a sentence.
pub fn where_it_stands(task: &Task) -> &'static str {
    let shown = task.lines.iter().any(|l| l.filled == Filled::AsHelp);
    match (task.stage(), task.end, task.wrong_tries) {
        (_, Some(End::HandedIn), _) => {
            "Handed in. What became of it is told after the last question."
        }
        (_, Some(End::Solved), _) if shown => "Right in the end, with help.",
        (_, Some(End::Solved), 0) => "Right.",
        (_, Some(End::Solved), _) => "Right in the end.",
        (_, Some(End::Shown), _) => "Here is the whole layout. The next one has fresh numbers.",
        (Stage::Sorting, ..) if task.question.problem.form == Form::ChooseAcid => {
            "First choose the acid."
        }
        (Stage::Sorting, ..) => "First say what the mixture is.",
        (Stage::Lines, ..) if task.handed_empty => {
            "Nothing is filled in. Hand it in once more to leave this question without an answer."
        }
        (Stage::Lines, ..) if task.manner.feedback == Feedback::AtTheEnd => {
            "Fill in what you can, then hand it in. What became of it is told after the last question."
        }
        _ if task.is_right_so_far() => "Right so far. The empty lines are asked for as well.",
        (_, None, 0) if task.answer_is_enough() => {
            "Fill in what you can, then check. A right answer alone is enough."
        }
        (_, None, 0) => "Fill in what you can, then check.",
        (_, None, 1) => "Something is not right yet. Put it right and check once more.",
        (_, None, _) => "One line is shown now. Put the rest right and check once more.",
    }
}

/// Marks of the first tries, once the question is over and may be spoken of.
pub fn marks(task: &Task) -> Option<String> {
    if task.end == Some(End::HandedIn) {
        return None;
    }
    let (marks, most) = task.first_marks()?;
    Some(format!("First try: {marks} of {most} marks."))
}
