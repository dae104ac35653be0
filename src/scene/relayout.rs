//! Another view, another stage, and coming to rest at once.

use super::crowd::{Crowd, View};
use super::motion::{Course, Movement, Turn, span};
use super::shape::Point;
use super::stage::{Layout, Stage};

impl Crowd {
    /// Lets particles that were put elsewhere at once travel there after all,
    /// from where they were before.
    pub fn resume_from(&mut self, before: &[Point]) {
        for (id, &from) in before.iter().enumerate() {
            if self.bodies[id].movement.is_over(self.now) {
                self.bodies[id].movement = Movement::rest(from);
                self.send(id, Course::Glide, span::GLIDE);
            } else {
                self.bodies[id].movement.from = from;
            }
        }
    }

    /// Ends every movement and turn where it was going.
    pub fn rest_all(&mut self) {
        let ions = self.ions.iter_mut().flatten().map(|ion| &mut ion.movement);
        let bodies = self.bodies.iter_mut().map(|body| {
            body.turn = Turn::rest(body.turn.to);
            &mut body.movement
        });
        for movement in ions.chain(bodies) {
            *movement = Movement::rest(movement.to);
        }
        self.quiet_at = self.now;
    }

    /// Lays everything out for another view; all travel there.
    pub fn set_view(&mut self, view: View) {
        self.view = view;
        for id in 0..self.bodies.len() {
            self.send(id, Course::Glide, span::VIEW);
        }
        self.reseat_ions();
    }

    /// Lays everything out on another stage, where movements go on.
    pub fn set_stage(&mut self, layout: Layout) -> impl Fn(Point) -> Point + use<> {
        let (old, new) = (self.layout.stage, layout.stage);
        let scale = move |p: Point| scale(p, old, new);
        self.layout = layout;
        for id in 0..self.bodies.len() {
            let to = self.rest_of(id);
            let movement = &mut self.bodies[id].movement;
            movement.from = scale(movement.from);
            movement.to = to;
            if let Course::Arc(peak) = &mut movement.course {
                *peak = self.layout.peak;
            }
        }
        self.relay_ions(scale);
        scale
    }
}

fn scale(point: Point, old: Stage, new: Stage) -> Point {
    Point::new(
        point.x * new.width / old.width,
        point.y * new.height / old.height,
    )
}
