//! The particles and free ions themselves: which there are, where each one
//! rests and how it gets there. Chemistry is decided elsewhere.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use libm::{floor, remainder};

use super::chance::Chance;
use super::ions::{FreeIon, Reagent, Seating};
use super::mixed::Gaps;
use super::motion::{Course, Movement, Tick, Turn, span};
use super::shape::{Point, Side, seat, seat_angle, seat_between};
use super::stage::Layout;
use super::tally::Tally;

/// How the particles are laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum View {
    /// Counted in two pans.
    #[default]
    Sorted,
    /// Interspersed in one box, as they are in the solution.
    Mixed,
}

/// One particle of the weak system.
#[derive(Debug, Clone)]
pub(super) struct Body {
    pub protons: i8,
    /// The pan it is in, or crossing to, and its slot there. Kept in the
    /// mixed view too.
    pub side: Side,
    pub slot: usize,
    /// Promised to something in flight.
    pub claimed: bool,
    /// Changed by the last addition.
    pub changed: bool,
    pub movement: Movement,
    pub turn: Turn,
}

#[derive(Debug, Clone)]
pub(super) struct Crowd {
    pub now: Tick,
    /// When the last movement or turn started so far will be over.
    pub quiet_at: Tick,
    pub view: View,
    pub layout: Layout,
    pub bodies: Vec<Body>,
    /// Particles of the acid pan and of the base pan, by slot.
    pub piles: [Vec<usize>; 2],
    /// Free H⁺ and free OH⁻, by place.
    pub ions: [Vec<FreeIon>; 2],
    /// Radius at which each kind is drawn.
    pub ion_radius: [f64; 2],
    /// Where free ions of each kind go.
    pub seating: [Seating; 2],
    pub gaps: Option<Gaps>,
    /// Whether what an addition set off is on its way, in which piles fall and rise again.
    pub unsettled: bool,
    pub last_ion: u32,
}

impl Crowd {
    pub fn new(layout: Layout, view: View, tally: &Tally, seed: u64) -> Crowd {
        let mut crowd = Crowd {
            now: 0,
            quiet_at: 0,
            view,
            bodies: Vec::new(),
            piles: [Vec::new(), Vec::new()],
            ions: [Vec::new(), Vec::new()],
            ion_radius: layout.free,
            seating: [Seating::Gaps(0); 2],
            layout,
            gaps: None,
            unsettled: false,
            last_ion: 0,
        };
        let mut chance = Chance::new(seed, 4);
        let forms = tally.by_protons();
        for (protons, count) in forms {
            for _ in 0..count {
                crowd.place(protons, chance.signed() * PI);
            }
        }
        for reagent in [Reagent::Acid, Reagent::Alkali] {
            let count = match reagent {
                Reagent::Acid => tally.free_h,
                Reagent::Alkali => tally.free_oh,
            };
            for _ in 0..count {
                crowd.free_ion(reagent, None);
            }
        }
        crowd.rest_all();
        crowd
    }

    fn place(&mut self, protons: i8, facing: f64) {
        let side = Side::of(protons);
        let id = self.bodies.len();
        let slot = self.pile(side).len();
        self.piles[pile_index(side)].push(id);
        self.bodies.push(Body {
            protons,
            side,
            slot,
            claimed: false,
            changed: false,
            movement: Movement::rest(Point::default()),
            turn: Turn::rest(facing),
        });
        self.bodies[id].movement = Movement::rest(self.rest_of(id));
    }

    pub fn pile(&self, side: Side) -> &[usize] {
        &self.piles[pile_index(side)]
    }

    pub fn body_at(&self, id: usize) -> Point {
        self.bodies[id].movement.at(self.now)
    }

    pub fn facing(&self, id: usize) -> f64 {
        self.bodies[id].turn.at(self.now)
    }

    /// Where the particle's `nth` proton sits or would sit.
    pub fn seat(&self, id: usize, nth: u8) -> Point {
        seat(self.body_at(id), self.layout.radius, self.facing(id), nth)
    }

    /// Where a hydroxide ion touches the particle at its `nth` seat.
    pub fn beside(&self, id: usize, nth: u8) -> Point {
        let reach = self.layout.radius + self.layout.hydroxide;
        self.body_at(id)
            .towards(seat_angle(self.facing(id), nth), reach)
    }

    /// Neither promised to anything nor crossing.
    pub fn is_free(&self, id: usize) -> bool {
        let body = &self.bodies[id];
        !body.claimed && !body.movement.is_crossing(self.now)
    }

    /// The free particle of this form nearest the top of its pan.
    pub fn topmost(&self, protons: i8) -> Option<usize> {
        let pile = self.pile(Side::of(protons));
        let mut from_top = pile.iter().rev().copied();
        from_top.find(|&id| self.bodies[id].protons == protons && self.is_free(id))
    }

