//! What holds of every state of the page.

use evenkeel::app::bench::FLASK;
use evenkeel::app::graph;
use evenkeel::app::host::{self, Message, Value};
use evenkeel::app::reading::Solved;
use evenkeel::app::shown::Shown;
use evenkeel::app::state::{HISTORY, State};
use evenkeel::app::task::{End, Filled, Task};
use evenkeel::app::words::addition::Voice;
use evenkeel::app::words::announcement::announcement;
use evenkeel::app::words::explanation::{curve_rows, explanation};
use evenkeel::app::words::working::{working_html, working_plain, working_spoken};
use evenkeel::app::words::{guide, recipe, reservoir};
use evenkeel::app::working::Working;
use evenkeel::lesson::sums::mark::{Marked, Verdict, score};

/// A sentence that has all its words: no number that is none, no slot that was left open.
pub fn words(text: &str) {
    for hole in ["NaN", "inf ", "∞", "$", "@", " ,", " .", "()", "“”", "×10 "] {
        assert!(!text.contains(hole), "“{hole}” in: {text}");
    }
}

/// Markup that is sound, with all its words.
pub fn markup(html: &str) {
    words(html);
    elements(html);
}

/// Markup whose elements are known and closed in their order.
pub fn elements(html: &str) {
    let mut open = Vec::new();
    for piece in html.split('<').skip(1) {
        let (tag, _) = piece
            .split_once('>')
            .unwrap_or_else(|| panic!("a lone < in: {html}"));
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "closed out of turn in: {html}");
        } else {
            let name = tag.split(' ').next().unwrap_or_default();
            let known = name.bytes().all(|b| b.is_ascii_alphanumeric());
            assert!(
                known && !name.is_empty() && name != "script",
                "<{tag}> in: {html}"
            );
            if !tag.ends_with('/') && !["input", "br", "img"].contains(&name) {
                open.push(name);
            }
        }
    }
    assert!(open.is_empty(), "{open:?} left open in: {html}");
}

/// Everything in a message can be told.
pub fn message(message: &Message) {
    for (name, value) in message {
        if let Value::Number(number) = value {
            assert!(number.is_finite(), "{name} is {number}");
            assert!(
                *number >= 0.0 || name.starts_with("pH"),
                "{name} is {number}"
            );
        }
    }
}

fn solved(solved: &Solved) {
    for ph in [solved.ph().value(), solved.water.value()] {
        assert!((-2.0..=16.0).contains(&ph), "pH {ph}");
    }
    let free = &solved.equilibrium;
    for amount in [
        solved.reserves.acid,
        solved.reserves.base,
        free.free_hydrogen(),
        free.free_hydroxide(),
    ] {
        assert!(
            amount.mol().is_finite() && amount.mol() >= 0.0,
            "{amount:?}"
        );
    }
    assert!(solved.volume().dm3() > 0.0 && solved.volume().dm3().is_finite());
}

/// The bench of `state`: it can be read and solved, nothing in it is lost, all of it can be said.
/// `before` is what was shown last.
pub fn bench(state: &State, before: Option<&Shown>) -> Shown {
    assert!(
        state.bench.has_room(0),
        "more than {FLASK} steps in the flask"
    );
    assert!(
        state.past.len() + state.future.len() <= HISTORY,
        "history without end"
    );
    let shown = Shown::of(state, before);
    let (reading, picture) = (&shown.reading, &shown.picture);
    let moments = [
        Some(&reading.start),
        reading.before.as_ref(),
        Some(&reading.now),
    ];
    for moment in moments.into_iter().flatten() {
        solved(moment);
        // Whatever was added, the pair's own atoms stay.
        let all = |solved: &Solved| -> f64 {
            let forms = solved.equilibrium.species().iter();
            forms.map(|form| form.amount.mol()).sum()
        };
        let (start, now) = (all(&reading.start), all(moment));
        assert!(
            (now - start).abs() <= 1e-9 * start,
            "{start} mol became {now}"
        );
    }
    assert!(reading.capacity.molar().is_finite() && reading.capacity.molar() >= 0.0);
    let tally = &picture.tally;
    assert_eq!(
        tally.particles(),
        picture.particles,
        "particles came or went"
    );
    assert_eq!(tally.acid() + tally.base(), picture.particles);
    assert!(
        tally.drawn() <= state.detail.most(),
        "{} drawn",
        tally.drawn()
    );
    if shown.chart_serial != before.map_or(u32::MAX, |b| b.chart_serial) {
        for (x, y) in shown.chart().series.iter().flat_map(|s| &s.points) {
            assert!(
                x.is_finite() && (-2.0..=16.0).contains(y),
                "a point at {x}, {y}"
            );
        }
        let rows = graph::table(reading, shown.range).expect("as the curve");
        markup(&curve_rows(&Voice::of(reading, state.writer()), &rows));
    }
    message(&host::bench(&state.bench, reading));
    said(state, &shown);
    shown
}

fn said(state: &State, shown: &Shown) {
    let writer = state.writer();
    let (reading, picture) = (&shown.reading, &shown.picture);
    let voice = Voice::of(reading, writer);
    markup(&explanation(&voice, reading));
    let working = Working::of(&state.bench, reading, state.plan.conventions.ph_by);
    markup(&working_html(&working, writer));
    words(&working_plain(&working, writer));
    words(&working_spoken(&working, writer));
    for text in [
        announcement(state, reading, None, writer),
        reservoir::legend(&voice, reading, picture),
        reservoir::free_ions(&voice, reading, picture),
        reservoir::description(&voice, reading, picture),
        recipe::described(&state.bench.recipe, writer),
        guide::to_do(state),
        guide::news(state, shown, writer),
    ] {
        words(&text);
    }
}

/// A question being worked on: marks are whole, none is both earned and explained away.
pub fn task(task: &Task) {
    let problem = &task.question.problem;
    let lines = task.lines.len();
    assert_eq!(lines, problem.asked().len());
    if let Some((own, most)) = task.first_marks() {
        let given = task
            .lines
            .iter()
            .filter(|l| l.filled == Filled::FromTheStart);
        assert!(
            own <= most && most == lines - given.count(),
            "{own} of {most} marks"
        );
    }
    assert!(task.most_marks() <= lines);
    let marked: Vec<Marked> = task.lines.iter().filter_map(|l| l.marked.clone()).collect();
    if marked.len() == lines {
        assert!(score(problem, &marked) <= lines);
    }
    if task.end == Some(End::Solved) {
        let open = |line: &&evenkeel::app::task::TaskLine| line.filled == Filled::ByLearner;
        for line in task.lines.iter().filter(open) {
            let Some(marked) = &line.marked else { continue };
            let left_out = !matches!(
                marked.entry,
                evenkeel::lesson::sums::entry::Entry::Number(_)
            );
            assert!(marked.verdict.earns() || left_out, "solved with {marked:?}");
        }
    }
    for line in &task.lines {
        let Some(marked) = &line.marked else { continue };
        match &marked.verdict {
            Verdict::Slips(slips) => assert!(!slips.is_empty(), "a slip that is none"),
            Verdict::TwoSlips(a, b) => assert_ne!(a, b),
            _ => {}
        }
    }
}
