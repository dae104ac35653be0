//! Adding acid or alkali, and going back to an earlier state.

use super::flight::{Errand, Flight, Target};
use super::ions::{Reagent, Way};
use super::motion::{Course, Tick, span};
use super::particles::{Beats, World};
use super::shape::{Point, Side};
use super::tally::{Amounts, Tally};

/// More than this many arrivals are not drawn in the air at once; the rest
/// react at once.
const MOST_AIRBORNE: usize = 60;

impl World {
    /// Adds `count` particles' worth of acid or alkali, after which the solved
    /// amounts are `after`.
    ///
    /// The reaction takes 0.9 s for one particle and up to 1.25 s for many;
    /// the readjustment starts 0.25 s later. More may be added before that.
    pub fn add(&mut self, reagent: Reagent, count: u32, after: &Amounts) {
        self.crowd.unmark();
        self.next_exchange = None;
        self.adding = true;
        self.crowd.unsettled = true;
        self.ledger += match reagent {
            Reagent::Acid => i64::from(count),
            Reagent::Alkali => -i64::from(count),
        };
        self.target = Tally::of(after, self.unit, self.promised.particles(), self.ledger);

        let now = self.crowd.now;
        let mut airborne = self.airborne();
        let mut last = now;
        for nth in 0..count {
            // The division spreads the arrivals evenly over the stagger.
            let start = now + span::STAGGER * Tick::from(nth) / Tick::from(count);
            let falls = airborne < MOST_AIRBORNE;
            if falls {
                airborne += 1;
                last = start;
            }
            self.arrive(reagent, falls.then_some(start));
        }
        let met = last + span::FALL;
        let hand_over = match reagent {
            Reagent::Acid => 0,
            Reagent::Alkali => span::HAND_OVER,
        };
        let crossed = met + hand_over + span::CROSS;
        self.beats.push(Beats {
            // By then the last is well in sight and the first not yet down.
            falling: (now + span::STAGGER).max(last + span::FALL / 3),
            met,
            crossed,
            readjust: crossed + span::BEAT,
        });
        if self.still {
            self.settle();
        }
    }

    /// Goes to another state of the same mixture (undo, redo): the particles
    /// cross, and free ions come and go through the top. Nothing reacts, so
    /// the counters stay.
    pub fn show(&mut self, amounts: &Amounts, ledger: i64) {
        let before: Vec<Point> = (0..self.crowd.bodies.len())
            .map(|id| self.crowd.body_at(id))
            .collect();
        self.settle();
        self.crowd.unmark();
        self.next_exchange = None;
        self.ledger = ledger;
        self.target = Tally::of(amounts, self.unit, self.promised.particles(), ledger);
        self.promised = self.target.clone();
        self.recast();
        self.crowd.resume_from(&before);
        for (reagent, wanted) in [
            (Reagent::Acid, self.target.free_h),
            (Reagent::Alkali, self.target.free_oh),
        ] {
            self.set_free_ions(reagent, wanted as usize);
        }
        if self.still {
            self.settle();
        } else {
            self.schedule_exchange();
        }
    }

    /// Gives the particles the forms of the target, changing as few as can be
    /// and those nearest the top.
    fn recast(&mut self) {
        let bodies = &self.crowd.bodies;
        let mut order: Vec<usize> = (0..bodies.len()).collect();
        // By form. Those that have to move up a form come last in the base
        // pan and those that have to move down first in the acid pan, so the
        // tops of the piles change.
        order.sort_by_key(|&id| {
            let body = &bodies[id];
            let slot = isize::try_from(body.slot).expect("a pile has few particles");
            let from_boundary = if body.side == Side::Acid { -slot } else { slot };
            (body.protons, from_boundary)
        });
        let forms = self.target.by_protons();
        let wanted: Vec<i8> = forms
            .flat_map(|(protons, count)| (0..count).map(move |_| protons))
            .collect();
        let mut changed = Vec::new();
        for (id, protons) in order.into_iter().zip(wanted) {
            let by = protons - self.crowd.bodies[id].protons;
            if by != 0 {
                self.crowd.change(id, by);
                self.crowd.mark(id);
                changed.push(id);
            }
        }
        changed.sort_by_key(|&id| std::cmp::Reverse(self.crowd.bodies[id].slot));
        for id in changed {
            self.crowd.depart(id);
        }
    }