    pub fn claim(&mut self, id: usize) {
        self.bodies[id].claimed = true;
    }

    pub fn unclaim(&mut self, id: usize) {
        self.bodies[id].claimed = false;
    }

    pub fn unmark(&mut self) {
        for body in &mut self.bodies {
            body.changed = false;
        }
    }

    /// Gives the particle protons, or takes some.
    pub fn change(&mut self, id: usize, by: i8) {
        self.bodies[id].protons += by;
    }

    pub fn mark(&mut self, id: usize) {
        self.bodies[id].changed = true;
    }

    /// A mark says what an addition changed. When two particles exchange their
    /// forms it stays with the form, so the difference shown stays right.
    pub fn trade_marks(&mut self, a: usize, b: usize) {
        let marks = (self.bodies[a].changed, self.bodies[b].changed);
        (self.bodies[b].changed, self.bodies[a].changed) = marks;
    }

    /// Turns a seat towards `angle`, over by `end`.
    pub fn turn(&mut self, id: usize, nth: u8, angle: f64, end: Tick) {
        let from = self.facing(id);
        let by = remainder(angle - seat_angle(from, nth), TAU);
        let start = end.saturating_sub(span::TURN).max(self.now);
        self.bodies[id].turn = Turn {
            from,
            to: from + by,
            start,
            ticks: end.saturating_sub(start),
        };
        self.quiet_at = self.quiet_at.max(end);
    }

    /// Turns the seat between the form with `lower` protons and the next up
    /// towards the top, though not to the degree, lest a pile look drilled.
    pub fn turn_up(&mut self, id: usize, lower: i8, end: Tick) {
        let share = id as f64 * 0.618_034;
        let tilt = 0.6 * (2.0 * (share - floor(share)) - 1.0);
        self.turn(id, seat_between(lower), tilt - FRAC_PI_2, end);
    }

    /// Sends the particle to the pan in which its form is counted, if it is
    /// not there. The top particle fills the hole it may leave.
    pub fn depart(&mut self, id: usize) {
        let side = Side::of(self.bodies[id].protons);
        let (old, slot) = (self.bodies[id].side, self.bodies[id].slot);
        if side == old {
            return;
        }
        let pile = &mut self.piles[pile_index(old)];
        pile.swap_remove(slot);
        if let Some(&moved) = pile.get(slot) {
            self.bodies[moved].slot = slot;
            self.send(moved, Course::Glide, span::GLIDE);
        }
        let slot = self.pile(side).len();
        self.piles[pile_index(side)].push(id);
        self.settle_in(id, side, slot);
    }

    /// After one particle gave the other a proton: each goes to the pan of
    /// its form. If they change pans they take each other's places, so that
    /// neither leaves a hole.
    pub fn part(&mut self, giver: usize, taker: usize) {
        let old = |id: usize| (self.bodies[id].side, self.bodies[id].slot);
        let new = |id: usize| Side::of(self.bodies[id].protons);
        let (from_giver, from_taker) = (old(giver), old(taker));
        let swap = from_giver.0 != from_taker.0
            && new(giver) == from_taker.0
            && new(taker) == from_giver.0;
        if !swap {
            self.depart(giver);
            self.depart(taker);
            return;
        }
        for (id, (side, slot)) in [(giver, from_taker), (taker, from_giver)] {
            self.piles[pile_index(side)][slot] = id;
            self.settle_in(id, side, slot);
        }
    }

    fn settle_in(&mut self, id: usize, side: Side, slot: usize) {
        self.bodies[id].side = side;
        self.bodies[id].slot = slot;
        let course = match self.view {
            View::Sorted => Course::Arc(self.layout.peak),
            View::Mixed => Course::Glide,
        };
        self.send(id, course, span::CROSS);
        self.fit_ions();
    }

    /// Where the particle rests in this view.
    pub fn rest_of(&self, id: usize) -> Point {
        let body = &self.bodies[id];
        match self.view {
            View::Sorted => self.layout.slot(body.side, body.slot),
            View::Mixed => self.layout.mixed.place(id),
        }
    }

    /// Moves the particle to where it rests, if it is anywhere else.
    pub fn send(&mut self, id: usize, course: Course, ticks: Tick) {
        let from = self.body_at(id);
        let to = self.rest_of(id);
        let movement = &mut self.bodies[id].movement;
        if from == to && movement.to == to {
            return;
        }
        // One sent elsewhere on its way takes at least as long as it had left.
        let left = movement.end().saturating_sub(self.now);
        *movement = Movement {
            from,
            to,
            start: self.now,
            ticks: ticks.max(left),
            course,
        };
        self.quiet_at = self.quiet_at.max(movement.end());
    }
}

fn pile_index(side: Side) -> usize {
    usize::from(side != Side::Acid)
}
