//! What the page around a frame is told of questions.

use evenkeel::app::action::Action;
use evenkeel::app::apply::apply;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::host::{Message, Value, ready, results};
use evenkeel::app::practice::PracticeAction;
use evenkeel::app::recipe::Field;
use evenkeel::app::state::State;
use evenkeel::app::words::slip::written;

use super::{names, number, of, opened, told};

/// Does the open question: all right, or with the layout shown. A word is typed before.
fn finish(state: &mut State, right: bool) {
    let mut act = |action| *state = work(state, DeskAction::Practised(action));
    act(PracticeAction::Typed {
        place: 0,
        text: "Anna Example".to_owned(),
    });
    if !right {
        act(PracticeAction::LayoutAsked);
        return;
    }
    let task = state.desk.practice.task.clone().unwrap();
    *state = work(
        state,
        DeskAction::Practised(PracticeAction::Sorted(task.kind())),
    );
    for (place, line) in task.lines.iter().enumerate() {
        let value = task.right(line.symbol).unwrap();
        let text = written(line.symbol, value, state.writer());
        *state = work(
            state,
            DeskAction::Practised(PracticeAction::Typed { place, text }),
        );
    }
    *state = work(state, DeskAction::Practised(PracticeAction::Checked));
    assert!(state.desk.practice.task.as_ref().unwrap().end.is_some());
}

fn begin(query: &str) -> State {
    let began = PracticeAction::Began { seed: 5 };
    work(&opened(query), DeskAction::Practised(began))
}

fn next(state: &mut State) {
    *state = work(state, DeskAction::Practised(PracticeAction::NextAsked));
}

const RESULT: [&str; 9] = [
    "type", "v", "number", "of", "form", "level", "marks", "most", "last",
];

/// number, marks, marks to be had, last.
fn short(messages: &[Message]) -> Vec<(u32, bool, bool, bool)> {
    let one = |message: &Message| {
        assert_eq!(names(message), RESULT);
        let own = number(message, "marks");
        assert!(number(message, "most") > 0.0);
        (
            number(message, "number") as u32,
            own == number(message, "most"),
            own == 0.0,
            of(message, "last") == Value::Flag(true),
        )
    };
    messages.iter().map(one).collect()
}

#[test]
fn results_are_told_only_where_the_lesson_asks_for_it() {
    let lesson = "v=1&ask=mix.ka&n=2&level=whole&seed=417";
    let mut silent = begin(lesson);
    finish(&mut silent, true);
    assert_eq!(results(&silent, 0), Vec::<Message>::new());

    let mut state = begin(&format!("{lesson}&tell=results"));
    assert!(results(&state, 0).is_empty());
    finish(&mut state, true);
    let first = results(&state, 0);
    assert_eq!(short(&first), [(1, true, false, false)]);
    assert_eq!(of(&first[0], "form"), Value::Text("mix"));
    assert_eq!(of(&first[0], "level"), Value::Text("whole"));
    assert_eq!(number(&first[0], "of"), 2.0);
    // Each once.
    assert!(results(&state, 1).is_empty());
    next(&mut state);
    finish(&mut state, false);
    let second = results(&state, 1);
    assert_eq!(short(&second), [(2, false, true, true)]);
    assert_eq!(of(&second[0], "form"), Value::Text("ka"));
}

#[test]
fn results_wait_until_the_learner_is_told() {
    let mut state = begin("v=1&ask=mix&n=2&level=whole&seed=4&feedback=end&tell=results");
    finish(&mut state, true);
    assert!(results(&state, 0).is_empty());
    next(&mut state);
    finish(&mut state, true);
    let all = [(1, true, false, false), (2, true, false, true)];
    assert_eq!(short(&results(&state, 1)), all);
}

#[test]
fn results_without_end() {
    let mut state = begin("v=1&tell=results");
    finish(&mut state, false);
    next(&mut state);
    finish(&mut state, false);
    let second = results(&state, 1);
    assert_eq!(short(&second), [(2, false, true, false)]);
    assert_eq!(of(&second[0], "of"), Value::None);
}

/// Whatever is typed, every text in every message is one of these.
#[test]
fn no_message_has_a_word_that_was_typed() {
    let mut state = begin("v=1&tell=results");
    let mut all = vec![ready()];
    for round in 0..40 {
        let before = state.desk.practice.ended;
        finish(&mut state, round % 2 == 0);
        state = apply(
            &state,
            Action::Typed(Field::AcidVolume, format!("{} Anna", round + 1)),
        );
        all.extend(results(&state, before));
        all.push(told(&state));
        next(&mut state);
    }
    let codes = [
        "conc",
        "mix",
        "alkali",
        "acid",
        "salt",
        "add-acid",
        "add-alkali",
        "excess",
        "equivalence",
        "half",
        "dilution",
        "ka",
        "recipe-salt",
        "recipe-alkali",
        "choose",
        "weak",
    ];
    for (name, value) in all.iter().flatten() {
        let fine = match (*name, *value) {
            ("type", Value::Text(text)) => {
                ["evenkeel:ready", "evenkeel:state", "evenkeel:result"].contains(&text)
            }
            ("links", Value::Text(text)) => text == "1",
            ("form", Value::Text(text)) => codes.contains(&text),
            ("level", Value::Text(text)) => ["example", "steps", "whole"].contains(&text),
            (_, Value::Text(_)) => false,
            (_, Value::Number(number)) => number.is_finite() && number >= 0.0,
            (name, Value::None) => name == "of",
            (_, Value::Flag(_)) => true,
        };
        assert!(fine, "{name}: {value:?}");
    }
    assert_eq!(all.len(), 81);
}