    fn set_free_ions(&mut self, reagent: Reagent, wanted: usize) {
        let now = self.crowd.now;
        while self.crowd.ions[reagent as usize].len() > wanted {
            let Some(id) = self.crowd.ready_ion(reagent) else {
                break;
            };
            let from = self.crowd.take_ion(reagent, id);
            self.launch(span::CROSS, Errand::Leaving { reagent, from });
        }
        while self.crowd.ions[reagent as usize].len() < wanted {
            self.crowd.free_ion(reagent, Some(falling_from(now)));
        }
    }

    /// How many arrivals are falling, or about to.
    fn airborne(&self) -> usize {
        let is_arrival = |flight: &&Flight| matches!(flight.errand, Errand::Arrival { .. });
        let now = self.crowd.now;
        let falling = self
            .crowd
            .ions
            .iter()
            .flatten()
            .filter(|ion| ion.movement.course == Course::Fall && !ion.movement.is_over(now));
        self.flights.iter().filter(is_arrival).count() + falling.count()
    }

    /// One arrival: a free ion of the opposite kind takes it if there is one,
    /// else the strongest partner among the particles, else it stays free.
    /// It falls from `start`, or has already arrived.
    fn arrive(&mut self, reagent: Reagent, start: Option<Tick>) {
        let target = self.partner(reagent);
        if let Some(Target::Body(body)) = target {
            self.crowd.mark(body);
        }
        match (target, start) {
            (Some(target), Some(start)) => {
                let end = start + span::FALL;
                match target {
                    Target::Body(body) => {
                        self.crowd.claim(body);
                        let lower = self.lower_form(body, reagent);
                        self.crowd.turn_up(body, lower, end);
                    }
                    Target::Ion(ion) => self.crowd.claim_ion(reagent.opposite(), ion),
                }
                self.flights.push(Flight {
                    start,
                    end,
                    errand: Errand::Arrival { reagent, target },
                });
            }
            (Some(Target::Body(body)), None) => {
                self.counters.arrivals_met += 1;
                match reagent {
                    Reagent::Acid => self.crowd.change(body, 1),
                    Reagent::Alkali => {
                        self.crowd.change(body, -1);
                        self.counters.water_made += 1;
                    }
                }
                self.crowd.depart(body);
            }
            (Some(Target::Ion(ion)), None) => {
                self.counters.arrivals_met += 1;
                self.counters.water_made += 1;
                self.crowd.take_ion(reagent.opposite(), ion);
            }
            (None, start) => self.crowd.free_ion(reagent, start.map(falling_from)),
        }
    }

    /// The lower of the two forms a particle changes between when it meets
    /// this reagent.
    pub(super) fn lower_form(&self, body: usize, reagent: Reagent) -> i8 {
        let protons = self.crowd.bodies[body].protons;
        match reagent {
            Reagent::Acid => protons,
            Reagent::Alkali => protons - 1,
        }
    }

    /// Chooses a partner and enters the reaction in the promised counts.
    fn partner(&mut self, reagent: Reagent) -> Option<Target> {
        let promised = &mut self.promised;
        let (free, opposite) = match reagent {
            Reagent::Acid => (&mut promised.free_h, &mut promised.free_oh),
            Reagent::Alkali => (&mut promised.free_oh, &mut promised.free_h),
        };
        if *opposite > 0 {
            *opposite -= 1;
            let kind = reagent.opposite();
            return Some(Target::Ion(self.ready(|world| world.crowd.ready_ion(kind))));
        }
        // H⁺ goes to the strongest base, the form with the fewest protons;
        // OH⁻ to the strongest acid, the form with the most.
        let top = promised.forms.len().saturating_sub(1);
        let met = match reagent {
            Reagent::Acid => (0..top).find(|&i| promised.forms[i] > 0),
            Reagent::Alkali => (1..=top).rev().find(|&i| promised.forms[i] > 0),
        };
        let Some(from) = met else {
            *free += 1;
            return None;
        };
        let to = match reagent {
            Reagent::Acid => from + 1,
            Reagent::Alkali => from - 1,
        };
        promised.forms[from] -= 1;
        promised.forms[to] += 1;
        let protons = promised.protons_of(from);
        Some(Target::Body(
            self.ready(|world| world.crowd.topmost(protons)),
        ))
    }

    /// Finds one that is promised to nothing; if all are busy, the flights
    /// that keep them busy are finished first.
    fn ready<T>(&mut self, find: impl Fn(&World) -> Option<T>) -> T {
        if let Some(found) = find(self) {
            return found;
        }
        self.finish_flights();
        find(self).expect("with nothing in flight the promised counts are the actual ones")
    }
}

fn falling_from(start: Tick) -> Way {
    Way {
        from: None,
        start,
        ticks: span::FALL,
        course: Course::Fall,
    }
}
