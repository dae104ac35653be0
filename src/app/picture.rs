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
        let mut steps: u32 = 1;
        loop {
            let unit = reading.scale.step.mol() * f64::from(steps);
            let particles = start.particles(unit);
            let ledger = |solved: &Solved| {
                let added = whole(steps_added(solved) / f64::from(steps));
                start.ledger(unit).saturating_sub(added)
            };
            let tally = Tally::of(&now, unit, particles, ledger(&reading.now));
            let larger = next_size(steps).filter(|_| tally.drawn() > detail.most());
            let Some(larger) = larger else {
                return Self {
                    steps_per_particle: steps,
                    unit,
                    particles,
                    ledger: ledger(&reading.now),
                    tally,
                    before: reading
                        .before
                        .as_ref()
                        .map(|b| (amounts(reading, b), ledger(b))),
                    amounts: now,
                    start,
                };
            };
            steps = larger;
        }
    }

    /// The same before any addition; one particle is as much.
    #[must_use]
    pub fn at_start(&self) -> Self {
        let ledger = self.start.ledger(self.unit);
        Self {
            amounts: self.start.clone(),
            ledger,
            tally: Tally::of(&self.start, self.unit, self.particles, ledger),
            before: None,
            ..self.clone()
        }
    }
}

/// The next of 1, 2, 5, 10, 20 …
fn next_size(size: u32) -> Option<u32> {
    let leading = (0..10).fold(size, |n, _| if n >= 10 { n / 10 } else { n });
    if leading == 2 {
        (size / 2).checked_mul(5)
    } else {
        size.checked_mul(2)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_one_two_five_without_end() {
        let sizes: Vec<u32> = std::iter::successors(Some(1), |n| next_size(*n)).collect();
        assert_eq!(sizes[..8], [1, 2, 5, 10, 20, 50, 100, 200]);
        assert_eq!(sizes.last(), Some(&2_000_000_000));
    }
}
