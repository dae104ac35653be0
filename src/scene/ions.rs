//! Free H⁺ and OH⁻: where they rest and how they get there.
//!
//! In the sorted view they lie in rows on top of the pile of the pan they
//! emptied; in the mixed view they sit in gaps between the particles.

use super::crowd::{Crowd, View};
use super::ion_rows::IonRows;
use super::motion::{Course, Movement, Tick, span};
use super::shape::{Point, Side};

/// What an addition brings, and so also the two kinds of free ion.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reagent {
    /// H⁺.
    Acid,
    /// OH⁻.
    Alkali,
}

impl Reagent {
    /// The one that neutralizes this one.
    pub fn opposite(self) -> Reagent {
        match self {
            Reagent::Acid => Reagent::Alkali,
            Reagent::Alkali => Reagent::Acid,
        }
    }

    /// The pan in which it stays when it finds no partner: the one it empties.
    pub(super) fn pan(self) -> Side {
        match self {
            Reagent::Acid => Side::Base,
            Reagent::Alkali => Side::Acid,
        }
    }
}

/// One free ion.
#[derive(Debug, Clone)]
pub(super) struct FreeIon {
    pub id: u32,
    pub claimed: bool,
    pub movement: Movement,
}

/// How a free ion comes to its place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Way {
    /// From straight above its place if not stated.
    pub from: Option<Point>,
    pub start: Tick,
    pub ticks: Tick,
    pub course: Course,
}

/// The places free ions of one kind take.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Seating {
    /// On top of a pile.
    Rows(IonRows),
    /// In the gaps of the mixed view, of which there are this many.
    Gaps(usize),
}

/// So few free ions lie just on their pile, whatever it does. Where there are more, all of them would
/// travel all the time.
const FEW: usize = 60;

const KINDS: [Reagent; 2] = [Reagent::Acid, Reagent::Alkali];

impl Crowd {
    /// Adds a free ion, which comes along `way` or is there at once.
    pub fn free_ion(&mut self, reagent: Reagent, way: Option<Way>) {
        self.last_ion = self.last_ion.wrapping_add(1);
        let index = self.ions[reagent as usize].len();
        self.ions[reagent as usize].push(FreeIon {
            id: self.last_ion,
            claimed: false,
            movement: Movement::rest(Point::default()),
        });
        self.fit_ions();
        let to = self.ion_site(reagent, index);
        let movement = way.map_or(Movement::rest(to), |way| Movement {
            from: way.from.unwrap_or(self.above(to)),
            to,
            start: way.start,
            ticks: way.ticks,
            course: way.course,
        });
        self.ions[reagent as usize][index].movement = movement;
        self.quiet_at = self.quiet_at.max(movement.end());
    }

    /// The point out of sight above another.
    pub fn above(&self, point: Point) -> Point {
        Point::new(point.x, -2.0 * self.layout.free[1])
    }

    /// A free ion of this kind that is there already and is not promised.
    pub fn ready_ion(&self, reagent: Reagent) -> Option<u32> {
        let mut from_top = self.ions[reagent as usize].iter().rev();
        let is_there =
            |movement: &Movement| movement.course == Course::Glide || movement.is_over(self.now);
        from_top
            .find(|ion| !ion.claimed && is_there(&ion.movement))
            .map(|ion| ion.id)
    }

    pub fn claim_ion(&mut self, reagent: Reagent, id: u32) {
        let index = self.ion_index(reagent, id);
        self.ions[reagent as usize][index].claimed = true;
    }

    pub fn ion_at(&self, reagent: Reagent, id: u32) -> Point {
        let index = self.ion_index(reagent, id);
        self.ions[reagent as usize][index].movement.at(self.now)
    }

    /// Takes a free ion away and says where it was. The last one takes its
    /// place.
    pub fn take_ion(&mut self, reagent: Reagent, id: u32) -> Point {
        let index = self.ion_index(reagent, id);
        let ions = &mut self.ions[reagent as usize];
        let at = ions.swap_remove(index).movement.at(self.now);
        if index < ions.len() {
            let to = self.ion_site(reagent, index);
            self.send_ion(reagent, index, to, span::GLIDE);
        }
        self.fit_ions();
        at
    }

