//! Lessons that tell after the last question.

use evenkeel::app::practice::PracticeAction;
use evenkeel::app::state::{Panel, State};
use evenkeel::app::task::{End, Stage};
use evenkeel::app::words::summary;
use evenkeel::app::words::task as words;
use evenkeel::lesson::sums::kind::Kind;

use super::{act, answer, opened};

#[test]
fn told_at_the_end_means_nothing_is_told_before() {
    let mut state = opened("v=1&ask=mix&n=2&level=whole&seed=5&feedback=end");
    act(&mut state, PracticeAction::Began { seed: 1 });
    let writer = state.writer();
    for wrong in [true, false] {
        // Junk is met at once; nothing is handed in then, nor tried.
        let task = state.desk.practice.task.clone().unwrap();
        act(&mut state, PracticeAction::Sorted(task.kind()));
        act(
            &mut state,
            PracticeAction::Typed {
                place: 0,
                text: "lots".to_owned(),
            },
        );
        act(
            &mut state,
            PracticeAction::Typed {
                place: 3,
                text: "9.99".to_owned(),
            },
        );
        act(&mut state, PracticeAction::Checked);
        let task = state.desk.practice.task.as_ref().unwrap();
        assert_eq!((task.stage(), task.is_tried()), (Stage::Lines, false));
        assert!(words::line_says(&state.desk.practice, 0, writer).contains("could not be read"));
        answer(&mut state, wrong);
        let practice = &state.desk.practice;
        assert_eq!(practice.task.as_ref().unwrap().end, Some(End::HandedIn));
        for place in 0..4 {
            assert_eq!(words::line_says(practice, place, writer), "");
            assert!(!words::is_wrong(practice, place));
        }
        assert_eq!(words::solution(practice, writer), "");
        // After the last one the summary speaks.
        let handed_in = words::status(practice).starts_with("Handed in.");
        assert_eq!(handed_in, !practice.set_is_over());
        act(&mut state, PracticeAction::NextAsked);
    }
    let practice = &state.desk.practice;
    assert_eq!(
        summary::heading(practice),
        "All 2 questions are done: 1 right at the first try, 7 of 8 marks."
    );
    let told = summary::questions(practice, writer);
    assert_eq!(told.matches("<details class=\"finished\">").count(), 2);
    assert!(told.contains("1.11"), "{told}");
    assert_eq!(practice.results.iter().filter(|r| r.clean).count(), 1);
}

/// Nobody has to be able to do a question to leave it, and nobody leaves one by mistake.
#[test]
fn an_empty_question_is_left_by_handing_it_in_twice() {
    let mut state = opened("v=1&ask=conc&n=2&level=whole&seed=3&feedback=end");
    assert_eq!(state.panel, Panel::Practice);
    act(&mut state, PracticeAction::Began { seed: 1 });
    let kind = state.desk.practice.task.as_ref().unwrap().kind();
    act(&mut state, PracticeAction::Sorted(kind));
    act(&mut state, PracticeAction::Checked);
    let end = |state: &State| state.desk.practice.task.as_ref().unwrap().end;
    assert_eq!(end(&state), None);
    assert!(words::status(&state.desk.practice).contains("once more"));
    // Typing and taking it out again is a change of mind.
    for text in ["1", ""] {
        let text = text.to_owned();
        act(&mut state, PracticeAction::Typed { place: 0, text });
    }
    act(&mut state, PracticeAction::Checked);
    assert_eq!(end(&state), None);
    act(&mut state, PracticeAction::Checked);
    assert_eq!(end(&state), Some(End::HandedIn));
    assert!(state.desk.practice.tells_later());
    act(&mut state, PracticeAction::NextAsked);
    answer(&mut state, false);
    assert!(!state.desk.practice.tells_later());
    let practice = &state.desk.practice;
    assert_eq!(
        summary::heading(practice),
        "All 2 questions are done: 1 right at the first try, 2 of 4 marks."
    );
}

/// Whether somebody knew the mixture is told at the end, and it counts.
#[test]
fn a_wrong_kind_is_told_at_the_end() {
    let mut state = opened("v=1&ask=conc&n=1&level=whole&seed=3&feedback=end");
    act(&mut state, PracticeAction::Began { seed: 1 });
    act(&mut state, PracticeAction::Sorted(Kind::ExcessAlkali));
    answer(&mut state, false);
    let practice = &state.desk.practice;
    let heading = summary::heading(practice);
    assert!(heading.contains(" 0 right at the first try"), "{heading}");
    let told = summary::questions(practice, state.writer());
    assert!(
        told.contains("You said: Strong alkali left over. It is: A buffer"),
        "{told}"
    );
    assert!(!told.contains("Right. Right is"), "{told}");
}
