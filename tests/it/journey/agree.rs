//! A journey through the state, and everything that its parts show held together.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::graph::{self, Range};
use evenkeel::app::picture::{Detail, Picture};
use evenkeel::app::playback::Playback;
use evenkeel::app::reading::Reading;
use evenkeel::app::recipe::PairChoice;
use evenkeel::app::state::State;
use evenkeel::app::words::addition::Voice;
use evenkeel::app::words::explanation::explanation;
use evenkeel::chem::buffer::Reserves;
use evenkeel::chem::titration::Reagent;
use evenkeel::scene::View;
use evenkeel::scene::stage::Stage;

use crate::writers::POINT;

/// A state under way, with the particle world that follows it.
pub struct Journey {
    pub state: State,
    pub playback: Playback,
}

const STAGE: Stage = Stage {
    width: 640.0,
    height: 300.0,
};

pub fn reading(state: &State) -> Reading {
    Reading::of(&state.bench, state.bench.recipe.read().unwrap()).unwrap()
}

impl Journey {
    pub fn start() -> Self {
        let state = State::default();
        let picture = Picture::of(&reading(&state), Detail::Wide);
        Self {
            state,
            playback: Playback::new(&picture, STAGE, View::Sorted),
        }
    }

    pub fn then(&mut self, action: Action) -> &mut Self {
        self.state = apply(&self.state, action);
        let picture = Picture::of(&reading(&self.state), Detail::Wide);
        self.playback.follow(self.state.event, &picture);
        self
    }

    pub fn add(&mut self, reagent: Reagent, steps: u32) -> &mut Self {
        self.then(Action::Added {
            reagent,
            steps,
            press: Press::Tap,
        });
        self.agree();
        self
    }

    pub fn choose(&mut self, pair: PairChoice) -> &mut Self {
        self.then(Action::PairChosen(pair));
        self.agree();
        self
    }

    /// Everything that the parts show of this state agrees.
    pub fn agree(&self) {
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
        let most = picture.tally.drawn();
        assert!(most <= Detail::Wide.most(), "{place}: {most} particles");

        let one_way = self.state.bench.acid == 0 || self.state.bench.alkali == 0;
        on_the_curve(&reading, one_way, &place);
        explained(&reading, &place);
    }

    pub fn ph(&self) -> f64 {
        reading(&self.state).now.ph().value()
    }
}

/// The curve, interpolated, passes through the readout as long as only one reagent was added:
/// then nothing but the curve's own path was walked.
fn on_the_curve(reading: &Reading, one_way: bool, place: &str) {
    let range = Range::of(reading);
    let chart = graph::chart(reading, range).unwrap();
    let here = graph::here(reading);
    assert!((chart.x.low..=chart.x.high).contains(&here.0), "{place}");
    assert!(chart.series.iter().all(|s| s.points.len() == graph::POINTS));
    if one_way {
        for (series, here) in chart.series.iter().zip([graph::water_here(reading), here]) {
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
}

/// The explanation's before and after are the readout's, and its words say what was solved.
fn explained(reading: &Reading, place: &str) {
    let (Some(change), Some(before)) = (reading.change(), &reading.before) else {
        return;
    };
    assert_eq!(change.before.ph, before.ph());
    assert_eq!(change.after.ph, reading.now.ph());
    let moved = match change.reagent {
        Reagent::Acid => change.step() <= 1e-12,
        Reagent::Alkali => change.step() >= -1e-12,
    };
    assert!(moved, "{place}: pH moved the wrong way");

    // Every proton is accounted for.
    let fate = change.fate();
    let parts = fate.pair + fate.above + fate.below + fate.water + fate.free;
    assert!((parts - 1.0).abs() < 1e-9, "{place}: {fate:?}");

    let (then, now) = (&before.equilibrium, &reading.now.equilibrium);
    let (free, partner) = match change.reagent {
        Reagent::Acid => (
            now.free_hydrogen().mol() - then.free_hydrogen().mol(),
            [before.reserves.base, reading.now.reserves.base],
        ),
        Reagent::Alkali => (
            now.free_hydroxide().mol() - then.free_hydroxide().mol(),
            [before.reserves.acid, reading.now.reserves.acid],
        ),
    };
    let free = free / change.amount.mol();
    let voice = Voice::of(reading, POINT);
    let text = voice.what_met_what(&change);
    let place = format!("{place}: {text}");
    let particle = reading.scale.step;
    if text.contains("ran out") {
        assert!(partner[1] < particle, "{place}");
    }
    if text.contains(" left to react") || text.contains("held no") {
        assert!(partner[0] < particle, "{place}");
    }
    // "Almost all" leaves up to 2 % unsaid, and a share in a list is said from half a per
    // cent on.
    let said = text.contains("stays free.") || text.contains("stays free;");
    assert!(
        if said { free >= 0.004 } else { free <= 0.021 },
        "{place}: {free}"
    );
    if text.contains("runs away") {
        assert!(change.step().abs() >= 0.5, "{place}");
    }
    if text.contains("hardly holds") {
        assert!(free >= 0.5, "{place}: {free}");
    }
    if text.contains("just as much more") {
        let [acid, base] = [|r: &Reserves| r.acid.mol(), |r: &Reserves| r.base.mol()]
            .map(|form| form(&reading.now.reserves) - form(&before.reserves));
        let unit = 1.1 * particle.mol();
        assert!(
            (acid + base).abs() < unit && acid * base < 0.0,
            "{place}: {acid} {base}"
        );
    }
    let ratio = voice.ratio(&change).unwrap_or_default();
    if ratio.contains("only") {
        assert!(change.step().abs() < 0.211, "{place}");
    }
    figures(&explanation(&voice, reading), &place);
}

/// The last column of the table of changes is the difference of the two before it.
fn figures(explanation: &str, place: &str) {
    let rows: Vec<&str> = explanation.split("</th><td>").skip(1).collect();
    assert_eq!(rows.len(), 4, "{place}");
    for row in rows {
        let cells: Vec<&str> = row.split("</td>").take(3).collect();
        let [before, after, change] = [0, 1, 2].map(|i| {
            let number = cells[i].trim_start_matches("<td>").replace('\u{202f}', "");
            number.replace('−', "-").parse::<f64>().unwrap()
        });
        let decimals = cells[1].split('.').nth(1).map_or(0, str::len);
        let printed = format!("{:.decimals$}", after - before + 0.0);
        let printed: f64 = printed.parse().unwrap();
        assert_eq!(printed, change, "{place}: {row}");
    }
}
