//! The state driven as a person would drive it, and what follows from it held together:
//! readout, particles, explanation and curve must tell one story at every step.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::bench::FLASK;
use evenkeel::app::graph::{self, Range};
use evenkeel::app::picture::{Detail, Picture};
use evenkeel::app::playback::Playback;
use evenkeel::app::reading::Reading;
use evenkeel::app::recipe::{Field, Method, PAIRS, PairChoice};
use evenkeel::app::state::{BenchEvent, State};
use evenkeel::app::words::addition::Voice;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::sig_fig::Writer;
use evenkeel::lesson::why::Outcome;
use evenkeel::scene::View;
use evenkeel::scene::stage::Stage;

/// A state under way, with the particle world that follows it.
struct Journey {
    state: State,
    playback: Playback,
}

const STAGE: Stage = Stage {
    width: 640.0,
    height: 300.0,
};

fn reading(state: &State) -> Reading {
    Reading::of(&state.bench, state.bench.recipe.read().unwrap()).unwrap()
}

impl Journey {
    fn start() -> Self {
        let state = State::default();
        let picture = Picture::of(&reading(&state), Detail::Wide);
        Self {
            state,
            playback: Playback::new(&picture, STAGE, View::Sorted),
        }
    }

    fn then(&mut self, action: Action) -> &mut Self {
        self.state = apply(&self.state, action);
        let picture = Picture::of(&reading(&self.state), Detail::Wide);
        self.playback.follow(self.state.event, &picture);
        self
    }

    fn add(&mut self, reagent: Reagent, steps: u32) -> &mut Self {
        self.then(Action::Added {
            reagent,
            steps,
            press: Press::Tap,
        });
        self.agree();
        self
    }

    fn choose(&mut self, pair: PairChoice) -> &mut Self {
        self.then(Action::PairChosen(pair));
        self.agree();
        self
    }

    /// Everything that the parts show of this state agrees.
    fn agree(&mut self) {
        let reading = reading(&self.state);
        let picture = Picture::of(&reading, Detail::Wide);
        let place = format!(
            "{:?} acid {} alkali {}",
            self.state.bench.recipe.pair, self.state.bench.acid, self.state.bench.alkali
        );

        // Counts follow amounts to within one particle, and the world shows these counts.
        for (protons, amount) in [
            (1, reading.now.reserves.acid),
            (0, reading.now.reserves.base),
        ] {
            let wanted = amount.mol() / picture.unit;
            let drawn = f64::from(picture.tally.count(protons));
            assert!(
                (drawn - wanted).abs() <= 1.0 + 1e-9,
                "{place}: {drawn} drawn of {wanted}"
            );
        }
        let free = reading.now.equilibrium.free_hydrogen().mol() / picture.unit;
        assert!(
            (f64::from(picture.tally.free_h) - free).abs() <= 1.0 + 1e-9,
            "{place}"
        );
        let free = reading.now.equilibrium.free_hydroxide().mol() / picture.unit;
        assert!(
            (f64::from(picture.tally.free_oh) - free).abs() <= 1.0 + 1e-9,
            "{place}"
        );
        assert_eq!(self.playback.world().tally(), &picture.tally, "{place}");
        assert_eq!(self.playback.world().ledger(), picture.ledger, "{place}");
        let most = picture.particles + picture.tally.free_h + picture.tally.free_oh;
        assert!(most <= Detail::Wide.most(), "{place}: {most} particles");

        // The curve, interpolated, passes through the readout as long as only one reagent
        // was added: then nothing but the curve's own path was walked.
        let range = Range::of(&reading);
        let chart = graph::chart(&reading, range).unwrap();
        let here = graph::here(&reading);
        assert!((chart.x.low..=chart.x.high).contains(&here.0), "{place}");
        assert!(chart.series.iter().all(|s| s.points.len() == graph::POINTS));
        if self.state.bench.acid == 0 || self.state.bench.alkali == 0 {
            for (series, here) in chart.series.iter().zip([graph::water_here(&reading), here]) {
                let after = series
                    .points
                    .partition_point(|p| p.0 < here.0)
                    .clamp(1, series.points.len() - 1);
                let (a, b) = (series.points[after - 1], series.points[after]);
                let low = a.1.min(b.1) - 1e-9;
                let high = a.1.max(b.1) + 1e-9;
                assert!(
                    (low..=high).contains(&here.1),
                    "{place}: {here:?} is off the curve {a:?}–{b:?}"
                );
            }
        }

        // The explanation's before and after are the readout's.
        if let Some(change) = reading.change() {
            assert_eq!(change.after.ph, reading.now.ph());
            let fate = change.fate();
            let parts = fate.met_excess + fate.taken + fate.left;
            assert!((parts.mol() - change.amount.mol()).abs() < 1e-12 * change.amount.mol());
            let moved = match change.reagent {
                Reagent::Acid => change.step() <= 1e-12,
                Reagent::Alkali => change.step() >= -1e-12,
            };
            assert!(moved, "{place}: pH moved the wrong way");
        }
    }

    fn ph(&self) -> f64 {
        reading(&self.state).now.ph().value()
    }
}

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
    assert_eq!(reading.change().unwrap().outcome(), Outcome::RanOut);
    assert!(reading.is_exhausted(Reagent::Acid));
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

#[test]
fn sentences_of_the_starting_bench() {
    let mut journey = Journey::start();
    let text = |state: &State| {
        let reading = reading(state);
        let voice = Voice {
            names: &reading.setup.names,
            scale: reading.scale,
            writer: Writer::default(),
            next_acid_pka: None,
            next_base_pka: None,
        };
        let change = reading.change().unwrap();
        let ratio = voice.ratio(&change).unwrap_or_default();
        [
            voice.headline(&change),
            voice.what_met_what(&change),
            ratio,
            voice.announcement(&change),
        ]
        .join("\n")
    };
    let mut all = Vec::new();
    journey.add(Reagent::Acid, 5);
    all.push(text(&journey.state));
    journey.add(Reagent::Alkali, 20);
    all.push(text(&journey.state));
    for _ in 0..5 {
        journey.add(Reagent::Alkali, 20);
    }
    all.push(text(&journey.state));
    journey.add(Reagent::Alkali, 5);
    all.push(text(&journey.state));
    journey.add(Reagent::Acid, 5);
    all.push(text(&journey.state));
    insta::assert_snapshot!(all.join("\n\n"));
}
