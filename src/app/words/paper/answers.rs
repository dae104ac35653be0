//! The answers to a sheet, for whoever marks it: worked, with mark points, and the wrong numbers
//! that usual slips lead to.

use super::{Printed, foot, seeded_marks, title, told};
use crate::app::paper::Sheet;
use crate::app::paper::wrong::{Cause, accepted, wrong_numbers};
use crate::app::words::practice::form;
use crate::app::words::slip::{words, written};
use crate::app::words::working::solution_laid_out;
use crate::app::words::{asked, kind as kinds};
use crate::lesson::markup::html;
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::kind::kind;
use crate::lesson::sums::mark::Tolerance;
use crate::lesson::sums::question::Question;
use crate::lesson::sums::solution::Solution;
use crate::lesson::sums::symbol::{Symbol, Unit};

const ANSWERS: &str = "Answers, for the teacher";

const HOW: &str = "How it is marked";

const RULES: [&str; 4] = [
    "One mark for each line. Telling what the mixture is has none of its own.",
    "A right answer has the marks of the lines on the way to it, also where these are left out, unless its question says otherwise.",
    "A line that is right from a wrong number above has its mark, unless it is a number that cannot be: an amount that is not above 0, a pH outside 0 to 14.",
    "A number that a usual slip leads to has no mark, however close it is.",
];

const OWN_SAKE: &str = "Each of these lines is asked for its own sake: a right last line does not stand for the others.";

const POINTS: [&str; 3] = ["One mark each", "Right", "Has its mark"];

const TO: &str = " to ";

const OR: &str = ", or ";

const FROM_ROUNDING: &str = " from a ratio rounded on the way";

const WRONG: &str = "Likely wrong numbers";

const WRONG_ABOUT: &str = "What the usual slips come to, by the answer they end in. Two slips can lead to one number, so it tells what leads there, never what somebody did. A dash: the slip shows in a line above, and by no number of its own in the answer. The last column is for tallying a class.";

const SHOWS_FIRST: &str = "shows first in";

const IF: &str = "… is what you get if";

const TALLY: &str = "tally";

/// Worked answers and mark points, then the wrong numbers from a page of their own.
pub fn answers(sheet: &Sheet, writer: Writer) -> Printed {
    let foot = foot(ANSWERS, sheet.seed);
    let head = [
        "<header><div><p class=\"what\">",
        &foot,
        "</p>",
        &title(sheet),
        "</div></header>",
    ];
    let tolerance = sheet.lesson.tolerance.tolerance();
    let mut body = ["<div class=\"rules\"><h2>", HOW, "</h2><ul>"].concat();
    for rule in RULES
        .map(str::to_owned)
        .iter()
        .chain([&within(tolerance, writer)])
    {
        body.extend(["<li>", &html(rule), "</li>"]);
    }
    body.push_str("</ul></div>");
    for (number, question) in (1..).zip(&sheet.questions) {
        body.push_str(&answer((number, question), sheet, writer));
    }
    body.extend([
        "<div class=\"wrongs\"><header><div><p class=\"what\">",
        &foot,
        "</p><h1>",
    ]);
    body.extend([WRONG, "</h1><p>", WRONG_ABOUT, "</p></div></header>"]);
    for (number, question) in (1..).zip(&sheet.questions) {
        body.push_str(&wrong(number, question, tolerance, writer));
    }
    body.push_str("</div>");
    Printed {
        head: head.concat(),
        body,
        foot,
    }
}

/// How close is close enough.
fn within(tolerance: Tolerance, writer: Writer) -> String {
    let percent = |times: f64| writer.significant(100.0 * tolerance.relative * times, 1);
    let ph = |off: f64| writer.fixed(off, 2);
    format!(
        "A pH has its mark within {} of the unrounded value, and up to {} with a note that rounding on the way moves the last digit. Any other number has it within {} %, or rounded to the figures asked for, and up to {} % with that note.",
        ph(tolerance.ph),
        ph(tolerance.ph_rounded),
        percent(1.0),
        percent(tolerance.early()),
    )
}

/// "2 · Work out pH from two volumes mixed", with something at the end of the line.
fn heading(number: usize, problem: &Problem, end: &str) -> String {
    let number = number.to_string();
    let form = html(form(problem.form));
    let form = [&number, " · ", &form].concat();
    ["<h2><b>", &form, "</b> <span>", end, "</span></h2>"].concat()
}

fn answer((number, question): (usize, &Question), sheet: &Sheet, writer: Writer) -> String {
    let problem = &question.problem;
    let tolerance = sheet.lesson.tolerance.tolerance();
    let marks = seeded_marks(sheet.seed, Sheet::marks(question));
    let mut out = String::from("<section class=\"answer\">");
    out.push_str(&heading(number, problem, &marks));
    out.extend(["<div class=\"told\">", &told(question, writer), "</div><p>"]);
    let is = [kinds::IT_IS, &kinds::named(kind(question), question), ". "].concat();
    out.extend([
        "<b>",
        &html(&is),
        "</b>",
        &html(kinds::because(problem)),
        "</p>",
    ]);
    let solution = Solution::of_question(question);
    out.extend([
        "<div class=\"worked\">",
        &solution_laid_out(problem, &solution, writer),
    ]);
    out.extend(["</div>", &points(problem, tolerance, writer)]);
    if !problem
        .asked()
        .iter()
        .all(|symbol| problem.is_step(*symbol))
    {
        out.extend(["<p>", OWN_SAKE, "</p>"]);
    }
    out.push_str("</section>");
    out
}

