//! The particle world: one conjugate pair in two reservoirs, seeded, stepped
//! from outside.
//!
//! The world keeps whole particles. What is decided when something is added
//! (who meets whom) and what is seen (things falling, meeting, crossing) are
//! kept apart: partners are claimed at once, so that additions in quick
//! succession never compete for one particle, and the picture catches up.

use super::chance::Chance;
use super::crowd::{Crowd, View};
use super::flight::{Errand, Flight};
use super::motion::{TICKS_PER_SECOND, Tick};
use super::stage::{Layout, Stage};
use super::tally::{Amounts, Tally};

/// What has happened since the world began, in particles.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counters {
    /// Added H⁺ and OH⁻ that met a partner and reacted: the reactions so far.
    pub arrivals_met: u32,
    /// Protons given up by a particle and taken by a base in exchange, with
    /// no change of the counts.
    pub given: u32,
    /// Protons taken in exchange. Always equal to `given`.
    pub taken: u32,
    /// Water molecules made that have reached the solvent.
    pub water_made: u32,
    /// Water molecules that gave up a proton in a readjustment.
    pub water_split: u32,
    /// Protons given up in a readjustment, to stay free or to meet OH⁻.
    pub released: u32,
    /// Free protons taken in a readjustment.
    pub recaptured: u32,
}

/// Where an addition stands; the stops of stepping through it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Beat {
    /// All arrivals are in the air.
    Falling,
    /// All arrivals have met their partners.
    Met,
    /// The partners have crossed to the pan of their new form.
    Crossed,
    /// The counts are those of the exact solution, and all is at rest.
    Readjusted,
}

/// The moments of one addition in progress.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Beats {
    pub falling: Tick,
    pub met: Tick,
    pub crossed: Tick,
    pub readjust: Tick,
}

/// The particles, what is on its way, and what has been counted.
#[derive(Debug, Clone)]
pub struct World {
    pub(super) unit: f64,
    pub(super) crowd: Crowd,
    pub(super) flights: Vec<Flight>,
    /// Additions whose readjustment is still to come, oldest first.
    pub(super) beats: Vec<Beats>,
    pub(super) ledger: i64,
    /// The counts that the solved amounts ask for.
    pub(super) target: Tally,
    /// The counts once everything in flight has arrived, before the
    /// readjustments still to come.
    pub(super) promised: Tally,
    pub(super) start: Tally,
    pub(super) counters: Counters,
    pub(super) chance: Chance,
    pub(super) next_exchange: Option<Tick>,
    /// An addition has not come to rest yet.
    pub(super) adding: bool,
    pub(super) still: bool,
    /// Part of a sub-step that has passed.
    carry: f64,
    seed: u64,
}

impl World {
    /// A world at rest that shows these amounts, one particle for each `unit`
    /// mol, in the sorted view.
    ///
    /// The same seed and the same calls give the same picture, bit for bit.
    /// `unit` is finite and above 0. A thousand particles and as many free
    /// ions are fine.
    pub fn new(seed: u64, stage: Stage, unit: f64, amounts: &Amounts) -> World {
        World::with_view(seed, stage, unit, amounts, View::default())
    }

    fn with_view(seed: u64, stage: Stage, unit: f64, amounts: &Amounts, view: View) -> World {
        let particles = amounts.particles(unit);
        let ledger = amounts.ledger(unit);
        let tally = Tally::of(amounts, unit, particles, ledger);
        let layout = Layout::new(stage, tally.particles() as usize, seed);
        let mut world = World {
            unit,
            crowd: Crowd::new(layout, view, &tally, seed),
            flights: Vec::new(),
            beats: Vec::new(),
            ledger,
            promised: tally.clone(),
            start: tally.clone(),
            target: tally,
            counters: Counters::default(),
            chance: Chance::new(seed, 5),
            next_exchange: None,
            adding: false,
            still: false,
            carry: 0.0,
            seed,
        };
        world.schedule_exchange();
        world
    }

    /// Starts again with a different mixture or unit: new particles, at rest,
    /// counters at nought. Stage, view and stillness stay.
    pub fn rebase(&mut self, unit: f64, amounts: &Amounts) {
        let (stage, view, still) = (self.crowd.layout.stage, self.crowd.view, self.still);
        *self = World::with_view(self.seed, stage, unit, amounts, view);
        self.still = still;
    }

