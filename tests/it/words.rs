//! What a learner reads, word for word, so that a change of a word is seen and read.

use std::fmt::Write;

use evenkeel::app::action::Action;
use evenkeel::app::picture::{Detail, Picture};
use evenkeel::app::recipe::{Field, Method, PairChoice, Problem};
use evenkeel::app::words::addition::{Voice, nothing_added};
use evenkeel::app::words::announcement::announcement;
use evenkeel::app::words::recipe::{on_the_bench, pair_option, problem, stale};
use evenkeel::app::words::{explanation::latest_equation, reservoir};
use evenkeel::chem::quantity::Amount;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::notation::Writing;
use evenkeel::lesson::read::ReadError;

use crate::journey::{Journey, reading};
use crate::writers::POINT;

#[test]
fn what_is_not_on_the_bench_is_said_with_all_that_is_wrong() {
    let bench = Journey::start().state.draft;
    assert_eq!(stale(&bench, &bench, POINT), "");
    let mut draft = bench.clone();
    draft.set_text(Field::AcidVolume, "lots".to_owned());
    draft.set_text(Field::BaseVolume, String::new());
    let said = stale(&draft, &bench, POINT);
    for (field, wrong) in draft.read().unwrap_err() {
        let what = problem(field, wrong, POINT);
        assert!(said.contains(&what), "{what} is not in {said}");
    }
    assert_eq!(draft.read().unwrap_err().len(), 2);
}

#[test]
fn every_problem_of_setting_up() {
    let mut all = String::new();
    let mut say = |what: &str, field, wrong| {
        let message = problem(field, wrong, POINT);
        writeln!(all, "{what}: {message}").unwrap();
    };
    for error in [
        ReadError::Empty,
        ReadError::TwoMarks,
        ReadError::NotANumber,
        ReadError::TooLarge,
    ] {
        say(
            &format!("{error:?}"),
            Field::Stock,
            Problem::Unreadable(error),
        );
    }
    let mut journey = Journey::start();
    for (pair, method) in [
        (PairChoice::OwnAcid, Method::TwoSolutions),
        (PairChoice::OwnAcid, Method::PartNeutralized),
    ] {
        journey.then(Action::PairChosen(pair));
        journey.then(Action::MethodChosen(method));
        for field in journey.state.draft.fields() {
            let mut recipe = journey.state.draft.clone();
            recipe.set_text(field, "-1".to_owned());
            say(&format!("{field:?}"), field, recipe.problem(field).unwrap());
        }
    }
    say(
        "nothing",
        Field::BaseConcentration,
        Problem::NothingOfThePair,
    );
    say(
        "too much",
        Field::StrongConcentration,
        Problem::TooMuchStrong,
    );
    insta::assert_snapshot!(all);
}

/// All that is said of the bench as it is.
fn told(journey: &Journey, moment: &str) -> String {
    let reading = reading(&journey.state);
    let picture = Picture::of(&reading, Detail::Wide);
    let voice = Voice::of(&reading, POINT);
    let mut lines = vec![
        format!("## {moment}"),
        reservoir::legend(&voice, &reading, &picture),
        reservoir::description(&voice, &reading, &picture),
        latest_equation(&reading, Writing::Symbols).plain(),
    ];
    match reading.change() {
        Some(change) => lines.extend([
            voice.headline(&change),
            voice.what_met_what(&change),
            voice.ratio(&change).unwrap_or_default(),
        ]),
        None => {
            let held: Amount = reading
                .start
                .mixture
                .weak()
                .iter()
                .map(|part| part.total)
                .sum();
            let pair = reading.start.reserves.acid + reading.start.reserves.base;
            lines.push(nothing_added(
                &voice,
                held.checked_sub(pair).unwrap_or_default(),
            ));
        }
    }
    lines.push(announcement(&journey.state, &reading, None, POINT));
    lines.retain(|line| !line.trim().is_empty());
    lines.join("\n") + "\n"
}

