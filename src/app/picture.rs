//! The particle counts of a reading: what one particle stands for, and how many there are.

use crate::app::reading::{Reading, Solved};
use crate::chem::power::whole;
use crate::scene::tally::{Amounts, Tally};

/// Particles that may be drawn, weak ones and free ions together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Detail {
    /// On a phone: up to 400.
    #[default]
    Phone,
    /// On a wide screen: up to 1000.
    Wide,
}

impl Detail {
    /// The most particles drawn.
    pub const fn most(self) -> u32 {
        match self {
            Self::Phone => 400,
            Self::Wide => 1000,
        }
    }
}

/// A bench in whole particles.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Steps of the smallest addition that one particle stands for: 1, 2, 5, 10 …
    pub steps_per_particle: u32,
    /// The same in mol.
    pub unit: f64,
    /// Solved amounts now.
    pub amounts: Amounts,
    /// Solved amounts before any addition.
    pub start: Amounts,
    /// Particles of the weak system; never changes while the recipe stays.
    pub particles: u32,
    /// The proton ledger now.
    pub ledger: i64,
    /// Counts now.
    pub tally: Tally,
    /// Amounts and ledger before the last addition.
    pub before: Option<(Amounts, i64)>,
}

impl Picture {
    /// The picture of `reading`. One particle is the smallest addition, so that an addition
    /// is a whole number of particles; where that would be more particles than `detail`
    /// allows (far past exhaustion), it is twice, five, ten … times as much.
    pub fn of(reading: &Reading, detail: Detail) -> Self {
        let now = amounts(reading, &reading.now);
        let start = amounts(reading, &reading.start);
        let steps_added = |solved: &Solved| solved.added.mol() / reading.scale.step.mol();
        let sizes = (0..6).flat_map(|decade| [1, 2, 5].map(|m| m * 10_u32.pow(decade)));
        let mut last = None;
        for steps in sizes {
            let unit = reading.scale.step.mol() * f64::from(steps);
            let particles = start.particles(unit);
            let ledger = |solved: &Solved| {
                start.ledger(unit) - whole(steps_added(solved) / f64::from(steps))
            };
            let tally = Tally::of(&now, unit, particles, ledger(&reading.now));
            let drawn = particles + tally.free_h + tally.free_oh;
            let picture = Self {
                steps_per_particle: steps,
                unit,
                amounts: now.clone(),
                start: start.clone(),
                particles,
                ledger: ledger(&reading.now),
                tally,
                before: reading
                    .before
                    .as_ref()
                    .map(|b| (amounts(reading, b), ledger(b))),
            };
            if drawn <= detail.most() {
                return picture;
            }
            last = Some(picture);
        }
        last.expect("at least one size is tried")
    }
}

/// The forms of the pair's system, by protons relative to the pair's base form.
fn amounts(reading: &Reading, solved: &Solved) -> Amounts {
    let pair = &reading.setup.pair;
    let base = i16::from(pair.base_protons());
    // The bench holds one system, so the species of the first are all there are.
    let mut forms: Vec<(u8, f64)> = solved
        .equilibrium
        .species()
        .iter()
        .map(|s| (s.protons, s.amount.mol()))
        .collect();
    forms.sort_by_key(|(protons, _)| *protons);
    Amounts {
        lowest: i8::try_from(-base).expect("at most three protons"),
        forms: forms.into_iter().map(|(_, amount)| amount).collect(),
        free_h: solved.equilibrium.free_hydrogen().mol(),
        free_oh: solved.equilibrium.free_hydroxide().mol(),
    }
}
