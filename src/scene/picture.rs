//! The world as it looks now.

use super::crowd::View;
use super::flight::{Errand, Flight, Target};
use super::ions::{Reagent, Seating};
use super::motion::{Course, Movement};
use super::particles::World;
use super::shape::{Point, Scene, Shape, Side, arc_point, seat_between};

/// More dotted courses than this would be a thicket.
const MOST_PATHS: usize = 8;

impl World {
    /// What to paint now.
    pub fn scene(&self) -> Scene {
        let mut scene = Scene::default();
        self.scene_into(&mut scene);
        scene
    }

    /// The same into a scene that is there already, without allocating.
    pub fn scene_into(&self, scene: &mut Scene) {
        scene.unit = self.unit;
        scene.shapes.clear();
        self.containers(&mut scene.shapes);
        scene.resting = scene.shapes.len();
        self.particles(false, &mut scene.shapes);
        self.free_ions(false, &mut scene.shapes);
        self.start_marks(&mut scene.shapes);
        self.free_places(&mut scene.shapes);
        scene.moving = scene.shapes.len();
        self.paths(&mut scene.shapes);
        self.particles(true, &mut scene.shapes);
        self.free_ions(true, &mut scene.shapes);
        for flight in &self.flights {
            self.in_flight(flight, &mut scene.shapes);
        }
    }

    fn containers(&self, shapes: &mut Vec<Shape>) {
        let layout = &self.crowd.layout;
        shapes.push(Shape::SolventStrip { rect: layout.strip });
        if self.crowd.view == View::Mixed {
            shapes.push(Shape::Pan {
                rect: layout.whole_box(),
                side: Side::Both,
            });
            return;
        }
        let sides = [Side::Acid, Side::Base];
        let pans = sides.map(|side| (side, layout.pan(side)));
        shapes.extend(pans.map(|(side, rect)| Shape::Pan { rect, side }));
        for ((side, pan), filled) in pans.into_iter().zip(self.filled()) {
            if filled > 0.0 {
                let height = layout.fill_height(filled);
                let mut rect = pan;
                rect.y = pan.bottom() - height;
                rect.height = height;
                shapes.push(Shape::Level { rect, side });
            }
        }
    }

    /// The start marks, over all that rests so that they can be read.
    fn start_marks(&self, shapes: &mut Vec<Shape>) {
        let layout = &self.crowd.layout;
        if self.crowd.view == View::Mixed {
            return;
        }
        for (side, count) in [
            (Side::Acid, self.start.acid()),
            (Side::Base, self.start.base()),
        ] {
            let pan = layout.pan(side);
            let y = pan.bottom() - layout.fill_height(f64::from(count));
            let length = (0.14 * pan.width).clamp(8.0, 48.0);
            for (wall, inwards, of) in [
                (pan.x, length, Side::Base),
                (pan.right(), -length, Side::Acid),
            ] {
                shapes.push(Shape::StartMark {
                    from: Point::new(wall, y),
                    to: Point::new(wall + inwards, y),
                    side,
                    // Rows fill from the outer wall, so the words are longest
                    // in the clear at the inner one.
                    labeled: of == side,
                });
            }
        }
    }

    /// Particles in the acid pan and in the base pan; one that is crossing
    /// counts in parts, so the levels move evenly.
    fn filled(&self) -> [f64; 2] {
        let now = self.crowd.now;
        let mut filled = [0.0, 0.0];
        for body in &self.crowd.bodies {
            let here = if body.movement.is_crossing(now) {
                body.movement.progress(now)
            } else {
                1.0
            };
            let (to, from) = if body.side == Side::Acid {
                (0, 1)
            } else {
                (1, 0)
            };
            filled[to] += here;
            filled[from] += 1.0 - here;
        }
        filled
    }

    fn paths(&self, shapes: &mut Vec<Shape>) {
        let now = self.crowd.now;
        let crossing = self
            .crowd
            .bodies
            .iter()
            .filter_map(|body| match body.movement {
                Movement {
                    from,
                    to,
                    course: Course::Arc(peak),
                    ..
                } if !body.movement.is_over(now) => Some(Shape::Path {
                    from,
                    to,
                    peak,
                    side: body.side,
                }),
                _ => None,
            });
        shapes.extend(crossing.take(MOST_PATHS));
    }

    /// The particles that have something ahead of them, or those that rest.
    fn particles(&self, moving: bool, shapes: &mut Vec<Shape>) {
        let now = self.crowd.now;
        for (id, body) in self.crowd.bodies.iter().enumerate() {
            if (body.claimed || !body.movement.is_over(now)) == moving {
                shapes.push(self.particle(id));
            }
        }
    }

    fn particle(&self, id: usize) -> Shape {
        let body = &self.crowd.bodies[id];
        Shape::Particle {
            id: u32::try_from(id).expect("far fewer particles"),
            at: self.crowd.body_at(id),
            radius: self.crowd.layout.radius,
            protons: body.protons,
            facing: self.crowd.facing(id),
            marked: self.still && body.changed,
        }
    }