/// A pair from fresh through both ends.
fn story(pair: PairChoice) -> String {
    let mut journey = Journey::start();
    journey.then(Action::PairChosen(pair));
    let setup = reading(&journey.state).setup;
    let pka = pair.pka().map(|p| p.value());
    let mut all = vec![
        on_the_bench(&setup, setup.mixture.volume(), POINT)
            + "\n"
            + &pair_option(&setup.names, pka, POINT)
            + "\n",
        told(&journey, "fresh"),
    ];
    for (moment, reagent, steps) in [
        ("small acid", Reagent::Acid, vec![5]),
        ("more acid", Reagent::Acid, vec![20, 20, 20]),
        ("acid to the end", Reagent::Acid, vec![20, 20]),
        ("acid past the end", Reagent::Acid, vec![20]),
        ("acid, exhausted", Reagent::Acid, vec![20]),
        ("alkali meets the excess", Reagent::Alkali, vec![5]),
        ("alkali to the end", Reagent::Alkali, vec![200, 40]),
        ("alkali past the end", Reagent::Alkali, vec![20]),
        ("alkali, exhausted", Reagent::Alkali, vec![5]),
        ("acid meets the excess", Reagent::Acid, vec![1]),
    ] {
        for steps in steps {
            journey.add(reagent, steps);
        }
        all.push(told(&journey, moment));
    }
    all.join("\n")
}

/// Beside the particles: the steps of an addition, and the exchange that never stops.
#[test]
fn what_goes_on_among_the_particles() {
    let mut journey = Journey::start();
    let mut all = String::new();
    for (moment, reagent, steps) in [
        ("nothing added", Reagent::Acid, vec![]),
        ("taken up", Reagent::Acid, vec![5]),
        ("nothing left", Reagent::Acid, vec![200, 20]),
        ("met the excess", Reagent::Alkali, vec![5]),
        ("alkali taken up", Reagent::Alkali, vec![200, 20]),
    ] {
        for steps in steps {
            journey.add(reagent, steps);
        }
        writeln!(all, "## {moment}").unwrap();
        for step in 0..=4 {
            let text = reservoir::going_on(&reading(&journey.state), step, 37);
            writeln!(all, "{text}").unwrap();
        }
    }
    insta::assert_snapshot!(all);
}

#[test]
fn the_story_of_propanoic_acid() {
    insta::assert_snapshot!(story(PairChoice::Listed("propanoic", 1)));
}

#[test]
fn the_story_of_ammonia() {
    insta::assert_snapshot!(story(PairChoice::Listed("ammonium", 1)));
}

#[test]
fn the_story_of_phosphate() {
    insta::assert_snapshot!(story(PairChoice::Listed("phosphoric", 2)));
}

#[test]
fn the_story_of_citrate() {
    insta::assert_snapshot!(story(PairChoice::Listed("citric", 2)));
}

/// Where free H⁺ or OH⁻ is plentiful from the start, and where the flask is diluted.
#[test]
fn a_strong_acid_and_a_weak_stock() {
    let mut all = Vec::new();
    for (pair, pka, stock) in [
        (PairChoice::OwnAcid, "2", "1"),
        (PairChoice::OwnBase, "12", "1"),
        (PairChoice::OwnAcid, "1", "0.01"),
        (PairChoice::OwnAcid, "5", "0.01"),
    ] {
        let mut journey = Journey::start();
        journey.then(Action::PairChosen(pair));
        journey.then(Action::Typed(Field::OwnPka, pka.to_owned()));
        journey.then(Action::Typed(Field::Stock, stock.to_owned()));
        for reagent in [Reagent::Acid, Reagent::Alkali] {
            journey.then(Action::Added {
                reagent,
                steps: 20,
                press: evenkeel::app::action::Press::Tap,
            });
            all.push(told(
                &journey,
                &format!("{pair:?}, pKa {pka}, stock {stock}, {reagent:?}"),
            ));
        }
    }
    insta::assert_snapshot!(all.join("\n"));
}

/// A pair next to nothing in ten litres: water's own ions outnumber it.
#[test]
fn water_outnumbers_a_pair_that_is_very_dilute() {
    let mut journey = Journey::start();
    journey.then(Action::PairChosen(PairChoice::OwnAcid));
    for (field, text) in [
        (Field::OwnPka, "7"),
        (Field::AcidConcentration, "0.00001"),
        (Field::AcidVolume, "1"),
        (Field::BaseConcentration, "0"),
        (Field::BaseVolume, "10000"),
    ] {
        journey.then(Action::Typed(field, text.to_owned()));
    }
    let mut all = vec![told(&journey, "fresh")];
    for reagent in [Reagent::Acid, Reagent::Alkali] {
        journey.then(Action::Added {
            reagent,
            steps: 20,
            press: evenkeel::app::action::Press::Tap,
        });
        all.push(told(&journey, &format!("{reagent:?}")));
    }
    insta::assert_snapshot!(all.join("\n"));
}
