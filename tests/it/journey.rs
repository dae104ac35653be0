//! The state driven as a person would drive it, and what follows from it held together:
//! readout, particles, explanation and curve must tell one story at every step.

mod agree;

use evenkeel::app::action::{Action, Press};
use evenkeel::app::bench::FLASK;
use evenkeel::app::recipe::{Field, Method, PAIRS, PairChoice};
use evenkeel::app::state::BenchEvent;
use evenkeel::app::words::addition::Voice;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::why::Outcome;

use crate::writers::POINT;

pub use agree::{Journey, reading};

#[test]
fn ten_mixed_additions_and_exhaustion_both_ways_on_every_pair() {
    for &pair in PAIRS {
        let mut journey = Journey::start();
        journey.choose(pair);
        for (reagent, steps) in [
            (Reagent::Acid, 1),
            (Reagent::Acid, 5),
            (Reagent::Alkali, 20),
            (Reagent::Alkali, 20),
            (Reagent::Acid, 20),
            (Reagent::Acid, 1),
            (Reagent::Alkali, 5),
            (Reagent::Acid, 20),
            (Reagent::Alkali, 1),
            (Reagent::Acid, 5),
        ] {
            journey.add(reagent, steps);
        }
        for _ in 0..10 {
            journey.add(Reagent::Acid, 20);
        }
        for _ in 0..25 {
            journey.add(Reagent::Alkali, 20);
        }
        journey.playback.set_still(true);
        journey.agree();
    }
}

#[test]
fn every_pair_made_by_part_neutralizing_agrees_too() {
    for &pair in PAIRS {
        let mut journey = Journey::start();
        journey
            .then(Action::MethodChosen(Method::PartNeutralized))
            .choose(pair);
        journey
            .add(Reagent::Acid, 20)
            .add(Reagent::Alkali, 20)
            .add(Reagent::Alkali, 20);
    }
}

/// Ideal model at 25 °C, worked by hand: 10.0 mmol each, pKa 4.874; 0.5 mmol of H⁺ makes it
/// 10.5 and 9.5, so pH = 4.874 + log₁₀(9.5/10.5) = 4.83 (worked example, no published source).
#[test]
fn the_starting_bench_holds_and_then_fails() {
    let mut journey = Journey::start();
    assert!((journey.ph() - 4.874).abs() < 0.001);
    journey.add(Reagent::Acid, 5);
    assert!((journey.ph() - 4.8305).abs() < 0.001);
    for _ in 0..5 {
        journey.add(Reagent::Acid, 20);
    }
    // 10.5 mmol of H⁺ into 10 mmol of base: 0.5 mmol free in 210.5 cm³, pH 2.6.
    let reading = reading(&journey.state);
    let change = reading.change().unwrap();
    assert_eq!(change.outcome(), Outcome::NearlyOut);
    assert!(
        Voice::of(&reading, POINT)
            .what_met_what(&change)
            .contains("runs away")
    );
    assert!(reading.now.ph().value() < 2.65);
    assert_eq!(journey.state.bench.reactions, 100);
}

#[test]
fn undo_and_redo_walk_the_same_path() {
    let mut journey = Journey::start();
    let start = journey.state.bench.clone();
    journey.add(Reagent::Acid, 20).add(Reagent::Alkali, 5);
    let end = journey.state.bench.clone();
    journey.then(Action::Undone).then(Action::Undone);
    assert_eq!(journey.state.bench, start);
    journey.then(Action::Undone);
    assert_eq!(journey.state.bench, start);
    journey.agree();
    journey
        .then(Action::Redone)
        .then(Action::Redone)
        .then(Action::Redone);
    assert_eq!(journey.state.bench, end);
    journey.agree();
    journey.then(Action::StartedAgain);
    assert_eq!(journey.state.bench, start);
    journey.then(Action::Undone);
    assert_eq!(journey.state.bench, end);
}

#[test]
fn a_long_pour_is_one_addition() {
    let mut journey = Journey::start();
    journey.then(Action::Added {
        reagent: Reagent::Acid,
        steps: 5,
        press: Press::PourBegun,
    });
    assert!(journey.state.pouring);
    for _ in 0..30 {
        journey.then(Action::Added {
            reagent: Reagent::Acid,
            steps: 5,
            press: Press::PourWentOn,
        });
        journey.agree();
    }
    assert!(journey.state.pouring);
    journey.then(Action::PourEnded);
    assert!(!journey.state.pouring);
    let reading = reading(&journey.state);
    assert!((reading.change().unwrap().amount.mmol() - 15.5).abs() < 1e-12);
    journey.then(Action::Undone);
    assert_eq!(journey.state.bench.acid, 0);
}

