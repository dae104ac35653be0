//! The teacher's side in words.

use crate::app::link::notice::Notice;
use crate::app::plan::{Access, Feedback, Look, Part, Plan};
use crate::lesson::conventions::{ConcentrationUnit, Names, VolumeUnit};
use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::lesson::sig_fig::{DecimalMark, PhDecimals};
use crate::lesson::sums::form::PhBy;

/// At the top.
pub const INTRODUCTION: &str = "Set up what a class opens, then take it away. Nothing is sent anywhere: the lesson is in its link.";

/// Leads to lessons to start from.
pub const STARTERS: &str = "Five lessons to start from, and how to take one away";

/// The parts of the panel, in their order.
pub const SECTIONS: [&str; 5] = [
    "The bench",
    "What shows",
    "Questions",
    "How things are written",
    "Your own words",
];

/// Takes what is on the bench.
pub const TAKE_BENCH: &str = "Start from what is on the bench now";

/// Opens with the guided start.
pub const GUIDED: &str = "Open with the guided start";

/// A part of the page.
pub const fn part(part: Part) -> &'static str {
    match part {
        Part::Guide => "Guided start",
        Part::Curve => "Curve",
        Part::Working => "Working",
        Part::Practice => "Practice",
        Part::SetUp => "Set up",
    }
}

/// Whether it can be used.
pub const fn access(access: Access) -> &'static str {
    match access {
        Access::Open => "open",
        Access::Locked => "locked until the questions are done",
        Access::Hidden => "not there",
    }
}

/// Above the forms.
pub const FORMS: &str = "Kinds, in turn. None: they follow how the learner does.";

/// How many.
pub const COUNT: &str = "How many";

/// A number of them.
pub fn count(count: u8) -> String {
    match count {
        0 => "without end".to_owned(),
        count => count.to_string(),
    }
}

/// How much is done.
pub const LEVEL: &str = "How much is done for the learner";

/// The same for everybody.
pub const SAME: &str = "The same questions for everybody";

/// Above when answers are spoken of.
pub const FEEDBACK: &str = "Feedback";

/// When answers are spoken of.
pub const fn feedback(feedback: Feedback) -> &'static str {
    match feedback {
        Feedback::AtOnce => "at once, with a retry",
        Feedback::AtTheEnd => "after the last question",
    }
}

/// How close a pH must come.
pub const TOLERANCE: &str = "A pH is right within (twice that with a note)";

/// One tolerance.
pub fn tolerance(hundredths: u8, mark: char) -> String {
    format!("±0{mark}{hundredths:02}")
}

/// Above the units of concentration.
pub const CONCENTRATION: &str = "Concentrations";

/// One of them.
pub const fn concentration(unit: ConcentrationUnit) -> &'static str {
    match unit {
        ConcentrationUnit::MolPerDm3 => "mol dm⁻³",
        ConcentrationUnit::MolPerLitre => "mol L⁻¹",
        ConcentrationUnit::Molar => "M",
    }
}

/// Above the units of volume.
pub const VOLUME: &str = "Volumes";

/// One of them.
pub const fn volume(unit: VolumeUnit) -> &'static str {
    match unit {
        VolumeUnit::Cm3 => "cm³",
        VolumeUnit::Millilitre => "mL",
    }
}

/// Above the names.
pub const NAMES: &str = "Names";

/// One kind of them.
pub const fn names(names: Names) -> &'static str {
    match names {
        Names::Classroom => "as most classrooms have them",
        Names::Systematic => "systematic: ethanoic acid",
        Names::Common => "common: acetic acid",
    }
}

/// Above the decimal mark.
pub const MARK: &str = "Decimal mark";

/// One of them.
pub const fn mark(mark: DecimalMark) -> &'static str {
    match mark {
        DecimalMark::Point => "point: 4.76",
        DecimalMark::Comma => "comma: 4,76",
    }
}

/// Above the decimal places.
pub const PH_DECIMALS: &str = "Decimal places of a pH";

/// How many.
pub const fn ph_decimals(decimals: PhDecimals) -> &'static str {
    match decimals {
        PhDecimals::Two => "two",
        PhDecimals::Three => "three",
    }
}