    /// Lets `seconds` pass, in whole sub-steps of 1/120 s; what is left over
    /// counts towards the next call. Nothing happens unless it is above 0.
    ///
    /// The cost follows the events in that time, not its length, but idle
    /// exchanges are events too: clamp what a hidden tab has missed.
    pub fn step(&mut self, seconds: f64) {
        if !seconds.is_finite() || seconds <= 0.0 {
            return;
        }
        self.carry += seconds * TICKS_PER_SECOND;
        // The allowance keeps 1/60 s at two sub-steps whatever its last bit.
        let ticks = libm::floor(self.carry + 1e-6);
        self.carry -= ticks;
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole and not negative; centuries would fit"
        )]
        let ticks = ticks as Tick;
        self.advance(self.crowd.now + ticks);
    }

    /// Goes to the next beat of the newest addition in progress and says
    /// which it was; does nothing if there is none.
    pub fn next_beat(&mut self) -> Option<Beat> {
        if !self.is_adding() {
            return None;
        }
        let now = self.crowd.now;
        if let Some(beats) = self.beats.last().copied() {
            let stops = [
                (beats.falling, Beat::Falling),
                (beats.met, Beat::Met),
                (beats.crossed, Beat::Crossed),
            ];
            if let Some((stop, beat)) = stops.into_iter().find(|&(stop, _)| stop > now) {
                self.advance(stop);
                return Some(beat);
            }
        }
        while let Some(due) = self.next_errand() {
            self.advance(due);
        }
        self.advance(self.crowd.quiet_at.max(now));
        self.adding = false;
        Some(Beat::Readjusted)
    }

    /// Finishes everything at once: reactions, readjustment, movements.
    pub fn settle(&mut self) {
        let now = self.crowd.now;
        if self.next_errand().is_some() {
            self.next_exchange = None;
        }
        while let Some(due) = self.next_errand() {
            self.crowd.now = due;
            self.run_errands();
        }
        self.crowd.now = now;
        self.crowd.rest_all();
        self.adding = false;
        self.schedule_exchange();
    }

    /// Whether anything is moving or about to react.
    pub fn is_moving(&self) -> bool {
        self.crowd.now < self.crowd.quiet_at || self.next_errand().is_some()
    }

    /// Whether an addition is still coming to rest.
    pub fn is_adding(&self) -> bool {
        self.adding && self.is_moving()
    }

    /// Seconds until the next idle exchange starts: 0 while something that
    /// has to finish first is moving, infinite with less than a particle of
    /// either form.
    pub fn until_next_exchange(&self) -> f64 {
        match self.next_exchange {
            Some(at) => (at.saturating_sub(self.crowd.now)) as f64 / TICKS_PER_SECOND,
            None if self.is_moving() => 0.0,
            None => f64::INFINITY,
        }
    }

    /// Changes the view; the particles move there, over 0.6 s.
    pub fn set_view(&mut self, view: View) {
        if view == self.crowd.view {
            return;
        }
        self.crowd.set_view(view);
        self.next_exchange = self.next_exchange.map(|at| at.max(self.crowd.quiet_at));
        if self.still {
            self.settle();
        }
    }

    /// The view shown, or being moved to.
    pub fn view(&self) -> View {
        self.crowd.view
    }

    /// Lays the world out on another stage, without travel.
    pub fn set_stage(&mut self, stage: Stage) {
        let layout = Layout::new(stage, self.crowd.bodies.len(), self.seed);
        let scale = self.crowd.set_stage(layout);
        for flight in &mut self.flights {
            match &mut flight.errand {
                Errand::Proton { from, .. }
                | Errand::Sinking { from, .. }
                | Errand::Leaving { from, .. } => *from = scale(*from),
                Errand::Arrival { .. } | Errand::HandOver { .. } | Errand::Rising { .. } => {}
            }
        }
    }

    /// With `true` nothing travels: every change is finished at once, and the
    /// particles changed by the last addition stay marked until the next.
    pub fn set_still(&mut self, still: bool) {
        self.still = still;
        if still {
            self.settle();
        }
    }

    /// Whether nothing travels.
    pub const fn is_still(&self) -> bool {
        self.still
    }

    /// The counts of the solved amounts: what is drawn once everything in
    /// flight has arrived.
    pub fn tally(&self) -> &Tally {
        &self.target
    }

    /// The proton ledger: see [`tally`](super::tally).
    pub fn ledger(&self) -> i64 {
        self.ledger
    }

    /// The amount that one particle stands for, in mol.
    pub fn unit(&self) -> f64 {
        self.unit
    }

    /// What has happened so far.
    pub fn counters(&self) -> Counters {
        self.counters
    }

    /// Counts from nought again.
    pub fn restart_counters(&mut self) {
        self.counters = Counters::default();
    }
}