#[test]
fn the_flask_fills_up_and_says_so() {
    let mut journey = Journey::start();
    for _ in 0..FLASK / 20 {
        journey.then(Action::Added {
            reagent: Reagent::Alkali,
            steps: 20,
            press: Press::PourWentOn,
        });
    }
    assert_eq!(journey.state.bench.alkali, FLASK);
    journey.agree();
    let full = journey.state.bench.clone();
    journey.then(Action::Added {
        reagent: Reagent::Acid,
        steps: 1,
        press: Press::Tap,
    });
    assert_eq!(journey.state.event, BenchEvent::Full);
    assert_eq!(journey.state.bench, full);
}

#[test]
fn bad_input_stays_in_its_field_and_the_bench_stays_as_it_was() {
    let mut journey = Journey::start();
    journey.add(Reagent::Acid, 5);
    let bench = journey.state.bench.clone();
    for text in [
        "",
        "abc",
        "0.1.2",
        "-1",
        "1e99",
        "🧪",
        "0x10",
        "100 000 000",
    ] {
        journey.then(Action::Typed(Field::AcidConcentration, text.to_owned()));
        assert_eq!(journey.state.bench, bench);
        assert_eq!(journey.state.draft.text(Field::AcidConcentration), text);
    }
    journey.then(Action::Typed(Field::AcidConcentration, "0,2".to_owned()));
    assert_ne!(journey.state.bench, bench);
    assert!((journey.ph() - (4.874 - std::f64::consts::LOG10_2)).abs() < 0.001);
    // What was done before is one step back, with the text that made it.
    journey.then(Action::Undone);
    assert_eq!(journey.state.bench, bench);
    assert_eq!(journey.state.draft.text(Field::AcidConcentration), "0.100");
}

#[test]
fn replay_and_step_end_where_the_bench_is() {
    let mut journey = Journey::start();
    journey.add(Reagent::Alkali, 20);
    let tally = journey.playback.world().tally().clone();
    assert!(journey.playback.replay());
    assert_eq!(journey.playback.world().tally(), &tally);
    let mut beats = 0;
    while journey.playback.step_through().is_some() && journey.playback.is_moving() | (beats < 3) {
        beats += 1;
        assert!(beats < 10, "stepping does not end");
    }
    assert_eq!(journey.playback.world().tally(), &tally);
    assert_eq!(
        journey.playback.world().counters().given,
        journey.playback.world().counters().taken
    );
}

/// The corners of what can be typed: the picture keeps its limits and the words their word.
#[test]
fn extreme_recipes_agree_too() {
    use Field::{OwnPka, StrongConcentration, StrongVolume, WeakConcentration, WeakVolume};
    for pair in [
        PairChoice::OwnAcid,
        PairChoice::OwnBase,
        PairChoice::Listed("citric", 2),
    ] {
        for pka in ["0", "2", "7", "12", "14"] {
            for (weak, volume, strong) in [
                ("0.0005", "1", "0.05"),
                ("10", "100", "10"),
                ("0.2", "100", "10"),
                ("0.001", "10000", "0.0005"),
            ] {
                let mut journey = Journey::start();
                journey.then(Action::MethodChosen(Method::PartNeutralized));
                journey.then(Action::PairChosen(pair));
                for (field, text) in [
                    (OwnPka, pka),
                    (StrongConcentration, "0"),
                    (WeakConcentration, weak),
                    (WeakVolume, volume),
                    (StrongVolume, volume),
                    (StrongConcentration, strong),
                    (Field::Stock, "10"),
                ] {
                    journey.then(Action::Typed(field, text.to_owned()));
                }
                assert_eq!(journey.state.draft, journey.state.bench.recipe);
                journey.agree();
                for reagent in [Reagent::Acid, Reagent::Alkali, Reagent::Alkali] {
                    for steps in [1, 20, 20] {
                        journey.add(reagent, steps);
                    }
                }
            }
        }
    }
}
