//! The particle world: what it conserves, what it counts, what it draws.
//!
//! The amounts it is fed come from a small solver here, so that these tests
//! stand or fall with the scene alone.

mod additions;
mod beats;
mod idle;
mod picture;
mod repeatable;
mod tallies;
mod undo;

use evenkeel::scene::particles::World;
use evenkeel::scene::shape::{Scene, Shape};
use evenkeel::scene::stage::Stage;
use evenkeel::scene::tally::Amounts;
use evenkeel::scene::{Reagent, View};

const STAGE: Stage = Stage {
    width: 640.0,
    height: 300.0,
};
/// The unit of every world here, mol.
const UNIT: f64 = 1e-4;
/// One sub-step, s.
const TICK: f64 = 1.0 / 120.0;

/// A weak acid–base system in water, ideal, Kw = 1e-14.
#[derive(Debug, Clone)]
struct Solution {
    lowest: i8,
    /// pKa between each form and the next up, from the lowest.
    pkas: Vec<f64>,
    /// Total of the weak system, mol.
    total: f64,
    /// dm³.
    volume: f64,
    /// Proton ledger, mol: seated + free H⁺ − free OH⁻.
    ledger: f64,
}

impl Solution {
    /// One conjugate pair, in particles of [`UNIT`].
    fn pair(pka: f64, base: u32, acid: u32) -> Solution {
        Solution {
            lowest: 0,
            pkas: vec![pka],
            total: UNIT * f64::from(base + acid),
            volume: 0.2,
            ledger: UNIT * f64::from(acid),
        }
    }

    /// The phosphate system seen from its H₂PO₄⁻/HPO₄²⁻ pair.
    fn phosphate(base: u32, acid: u32) -> Solution {
        Solution {
            lowest: -1,
            pkas: vec![12.4, 7.2, 2.1],
            ..Solution::pair(7.2, base, acid)
        }
    }

    /// The solved amounts: bisection on pH of a balance that falls with it.
    fn amounts(&self) -> Amounts {
        let (mut low, mut high) = (-3.0, 17.0);
        for _ in 0..100 {
            let middle = (low + high) / 2.0;
            let a = self.at(middle);
            let seated: f64 = a
                .forms
                .iter()
                .zip(0..)
                .map(|(n, i)| n * f64::from(i32::from(self.lowest) + i))
                .sum();
            if seated + a.free_h - a.free_oh > self.ledger {
                low = middle;
            } else {
                high = middle;
            }
        }
        self.at(low)
    }

    fn at(&self, ph: f64) -> Amounts {
        let mut weights = vec![1.0];
        for pka in &self.pkas {
            let last = weights[weights.len() - 1];
            weights.push(last * libm::pow(10.0, pka - ph));
        }
        let sum: f64 = weights.iter().sum();
        Amounts {
            lowest: self.lowest,
            forms: weights.iter().map(|w| self.total * w / sum).collect(),
            free_h: self.volume * libm::pow(10.0, -ph),
            free_oh: self.volume * libm::pow(10.0, ph - 14.0),
        }
    }

    fn world(&self) -> World {
        World::new(7, STAGE, UNIT, &self.amounts())
    }

    /// Adds particles' worth of a reagent to the solution and to the world.
    fn add(&mut self, world: &mut World, reagent: Reagent, count: u32) {
        let amount = UNIT * f64::from(count);
        self.ledger += match reagent {
            Reagent::Acid => amount,
            Reagent::Alkali => -amount,
        };
        world.add(reagent, count, &self.amounts());
    }
}

/// What a scene shows, counted from its shapes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Drawn {
    acid: u32,
    base: u32,
    protons: u32,
    hydroxides: u32,
    water: u32,
}

