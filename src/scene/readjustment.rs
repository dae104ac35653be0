//! The second beat: from complete reaction to the exactly solved counts.

use super::flight::{Errand, Target};
use super::ions::Reagent;
use super::motion::{Course, span};
use super::particles::{Beats, World};
use super::shape::{Point, seat_between};

impl World {
    /// Moves whole protons until the promised counts are the solved ones, and
    /// lets one particle give and another take, since that never stops.
    ///
    /// Particles still promised to an addition are left alone; what cannot be
    /// done without them is left to a later pass.
    pub(super) fn readjust(&mut self) {
        // Particles that have to move up, or down, across each boundary
        // between neighboring forms.
        let (mut ups, mut downs) = (Vec::new(), Vec::new());
        let mut excess = 0_i64;
        for index in (1..self.target.forms.len()).rev() {
            excess += i64::from(self.target.forms[index]) - i64::from(self.promised.forms[index]);
            for _ in 0..excess {
                ups.push(index - 1);
            }
            for _ in excess..0 {
                downs.push(index);
            }
        }
        let pairs = ups.len().min(downs.len());
        let (single_ups, single_downs) = (ups.len() - pairs, downs.len() - pairs);
        let mut takers = self.claim_from(&ups).into_iter();
        let mut givers = self.claim_from(&downs).into_iter();

        for _ in 0..pairs {
            match (givers.next(), takers.next()) {
                (Some(giver), Some(taker)) => {
                    self.crowd.mark(giver);
                    self.crowd.mark(taker);
                    self.transfer(giver, taker);
                }
                (None, None) => break,
                (Some(one), None) | (None, Some(one)) => self.crowd.unclaim(one),
            }
        }
        for taker in takers.by_ref().take(single_ups) {
            self.take_from_solution(taker);
        }
        for giver in givers.by_ref().take(single_downs) {
            self.give_to_solution(giver);
        }
        for left in takers.chain(givers) {
            self.crowd.unclaim(left);
        }

        if !self.beats.is_empty() {
            return;
        }
        if self.promised == self.target {
            self.begin_exchange();
        } else {
            let crossed = self.crowd.now + span::TRAVEL + span::CROSS;
            self.beats.push(Beats {
                falling: self.crowd.now,
                met: self.crowd.now,
                crossed,
                readjust: crossed + span::BEAT,
            });
        }
    }

    /// Claims one free particle of each of these forms, as far as there are.
    fn claim_from(&mut self, forms: &[usize]) -> Vec<usize> {
        let mut claimed = Vec::with_capacity(forms.len());
        for &form in forms {
            if let Some(id) = self.crowd.topmost(self.promised.protons_of(form)) {
                self.crowd.claim(id);
                claimed.push(id);
            }
        }
        claimed
    }

    /// A claimed particle's proton sets out for another claimed particle.
    pub(super) fn transfer(&mut self, giver: usize, taker: usize) {
        self.promise(giver, Reagent::Alkali);
        self.promise(taker, Reagent::Acid);
        let from = self.give_up(giver);
        self.turn_to(taker, from);
        self.launch(
            span::TRAVEL,
            Errand::Proton {
                from,
                target: Target::Body(taker),
                giver: Some(giver),
            },
        );
    }

    /// A claimed particle gives its proton to a free OH⁻, or sets it free.
    fn give_to_solution(&mut self, giver: usize) {
        if self.promised.free_oh > 0 {
            let Some(ion) = self.crowd.ready_ion(Reagent::Alkali) else {
                self.crowd.unclaim(giver);
                return;
            };
            self.promised.free_oh -= 1;
            self.crowd.mark(giver);
            self.promise(giver, Reagent::Alkali);
            self.crowd.claim_ion(Reagent::Alkali, ion);
            let from = self.give_up(giver);
            self.launch(
                span::TRAVEL,
                Errand::Proton {
                    from,
                    target: Target::Ion(ion),
                    giver: Some(giver),
                },
            );
            return;
        }
        self.promised.free_h += 1;
        self.crowd.mark(giver);
        self.promise(giver, Reagent::Alkali);
        self.counters.released += 1;
        let from = self.give_up(giver);
        self.crowd.unclaim(giver);
        self.crowd.depart(giver);
        self.crowd
            .free_ion(Reagent::Acid, Some(self.crossing_from(from)));
    }

    /// A claimed particle takes a free H⁺, or a proton from water.
    fn take_from_solution(&mut self, taker: usize) {
        if self.promised.free_h > 0 {
            let Some(ion) = self.crowd.ready_ion(Reagent::Acid) else {
                self.crowd.unclaim(taker);
                return;
            };
            self.promised.free_h -= 1;
            self.crowd.mark(taker);
            self.promise(taker, Reagent::Acid);
            let from = self.crowd.take_ion(Reagent::Acid, ion);
            self.turn_to(taker, from);
            self.launch(
                span::TRAVEL,
                Errand::Proton {
                    from,
                    target: Target::Body(taker),
                    giver: None,
                },
            );
            return;
        }
        self.promised.free_oh += 1;
        self.crowd.mark(taker);
        self.promise(taker, Reagent::Acid);
        let lower = self.lower_form(taker, Reagent::Acid);
        let end = self.crowd.now + span::SINK;
        self.crowd.turn_up(taker, lower, end);
        self.launch(span::SINK, Errand::Rising { body: taker });
    }

    /// Takes a proton off its seat and says where that was.
    pub(super) fn give_up(&mut self, giver: usize) -> Point {
        let nth = seat_between(self.lower_form(giver, Reagent::Alkali));
        let from = self.crowd.seat(giver, nth);
        self.crowd.change(giver, -1);
        from
    }

    /// Turns the open seat of a taker towards what comes: from above if it
    /// comes over the walls.
    fn turn_to(&mut self, taker: usize, from: Point) {
        let lower = self.lower_form(taker, Reagent::Acid);
        let end = self.crowd.now + span::TURN;
        match self.course(from, self.crowd.body_at(taker)) {
            Course::Arc(_) => self.crowd.turn_up(taker, lower, end),
            Course::Glide | Course::Fall => {
                let to = self.crowd.body_at(taker);
                let angle = libm::atan2(from.y - to.y, from.x - to.x);
                self.crowd.turn(taker, seat_between(lower), angle, end);
            }
        }
    }

    /// Enters in the promised counts that the particle gains (with acid) or
    /// loses (with alkali) a proton.
    fn promise(&mut self, body: usize, gains: Reagent) {
        let lower = self.lower_form(body, gains);
        let index = usize::from((lower - self.promised.lowest).unsigned_abs());
        let (from, to) = match gains {
            Reagent::Acid => (index, index + 1),
            Reagent::Alkali => (index + 1, index),
        };
        self.promised.forms[from] -= 1;
        self.promised.forms[to] += 1;
    }
}
