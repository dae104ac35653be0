//! Practice as somebody goes through it: questions in words, tries, help, levels, progress.
//! No source: how this page behaves.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::on_bench::put_on_bench;
use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::progress::{
    Kept, Level, Objective, REMEMBERED, Standing, Subject, next_form, next_level, objectives, row,
    standing,
};
use evenkeel::app::state::State;
use evenkeel::app::task::{End, Filled, Stage, Task};
use evenkeel::app::words::asked::line;
use evenkeel::app::words::kind::{because, named};
use evenkeel::app::words::practice::where_it_stands;
use evenkeel::app::words::question as words;
use evenkeel::app::words::slip::{feedback, written};
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::explain::Topic;
use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::sig_fig::{DecimalMark, PhDecimals, Writer};
use evenkeel::lesson::sums::entry::{Entry, read_line, unit_wanted};
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::kind::{KINDS, Kind, kind, offered};
use evenkeel::lesson::sums::mark::{Marked, Tolerance, Verdict, mark};
use evenkeel::lesson::sums::question::{question, shows};
use evenkeel::lesson::sums::slip::ways;
use evenkeel::lesson::sums::symbol::{Symbol, Unit};

const POINT: Writer = Writer {
    mark: DecimalMark::Point,
    ph_decimals: PhDecimals::Two,
    ion: HydrogenIon::Bare,
};

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

