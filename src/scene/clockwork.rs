//! The passing of time: from event to event.

use super::motion::Tick;
use super::particles::World;

/// Sub-steps between one idle exchange and the next: 2.5 s, and up to 2 s
/// more, so that it never looks like a metronome.
const PAUSE: Tick = 300;
const PAUSE_VARIES: usize = 240;

impl World {
    /// Lets time pass until `end`.
    pub(super) fn advance(&mut self, end: Tick) {
        while let Some(due) = self.next_event().filter(|&due| due <= end) {
            self.crowd.now = due.max(self.crowd.now);
            if self.next_exchange.is_some_and(|at| at <= self.crowd.now) {
                self.next_exchange = None;
                self.adding = false;
                self.begin_exchange();
                if self.still {
                    self.settle();
                }
            }
            self.run_errands();
            self.schedule_exchange();
        }
        self.crowd.now = end.max(self.crowd.now);
    }

    /// When the next flight arrives or the next readjustment is due.
    pub(super) fn next_errand(&self) -> Option<Tick> {
        let flights = self.flights.iter().map(|flight| flight.end);
        let beats = self.beats.iter().map(|beats| beats.readjust);
        flights.chain(beats).min()
    }

    fn next_event(&self) -> Option<Tick> {
        self.next_errand()
            .into_iter()
            .chain(self.next_exchange)
            .min()
    }

    /// Lands what is due now, then readjusts if that is due.
    pub(super) fn run_errands(&mut self) {
        self.land_due(self.crowd.now);
        let now = self.crowd.now;
        while let Some(due) = self.beats.iter().position(|beats| beats.readjust <= now) {
            self.beats.remove(due);
            self.readjust();
        }
        if self.next_errand().is_none() {
            self.crowd.let_down();
        }
    }

    fn land_due(&mut self, now: Tick) {
        while let Some(due) = self.flights.iter().position(|flight| flight.end <= now) {
            let flight = self.flights.remove(due);
            self.land(flight.errand);
        }
    }

    /// Ends every flight at once, without the readjustments still to come.
    pub(super) fn finish_flights(&mut self) {
        let now = self.crowd.now;
        while let Some(end) = self.flights.iter().map(|flight| flight.end).min() {
            self.crowd.now = end;
            self.land_due(end);
        }
        self.crowd.now = now;
        self.crowd.rest_all();
    }

    /// Plans the next idle exchange, once nothing is left to react, if there is a pair for it.
    pub(super) fn schedule_exchange(&mut self) {
        let idle = self.next_exchange.is_none() && self.next_errand().is_none();
        if idle && self.can_exchange() {
            let varies = self.chance.below(PAUSE_VARIES) as Tick;
            let from = self.crowd.now.max(self.crowd.quiet_at);
            self.next_exchange = Some(from + PAUSE + varies);
        }
    }
}
