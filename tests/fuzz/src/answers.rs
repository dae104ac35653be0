//! Answers: the first line is the link of a lesson, which says what is asked and how it is marked;
//! each line after it is something that a learner does.

use evenkeel::app::practice::{Practice, PracticeAction as Did, practise};
use evenkeel::app::state::State;
use evenkeel::app::task::{Filled, Stage};
use evenkeel::app::words::{asked, summary, task as parts};
use evenkeel::lesson::explain::TOPICS;
use evenkeel::lesson::sig_fig::Writer;
use evenkeel::lesson::sums::entry::{Entry, read_line};
use evenkeel::lesson::sums::kind::offered;
use evenkeel::lesson::sums::mark::{Tolerance, Verdict, allowed};

use crate::links::opened;
use crate::{parts as split, sound};

/// Most things that one learner does.
const MOST: usize = 24;

/// What a line says: `0:4.76` types, `1=` types what is right, `!` hands in, `+` goes on, `?` asks
/// for a step, `??` for the layout, `k` says what the mixture is and `k2` that it is the third
/// choice, `e3` opens an explanation, `c12` chooses its second clause's third choice, `e` hands it in.
fn did(practice: &Practice, line: &str, writer: Writer) -> Option<Did> {
    let digit = |at: usize| {
        line.as_bytes()
            .get(at)
            .map(|b| usize::from(b.wrapping_sub(b'0')))
    };
    let task = practice.task.as_ref();
    Some(match line {
        "!" => Did::Checked,
        "+" => Did::NextAsked,
        "?" => Did::StepAsked,
        "??" => Did::LayoutAsked,
        "k" => Did::Sorted(task?.kind()),
        "e" => Did::ExplanationChecked,
        "ee" => Did::ExplanationShown,
        _ if line.starts_with('k') => Did::Sorted(*offered(&task?.question).get(digit(1)?)?),
        _ if line.starts_with('e') => Did::ExplanationOpened {
            topic: *TOPICS.get(digit(1)?)?,
            seed: 5,
        },
        _ if line.starts_with('c') => Did::ClauseChosen {
            slot: digit(1)?,
            choice: u8::try_from(digit(2)?).ok()?,
        },
        _ => {
            let place = digit(0)?;
            let text = match line.as_bytes().get(1)? {
                b':' => line[2..].to_owned(),
                b'=' => right(practice, place, writer)?,
                _ => return None,
            };
            Did::Typed { place, text }
        }
    })
}

/// The right answer of a line, with its unit, as the page writes it.
fn right(practice: &Practice, place: usize, writer: Writer) -> Option<String> {
    let task = practice.task.as_ref()?;
    let symbol = task.lines.get(place)?.symbol;
    let value = task.right(symbol)?;
    Some(evenkeel::app::words::slip::written(symbol, value, writer))
}

/// Marking, line by line: a number within the tolerance is right and no slip, one that is far
/// enough off by itself is not right, and what cannot be read costs nothing.
fn marked(practice: &Practice) {
    let Some(task) = &practice.task else { return };
    let problem = &task.question.problem;
    let exact = Tolerance {
        ph_rounded: task.manner.tolerance.ph,
        ..task.manner.tolerance
    };
    for line in task.lines.iter().filter(|l| l.filled == Filled::ByLearner) {
        let Some(marked) = &line.marked else { continue };
        let (verdict, right) = (&marked.verdict, task.right(line.symbol));
        if let (Entry::Number(value), Some(right)) = (marked.entry, right) {
            let band = allowed(problem, line.symbol, right, exact);
            let off = (value - right).abs();
            if off <= 0.999_999 * band {
                assert_eq!(*verdict, Verdict::Right, "{value} for {right}");
            }
            if off > 1.000_001 * band {
                assert_ne!(*verdict, Verdict::Right, "{value} for {right}");
            }
        }
        if !matches!(marked.entry, Entry::Number(_)) {
            assert!(!verdict.earns(), "{marked:?} earns a mark");
        }
        match read_line(problem, line.symbol, &line.text) {
            Entry::Number(_) | Entry::Bare(_) => {
                assert!(matches!(marked.entry, Entry::Number(_)));
            }
            other => assert_eq!(marked.entry, other, "read another way"),
        }
    }
}

fn said(practice: &Practice, writer: Writer) {
    for text in [
        parts::heading(practice),
        parts::question(practice, writer),
        parts::status(practice),
        parts::solution(practice, writer),
    ] {
        sound::markup(&text);
    }
    sound::elements(&summary::questions(practice, writer));
    let Some(task) = &practice.task else { return };
    assert!(!parts::question(practice, writer).is_empty());
    for (place, line) in task.lines.iter().enumerate() {
        let label = asked::line(&task.question.problem, line.symbol);
        sound::words(&[&label.symbol, " ", &label.words].concat());
        // What a learner typed is theirs; the words around it are ours.
        sound::elements(&parts::line_shown(practice, place, writer));
        sound::markup(&parts::line_name(practice, place));
        sound::markup(&parts::line_formula(practice, place, writer));
        let says = parts::line_says(practice, place, writer);
        sound::markup(&says);
        let earns = line.marked.as_ref().is_some_and(|m| m.verdict.earns());
        if earns && line.filled == Filled::ByLearner {
            assert!(
                !says.contains("what you get if"),
                "right, and a slip: {says}"
            );
            assert!(!parts::is_wrong(practice, place) && parts::is_earned(practice, place));
        }
    }
}

/// A learner at the questions of a lesson.
pub fn check(text: &str) {
    let (query, fragment, lines) = split(text);
    let state: State = opened(query, fragment);
    let writer = state.writer();
    let mut practice = practise(&state.desk.practice, Did::Began { seed: 1 });
    said(&practice, writer);
    for line in lines.take(MOST) {
        let Some(action) = did(&practice, line, writer) else {
            continue;
        };
        let typed = match &action {
            Did::Typed { place, text } => Some((*place, text.clone())),
            _ => None,
        };
        let handed_in = action == Did::Checked;
        let before = practice;
        practice = practise(&before, action);
        if let (Some((place, text)), Some(task), Some(was)) = (typed, &practice.task, &before.task)
            && was.end.is_none()
            && let Some(line) = task.lines.get(place)
        {
            assert_eq!(line.text, text, "what was typed is changed");
        }
        if handed_in
            && before
                .task
                .as_ref()
                .is_some_and(|t| t.stage() == Stage::Lines)
        {
            marked(&practice);
        }
        practice.task.iter().for_each(sound::task);
        said(&practice, writer);
        if let Some(report) = practice.report() {
            assert!(
                report
                    .score
                    .is_none_or(|score| (0.0..=100.0).contains(&score))
            );
        }
        if let Some(built) = &practice.explanation {
            assert!(built.marks() <= built.picks.len());
        }
        if let Some(recipe) = practice.recipe() {
            assert!(recipe.read().is_ok(), "a mixture that no bench can hold");
        }
    }
}