/// Learners work in mol and dm³ where the line is in mmol or cm³: common practice, no source.
#[test]
fn a_bare_amount_in_mol_is_read_as_such() {
    for form in FORMS {
        for seed in 0..50 {
            let problem = question(form, seed).problem;
            let asked = problem.asked();
            for (place, symbol) in asked.iter().copied().enumerate() {
                let large = match symbol.unit() {
                    _ if unit_wanted(&problem, symbol) => continue,
                    Unit::Mmol => "mol",
                    Unit::Cm3 => "dm³",
                    _ => continue,
                };
                let right = problem.sheet.right().get(symbol).unwrap();
                let marked = |text: &str| {
                    let mut entries = vec![Entry::Blank; asked.len()];
                    entries[place] = read_line(&problem, symbol, text);
                    mark(&problem, &entries, Tolerance::default()).swap_remove(place)
                };
                let small = symbol.unit().symbol();
                for text in [
                    format!("{right}"),
                    format!("{right:e}"),
                    format!("{:.4}x10^-3", 1000.0 * right),
                    format!("{right} {large}"),
                    format!("{}", 1000.0 * right),
                    format!("{} {small}", 1000.0 * right),
                ] {
                    let line = marked(&text);
                    assert_eq!(line.verdict, Verdict::Right, "{form:?} {symbol:?} {text}");
                    let Entry::Number(value) = line.entry else {
                        panic!("{line:?}");
                    };
                    assert!((value / right - 1.0).abs() < 1e-3, "{text}: {value}");
                }
                // With its unit it is what it says.
                let said = marked(&format!("{right} {small}"));
                assert!(!said.verdict.earns(), "{form:?} {symbol:?} {said:?}");
            }
        }
    }
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

#[test]
fn the_mixture_comes_first_and_is_told_after_two_wrong_choices() {
    let opened = PracticeAction::QuestionOpened {
        form: Form::Exhausted,
        level: Level::Whole,
        seed: 3,
    };
    let practice = after(
        &Practice::default(),
        [opened, typed(0, "1"), PracticeAction::Checked],
    );
    assert_eq!(task(&practice).stage(), Stage::Sorting);
    assert_eq!(task(&practice).lines[0].marked, None);
    let wrong = || {
        KINDS
            .into_iter()
            .find(|k| *k != task(&practice).kind())
            .unwrap()
    };
    let practice = practise(&practice, PracticeAction::Sorted(wrong()));
    assert_eq!(task(&practice).stage(), Stage::Sorting);
    let practice = practise(&practice, PracticeAction::Sorted(Kind::OnlySalt));
    assert_eq!(task(&practice).stage(), Stage::Lines);
}

#[test]
fn right_answers_solve_every_form_at_every_level() {
    for form in FORMS {
        for level in [Level::WorkedExample, Level::MissingSteps, Level::Whole] {
            for seed in 0..20 {
                let practice = open(form, level, seed);
                let answers = right_answers(task(&practice));
                assert_eq!(answers.len(), task(&practice).most_marks());
                let practice = after(&practice, answers);
                let practice = practise(&practice, PracticeAction::Checked);
                let task = task(&practice);
                assert_eq!(
                    task.end,
                    Some(End::Solved),
                    "{form:?} {level:?} {seed} {:?}",
                    task.lines
                );
                assert_eq!(
                    task.first_marks(),
                    Some((task.most_marks(), task.most_marks()))
                );
                assert!(practice.results[0].clean && practice.results[0].sorted);
                // What comes after the end changes nothing.
                assert_eq!(practise(&practice, PracticeAction::Checked), practice);
                assert_eq!(practise(&practice, typed(0, "9")), practice);
            }
        }
    }
}

#[test]
fn one_retry_then_one_step_then_the_layout() {
    let practice = open(Form::AcidWithAlkali, Level::Whole, 4);
    let mut answers = right_answers(task(&practice));
    answers[2] = typed(2, "123");
    answers.pop();
    let wrong = after(&practice, answers.clone());
    let first = practise(&wrong, PracticeAction::Checked);
    assert_eq!((task(&first).wrong_tries, task(&first).end), (1, None));
    assert_eq!(task(&first).lines[2].filled, Filled::ByLearner);
    let second = practise(&first, PracticeAction::Checked);
    assert_eq!((task(&second).wrong_tries, task(&second).end), (2, None));
    assert_eq!(task(&second).lines[2].filled, Filled::AsHelp);
    // What was typed stays.
    assert_eq!(task(&second).lines[2].text, "123");
    let last = right_answers(task(&practice)).pop();
    let solved = after(&second, last.into_iter().chain([PracticeAction::Checked]));
    assert_eq!(task(&solved).end, Some(End::Solved));
    assert!(!solved.results[0].clean && solved.results[0].solved);
    assert_eq!(task(&solved).first_marks(), Some((5, 6)));
    let still_wrong = after(&second, [typed(3, "456"), PracticeAction::Checked]);
    assert_eq!(task(&still_wrong).end, Some(End::Shown));
    assert!(!still_wrong.results[0].solved);
}

/// Once the one wrong line is shown there is nothing left to do.
#[test]
fn showing_the_only_wrong_line_ends_the_question() {
    let practice = open(Form::AcidWithAlkali, Level::Whole, 4);
    let answers = right_answers(task(&practice)).into_iter();
    let wrong = [
        typed(2, "123"),
        PracticeAction::Checked,
        PracticeAction::Checked,
    ];
    let shown = after(&practice, answers.chain(wrong));
    assert_eq!(task(&shown).end, Some(End::Solved));
    assert!(shown.results[0].solved && !shown.results[0].clean);
    assert_eq!(
        where_it_stands(task(&shown)),
        "Right in the end, with help."
    );
}

/// Lines may be checked one by one: each has a first try of its own.
#[test]
fn checking_line_by_line_costs_nothing() {
    let practice = open(Form::AcidWithAlkali, Level::Whole, 4);
    let checked = |practice: Practice, line: PracticeAction| {
        let next = after(&practice, [line, PracticeAction::Checked]);
        assert_eq!(task(&next).wrong_tries, 0);
        next
    };
    let answers = right_answers(task(&practice)).into_iter();
    let solved = answers.fold(practice.clone(), checked);
    assert_eq!(task(&solved).end, Some(End::Solved));
    assert_eq!(task(&solved).first_marks(), Some((6, 6)));
    assert!(solved.results[0].clean);
    // A wrong first number beside one that cannot be read costs its own mark and no other.
    let mut answers = right_answers(task(&practice));
    let right = std::mem::replace(&mut answers[0], typed(0, "123"));
    let unread = std::mem::replace(&mut answers[1], typed(1, "lots"));
    let mended = [
        PracticeAction::Checked,
        right,
        unread,
        PracticeAction::Checked,
    ];
    let solved = after(&practice, answers.into_iter().chain(mended));
    assert_eq!(task(&solved).end, Some(End::Solved), "{:?}", task(&solved));
    assert_eq!(task(&solved).first_marks(), Some((5, 6)));
}

/// An answer that was wrong at first earns nothing for the lines that were left out, and no try
/// is no try.
#[test]
fn first_tries_are_what_was_handed_in() {
    let practice = open(Form::AcidWithAlkali, Level::Whole, 4);
    let right = right_answers(task(&practice)).pop().unwrap();
    let wrong = [
        typed(5, "1.11"),
        PracticeAction::Checked,
        right.clone(),
        PracticeAction::Checked,
    ];
    let solved = after(&practice, wrong);
    assert_eq!(task(&solved).end, Some(End::Solved));
    assert_eq!(task(&solved).first_marks(), Some((0, 6)));
    let at_once = after(&practice, [right, PracticeAction::Checked]);
    assert_eq!(task(&at_once).first_marks(), Some((6, 6)));
    for action in [PracticeAction::LayoutAsked, PracticeAction::StepAsked] {
        let shown = after(&practice, std::iter::repeat_n(action, 6));
        assert_eq!(task(&shown).end, Some(End::Shown));
        assert_eq!(task(&shown).first_marks(), None);
    }
}

/// A line that is shown changes what the lines below follow from.
#[test]
fn a_line_that_is_shown_marks_the_others_anew() {
    let practice = open(Form::AcidWithAlkali, Level::Whole, 4);
    let task_now = task(&practice);
    let ka = task_now.right(Symbol::Ka).unwrap();
    let right = |symbol| task_now.right(symbol).unwrap();
    let (start, base) = (right(Symbol::AcidStart), right(Symbol::Base));
    let hydrogen = ka * start / base;
    let mut answers = right_answers(task_now);
    answers[2] = typed(2, &written(Symbol::Acid, start, POINT));
    answers[4] = typed(4, &format!("{hydrogen:.2e}"));
    answers[5] = typed(5, &format!("{:.2}", -libm::log10(hydrogen)));
    let checked = after(
        &practice,
        answers.into_iter().chain([PracticeAction::Checked]),
    );
    let verdict = |practice: &Practice, place: usize| {
        let line = &task(practice).lines[place];
        line.marked.as_ref().map(|m| m.verdict.clone())
    };
    assert_eq!(verdict(&checked, 4), Some(Verdict::FollowsThrough));
    let shown = practise(&checked, PracticeAction::StepAsked);
    assert_eq!(task(&shown).lines[2].filled, Filled::AsHelp);
    // What followed from the wrong line is to be worked out anew, and nobody is blamed for it.
    assert_eq!(verdict(&shown, 4), None);
    assert_eq!(task(&shown).wrong_tries, 1);
    // With the others right there is nothing left to do.
    let mut answers = right_answers(task_now);
    answers[2] = typed(2, "123");
    let checked = after(
        &practice,
        answers.into_iter().chain([PracticeAction::Checked]),
    );
    let shown = practise(&checked, PracticeAction::StepAsked);
    assert_eq!(task(&shown).end, Some(End::Solved));
}

/// Where several things are asked for, a right one is said to be right and not to be all.
#[test]
fn right_so_far_is_said() {
    let practice = open(Form::Dilution, Level::Whole, 3);
    let says = |practice: &Practice| where_it_stands(task(practice));
    assert_eq!(says(&practice), "Fill in what you can, then check.");
    let last = right_answers(task(&practice)).pop().unwrap();
    let part = after(&practice, [last, PracticeAction::Checked]);
    assert_eq!(task(&part).end, None);
    assert!(says(&part).starts_with("Right so far."), "{}", says(&part));
    let rest = right_answers(task(&practice));
    let all = after(&part, rest.into_iter().chain([PracticeAction::Checked]));
    assert_eq!(task(&all).end, Some(End::Solved));
    let part = after(&practice, [typed(0, "9"), PracticeAction::Checked]);
    assert!(says(&part).starts_with("Something is not right yet."));
}

/// An amount that nothing leads to is taken in the unit of the line before.
#[test]
fn a_habit_of_mol_is_kept() {
    let problem = question(Form::AcidWithAlkali, 4).problem;
    let right = problem.sheet.right();
    let [start, strong] = [Symbol::AcidStart, Symbol::Strong].map(|s| right.get(s).unwrap());
    // Far too much alkali, and the acid that would leave: less than nothing is not typed, so
    // the base that it would make.
    let texts = [
        format!("{start:e}"),
        format!("{}", 77.0 * strong),
        String::new(),
        format!("{}", 77.0 * strong),
    ];
    let entries: Vec<_> = problem
        .asked()
        .into_iter()
        .zip(&texts)
        .map(|(symbol, text)| read_line(&problem, symbol, text))
        .collect();
    let marked = mark(&problem, &entries, Tolerance::default());
    assert_eq!(marked[1].verdict, Verdict::Unknown);
    assert_eq!(marked[1].entry, Entry::Number(77.0 * strong));
    assert_eq!(marked[3].verdict, Verdict::FollowsThrough, "{marked:?}");
}

/// What is remembered is limited; what comes next, and the guide's last step, are not.
#[test]
fn practice_goes_on_past_what_is_remembered() {
    let shown = |practice: &Practice| {
        let opened = practise(practice, PracticeAction::NextAsked);
        practise(&opened, PracticeAction::LayoutAsked)
    };
    let mut practice = practise(&Practice::default(), PracticeAction::Began { seed: 1 });
    for form in [Some(Form::Dilution), Some(Form::KaFromPh), None] {
        practice = practise(&practice, PracticeAction::FormChosen(form));
        practice = practise(&practice, PracticeAction::LayoutAsked);
    }
    let mut forms = Vec::new();
    for _ in 0..REMEMBERED + 12 {
        practice = shown(&practice);
        forms.push(task(&practice).question.problem.form);
    }
    assert_eq!(practice.results.len(), REMEMBERED);
    assert_eq!(practice.ended as usize, REMEMBERED + 15);
    // The first form is never secure: it is asked twice, then one of the others, to the end.
    let first = |forms: &[Form]| forms.iter().filter(|f| **f == Form::Concentrations).count();
    assert_eq!(first(&forms[..12]), 8, "{forms:?}");
    assert_eq!(first(&forms[REMEMBERED..]), 8, "{:?}", &forms[REMEMBERED..]);
}

#[test]
fn junk_is_no_try() {
    let practice = open(Form::RecipeBySalt, Level::Whole, 2);
    let place = task(&practice).lines.len() - 1;
    let mass = task(&practice)
        .right(task(&practice).lines[place].symbol)
        .unwrap();
    for text in ["lots", "", "1.2.3", "3 mol", &format!("{mass:.2}")] {
        let practice = after(&practice, [typed(place, text), PracticeAction::Checked]);
        let task = task(&practice);
        assert_eq!(
            (task.wrong_tries, task.is_tried(), task.end),
            (0, false, None),
            "{text}"
        );
    }
    let with_unit = format!("{mass:.2} g");
    let practice = after(
        &practice,
        [typed(place, &with_unit), PracticeAction::Checked],
    );
    assert_eq!(task(&practice).end, Some(End::Solved));
}

#[test]
fn levels_and_forms_follow_the_learner() {
    let mut practice = practise(&Practice::default(), PracticeAction::Began { seed: 7 });
    let mut asked = Vec::new();
    for _ in 0..150 {
        let current = task(&practice);
        asked.push((current.question.problem.form, current.level));
        let kind = current.kind();
        practice = practise(&practice, PracticeAction::Sorted(kind));
        practice = after(&practice, right_answers(task(&practice)));
        practice = practise(&practice, PracticeAction::Checked);
        practice = practise(&practice, PracticeAction::NextAsked);
    }
    assert_eq!(asked[0], (Form::Concentrations, Level::WorkedExample));
    assert_eq!(asked[1], (Form::Concentrations, Level::MissingSteps));
    for form in FORMS {
        let subject = Objective::Of(Subject::Sum(form));
        assert_eq!(
            standing(&practice.results, subject),
            Standing::Secure,
            "{form:?}"
        );
    }
    assert_eq!(
        standing(&practice.results, Objective::Sorting),
        Standing::Secure
    );
    // Forms come back after others were asked.
    let first = asked
        .iter()
        .rposition(|(form, _)| *form == Form::Concentrations);
    assert!(first > Some(100), "{first:?}");
    // Nobody is left at a level that does not suit.
    let stuck = open(Form::TwoVolumes, Level::MissingSteps, 1);
    let stuck = practise(&stuck, PracticeAction::LayoutAsked);
    assert_eq!(
        next_level(&stuck.results, Form::TwoVolumes),
        Level::WorkedExample
    );
    assert_eq!(next_form(&[], 0), Form::Concentrations);
}

#[test]
fn a_choice_of_form_and_level_is_kept() {
    let practice = after(
        &Practice::default(),
        [
            PracticeAction::Began { seed: 1 },
            PracticeAction::FormChosen(Some(Form::Dilution)),
            PracticeAction::LevelChosen(Some(Level::Whole)),
            PracticeAction::NextAsked,
        ],
    );
    assert_eq!(task(&practice).question.problem.form, Form::Dilution);
    assert_eq!(task(&practice).level, Level::Whole);
    assert_eq!(practice.number, 4);
}

#[test]
fn a_record_is_kept_as_numbers_and_read_again() {
    let mut practice = Practice::default();
    for (n, form) in FORMS.into_iter().enumerate() {
        let opened = open(form, Level::Whole, n as u64);
        let ended = practise(&opened, PracticeAction::LayoutAsked);
        practice.results.extend(ended.results);
    }
    let kept = serde_json::to_string(&Kept::of(&practice.results)).unwrap();
    assert!(
        kept.starts_with(r#"{"version":1,"results":[[0,2,4],[1,2,4],"#),
        "{kept}"
    );
    // The numbers of forms are part of the format.
    assert!(kept.ends_with("[15,2,4]]}"), "{kept}");
    let read: Kept = serde_json::from_str(&kept).unwrap();
    assert_eq!(read.results().unwrap(), practice.results);
    let newer = Kept {
        version: 9,
        ..read.clone()
    };
    // Another version's record is left alone.
    assert_eq!(newer.results(), None);
    let odd = Kept {
        version: 1,
        results: vec![(40, 0, 0), (0, 7, 0), (200, 0, 0), (64, 2, 7)],
    };
    assert_eq!(odd.results().unwrap().len(), 1);
    assert_eq!(objectives().count(), 1 + 5 + 16);
}

#[test]
fn mixtures_go_on_the_bench_where_it_can_make_them() {
    for form in FORMS {
        for seed in 0..30 {
            let question = question(form, seed);
            let makes = [
                Form::TwoVolumes,
                Form::AcidWithAlkali,
                Form::BaseWithAcid,
                Form::Equivalence,
            ];
            let recipe = put_on_bench(&question);
            assert_eq!(recipe.is_some(), makes.contains(&form), "{form:?} {seed}");
            let Some(recipe) = recipe else { continue };
            let setup = recipe.read().unwrap();
            let conditions = evenkeel::app::reading::CONDITIONS;
            let solved =
                evenkeel::chem::equilibrium::solve_ph(&setup.mixture, &conditions).unwrap();
            let answer = question
                .problem
                .sheet
                .right()
                .get(question.problem.answer())
                .unwrap();
            // The short form against the full balance, with the printed Ka against the table's.
            assert!(
                (solved.value() - answer).abs() < 0.03,
                "{form:?} {seed} {solved:?} {answer}"
            );
        }
    }
}

/// What was added to a question's mixture is taken back when it is put on the bench again.
#[test]
fn a_mixture_is_put_on_the_bench_afresh() {
    let opened = open(Form::AcidWithAlkali, Level::Whole, 4);
    let mut state = State::default();
    state = work(
        &state,
        DeskAction::Practised(PracticeAction::QuestionOpened {
            form: Form::AcidWithAlkali,
            level: Level::Whole,
            seed: 4,
        }),
    );
    state = work(&state, DeskAction::QuestionPutOnBench);
    let fresh = state.bench.clone();
    assert_eq!(fresh.recipe, opened.recipe().unwrap());
    let add = Action::Added {
        reagent: Reagent::Acid,
        steps: 3,
        press: Press::Tap,
    };
    state = apply(&state, add);
    assert_ne!(state.bench, fresh);
    state = work(&state, DeskAction::QuestionPutOnBench);
    assert_eq!(state.bench, fresh);
    // One step back from there.
    assert_eq!(state.past.last().map(|b| b.acid), Some(3));
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

#[test]
fn an_explanation_is_built_marked_and_remembered_once() {
    let opened = PracticeAction::ExplanationOpened {
        topic: Topic::Water,
        seed: 1,
    };
    let choose = |slot, choice| PracticeAction::ClauseChosen { slot, choice };
    let practice = after(
        &Practice::default(),
        [opened.clone(), choose(0, 0), choose(1, 1)],
    );
    let practice = practise(&practice, PracticeAction::ExplanationChecked);
    let built = practice.explanation.as_ref().unwrap();
    assert_eq!((built.marks(), built.wrong), (1, 1));
    assert!(practice.results.is_empty());
    let solve = [
        choose(1, 0),
        choose(2, 0),
        PracticeAction::ExplanationChecked,
    ];
    let practice = after(&practice, solve.clone());
    assert_eq!(practice.results.len(), 1);
    assert!(practice.results[0].solved && !practice.results[0].clean);
    assert_eq!(after(&practice, solve.clone()), practice);
    // Right at once, twice: secure. Shown: not yet.
    let water = Objective::Of(Subject::Explanation(Topic::Water));
    let again = [opened.clone(), choose(0, 0)].into_iter().chain(solve);
    let twice: Vec<_> = again.clone().chain(again).collect();
    let secure = after(&practice, twice);
    assert_eq!(standing(&secure.results, water), Standing::Secure);
    let shown = after(&secure, [opened, PracticeAction::ExplanationShown]);
    assert_eq!(standing(&shown.results, water), Standing::NotYet);
}
