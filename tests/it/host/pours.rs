//! A learner pours while the page around the frame acts.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::host::asked::{Asked, Refusal};
use evenkeel::app::recipe::Field;
use evenkeel::chem::titration::Reagent;
use proptest::prelude::*;
use proptest::sample::select;

use super::{added, adding, asked, obey, opened};
use crate::draws::check;

fn poured(reagent: Reagent, press: Press) -> Action {
    Action::Added {
        reagent,
        steps: 5,
        press,
    }
}

/// The host takes back what the learner is pouring: what runs on is an addition of its own, also
/// where the one before it was of the same reagent, and leaves nothing to redo.
#[test]
fn a_pour_does_not_join_what_stood_before_it() {
    let acid = |press| poured(Reagent::Acid, press);
    let mut state = apply(&opened(""), added(Reagent::Acid, 20));
    let before = state.bench.clone();
    state = apply(&state, acid(Press::PourBegun));
    state = apply(&state, acid(Press::PourWentOn));
    assert_eq!(obey(&mut state, &asked("undo")), Ok(()));
    assert_eq!(state.bench, before);
    state = apply(&state, acid(Press::PourWentOn));
    assert_eq!(obey(&mut state, &asked("redo")), Err(Refusal::Nothing));
    state = apply(&state, acid(Press::PourWentOn));
    state = apply(&state, Action::PourEnded);
    assert_eq!(state.bench.acid, 30);
    assert_eq!(state.bench.last.map(|last| last.steps), Some(10));
    assert_eq!(obey(&mut state, &asked("undo")), Ok(()));
    assert_eq!(state.bench, before);
}

/// What happens while a button may be held down, and who does it.
#[derive(Debug, Clone)]
enum Step {
    Pour(Reagent),
    LetGo,
    SetUp(&'static str),
    Host(Asked),
}

fn any_step() -> impl Strategy<Value = Step> {
    let reagent = || select(vec![Reagent::Acid, Reagent::Alkali]);
    let command = select(vec![
        adding("acid", 0.0005),
        adding("alkali", 0.0005),
        asked("undo"),
        asked("redo"),
        asked("start-again"),
    ]);
    prop_oneof![
        6 => reagent().prop_map(Step::Pour),
        1 => Just(Step::LetGo),
        1 => select(vec!["90", "100"]).prop_map(Step::SetUp),
        5 => command.prop_map(Step::Host),
    ]
}

/// A learner pours while the host does what it likes: only portions of one pour in a row are one
/// addition, back leads to the bench before it, and what was taken back is gone once the bench
/// changes otherwise.
#[test]
fn a_pour_and_commands_in_any_order() {
    let steps = prop::collection::vec(any_step(), 0..40);
    check(&steps, |steps| {
        let mut state = opened("");
        // The button that is held down, and whether the last addition is that pour's.
        let (mut held, mut one) = (None, false);
        for step in steps {
            let before = state.clone();
            match step {
                Step::Pour(reagent) => {
                    let goes_on = held == Some(reagent);
                    let press = if goes_on {
                        Press::PourWentOn
                    } else {
                        Press::PourBegun
                    };
                    state = apply(&state, poured(reagent, press));
                    let joins = goes_on && one;
                    let mut past = before.past.clone();
                    if !joins {
                        past.push(before.bench.clone());
                    }
                    prop_assert_eq!(&state.past, &past);
                    let so_far = before.bench.last.filter(|_| joins).map_or(0, |l| l.steps);
                    prop_assert_eq!(state.bench.last.map(|l| l.steps), Some(so_far + 5));
                    prop_assert!(state.future.is_empty());
                    (held, one) = (Some(reagent), true);
                }
                Step::LetGo => {
                    state = apply(&state, Action::PourEnded);
                    (held, one) = (None, false);
                }
                Step::SetUp(volume) => {
                    state = apply(&state, Action::Typed(Field::AcidVolume, volume.to_owned()));
                    one &= state.bench == before.bench;
                }
                Step::Host(command) => {
                    let done = obey(&mut state, &command).is_ok();
                    one &= !done;
                    if done && matches!(command.command.as_deref(), Some("add" | "start-again")) {
                        prop_assert_eq!(state.past.last(), Some(&before.bench));
                        prop_assert!(state.future.is_empty());
                    }
                }
            }
            if state.bench != before.bench {
                prop_assert_eq!(state.pouring, one);
            }
        }
        Ok(())
    });
}