/// Above what free H⁺ is called.
pub const ION: &str = "Hydrogen ions are written";

/// One of them.
pub const fn ion(ion: HydrogenIon) -> &'static str {
    match ion {
        HydrogenIon::Bare => "H⁺",
        HydrogenIon::Hydrated => "H₃O⁺",
    }
}

/// Above the ways to the pH of a buffer.
pub const PH_BY: &str = "pH of a buffer by";

/// One of them.
pub const fn ph_by(by: PhBy) -> &'static str {
    match by {
        PhBy::Hydrogen => "[H⁺] = Kₐ[HA]/[A⁻]",
        PhBy::Logarithm => "pH = pKₐ + log([A⁻]/[HA])",
    }
}

/// Above light and dark.
pub const LOOK: &str = "Light or dark";

/// One of them.
pub const fn look(look: Look) -> &'static str {
    match look {
        Look::System => "as the device has it",
        Look::Light => "light",
        Look::Dark => "dark",
    }
}

/// Lets the page around a frame know of results.
pub const TELL: &str = "In a frame, tell the page around it how each question went (kind, level, marks; learners are told so)";

/// The title.
pub const TITLE: &str = "Title";

/// A prompt, by its number.
pub fn prompt(place: usize) -> String {
    format!("Prompt {}", place + 1)
}

/// Above what can be taken away.
pub const TAKE_AWAY: &str = "Take it away";

/// The link.
pub const LINK: &str = "Link";

/// The frame.
pub const FRAME: &str = "Frame for a course page";

/// Puts a text on the clipboard.
pub const COPY: &str = "Copy";

/// Said once it is there, or where it cannot be put there.
pub const fn copied(done: bool) -> &'static str {
    if done {
        "Copied."
    } else {
        "This browser does not let the page copy. The text is selected: copy it from the menu."
    }
}

/// Under the link.
pub const WHO_OPENS_IT: &str = "A link reports nothing, and starts afresh when it is opened again. Whoever opens it can open Lesson as well, and print the answers. For a test, take the file or a course package: they have no Lesson.";

/// Describes the code.
pub const CODE: &str = "The link as a code for a phone's camera";

/// Said where the link is too long for a code.
pub const NO_CODE: &str = "Too long for a code that a camera reads easily. Shorten the prompts.";

/// Above what is downloaded.
pub const FILES: &str = "Files";

/// What can be downloaded: one file, and packages for course systems.
pub const DOWNLOADS: [&str; 3] = [
    "This lesson as one file",
    "Course package, SCORM 1.2",
    "Course package, SCORM 2004",
];

/// What a package tells.
pub const WHAT_IS_TOLD: &str = "A course package tells the course system score, completion and where the learner was. A learner's name is not read. Without a number of questions there is no score.";

/// Said while a file is made, once it is there, or if it could not be had.
pub const fn file(made: Option<bool>) -> &'static str {
    match made {
        None => "Making the file …",
        Some(true) => "The file is in your downloads.",
        Some(false) => {
            "The file could not be made: a part of it did not arrive. Try again with a working connection."
        }
    }
}

/// The preview.
pub const PREVIEW: &str = "Preview";

/// Its sizes.
pub const SIZES: [(&str, &str); 2] = [("phone", "Phone"), ("frame", "Frame")];

/// Said of a draft that asks for what cannot be.
pub fn warning(plan: &Plan, notices: &[Notice]) -> &'static str {
    let locked = plan.access.contains(&Access::Locked);
    if !notices.is_empty() {
        "Something here cannot be put in a link. The preview says what."
    } else if locked && plan.questions.count == 0 {
        "A part is locked, and the questions have no end that would open it. Choose how many questions there are."
    } else if plan.questions.feedback != plan.questions.feedback() {
        "Feedback after the last question needs a last one. Choose how many questions there are."
    } else if plan.access[Part::Practice as usize] != Access::Open && plan.questions.count > 0 {
        "There are questions, and Practice is not open for them."
    } else {
        ""
    }
}
