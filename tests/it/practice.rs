//! Practice as somebody goes through it; here its questions and what is said of them, in words.
//! No source: how this page behaves.

mod on_bench;
mod progress;
mod tries;
mod units;

use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::progress::{Level, Standing, objectives, row};
use evenkeel::app::task::{Filled, Task};
use evenkeel::app::words::asked::line;
use evenkeel::app::words::kind::{because, named};
use evenkeel::app::words::question as words;
use evenkeel::app::words::slip::{feedback, written};
use evenkeel::lesson::sums::entry::Entry;
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::kind::{Kind, kind, offered};
use evenkeel::lesson::sums::mark::{Marked, Verdict};
use evenkeel::lesson::sums::question::{question, shows};
use evenkeel::lesson::sums::slip::ways;
use evenkeel::lesson::sums::symbol::Symbol;

use crate::writers::POINT;

fn after(practice: &Practice, actions: impl IntoIterator<Item = PracticeAction>) -> Practice {
    let step = |p: Practice, action| practise(&p, action);
    actions.into_iter().fold(practice.clone(), step)
}

fn open(form: Form, level: Level, seed: u64) -> Practice {
    let practice = practise(
        &Practice::default(),
        PracticeAction::QuestionOpened { form, level, seed },
    );
    let kind = task(&practice).kind();
    practise(&practice, PracticeAction::Sorted(kind))
}

fn task(practice: &Practice) -> &Task {
    practice.task.as_ref().unwrap()
}

fn typed(place: usize, text: &str) -> PracticeAction {
    PracticeAction::Typed {
        place,
        text: text.to_owned(),
    }
}

/// The right answers as somebody would type them.
fn right_answers(task: &Task) -> Vec<PracticeAction> {
    let text = |symbol| written(symbol, task.right(symbol).unwrap(), POINT);
    let own = task
        .lines
        .iter()
        .enumerate()
        .filter(|(_, l)| l.filled == Filled::ByLearner);
    own.map(|(place, l)| typed(place, &text(l.symbol)))
        .collect()
}

/// Where an acid is to be chosen, that comes first, and two wrong choices are told the answer.
#[test]
fn the_acid_is_chosen_first() {
    let mut firsts = [0, 0];
    for seed in 0..40 {
        let question = question(Form::ChooseAcid, seed);
        let offered = offered(&question);
        assert_eq!(offered.len(), 2);
        firsts[usize::from(offered[0] == Kind::Suits)] += 1;
        for kind in &offered {
            let name = named(*kind, &question);
            assert!(name.ends_with("acid"), "{name}");
            let constants = words::question(&question, POINT).constants.join("; ");
            assert!(
                constants.contains(&name.to_lowercase()),
                "{name}: {constants}"
            );
        }
        let (_, other) = question.other.unwrap();
        let pka = |ka: f64| -libm::log10(ka);
        let right = question.problem.sheet.right();
        let wanted = right.get(Symbol::GivenPh).unwrap();
        let own = right.get(Symbol::Ka).unwrap();
        assert!((pka(own) - wanted).abs() < (pka(other.value) - wanted).abs());
    }
    assert!(firsts.iter().all(|n| *n > 5), "{firsts:?}");
}

#[test]
fn questions_read_well() {
    let mut text = String::new();
    for form in FORMS {
        for seed in [1, 2, 3] {
            let question = question(form, seed);
            let wording = words::question(&question, POINT);
            text += &format!(
                "── {form:?} {seed}\n{}\n{}\n",
                wording.situation, wording.task
            );
            text += &format!("  {}\n", wording.constants.join("; "));
            text += &format!("  {}\n", wording.caution.unwrap_or("(no caution)"));
            let problem = &question.problem;
            text += &format!(
                "  {}: {}\n",
                named(kind(&question), &question),
                because(problem)
            );
            for symbol in problem.asked() {
                let label = line(problem, symbol);
                let wanted = if label.unit_wanted { " (typed)" } else { "" };
                let value = problem.sheet.right().get(symbol).unwrap();
                text += &format!(
                    "  {} | {} / {}{wanted} = {}\n",
                    label.symbol,
                    label.words,
                    label.unit,
                    written(symbol, value, POINT)
                );
            }
        }
    }
    insta::assert_snapshot!(text);
}

