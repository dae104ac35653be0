//! A lesson on paper, as markup: the questions here, their answers and the bench below.

pub mod answers;
pub mod handout;

use crate::app::paper::{Opens, Sheet};
use crate::app::words::label::SAFETY_SHORT;
use crate::app::words::question::{DATA, question as wording};
use crate::app::words::{asked, kind as kinds};
use crate::lesson::markup::{escaped, html, own_words};
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::entry::is_recipe;
use crate::lesson::sums::form::Form;
use crate::lesson::sums::kind::offered;
use crate::lesson::sums::question::Question;

/// A printed part. A teacher's own words and a link stay as they are; everything else is to be
/// put into the lesson's conventions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// Its head, with what stays as it is.
    pub head: String,
    /// The rest.
    pub body: String,
    /// At the foot of every page, as plain text.
    pub foot: String,
}

/// Above what can be printed.
pub const PRINT: &str = "Paper";

/// What it is.
pub const ABOUT: &str = "The lesson's questions with room to write, each as a whole question whatever the screen does for the learner; for you their worked answers, mark points and likely wrong numbers; and the bench as it is now, on one page.";

/// What can be printed.
pub const PARTS: [&str; 3] = [
    "Print the questions",
    "Print the answers",
    "Print the bench",
];

/// Other numbers for the questions.
pub const OTHER_NUMBERS: &str = "Other numbers";

/// Which numbers the questions have: those of the lesson, or of this sheet alone.
pub fn numbers(seed: u32, is_fixed: bool) -> String {
    let rest = if is_fixed {
        ", as the lesson has it."
    } else {
        ", for the paper only: the lesson itself gives everybody their own. The link on the sheet brings these numbers back."
    };
    format!("Numbers of seed {seed}{rest}")
}

/// Said where the browser opens no print window by itself.
pub const REFUSED: &str = "The browser did not open its print window. The sheet is ready: choose Print in the browser's own menu. Where this page stands inside another one, open the full page to print.";

/// Said while the style for printers is on its way.
pub const NOT_READY: &str = "A part of the page that printing needs has not arrived yet. Try again in a moment, with a working connection.";

/// A lesson without a title.
const UNTITLED: &str = "Buffer solutions";

const QUESTIONS: &str = "Questions";

const FILL_IN: [&str; 4] = ["Name", "Class", "Date", "Marks"];

/// Describes the code.
pub const CODE: &str = "The same questions on a screen, as a code for a phone's camera";

const ON_A_SCREEN: &str = "The same questions on a screen:";

const TICK_ONE: &str = " Tick one.";

const ROOM: &str = "Room to work";

const WITH_UNIT: &str = "with unit";

/// The title of a lesson as markup.
fn title(sheet: &Sheet) -> String {
    let text = match sheet.lesson.title.as_str() {
        "" => UNTITLED,
        title => title,
    };
    ["<h1>", &own_words(text), "</h1>"].concat()
}

/// "Questions · seed 417"
fn foot(what: &str, seed: u32) -> String {
    format!("{what} · seed {seed}")
}

/// "seed 417 · 4 marks", so that loose pages tell too where they belong.
fn seeded_marks(seed: u32, count: usize) -> String {
    ["seed ", &seed.to_string(), " · ", &marks(count)].concat()
}

/// "1 mark", "4 marks"
fn marks(count: usize) -> String {
    match count {
        1 => "1 mark".to_owned(),
        count => format!("{count} marks"),
    }
}

/// The sheet of questions.
pub fn questions(sheet: &Sheet, opens: Option<&Opens>, writer: Writer) -> Printed {
    let foot = foot(QUESTIONS, sheet.seed);
    let mut head = [
        "<header><div><p class=\"what\">",
        &foot,
        "</p>",
        &title(sheet),
    ]
    .concat();
    head.push_str("<p class=\"fill\">");
    for name in FILL_IN {
        head.extend(["<span>", name, "</span><i></i>"]);
    }
    let all = sheet.all_marks().to_string();
    head.extend(["<span>of ", &all, "</span></p>"]);
    if !sheet.lesson.prompts.is_empty() {
        head.push_str("<ol class=\"prompts\">");
        for prompt in &sheet.lesson.prompts {
            head.extend(["<li>", &own_words(prompt), "</li>"]);
        }
        head.push_str("</ol>");
    }
    head.push_str("</div>");
    if let Some(opens) = opens {
        let code = opens.code.as_deref().unwrap_or_default();
        head.extend(["<div class=\"code\">", code, "</div>"]);
        head.extend(["<p class=\"address\">", ON_A_SCREEN, " "]);
        head.extend([escaped(&opens.address).as_str(), "</p>"]);
    }
    head.push_str("</header>");
    let numbered = (1..).zip(&sheet.questions);
    let body = numbered.map(|(number, question)| to_answer((number, question), sheet.seed, writer));
    Printed {
        head,
        body: body.collect(),
        foot,
    }
}

/// One question with what there is to fill in.
fn to_answer((number, question): (usize, &Question), seed: u32, writer: Writer) -> String {
    let problem = &question.problem;
    let number = number.to_string();
    let marks = seeded_marks(seed, Sheet::marks(question));
    let mut out = [
        "<section class=\"question\"><h2><b>",
        &number,
        "</b> <span>",
        &marks,
    ]
    .concat();
    out.extend(["</span></h2>", &told(question, writer)]);
    // In a worked answer the solution itself has it.
    if is_recipe(problem.form) {
        out.extend(["<p class=\"caution\">", SAFETY_SHORT, "</p>"]);
    }
    let first = match problem.form {
        Form::ChooseAcid => kinds::WHICH_SUITS,
        _ => kinds::WHAT_IS_IT,
    };
    out.extend([
        "<p class=\"first\">",
        first,
        TICK_ONE,
        "</p><ul class=\"ticks\">",
    ]);
    for kind in offered(question) {
        out.extend(["<li><i></i>", &html(&kinds::named(kind, question)), "</li>"]);
    }
    out.push_str("</ul><div class=\"work\"><div class=\"lines\">");
    for symbol in problem.asked() {
        let line = asked::line(problem, symbol);
        let unit = if line.unit_wanted {
            WITH_UNIT
        } else {
            line.unit
        };
        let (symbol, words) = (html(&line.symbol), html(&line.words));
        out.extend([
            "<p><b>",
            &symbol,
            " <span>",
            &words,
            "</span></b><i></i><em>",
        ]);
        out.extend([&html(unit), "</em></p>"]);
    }
    out.extend(["</div><p class=\"room\">", ROOM, "</p></div></section>"]);
    out
}

/// Units that stay on a line with their number.
const UNITS: [&str; 5] = ["mol", "mmol", "cm³", "dm³", "g"];

/// `text` with no line end between a number and its unit.
fn together(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for (place, c) in text.char_indices() {
        let stays = c == ' '
            && out.ends_with(char::is_numeric)
            && UNITS.iter().any(|unit| text[place + 1..].starts_with(unit));
        out.push(if stays { '\u{a0}' } else { c });
    }
    out
}

/// What a question says.
fn told(question: &Question, writer: Writer) -> String {
    let wording = wording(question, writer);
    let mut out = String::new();
    for text in [&wording.situation, &wording.task] {
        out.extend(["<p>", &html(&together(text)), "</p>"]);
    }
    if !wording.constants.is_empty() {
        let constants = html(&together(&wording.constants.join("; ")));
        out.extend(["<p class=\"data\">", DATA, ": ", &constants, "</p>"]);
    }
    out
}