fn drawn(scene: &Scene) -> Drawn {
    let mut drawn = Drawn::default();
    for shape in &scene.shapes {
        match shape {
            Shape::Particle { protons, .. } if *protons >= 1 => drawn.acid += 1,
            Shape::Particle { .. } => drawn.base += 1,
            Shape::Proton { .. } => drawn.protons += 1,
            Shape::Hydroxide { .. } => drawn.hydroxides += 1,
            Shape::Water { .. } => drawn.water += 1,
            Shape::SolventStrip { .. }
            | Shape::Pan { .. }
            | Shape::Level { .. }
            | Shape::StartMark { .. }
            | Shape::FreeIons { .. }
            | Shape::Path { .. } => {}
        }
    }
    drawn
}

/// Checks what must hold at every moment, whatever is in flight.
fn check_conserved(world: &World, particles: u32) {
    let census = world.census();
    assert_eq!(census.acid + census.base, particles);
    assert_eq!(census.ledger(), world.ledger());
    let tally = world.tally();
    assert_eq!(tally.particles(), particles);
    assert_eq!(tally.ledger(), world.ledger());
    assert!(tally.free_h == 0 || tally.free_oh == 0);
    let drawn = drawn(&world.scene());
    assert_eq!((drawn.acid, drawn.base), (census.acid, census.base));
}

/// Checks what must hold once everything has come to rest.
fn check_at_rest(world: &World, particles: u32) {
    check_conserved(world, particles);
    assert!(!world.is_moving());
    let tally = world.tally();
    let expected = Drawn {
        acid: tally.acid(),
        base: tally.base(),
        protons: tally.free_h,
        hydroxides: tally.free_oh,
        water: 0,
    };
    assert_eq!(drawn(&world.scene()), expected);
    let counters = world.counters();
    assert_eq!(counters.given, counters.taken);
}

/// Steps until the addition in progress has come to rest, checking every
/// sub-step; gives the number of sub-steps it took.
fn watch(world: &mut World, particles: u32) -> u32 {
    for ticks in 0..1_000 {
        check_conserved(world, particles);
        if !world.is_moving() {
            check_at_rest(world, particles);
            return ticks;
        }
        world.step(TICK);
    }
    panic!("still moving after 1000 sub-steps");
}

/// A digest of every bit of a scene (FNV-1a over the words of its debug-free
/// content), for golden values.
fn digest(scene: &Scene) -> u64 {
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    let mut word = |bits: u64| {
        for byte in bits.to_le_bytes() {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    };
    word(scene.unit.to_bits());
    for shape in &scene.shapes {
        let (tag, numbers): (u64, Vec<f64>) = match *shape {
            Shape::SolventStrip { rect } => (1, vec![rect.x, rect.y, rect.width, rect.height]),
            Shape::Pan { rect, side } => (
                2 + side as u64,
                vec![rect.x, rect.y, rect.width, rect.height],
            ),
            Shape::Level { rect, side } => (
                5 + side as u64,
                vec![rect.x, rect.y, rect.width, rect.height],
            ),
            Shape::StartMark { from, to, side, .. } => {
                (8 + side as u64, vec![from.x, from.y, to.x, to.y])
            }
            Shape::Path {
                from,
                to,
                peak,
                side,
            } => (11 + side as u64, vec![from.x, from.y, to.x, to.y, peak]),
            Shape::Particle {
                id,
                at,
                radius,
                protons,
                facing,
                marked,
            } => (
                14 + u64::from(marked),
                vec![
                    f64::from(id),
                    at.x,
                    at.y,
                    radius,
                    f64::from(protons),
                    facing,
                ],
            ),
            Shape::Proton { at, radius, trail } => {
                (16, vec![at.x, at.y, radius, trail.unwrap_or(-1.0)])
            }
            Shape::Hydroxide { at, radius, trail } => {
                (17, vec![at.x, at.y, radius, trail.unwrap_or(-1.0)])
            }
            Shape::Water { at, radius } => (18, vec![at.x, at.y, radius]),
            Shape::FreeIons { rect, side } => (
                19 + side as u64,
                vec![rect.x, rect.y, rect.width, rect.height],
            ),
        };
        word(tag);
        numbers
            .into_iter()
            .for_each(|number| word(number.to_bits()));
    }
    hash
}

/// Both views, for tests that hold in either.
const VIEWS: [View; 2] = [View::Sorted, View::Mixed];
