//! What comes next, and what is remembered.

use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::progress::{
    Kept, Level, Objective, REMEMBERED, Standing, Subject, next_form, next_level, objectives,
    standing,
};
use evenkeel::lesson::explain::Topic;
use evenkeel::lesson::sums::form::{FORMS, Form};

use super::{after, open, right_answers, task};

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