/// Every datum that a line is worked out from stands in the question.
#[test]
fn every_datum_is_printed() {
    use evenkeel::lesson::sums::sheet::Source;
    use evenkeel::lesson::sums::symbol::{Symbol, Unit};
    for form in FORMS {
        for seed in 0..60 {
            let question = question(form, seed);
            let wording = words::question(&question, POINT);
            let all = format!("{} {}", wording.situation, wording.constants.join(" "));
            for datum in question.problem.sheet.lines() {
                let Source::Given(value) = datum.source else {
                    continue;
                };
                let unit = datum.symbol.unit();
                let number = match unit {
                    Unit::Scale => POINT.fixed(value, 2),
                    Unit::One => POINT.fixed(value, 0),
                    _ => format!(
                        "{} {}",
                        POINT.significant(value * unit.per_kept(), datum.figures),
                        unit.symbol()
                    ),
                };
                assert!(all.contains(&number), "{form:?} {seed} {number}: {all}");
                // What is printed is what is marked.
                let exact = matches!(datum.symbol, Symbol::Ka | Symbol::Kb)
                    || (POINT
                        .significant(value, datum.figures.max(3))
                        .replace('−', "-"))
                    .parse::<f64>()
                    .is_ok_and(|printed| (printed - value).abs() < 1e-9 * value);
                assert!(exact, "{form:?} {seed} {:?} {value}", datum.symbol);
            }
        }
    }
}

/// What to do next, for somebody who has done nothing, a little, and everything.
#[test]
fn the_overview_says_what_comes_next() {
    use evenkeel::app::words::objective::{next, objective, standing};
    let start = Practice::default();
    let solve = |practice: &Practice, form| {
        let opened = open(form, Level::Whole, 1);
        let solved = practise(
            &after(&opened, right_answers(task(&opened))),
            PracticeAction::Checked,
        );
        let results = [practice.results.clone(), solved.results].concat();
        Practice {
            results,
            ..practice.clone()
        }
    };
    let little = solve(&start, Form::TwoVolumes);
    let secure = solve(&little, Form::TwoVolumes);
    let mut text = String::new();
    for (name, practice) in [("nothing", start), ("a little", little), ("more", secure)] {
        text += &format!("── {name}\n");
        let all = practice.results.is_empty();
        let rows = objectives().map(|objective| row(&practice.results, objective));
        for row in rows.filter(|row| all || row.standing != Standing::Untried) {
            let words = (objective(row.objective), standing(row.standing), next(&row));
            text += &format!("{}: {}. {}\n", words.0, words.1, words.2);
        }
    }
    insta::assert_snapshot!(text);
}

/// Every slip of every form has its words, and no sentence says what somebody did.
#[test]
fn wrong_numbers_are_met_with_where_they_come_from() {
    let mut text = String::new();
    for form in FORMS {
        let question = question(form, 5);
        for way in ways(&question.problem) {
            let verdict = Verdict::Slips(vec![way.slip]);
            let Some((answer, value)) = shows(&question.problem, &way) else {
                continue;
            };
            let entry = Entry::Number(value);
            let marked = Marked { entry, verdict };
            let said = feedback(&question.problem, answer, &marked, POINT);
            assert!(said.says.contains(" is what you get if "), "{said:?}");
            assert!(said.asks.ends_with('?'), "{said:?}");
            assert!(
                !said.says.contains("you did") && !said.says.contains("You "),
                "{said:?}"
            );
            text += &format!("{form:?} {:?}: {} {}\n", way.slip, said.says, said.asks);
        }
    }
    insta::assert_snapshot!(text);
}
