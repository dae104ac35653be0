//! Things on their way, and what happens when they arrive.

use super::crowd::View;
use super::ions::{Reagent, Way};
use super::motion::{Course, Tick, progress, span};
use super::particles::World;
use super::shape::{Point, seat_between};

/// What a flight is bound for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Target {
    /// A particle, by its number.
    Body(usize),
    /// A free ion, by its number.
    Ion(u32),
}

/// Something on its way, or held for a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Errand {
    /// Falls in to meet a partner.
    Arrival { reagent: Reagent, target: Target },
    /// A hydroxide ion, touching a particle, takes its proton.
    HandOver { body: usize },
    /// A proton travels from `from`, given up by `giver` if that was a
    /// particle.
    Proton {
        from: Point,
        target: Target,
        giver: Option<usize>,
    },
    /// Water sinks into the solvent.
    Sinking { from: Point },
    /// Water rises to a particle that will take a proton from it.
    Rising { body: usize },
    /// A free ion goes back where it came from, when an addition is undone.
    Leaving { reagent: Reagent, from: Point },
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Flight {
    pub start: Tick,
    pub end: Tick,
    pub errand: Errand,
}

impl Flight {
    pub fn progress(&self, now: Tick) -> f64 {
        progress(self.start, self.end - self.start, now)
    }
}

impl World {
    /// Starts a flight now, which takes `ticks`.
    pub(super) fn launch(&mut self, ticks: Tick, errand: Errand) {
        let start = self.crowd.now;
        self.flights.push(Flight {
            start,
            end: start + ticks,
            errand,
        });
    }

    /// What happens when a flight arrives.
    pub(super) fn land(&mut self, errand: Errand) {
        match errand {
            Errand::Arrival {
                reagent: Reagent::Acid,
                target: Target::Body(body),
            } => {
                self.counters.arrivals_met += 1;
                self.seat_proton(body);
            }
            Errand::Arrival {
                reagent: Reagent::Alkali,
                target: Target::Body(body),
            } => {
                self.crowd.change(body, -1);
                self.launch(span::HAND_OVER, Errand::HandOver { body });
            }
            Errand::Arrival {
                reagent,
                target: Target::Ion(ion),
            } => {
                self.counters.arrivals_met += 1;
                self.make_water(reagent.opposite(), ion);
            }
            Errand::HandOver { body } => {
                self.counters.arrivals_met += 1;
                // The particle has lost the proton, so its form now is the
                // lower one of the pair that the seat lies between.
                let nth = seat_between(self.crowd.bodies[body].protons);
                let from = self.crowd.beside(body, nth);
                self.launch(span::SINK, Errand::Sinking { from });
                self.crowd.unclaim(body);
                self.crowd.depart(body);
            }
            Errand::Proton { target, giver, .. } => self.deliver(target, giver),
            Errand::Sinking { .. } => self.counters.water_made += 1,
            Errand::Rising { body } => self.split_water(body),
            Errand::Leaving { .. } => {}
        }
    }

    /// The proton that a particle waited for arrives.
    fn seat_proton(&mut self, body: usize) {
        self.crowd.change(body, 1);
        self.crowd.unclaim(body);
        self.crowd.depart(body);
    }

    fn deliver(&mut self, target: Target, giver: Option<usize>) {
        match (target, giver) {
            (Target::Body(taker), Some(giver)) => {
                self.counters.given += 1;
                self.counters.taken += 1;
                self.crowd.change(taker, 1);
                self.crowd.unclaim(taker);
                self.crowd.unclaim(giver);
                self.crowd.trade_marks(giver, taker);
                self.crowd.part(giver, taker);
            }
            (Target::Body(taker), None) => {
                self.counters.recaptured += 1;
                self.seat_proton(taker);
            }
            (Target::Ion(ion), giver) => {
                self.counters.released += 1;
                self.make_water(Reagent::Alkali, ion);
                if let Some(giver) = giver {
                    self.crowd.unclaim(giver);
                    self.crowd.depart(giver);
                }
            }
        }
    }

    /// The free ion is met by its opposite: both become water.
    pub(super) fn make_water(&mut self, ion_kind: Reagent, ion: u32) {
        let from = self.crowd.take_ion(ion_kind, ion);
        self.launch(span::SINK, Errand::Sinking { from });
    }

    /// A particle takes a proton from water, which leaves a hydroxide ion.
    fn split_water(&mut self, body: usize) {
        let nth = seat_between(self.crowd.bodies[body].protons);
        let from = self.crowd.beside(body, nth);
        self.crowd.change(body, 1);
        self.counters.water_split += 1;
        self.crowd.unclaim(body);
        self.crowd.depart(body);
        self.crowd
            .free_ion(Reagent::Alkali, Some(self.crossing_from(from)));
    }

    /// The course from one place to another: over the walls if they part the
    /// two.
    pub(super) fn course(&self, from: Point, to: Point) -> Course {
        let middle = self.crowd.layout.gap_x();
        let parted = (from.x < middle) != (to.x < middle);
        if parted && self.crowd.view == View::Sorted {
            Course::Arc(self.crowd.layout.peak)
        } else {
            Course::Glide
        }
    }

    /// The way of an ion set free at `from`, over the walls, to its place.
    pub(super) fn crossing_from(&self, from: Point) -> Way {
        let course = match self.crowd.view {
            View::Sorted => Course::Arc(self.crowd.layout.peak),
            View::Mixed => Course::Glide,
        };
        Way {
            from: Some(from),
            start: self.crowd.now,
            ticks: span::CROSS,
            course,
        }
    }
}
