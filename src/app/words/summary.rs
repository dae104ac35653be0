//! The questions of a lesson once all are done.

use crate::app::carried::marks;
use crate::app::practice::Practice;
use crate::app::task::Filled;
use crate::app::words::asked;
use crate::app::words::practice::form;
use crate::app::words::slip::{feedback, written};
use crate::app::words::working::solution_html;
use crate::lesson::markup::{escaped, html};
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::entry::Entry;

/// How it went, in a sentence; empty while questions are left.
pub fn heading(practice: &Practice) -> String {
    if !practice.set_is_over() {
        return String::new();
    }
    let done = practice.carried.with(&practice.finished);
    format!(
        "All {} questions are done: {} right at the first try, {} of {} marks.",
        done.count, done.right, done.marks, done.most
    )
}

/// Question by question: the marks, what stood in each line and what is said of it, and the
/// layout. Markup, each closed until it is opened.
pub fn questions(practice: &Practice, writer: Writer) -> String {
    let mut out = String::new();
    if !practice.set_is_over() {
        return out;
    }
    for (place, task) in practice.finished.iter().enumerate() {
        let problem = &task.question.problem;
        let (own, most) = marks(task);
        let head = format!(
            "{} · {}: {own} of {most} marks",
            place + 1,
            form(problem.form)
        );
        out.extend([
            "<details class=\"finished\"><summary>",
            &html(&head),
            "</summary><ul>",
        ]);
        for line in &task.lines {
            if line.filled == Filled::FromTheStart {
                continue;
            }
            let name = asked::line(problem, line.symbol).symbol;
            out.extend(["<li>", &html(&name), ": "]);
            match &line.marked {
                Some(marked) if marked.entry != Entry::Blank => {
                    let said = feedback(problem, line.symbol, marked, writer);
                    out.extend([&escaped(&line.text), ". "]);
                    out.push_str(&html(&[&said.says, " ", said.asks].concat()));
                }
                _ => out.push_str(NOTHING),
            }
            if let Some(right) = task.right(line.symbol) {
                let right = written(line.symbol, right, writer);
                out.extend([" ", RIGHT_IS, &html(&right), "</li>"]);
            }
        }
        out.push_str("</ul>");
        let layout = solution_html(problem, &task.solution, writer);
        // Each layout's steps open by themselves, not across questions.
        let own = format!("name=\"working-{place}\"");
        out.push_str(&layout.replace("name=\"working\"", &own));
        out.push_str("</details>");
    }
    out
}

const NOTHING: &str = "nothing.";

const RIGHT_IS: &str = "Right is ";
