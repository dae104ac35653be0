//! A question being worked on, as pieces of markup for its panel.

use std::sync::Arc;

use crate::app::plan::Feedback;
use crate::app::practice::Practice;
use crate::app::task::{End, Filled, Stage, Task};
use crate::app::words::question::{DATA, question as wording};
use crate::app::words::slip::{feedback, written};
use crate::app::words::worked_line::worked_line;
use crate::app::words::working::solution_html;
use crate::app::words::{asked, kind as kinds, practice as words};
use crate::lesson::markup::{html, own_words};
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::entry::{Entry, unit_wanted};
use crate::lesson::sums::form::Form;
use crate::lesson::sums::kind::{Kind, kind, offered};
use crate::lesson::sums::mark::{Marked, Verdict};
use crate::lesson::sums::question::Question;

/// Which question it is: "Question 3 · Work out pH from two concentrations".
pub fn heading(practice: &Practice) -> String {
    let form = practice.task.as_ref().map(|t| t.question.problem.form);
    if form.is_none() {
        return String::new();
    }
    let number = practice.number.to_string();
    let count = match practice.set.count {
        0 => String::new(),
        count => [" of ", &count.to_string()].concat(),
    };
    [
        "Question ",
        &number,
        &count,
        " · ",
        form.map_or("", words::form),
    ]
    .concat()
}

/// Whether the mixture is still to be told.
pub fn is_sorting(practice: &Practice) -> bool {
    practice
        .task
        .as_ref()
        .is_none_or(|t| t.stage() == Stage::Sorting)
}

/// The question: what there is, what is given, what is asked.
pub fn question(practice: &Practice, writer: Writer) -> String {
    let Some(task) = &practice.task else {
        return String::new();
    };
    let wording = wording(&task.question, writer);
    let mut out = String::new();
    for text in [&wording.situation, &wording.task] {
        out.extend(["<p>", &html(text), "</p>"]);
    }
    if !wording.constants.is_empty() {
        out.extend(["<p class=\"quiet\">", DATA, ": "]);
        out.push_str(&html(&wording.constants.join("; ")));
        out.push_str("</p>");
    }
    if let Some(caution) = wording.caution {
        out.extend(["<p class=\"quiet caution\">", &html(caution), "</p>"]);
    }
    out
}

/// What the mixture may be, as it is offered, and as markup.
pub fn choices(practice: &Practice) -> Vec<(Kind, String)> {
    let question = practice.task.as_ref().map(|task| &task.question);
    let named = |question: &Arc<Question>| {
        let kinds = offered(question).into_iter();
        kinds
            .map(|kind| (kind, html(&kinds::named(kind, question))))
            .collect()
    };
    question.map(named).unwrap_or_default()
}

/// Whether the mixture was last said to be this.
pub fn is_choice(practice: &Practice, kind: Kind) -> bool {
    practice
        .task
        .as_ref()
        .is_some_and(|task| task.choice == Some(kind))
}

/// What is asked about the mixture first.
pub fn first_question(practice: &Practice) -> &'static str {
    let form = practice.task.as_ref().map(|t| t.question.problem.form);
    match form {
        Some(Form::ChooseAcid) => kinds::WHICH_SUITS,
        _ => kinds::WHAT_IS_IT,
    }
}

/// Where the learner is, with what is said about the kind of mixture.
pub fn status(practice: &Practice) -> String {
    let Some(task) = &practice.task else {
        return String::new();
    };
    // Then the summary tells.
    if task.end == Some(End::HandedIn) && practice.set_is_over() {
        return String::new();
    }
    let stands = words::where_it_stands(task);
    let told = [
        kinds::IT_IS,
        &kinds::named(kind(&task.question), &task.question),
        ". ",
    ]
    .concat();
    let because = kinds::because(&task.question.problem);
    let about_kind = match (task.choice, task.stage()) {
        _ if task.manner.feedback == Feedback::AtTheEnd => String::new(),
        (Some(choice), Stage::Sorting) => kinds::would_need(choice, &task.question).to_owned(),
        // After the last try it is told what it is.
        (Some(choice), Stage::Lines) if choice != task.kind() => told + because,
        (_, Stage::Lines) if !task.is_tried() => because.to_owned(),
        _ => String::new(),
    };
    let marks = words::marks(task).unwrap_or_default();
    let parts = [about_kind.as_str(), stands, &marks];
    let said: Vec<_> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    html(&said.join(" "))
}

/// The worked solution, once the question is over.
pub fn solution(practice: &Practice, writer: Writer) -> String {
    match &practice.task {
        Some(task) if task.end.is_some_and(|end| end != End::HandedIn) => {
            solution_html(&task.question.problem, &task.solution, writer)
        }
        _ => String::new(),
    }
}

