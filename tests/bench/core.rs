//! The native half of the core's timing: one line of JSON for `core.mjs`, with seconds for each
//! task and the mixtures themselves, which the libraries beside it solve too.

mod work;

use std::time::Instant;

use evenkeel::chem::equilibrium::Model;
use evenkeel::chem::mixture::Mixture;
use serde_json::{Value, json};
use work::{Task, Work};

/// A batch is at least this long, so that the clock's own steps do not count.
const LEAST_BATCH: f64 = 0.01;

/// So many batches are timed, of which the quickest counts: what the others took longer, somebody
/// else used the machine.
const BATCHES: usize = 15;

#[expect(
    clippy::disallowed_methods,
    reason = "a measurement needs the clock; nothing that it measures sees it"
)]
fn batch(task: &Task, times: usize) -> f64 {
    let start = Instant::now();
    task.run(times);
    start.elapsed().as_secs_f64()
}

/// Seconds for one solution or one curve.
fn seconds(task: &Task) -> f64 {
    let mut times = task.mixtures.len();
    while batch(task, times) < LEAST_BATCH {
        times *= 2;
    }
    let quickest = (0..BATCHES)
        .map(|_| batch(task, times))
        .fold(f64::INFINITY, f64::min);
    quickest / times as f64
}

/// The mixtures of a task as plain numbers, and the pH that the core finds.
fn mixtures(task: &Task) -> Vec<Value> {
    let mixture = |(place, mixture): (usize, &Mixture)| {
        let dm3 = mixture.volume().dm3();
        let weak = mixture.weak().iter().map(|part| {
            let pka: Vec<f64> = part.system.steps().map(|step| step.pka.value()).collect();
            json!({
                "pka": pka,
                "top_charge": part.system.charge(part.system.protons()),
                "molar": part.total.mol() / dm3,
            })
        });
        let strong = mixture
            .spectators()
            .map(|(charge, amount)| json!({ "charge": charge, "molar": amount.mol() / dm3 }));
        json!({
            "weak": weak.collect::<Vec<_>>(),
            "strong": strong.collect::<Vec<_>>(),
            // The last of so many solutions, one mixture after the other, is this one's.
            "ph": task.run(place + 1),
        })
    };
    task.mixtures.iter().enumerate().map(mixture).collect()
}

fn main() {
    let told: Vec<Value> = work::tasks()
        .iter()
        .map(|task| {
            json!({
                "name": task.name,
                "work": match task.work {
                    Work::Ph => "ph",
                    Work::Species => "species",
                    Work::Curve => "curve",
                },
                "pkw": task.conditions.pkw,
                "debye_huckel_a": task.conditions.debye_huckel_a,
                "davies": task.conditions.model == Model::Davies,
                "mixtures": mixtures(task),
                "seconds": seconds(task),
            })
        })
        .collect();
    println!("{}", Value::Array(told));
}