    fn ion_index(&self, reagent: Reagent, id: u32) -> usize {
        self.ions[reagent as usize]
            .iter()
            .position(|ion| ion.id == id)
            .expect("an ion that something is bound for stays until it is taken")
    }

    /// Finds places for all free ions; if they are other places than before,
    /// the ions move there.
    pub fn fit_ions(&mut self) {
        self.refit(span::GLIDE);
    }

    /// What an addition set off is over: they come down to where they stay.
    pub fn let_down(&mut self) {
        if std::mem::take(&mut self.unsettled) {
            self.fit_ions();
        }
    }

    /// Finds places for all free ions in another view.
    pub fn reseat_ions(&mut self) {
        self.refit(span::VIEW);
    }

    fn refit(&mut self, ticks: Tick) {
        for reagent in KINDS {
            let seating = self.seating_for(reagent);
            if seating == self.seating[reagent as usize] {
                continue;
            }
            self.seating[reagent as usize] = seating;
            for index in 0..self.ions[reagent as usize].len() {
                let to = self.ion_site(reagent, index);
                self.send_ion(reagent, index, to, ticks);
            }
        }
    }

    /// Gives every free ion its place on a new stage, without travel.
    pub fn relay_ions(&mut self, scale: impl Fn(Point) -> Point) {
        self.gaps = None;
        self.seating = [Seating::Gaps(0); 2];
        for reagent in KINDS {
            self.seating[reagent as usize] = self.seating_for(reagent);
            for index in 0..self.ions[reagent as usize].len() {
                let to = self.ion_site(reagent, index);
                let movement = &mut self.ions[reagent as usize][index].movement;
                movement.from = scale(movement.from);
                movement.to = to;
            }
        }
    }

    fn send_ion(&mut self, reagent: Reagent, index: usize, to: Point, ticks: Tick) {
        let now = self.now;
        let movement = &mut self.ions[reagent as usize][index].movement;
        if movement.is_over(now) {
            if movement.to == to {
                return;
            }
            *movement = Movement {
                from: movement.to,
                to,
                start: now,
                ticks,
                course: Course::Glide,
            };
            self.quiet_at = self.quiet_at.max(movement.end());
        } else {
            // On its way already: it goes there instead.
            movement.to = to;
        }
    }

    /// The places that fit the ions there are now, and the radius at which
    /// they fit.
    fn seating_for(&mut self, reagent: Reagent) -> Seating {
        let nominal = self.layout.free[reagent as usize];
        let count = self.ions[reagent as usize].len();
        if self.view == View::Sorted {
            let side = reagent.pan();
            let pile = self.pile(side).len();
            let best = self.layout.ion_rows(side, pile, count, nominal);
            // Over no pile they lie on the floor, once that is sure.
            let highest = match pile {
                _ if self.unsettled => f64::INFINITY,
                0 => 0.0,
                _ => 1.0,
            };
            let rows = match self.seating[reagent as usize] {
                _ if count <= FEW => best,
                Seating::Rows(rows) if rows.still_fit(count, &best, highest) => rows,
                // With room for some more, which need not move all others then.
                _ => self.layout.ion_rows(side, pile, count + count / 8, nominal),
            };
            self.ion_radius[reagent as usize] = rows.radius;
            return Seating::Rows(rows);
        }
        // Both kinds may be about for a moment while they react: H⁺ takes the
        // gaps from the front, OH⁻ from the back.
        let needed = self.ions.iter().map(Vec::len).sum::<usize>();
        let fitting = self.gaps.take().filter(|gaps| gaps.sites.len() >= needed);
        let gaps = fitting.unwrap_or_else(|| {
            let room = needed.next_power_of_two().max(64);
            self.layout.mixed.gaps(room, self.layout.free[1])
        });
        self.ion_radius[reagent as usize] = nominal.min(gaps.radius);
        let seating = Seating::Gaps(gaps.sites.len());
        self.gaps = Some(gaps);
        seating
    }

    fn ion_site(&self, reagent: Reagent, index: usize) -> Point {
        match (self.seating[reagent as usize], &self.gaps) {
            (Seating::Rows(rows), _) => rows.site(index),
            (Seating::Gaps(_), Some(gaps)) if reagent == Reagent::Acid => gaps.sites[index],
            (Seating::Gaps(count), Some(gaps)) => gaps.sites[count - 1 - index],
            (Seating::Gaps(_), None) => Point::default(),
        }
    }
}
