//! A lesson as a teacher sets it up: what is on the bench at the start, which parts are there,
//! what is asked and how it is marked, and how things are written.

use crate::app::progress::Level;
use crate::app::recipe::Recipe;
use crate::lesson::conventions::Conventions;
use crate::lesson::sums::form::Form;
use crate::lesson::sums::mark::Tolerance;

/// A part of the page that a lesson can leave out or close. What is not here is always there:
/// the bench itself, why, and the limits with their cautions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// The guided start.
    Guide,
    /// The curve.
    Curve,
    /// The calculation for the bench.
    Working,
    /// Questions.
    Practice,
    /// Setting up.
    SetUp,
}

/// All of them, in the order of the page.
pub const PARTS: [Part; 5] = [
    Part::Guide,
    Part::Curve,
    Part::Working,
    Part::Practice,
    Part::SetUp,
];

/// Whether a part can be used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Access {
    /// It can.
    #[default]
    Open,
    /// It is to be seen that it is there; it opens once the questions of the lesson are done.
    Locked,
    /// It is not there.
    Hidden,
}

/// All kinds of access, as they are offered.
pub const ACCESSES: [Access; 3] = [Access::Open, Access::Locked, Access::Hidden];

/// A seed from a number of chance: six digits at most, which can be read out and typed.
pub fn short_seed(chance: u64) -> u32 {
    u32::try_from(chance % 1_000_000).expect("six digits")
}

/// When a learner is told what became of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Feedback {
    /// At once, with a retry.
    #[default]
    AtOnce,
    /// After the last question, all together.
    AtTheEnd,
}

/// Most questions that one lesson asks for.
pub const MOST_QUESTIONS: u8 = 40;

/// The questions of a lesson.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct QuestionSet {
    /// Their forms, in turn; none follows how the learner does.
    pub forms: Vec<Form>,
    /// How many, up to [`MOST_QUESTIONS`]; 0 goes on for ever.
    pub count: u8,
    /// How much of each is done already; `None` follows how the learner does.
    pub level: Option<Level>,
    /// Their seed: the same questions for everybody. `None` gives everybody their own.
    pub seed: Option<u32>,
    /// When answers are spoken of.
    pub feedback: Feedback,
}

/// Least and most hundredths of a pH unit that may be off with full marks.
pub const TOLERANCES: std::ops::RangeInclusive<u8> = 1..=10;

/// How close a pH must come, in hundredths of a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Hundredths(pub u8);

impl Default for Hundredths {
    fn default() -> Self {
        Self(1)
    }
}

impl Hundredths {
    /// The same for marking. Rounding too early is noted up to twice as far off.
    pub fn tolerance(self) -> Tolerance {
        let ph = f64::from(self.0) / 100.0;
        Tolerance {
            ph,
            ph_rounded: 2.0 * ph,
            ..Tolerance::default()
        }
    }
}

/// Light or dark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Look {
    /// As the device has it.
    #[default]
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// What a lesson lets the page know that shows it in a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Telling {
    /// What is on the bench.
    #[default]
    Bench,
    /// That, and how each question went.
    Results,
}

/// Most characters of a lesson's title.
pub const LONGEST_TITLE: usize = 80;
/// Most prompts of a lesson.
pub const MOST_PROMPTS: usize = 5;
/// Most characters of a prompt.
pub const LONGEST_PROMPT: usize = 200;

/// A lesson.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// What is on the bench at the start.
    pub recipe: Recipe,
    /// Whether each part can be used, by [`PARTS`].
    pub access: [Access; PARTS.len()],
    /// Whether it opens with the guided start.
    pub guided: bool,
    /// Its questions.
    pub questions: QuestionSet,
    /// How things are written.
    pub conventions: Conventions,
    /// How close a pH must come.
    pub tolerance: Hundredths,
    /// Light or dark.
    pub look: Look,
    /// What the page that shows it is told.
    pub telling: Telling,
    /// Its title; empty for none. Plain text.
    pub title: String,
    /// What the teacher asks the class to do or think about. Plain text.
    pub prompts: Vec<String>,
}

impl QuestionSet {
    /// Whether the lesson says which questions there are, or how many: then a learner does not.
    pub const fn is_set(&self) -> bool {
        self.count > 0 || !self.forms.is_empty()
    }

    /// The form of question `number`, from 1; `None` where they follow how the learner does.
    pub fn form(&self, number: u32) -> Option<Form> {
        let turn = usize::try_from(number).unwrap_or(0).wrapping_sub(1);
        let forms = &self.forms;
        (!forms.is_empty()).then(|| forms[turn % forms.len()])
    }

    /// When answers are spoken of: at the end only where there is one.
    pub const fn feedback(&self) -> Feedback {
        if self.count > 0 {
            self.feedback
        } else {
            Feedback::AtOnce
        }
    }
}

impl Plan {
    /// Whether `part` can be used.
    pub const fn access(&self, part: Part) -> Access {
        self.access[part as usize]
    }

    /// What others call it, as a frame's title or in a course: its title, or the page's name.
    pub fn name(&self) -> String {
        match tidy(&self.title, LONGEST_TITLE) {
            title if title.is_empty() => "Evenkeel".to_owned(),
            title => title,
        }
    }
}

/// A line of a teacher's own text as it is kept: no line breaks or other control characters,
/// no blanks at the ends, not too long.
pub fn tidy(text: &str, longest: usize) -> String {
    let spaced = text.chars().map(|c| if c.is_control() { ' ' } else { c });
    let text: String = spaced.collect();
    let cut: String = text.trim().chars().take(longest).collect();
    cut.trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn seeds_can_be_typed() {
        assert_eq!([0, 417, 999_999].map(short_seed), [0, 417, 999_999]);
        assert_eq!(short_seed(u64::MAX), 551_615);
    }
}
