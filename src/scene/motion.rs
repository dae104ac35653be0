//! Time in whole sub-steps, and movement as a function of it.
//!
//! Nothing is integrated: a movement knows where and when it starts and ends,
//! and its position follows from the sub-step asked about. The world can
//! therefore jump from event to event, and a long step costs no more than
//! the events in it.

use super::shape::{Point, arc_point};

/// A moment, in sub-steps since the world began.
pub(super) type Tick = u64;

/// Sub-steps in one second.
pub(super) const TICKS_PER_SECOND: f64 = 120.0;

/// How long each part of the story takes, in sub-steps.
pub(super) mod span {
    use super::Tick;

    /// The arrivals of one addition start falling within this time, 0.25 s.
    pub(in crate::scene) const STAGGER: Tick = 30;
    /// An arrival falls, 0.45 s.
    pub(in crate::scene) const FALL: Tick = 54;
    /// A particle hands its proton to a hydroxide ion that touches it, 0.1 s.
    pub(in crate::scene) const HAND_OVER: Tick = 12;
    /// A particle crosses to the other pan, 0.45 s.
    pub(in crate::scene) const CROSS: Tick = 54;
    /// The pause before the readjustment, 0.25 s.
    pub(in crate::scene) const BEAT: Tick = 30;
    /// A proton travels from one particle to another, 0.45 s.
    pub(in crate::scene) const TRAVEL: Tick = 54;
    /// A particle turns a seat towards what is coming, 0.2 s.
    pub(in crate::scene) const TURN: Tick = 24;
    /// A particle or ion moves up into a free place nearby, 0.2 s.
    pub(in crate::scene) const GLIDE: Tick = 24;
    /// Water sinks into the solvent, or rises from it, 0.5 s.
    pub(in crate::scene) const SINK: Tick = 60;
    /// The view changes, 0.6 s.
    pub(in crate::scene) const VIEW: Tick = 72;
}

/// The form of a course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Course {
    /// Straight, starting and stopping gently.
    Glide,
    /// Straight, gathering speed.
    Fall,
    /// Over the walls; the highest point has this y coordinate.
    Arc(f64),
}

/// A movement between two points. A thing at rest is a movement that is over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Movement {
    pub from: Point,
    pub to: Point,
    pub start: Tick,
    pub ticks: Tick,
    pub course: Course,
}

impl Movement {
    pub fn rest(at: Point) -> Movement {
        Movement {
            from: at,
            to: at,
            start: 0,
            ticks: 0,
            course: Course::Glide,
        }
    }

    pub fn end(&self) -> Tick {
        self.start + self.ticks
    }

    pub fn is_over(&self, now: Tick) -> bool {
        now >= self.end()
    }

    /// The fraction of the time that has passed, 0 to 1.
    pub fn progress(&self, now: Tick) -> f64 {
        progress(self.start, self.ticks, now)
    }

    pub fn at(&self, now: Tick) -> Point {
        if self.is_over(now) {
            return self.to;
        }
        self.course.point(self.from, self.to, self.progress(now))
    }

    pub fn is_crossing(&self, now: Tick) -> bool {
        matches!(self.course, Course::Arc(_)) && !self.is_over(now)
    }
}

impl Course {
    pub fn point(self, from: Point, to: Point, t: f64) -> Point {
        match self {
            Course::Glide => from.lerp(to, ease(t)),
            Course::Fall => from.lerp(to, 0.5 * (t + t * t)),
            Course::Arc(peak) => arc_point(from, to, peak, t),
        }
    }
}

/// A turn of a particle on the spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Turn {
    pub from: f64,
    pub to: f64,
    pub start: Tick,
    pub ticks: Tick,
}

impl Turn {
    pub fn rest(facing: f64) -> Turn {
        Turn {
            from: facing,
            to: facing,
            start: 0,
            ticks: 0,
        }
    }

    pub fn at(&self, now: Tick) -> f64 {
        if now >= self.start + self.ticks {
            return self.to;
        }
        let t = ease(progress(self.start, self.ticks, now));
        self.from + (self.to - self.from) * t
    }
}

/// The fraction of a span of time that has passed, 0 to 1.
pub(super) fn progress(start: Tick, ticks: Tick, now: Tick) -> f64 {
    if now >= start + ticks {
        return 1.0;
    }
    // Spans are a few hundred sub-steps: exact in an f64.
    now.saturating_sub(start) as f64 / ticks as f64
}

/// Starts and stops gently; 0 to 0, 1 to 1.
fn ease(t: f64) -> f64 {
    t * t * (3.0 - 2.0 * t)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_movement_waits_travels_and_rests_exactly_at_its_end() {
        let movement = Movement {
            from: Point::new(0.1, 0.2),
            to: Point::new(0.3, 0.7),
            start: 10,
            ticks: 20,
            course: Course::Glide,
        };
        assert_eq!(movement.at(0), movement.from);
        assert_eq!(movement.at(10), movement.from);
        let half = movement.at(20);
        assert!((half.x - 0.2).abs() < 1e-12 && (half.y - 0.45).abs() < 1e-12);
        assert_eq!(movement.at(30), movement.to);
        assert_eq!(movement.at(1_000), movement.to);
    }

    #[test]
    #[allow(clippy::float_cmp, reason = "exact at the ends, and in halves")]
    fn a_fall_gathers_speed() {
        let course = Course::Fall;
        let y = |t| course.point(Point::default(), Point::new(0.0, 1.0), t).y;
        assert!(y(0.25) < 0.25 && y(0.5) < 0.5 && y(0.25) > 0.0);
        assert_eq!(y(1.0), 1.0);
    }

    #[test]
    #[allow(clippy::float_cmp, reason = "exact at the ends, and in halves")]
    fn a_turn_ends_at_its_angle() {
        let turn = Turn {
            from: 1.0,
            to: -2.0,
            start: 5,
            ticks: 10,
        };
        assert_eq!(turn.at(4), 1.0);
        assert_eq!(turn.at(10), -0.5);
        assert_eq!(turn.at(15), -2.0);
    }
}
