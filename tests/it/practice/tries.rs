//! Tries, retries and help, and the marks of first tries.

use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::progress::Level;
use evenkeel::app::task::{End, Filled, Stage};
use evenkeel::app::words::practice::where_it_stands;
use evenkeel::app::words::slip::written;
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::kind::{KINDS, Kind};
use evenkeel::lesson::sums::mark::Verdict;
use evenkeel::lesson::sums::symbol::Symbol;

use super::{after, open, right_answers, task, typed};
use crate::writers::POINT;

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
