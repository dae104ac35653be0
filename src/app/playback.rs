//! The particle world kept in step with the bench.

use crate::app::picture::Picture;
use crate::app::state::BenchEvent;
use crate::chem::titration::Reagent;
use crate::scene::particles::{Beat, World};
use crate::scene::shape::Scene;
use crate::scene::stage::Stage;
use crate::scene::tally::Amounts;
use crate::scene::{Reagent as Arrival, View};

/// The seed of every world. Any other would do as well, but it must stay the same: the same
/// bench is the same picture on every machine.
const SEED: u64 = 20_26;

/// A world, what it shows, and whether time stands still for stepping through an addition.
#[derive(Debug, Clone)]
pub struct Playback {
    world: World,
    shown: Picture,
    paused: bool,
}

impl Playback {
    /// The world of `picture`, at rest.
    pub fn new(picture: &Picture, stage: Stage, view: View) -> Self {
        let mut world = World::new(SEED, stage, picture.unit, &picture.start);
        world.show(&picture.amounts, picture.ledger);
        world.set_view(view);
        world.settle();
        Self {
            world,
            shown: picture.clone(),
            paused: false,
        }
    }

    /// Follows the bench to `picture` after `event`.
    pub fn follow(&mut self, event: BenchEvent, picture: &Picture) {
        if *picture == self.shown {
            return;
        }
        self.paused = false;
        let same_particles =
            picture.start == self.shown.start && same(picture.unit, self.shown.unit);
        let arrivals = picture.ledger - self.shown.ledger;
        match event {
            BenchEvent::Added(addition) if same_particles => {
                self.add(addition.reagent, arrivals, &picture.amounts, picture.ledger);
            }
            _ if same_particles => {
                self.world.show(&picture.amounts, picture.ledger);
                if picture.before.is_none() {
                    // Back where nothing has been added: everything counts from nought.
                    self.world.restart_counters();
                }
            }
            _ => {
                self.world.rebase(picture.unit, &picture.start);
                self.world.show(&picture.amounts, picture.ledger);
                self.world.settle();
            }
        }
        self.shown = picture.clone();
    }

    /// Shows the last addition again from its beginning; `false` if there is none.
    pub fn replay(&mut self) -> bool {
        let Some((amounts, ledger)) = self.shown.before.clone() else {
            return false;
        };
        self.paused = false;
        self.world.show(&amounts, ledger);
        self.world.settle();
        let arrivals = self.shown.ledger - ledger;
        let reagent = if arrivals < 0 {
            Reagent::Alkali
        } else {
            Reagent::Acid
        };
        let now = self.shown.amounts.clone();
        self.add(reagent, arrivals, &now, self.shown.ledger);
        true
    }

    /// Shows the bench as it was before the last addition, at rest.
    pub fn show_before(&mut self) {
        if let Some((amounts, ledger)) = self.shown.before.clone() {
            self.world.show(&amounts, ledger);
            self.world.settle();
        }
    }

    /// Goes on to the next beat of the last addition and waits there, beginning it again if
    /// it is over.
    pub fn step_through(&mut self) -> Option<Beat> {
        if !self.world.is_adding() && !self.replay() {
            return None;
        }
        let beat = self.world.next_beat();
        self.paused = !matches!(beat, Some(Beat::Readjusted) | None);
        beat
    }

    /// Lets time pass, unless it is stopped.
    pub fn pass(&mut self, seconds: f64) {
        if !self.paused {
            self.world.step(seconds);
        }
    }

    /// Whether another frame would look different from this one.
    pub fn is_moving(&self) -> bool {
        !self.paused && self.world.is_moving()
    }

    /// Seconds until a frame is due that looks different: 0 while something moves, infinite while
    /// nothing will by itself.
    pub fn until_next_frame(&self) -> f64 {
        if self.is_moving() {
            0.0
        } else if self.paused || self.world.is_still() {
            f64::INFINITY
        } else {
            self.world.until_next_exchange()
        }
    }

    /// Writes the picture into `scene`.
    pub fn scene_into(&self, scene: &mut Scene) {
        self.world.scene_into(scene);
    }

    /// The world, to read counts from.
    pub const fn world(&self) -> &World {
        &self.world
    }

    /// Another stage, at once.
    pub fn set_stage(&mut self, stage: Stage) {
        self.world.set_stage(stage);
    }

    /// Sorted or as mixed. An addition that was being stepped through comes to its end: only
    /// particles at rest can go to their places in another view.
    pub fn set_view(&mut self, view: View) {
        if self.paused && view != self.world.view() {
            self.paused = false;
            self.world.settle();
        }
        self.world.set_view(view);
    }

    /// With `true` nothing travels.
    pub fn set_still(&mut self, still: bool) {
        self.world.set_still(still);
    }

    /// Adds `arrivals` particles' worth, signed as the ledger counts; an addition of less
    /// than half a particle just moves the counts.
    fn add(&mut self, reagent: Reagent, arrivals: i64, after: &Amounts, ledger: i64) {
        let (arrival, count) = match reagent {
            Reagent::Acid => (Arrival::Acid, arrivals),
            Reagent::Alkali => (Arrival::Alkali, -arrivals),
        };
        match u32::try_from(count) {
            Ok(count) if count > 0 => self.world.add(arrival, count, after),
            _ => self.world.show(after, ledger),
        }
    }
}

/// Whether two particle units are the same: both come from the same 1–2–5 steps.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::action::{Action, Press};
    use crate::app::apply::apply;
    use crate::app::picture::Detail;
    use crate::app::shown::Shown;
    use crate::app::state::State;

    const STAGE: Stage = Stage {
        width: 640.0,
        height: 300.0,
    };

    #[test]
    fn another_view_ends_a_step_and_a_fresh_start_counts_from_nought() {
        let picture = |state: &State| Shown::of(state, None).picture;
        let start = State {
            detail: Detail::Wide,
            ..State::default()
        };
        let mut playback = Playback::new(&picture(&start), STAGE, View::Sorted);
        let added = Action::Added {
            reagent: Reagent::Alkali,
            steps: 20,
            press: Press::Tap,
        };
        let state = apply(&start, added);
        playback.follow(state.event, &picture(&state));
        assert_eq!(playback.step_through(), Some(Beat::Falling));
        assert!(!playback.is_moving());
        assert_eq!(playback.until_next_frame(), f64::INFINITY);
        playback.set_view(View::Mixed);
        let census = playback.world().census();
        let tally = playback.world().tally();
        assert_eq!((census.acid, census.base), (tally.acid(), tally.base()));
        assert_eq!(census.hydroxides_in_flight, 0);
        assert!(playback.is_moving(), "to the places of the mixed view");
        assert_eq!(playback.until_next_frame(), 0.0);

        playback.pass(60.0);
        assert!(playback.world().counters().given > 0);
        let again = apply(&state, Action::StartedAgain);
        playback.follow(again.event, &picture(&again));
        assert_eq!(playback.world().counters().given, 0);
    }

    #[test]
    fn at_rest_the_next_exchange_is_waited_for_unless_nothing_may_travel() {
        let picture = Shown::of(&State::default(), None).picture;
        let mut playback = Playback::new(&picture, STAGE, View::Sorted);
        let wait = playback.until_next_frame();
        assert!(wait > 0.0 && wait.is_finite(), "{wait}");
        playback.set_still(true);
        assert_eq!(playback.until_next_frame(), f64::INFINITY);
    }
}