    /// The free ions that are on their way, or those that rest.
    fn free_ions(&self, moving: bool, shapes: &mut Vec<Shape>) {
        let now = self.crowd.now;
        for reagent in [Reagent::Acid, Reagent::Alkali] {
            let radius = self.crowd.ion_radius[reagent as usize];
            for ion in &self.crowd.ions[reagent as usize] {
                let movement = &ion.movement;
                if movement.is_over(now) == moving {
                    continue;
                }
                let falls = moving && movement.course == Course::Fall;
                if falls && now < movement.start {
                    continue;
                }
                let at = movement.at(now);
                let trail = falls.then(|| self.trail(movement.from, at));
                shapes.push(ion_shape(reagent, at, radius, trail));
            }
        }
    }

    /// Where the free ions of the sorted view lie, once there are any.
    fn free_places(&self, shapes: &mut Vec<Shape>) {
        let now = self.crowd.now;
        for reagent in [Reagent::Acid, Reagent::Alkali] {
            let ions = self.crowd.ions[reagent as usize].iter();
            let there = ions.filter(|ion| ion.movement.is_over(now)).count();
            if let (Seating::Rows(rows), 1..) = (self.crowd.seating[reagent as usize], there) {
                shapes.push(Shape::FreeIons {
                    rect: rows.extent(there),
                    side: reagent.pan(),
                });
            }
        }
    }

    fn trail(&self, from: Point, at: Point) -> f64 {
        (at.y - from.y).min(0.1 * self.crowd.layout.stage.height)
    }

    fn in_flight(&self, flight: &Flight, shapes: &mut Vec<Shape>) {
        let crowd = &self.crowd;
        let layout = &crowd.layout;
        let t = flight.progress(crowd.now);
        let proton = |at| ion_shape(Reagent::Acid, at, layout.proton, None);
        let hydroxide = |at| ion_shape(Reagent::Alkali, at, layout.hydroxide, None);
        match flight.errand {
            Errand::Arrival { reagent, target } => {
                if crowd.now < flight.start {
                    return;
                }
                let to = self.meeting_point(reagent, target);
                let from = crowd.above(to);
                let at = Course::Fall.point(from, to, t);
                let trail = Some(self.trail(from, at));
                // Into a seat it goes as small as it sits there.
                let free = layout.free[reagent as usize];
                let radius = match target {
                    Target::Body(_) => free + (self.nominal(reagent) - free) * t * t,
                    Target::Ion(_) => free,
                };
                shapes.push(ion_shape(reagent, at, radius, trail));
            }
            Errand::HandOver { body } => {
                let nth = seat_between(crowd.bodies[body].protons);
                let (seat, partner) = (crowd.seat(body, nth), crowd.beside(body, nth));
                shapes.push(hydroxide(partner));
                shapes.push(proton(seat.lerp(partner, t)));
            }
            Errand::Proton { from, target, .. } => {
                let to = self.meeting_point(Reagent::Acid, target);
                shapes.push(proton(self.course(from, to).point(from, to, t)));
            }
            Errand::Sinking { from } => shapes.push(self.water(from, t)),
            Errand::Rising { body } => {
                let nth = seat_between(crowd.bodies[body].protons);
                shapes.push(self.water(crowd.beside(body, nth), 1.0 - t));
            }
            Errand::Leaving { reagent, from } => {
                let at = Course::Glide.point(from, crowd.above(from), t);
                shapes.push(ion_shape(reagent, at, layout.free[reagent as usize], None));
            }
        }
    }

    fn nominal(&self, reagent: Reagent) -> f64 {
        match reagent {
            Reagent::Acid => self.crowd.layout.proton,
            Reagent::Alkali => self.crowd.layout.hydroxide,
        }
    }

    /// Where something meets its target: a proton in the open seat, a
    /// hydroxide ion beside the seat it will empty, either on top of an ion.
    fn meeting_point(&self, reagent: Reagent, target: Target) -> Point {
        let crowd = &self.crowd;
        match (target, reagent) {
            (Target::Body(body), Reagent::Acid) => {
                crowd.seat(body, seat_between(crowd.bodies[body].protons))
            }
            (Target::Body(body), Reagent::Alkali) => {
                crowd.beside(body, seat_between(crowd.bodies[body].protons - 1))
            }
            (Target::Ion(ion), _) => {
                let at = crowd.ion_at(reagent.opposite(), ion);
                let apart = crowd.layout.free[reagent as usize]
                    + crowd.ion_radius[reagent.opposite() as usize];
                Point::new(at.x, at.y - apart)
            }
        }
    }

    /// Water a fraction `t` of its way into the solvent: over the wall and
    /// down between the pans, or straight down where there are none.
    fn water(&self, from: Point, t: f64) -> Shape {
        let layout = &self.crowd.layout;
        let solvent = layout.strip.y + layout.strip.height / 2.0;
        let at = match self.crowd.view {
            View::Mixed => Course::Fall.point(from, Point::new(from.x, solvent), t),
            View::Sorted => {
                let rim = Point::new(layout.gap_x(), layout.pans[0].y);
                if t < 0.5 {
                    arc_point(from, rim, layout.peak.min(from.y), 2.0 * t)
                } else {
                    Course::Fall.point(rim, Point::new(rim.x, solvent), 2.0 * t - 1.0)
                }
            }
        };
        Shape::Water {
            at,
            radius: layout.water,
        }
    }
}

fn ion_shape(reagent: Reagent, at: Point, radius: f64, trail: Option<f64>) -> Shape {
    match reagent {
        Reagent::Acid => Shape::Proton { at, radius, trail },
        Reagent::Alkali => Shape::Hydroxide { at, radius, trail },
    }
}
