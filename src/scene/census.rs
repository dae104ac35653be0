//! Everything there is at this moment, counted.

use super::flight::Errand;
use super::ions::Reagent;
use super::particles::World;

/// What is there now, including what is on its way. Whatever happens,
/// [`Census::ledger`] equals [`World::ledger`].
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Census {
    /// Particles in an acid form: one proton or more.
    pub acid: u32,
    /// Particles in a base form.
    pub base: u32,
    /// Protons seated on particles, relative to all in the base form.
    pub seated: i64,
    /// Free H⁺, at rest or coming to rest.
    pub free_h: u32,
    /// Free OH⁻, at rest or coming to rest.
    pub free_oh: u32,
    /// H⁺ on its way to a partner.
    pub protons_in_flight: u32,
    /// OH⁻ on its way to a partner, or in touch with one.
    pub hydroxides_in_flight: u32,
    /// Water on its way to or from the solvent.
    pub water_in_flight: u32,
}

impl Census {
    /// The proton ledger of what is there.
    pub fn ledger(&self) -> i64 {
        self.seated + i64::from(self.free_h) + i64::from(self.protons_in_flight)
            - i64::from(self.free_oh)
            - i64::from(self.hydroxides_in_flight)
    }
}

impl World {
    /// Counts what is there now.
    pub fn census(&self) -> Census {
        let count = |reagent: Reagent| {
            u32::try_from(self.crowd.ions[reagent as usize].len()).expect("far fewer ions")
        };
        let mut census = Census {
            free_h: count(Reagent::Acid),
            free_oh: count(Reagent::Alkali),
            ..Census::default()
        };
        for body in &self.crowd.bodies {
            census.seated += i64::from(body.protons);
            if body.protons >= 1 {
                census.acid += 1;
            } else {
                census.base += 1;
            }
        }
        for flight in &self.flights {
            match flight.errand {
                Errand::Arrival {
                    reagent: Reagent::Acid,
                    ..
                }
                | Errand::Proton { .. } => census.protons_in_flight += 1,
                Errand::Arrival {
                    reagent: Reagent::Alkali,
                    ..
                } => census.hydroxides_in_flight += 1,
                Errand::HandOver { .. } => {
                    census.protons_in_flight += 1;
                    census.hydroxides_in_flight += 1;
                }
                Errand::Sinking { .. } | Errand::Rising { .. } => census.water_in_flight += 1,
                // Going back on an undo: no longer part of the state shown.
                Errand::Leaving { .. } => {}
            }
        }
        census
    }
}