/// A mark for each line: what is right, and how far it may be off.
fn points(problem: &Problem, tolerance: Tolerance, writer: Writer) -> String {
    let mut out = String::from("<table class=\"points\"><thead><tr>");
    for head in POINTS {
        out.extend(["<th scope=\"col\">", head, "</th>"]);
    }
    out.push_str("</tr></thead><tbody>");
    let right = problem.sheet.right();
    for symbol in problem.asked() {
        let Some(value) = right.get(symbol) else {
            continue;
        };
        let line = asked::line(problem, symbol);
        let name = match line.words.as_str() {
            "" => line.symbol.clone(),
            words => [&line.symbol, ", ", words].concat(),
        };
        let accepted = accepted(problem, symbol, value, tolerance);
        let number = |value| html(&number(symbol, value, writer));
        let right = right_number(problem, symbol, value, writer);
        out.extend([
            "<tr><th scope=\"row\">",
            &html(&name),
            "</th><td>",
            &html(&right),
        ]);
        let (low, high) = (number(accepted.low), number(accepted.high));
        out.extend(["</td><td>", &low, TO, &high]);
        if let Some(rounded) = accepted.rounded {
            out.extend([OR, &number(rounded), FROM_ROUNDING]);
        }
        out.push_str("</td></tr>");
    }
    out.push_str("</tbody></table>");
    out
}

/// The right value of a line: the answer to the figures that are asked for.
fn right_number(problem: &Problem, symbol: Symbol, value: f64, writer: Writer) -> String {
    let unit = symbol.unit();
    let figures = problem.sheet.find(symbol).map_or(3, |line| line.figures);
    if symbol != problem.answer() || unit == Unit::Scale {
        return written(symbol, value, writer);
    }
    let number = writer.significant(value * unit.per_kept(), figures);
    let text = [&number, " ", unit.symbol()].concat();
    text.trim_end().to_owned()
}

/// A value of a line without its unit.
fn number(symbol: Symbol, value: f64, writer: Writer) -> String {
    let text = written(symbol, value, writer);
    let number = text.trim_end_matches(symbol.unit().symbol());
    number.trim_end().to_owned()
}

/// The wrong numbers of a question.
fn wrong(number_of_it: usize, question: &Question, tolerance: Tolerance, writer: Writer) -> String {
    let problem = &question.problem;
    let answer = problem.answer();
    let name = html(&asked::line(problem, answer).symbol);
    let right = problem.sheet.right().get(answer);
    let right = right.map_or(String::new(), |value| {
        html(&right_number(problem, answer, value, writer))
    });
    let right = ["right: ", &name, " = ", &right].concat();
    let mut out = String::from("<section class=\"wrong\">");
    out.push_str(&heading(number_of_it, problem, &right));
    let unit = html(answer.unit().symbol());
    let slash = if unit.is_empty() { "" } else { " / " };
    out.extend([
        "<table><thead><tr><th scope=\"col\">",
        &name,
        slash,
        &unit,
        "</th>",
    ]);
    for head in [SHOWS_FIRST, IF, TALLY] {
        out.extend(["<th scope=\"col\">", head, "</th>"]);
    }
    out.push_str("</tr></thead>");
    for wrong in wrong_numbers(problem, tolerance) {
        out.push_str("<tbody>");
        for (place, cause) in wrong.causes.iter().enumerate() {
            out.push_str("<tr>");
            if place == 0 {
                let rows = wrong.causes.len().to_string();
                let answer = wrong.answer.map_or("–".to_owned(), |value| {
                    html(&number(answer, value, writer))
                });
                out.extend([
                    "<th scope=\"rowgroup\" rowspan=\"",
                    &rows,
                    "\">",
                    &answer,
                    "</th>",
                ]);
            }
            out.extend(["<td>", &first(problem, cause, writer), "</td><td>"]);
            out.extend([&html(words(cause.slip).0), "</td><td></td></tr>"]);
        }
        out.push_str("</tbody>");
    }
    out.push_str("</table></section>");
    out
}

/// The lines that a slip shows in first, with their numbers.
fn first(problem: &Problem, cause: &Cause, writer: Writer) -> String {
    let firsts = cause.first.iter().map(|(symbol, value)| {
        let line = asked::line(problem, *symbol);
        html(&[&line.symbol, " = ", &written(*symbol, *value, writer)].concat())
    });
    firsts.collect::<Vec<_>>().join(OR)
}
