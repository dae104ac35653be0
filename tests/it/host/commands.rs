//! What the page around a frame may ask for, and what it is refused.

use evenkeel::app::action::Action;
use evenkeel::app::apply::apply;
use evenkeel::app::bench::FLASK;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::guide::GuideAction;
use evenkeel::app::host::asked::{Allowance, Asked, Command, MOST_COMMANDS, Refusal, read};
use evenkeel::app::plan::Look;
use evenkeel::app::state::BenchEvent;
use evenkeel::chem::titration::Reagent;

use super::{added, adding, asked, obey, opened};

#[test]
fn a_command_does_what_a_learner_does() {
    let mut state = opened("");
    let mut own = state.clone();
    for (command, action) in [
        (adding("acid", 0.002), added(Reagent::Acid, 20)),
        (adding("alkali", 0.0005), added(Reagent::Alkali, 5)),
        (asked("undo"), Action::Undone),
        (asked("redo"), Action::Redone),
        (asked("start-again"), Action::StartedAgain),
    ] {
        assert_eq!(obey(&mut state, &command), Ok(()), "{command:?}");
        own = apply(&own, action);
        assert_eq!(state, own, "{command:?}");
    }
    let dark = Asked {
        theme: Some("dark".to_owned()),
        ..asked("theme")
    };
    assert_eq!(obey(&mut state, &dark), Ok(()));
    assert_eq!(state.look, Look::Dark);
    assert_eq!(read(&asked("tell"), &state, true), Ok(Command::Tell));
}

#[test]
fn amounts_are_whole_steps() {
    let mut state = opened("");
    for (mol, steps) in [
        (0.00204, 20),
        (0.00206, 21),
        (1e-9, 1),
        (f64::MIN_POSITIVE, 1),
        (0.1, 1000),
    ] {
        let command = Command::Act(added(Reagent::Acid, steps));
        assert_eq!(read(&adding("acid", mol), &state, false), Ok(command));
    }
    for mol in [0.0, -0.0, -0.002, f64::NAN, f64::INFINITY, -f64::INFINITY] {
        let said = read(&adding("acid", mol), &state, false);
        assert_eq!(said, Err(Refusal::Value), "{mol}");
    }
    for mol in [0.2001, 1e9, f64::MAX] {
        let said = read(&adding("acid", mol), &state, false);
        assert_eq!(said, Err(Refusal::Full), "{mol}");
    }
    // To the brim, and no further.
    assert_eq!(obey(&mut state, &adding("acid", 0.2)), Ok(()));
    assert_eq!(state.bench.acid, FLASK);
    let before = state.clone();
    assert_eq!(
        obey(&mut state, &adding("alkali", 0.0001)),
        Err(Refusal::Full)
    );
    assert_eq!(state, before);
}

#[test]
fn what_is_refused_changes_nothing() {
    let state = opened("");
    let wrong = |version| Asked {
        version,
        ..adding("acid", 0.002)
    };
    for (command, refusal) in [
        (wrong(None), Refusal::Version),
        (wrong(Some(2.0)), Refusal::Version),
        (wrong(Some(f64::NAN)), Refusal::Version),
        (asked("drain"), Refusal::Command),
        (asked(""), Refusal::Command),
        (
            Asked {
                command: None,
                ..asked("")
            },
            Refusal::Command,
        ),
        (adding("ACID", 0.002), Refusal::Value),
        (asked("add"), Refusal::Value),
        (asked("theme"), Refusal::Value),
        (
            Asked {
                theme: Some("plaid".into()),
                ..asked("theme")
            },
            Refusal::Value,
        ),
        (asked("undo"), Refusal::Nothing),
        (asked("redo"), Refusal::Nothing),
        (asked("start-again"), Refusal::Nothing),
        (asked("open"), Refusal::Value),
    ] {
        assert_eq!(read(&command, &state, false), Err(refusal), "{command:?}");
    }
}

#[test]
fn what_the_guide_holds_back_stays_back() {
    let mut state = opened("v=1&start=guided");
    assert_eq!(obey(&mut state, &adding("acid", 0.002)), Ok(()));
    state = work(&state, DeskAction::Guided(GuideAction::WentOn));
    let before = state.clone();
    let said = obey(&mut state, &adding("acid", 0.002));
    assert_eq!(said, Err(Refusal::Held));
    assert_eq!(state, before);
    assert_ne!(state.event, BenchEvent::Held);
}

#[test]
fn lessons_that_can_be_opened() {
    let state = opened("");
    let open = |lesson: &str| {
        let asked = Asked {
            lesson: Some(lesson.to_owned()),
            ..asked("open")
        };
        read(&asked, &state, false)
    };
    let opens = |link: &str| Ok(Command::Open(link.to_owned()));
    for lesson in ["", "?", "?v=1&pair=ethanoic.1&n=3", "v=1&ca=0.2"] {
        let link = format!("?{}", lesson.trim_start_matches('?'));
        assert_eq!(open(lesson), opens(&link), "{lesson}");
    }
    let words = "?v=1#t=1.cbf43926.MTIzNDU2Nzg5";
    assert_eq!(open(words), opens(words));
    for lesson in [
        "https://elsewhere.example/?v=1",
        "javascript:alert(1)",
        "//elsewhere.example",
        "../other/?v=1",
        "?v=1&pair=vinegar",
        "?v=2",
        "?v=1#t=1.00000000.abc",
        "?v=1#a#b",
        "?v=1\n",
        "?v=1&ca=1e9",
        &"?v=1&x=".repeat(9000),
    ] {
        assert_eq!(open(lesson), Err(Refusal::Value), "{lesson:.40}");
    }
    let fixed = Asked {
        lesson: Some("?v=1".to_owned()),
        ..asked("open")
    };
    assert_eq!(read(&fixed, &state, true), Err(Refusal::Fixed));
}

#[test]
fn a_host_in_a_loop_is_told_once() {
    let mut allowance = Allowance::default();
    let answers: Vec<_> = (0..10_000).map(|_| allowance.take()).collect();
    let most = MOST_COMMANDS as usize;
    assert!(answers[..most].iter().all(|a| *a == Some(Ok(()))));
    assert_eq!(answers[most], Some(Err(Refusal::TooMany)));
    assert!(answers[most + 1..].iter().all(Option::is_none));
    let mut again = Allowance::default();
    again.take();
    assert!(again.is_begun());
    again.take();
    assert!(!again.is_begun());
}
