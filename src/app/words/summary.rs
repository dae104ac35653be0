//! The questions of a lesson once all are done.

use crate::app::carried::marks;
use crate::app::practice::Practice;
use crate::app::task::{Filled, Task};
use crate::app::words::asked;
use crate::app::words::kind::{IT_IS, named};
use crate::app::words::practice::form;
use crate::app::words::slip::{feedback, written};
use crate::app::words::working::solution_html;
use crate::lesson::markup::{html, own_words};
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::entry::Entry;
use crate::lesson::sums::mark::Verdict;

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
        out.extend(["<li>", &html(&mixture(task)), "</li>"]);
        let verdict = task.lines.last().and_then(|line| line.marked.as_ref());
        let answered = verdict.is_some_and(|marked| marked.verdict.earns_steps());
        for line in &task.lines {
            if line.filled == Filled::FromTheStart {
                continue;
            }
            let name = asked::line(problem, line.symbol).symbol;
            out.extend(["<li>", &html(&name), ": "]);
            let mut is_right = false;
            match &line.marked {
                Some(marked) if marked.entry != Entry::Blank => {
                    is_right = marked.verdict == Verdict::Right;
                    let said = feedback(problem, line.symbol, marked, writer);
                    out.extend([&own_words(&line.text), ". "]);
                    out.push_str(&html(&[&said.says, " ", said.asks].concat()));
                }
                _ if answered && problem.is_step(line.symbol) => out.push_str(LEFT_OUT),
                _ => out.push_str(NOTHING),
            }
            if is_right {
                out.push_str("</li>");
            } else if let Some(right) = task.right(line.symbol) {
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

/// What the mixture was said to be, and what it is.
fn mixture(task: &Task) -> String {
    let question = &task.question;
    let is = named(task.kind(), question);
    match task.choice {
        Some(choice) if choice == task.kind() => ["You said: ", &is, ". Right."].concat(),
        Some(choice) => {
            let said = named(choice, question);
            ["You said: ", &said, ". ", IT_IS, &is, "."].concat()
        }
        None => [IT_IS, &is, "."].concat(),
    }
}

const NOTHING: &str = "nothing.";

const LEFT_OUT: &str = "left out, and it has its mark all the same, for the answer is right.";

const RIGHT_IS: &str = "Right is ";