/// The name of a line with its unit, as markup.
pub fn line_name(practice: &Practice, place: usize) -> String {
    with_line(practice, place, |task, place| {
        let label = asked::line(&task.question.problem, task.lines[place].symbol);
        let unit = if label.unit.is_empty() || label.unit_wanted {
            String::new()
        } else {
            [" / ", label.unit].concat()
        };
        html(&[&label.symbol, unit.as_str(), ": ", &label.words].concat())
    })
}

/// How a line that is filled in already is worked out; just its value where that is all
/// there is to it.
pub fn line_shown(practice: &Practice, place: usize, writer: Writer) -> String {
    with_line(practice, place, |task, place| {
        if is_open(practice, place) {
            return String::new();
        }
        // Handed in: what stands there, and not yet what is right.
        let line = &task.lines[place];
        if task.end == Some(End::HandedIn) && line.filled == Filled::ByLearner {
            return own_words(&line.text);
        }
        let symbol = line.symbol;
        let worked = worked_line(&task.question.problem, &task.solution, symbol, true, writer);
        match task.right(symbol) {
            Some(value) if worked.is_empty() => html(&written(symbol, value, writer)),
            _ => worked,
        }
    })
}

/// The formula of a line that is open, where the level shows it.
pub fn line_formula(practice: &Practice, place: usize, writer: Writer) -> String {
    with_line(practice, place, |task, place| {
        if !task.shows_formulas() || !is_open(practice, place) {
            return String::new();
        }
        let symbol = task.lines[place].symbol;
        worked_line(
            &task.question.problem,
            &task.solution,
            symbol,
            false,
            writer,
        )
    })
}

/// What stands in a line, as typed.
pub fn line_text(practice: &Practice, place: usize) -> String {
    with_line(practice, place, |task, place| {
        task.lines[place].text.clone()
    })
}

/// What is said about a line, as markup.
pub fn line_says(practice: &Practice, place: usize, writer: Writer) -> String {
    with_line(practice, place, |task, place| {
        let line = &task.lines[place];
        if line.filled == Filled::AsHelp {
            return SHOWN.to_owned();
        }
        let Some(marked) = &line.marked else {
            return String::new();
        };
        let at_end = task.manner.feedback == Feedback::AtTheEnd;
        if at_end && !matches!(marked.verdict, Verdict::NotMarked(_)) {
            return String::new();
        }
        let said = feedback(&task.question.problem, line.symbol, marked, writer);
        let tick = if marked.verdict.earns() { EARNS } else { "" };
        html(&[tick, &said.says, " ", said.asks].concat())
    })
}

/// In front of what is said about a line that has its mark.
const EARNS: &str = "✓ ";

/// Said about a line that was shown.
const SHOWN: &str = "This line was shown.";

/// Whether what is said about a line is no complaint.
pub fn is_earned(practice: &Practice, place: usize) -> bool {
    let task = practice.task.as_ref();
    let line = task.and_then(|task| task.lines.get(place));
    line.is_some_and(|line| {
        let earns = |marked: &Marked| marked.verdict.earns();
        line.filled == Filled::AsHelp || line.marked.as_ref().is_some_and(earns)
    })
}

/// Whether the unit has to be typed in a line.
pub fn has_unit(practice: &Practice, place: usize) -> bool {
    practice.task.as_ref().is_some_and(|task| {
        let line = task.lines.get(place);
        line.is_some_and(|line| unit_wanted(&task.question.problem, line.symbol))
    })
}

/// Whether a line is there to be typed in.
pub fn is_open(practice: &Practice, place: usize) -> bool {
    practice.task.as_ref().is_some_and(|task| {
        let line = task.lines.get(place);
        task.end.is_none() && line.is_some_and(|line| line.filled == Filled::ByLearner)
    })
}

/// Whether something stands in a line, was handed in, and has no mark.
pub fn is_wrong(practice: &Practice, place: usize) -> bool {
    let line = practice
        .task
        .as_ref()
        .and_then(|task| task.lines.get(place));
    let at_end = practice.manner.feedback == Feedback::AtTheEnd;
    let said = |marked: &&Marked| !at_end || matches!(marked.verdict, Verdict::NotMarked(_));
    let marked = line.and_then(|line| line.marked.as_ref()).filter(said);
    marked.is_some_and(|marked| marked.entry != Entry::Blank && !marked.verdict.earns())
}

fn with_line(
    practice: &Practice,
    place: usize,
    write: impl FnOnce(&Task, usize) -> String,
) -> String {
    match &practice.task {
        Some(task) if place < task.lines.len() => write(task, place),
        _ => String::new(),
    }
}
