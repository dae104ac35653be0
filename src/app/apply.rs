//! The only way the state changes.

use std::sync::Arc;

use crate::app::action::{Action, Press};
use crate::app::bench::{Addition, Bench, step_of};
use crate::app::guide::{GuideAction, Since, guide};
use crate::app::reading::Reading;
use crate::app::recipe::{Field, Recipe};
use crate::app::state::{BenchEvent, HISTORY, State};
use crate::chem::titration::Reagent;

/// The state after `action`. Pure: the same state and action give the same result.
pub fn apply(state: &State, action: Action) -> State {
    let mut next = state.clone();
    next.take(action);
    next
}

impl State {
    /// Becomes the state after `action`, as [`apply`] says, without a copy of what was before:
    /// the benches to go back to may be many.
    pub fn take(&mut self, action: Action) {
        match action {
            Action::Added {
                reagent,
                steps,
                press,
            } => self.add(Addition { reagent, steps }, press),
            Action::PourEnded => self.pouring = false,
            Action::Undone => {
                if let Some(bench) = self.past.pop() {
                    let now = self.replace_bench(bench);
                    self.future.push(now);
                }
            }
            Action::Redone => {
                if let Some(bench) = self.future.pop() {
                    let now = self.replace_bench(bench);
                    self.past.push(now);
                }
            }
            Action::StartedAgain => {
                self.start_again();
            }
            Action::PairChosen(pair) => {
                self.draft.pair = pair;
                self.put_draft_on_bench(None);
            }
            Action::MethodChosen(method) => {
                self.draft.method = method;
                self.put_draft_on_bench(None);
            }
            Action::Typed(field, text) => {
                self.draft.set_text(field, text);
                self.put_draft_on_bench(Some(field));
            }
            Action::ViewChosen(view) => self.view = view,
            Action::PanelOpened(panel) => self.panel = panel,
            Action::GuideStarted => {
                let since = Since::now(self);
                let desk = Arc::make_mut(&mut self.desk);
                desk.guide = guide(&desk.guide, GuideAction::Started, since);
                self.freshen(true);
            }
            Action::LookChosen(look) => self.look = look,
            Action::ScreenMeasured(detail) => self.detail = detail,
        }
    }

    fn add(&mut self, addition: Addition, press: Press) {
        let Addition { reagent, steps } = addition;
        if steps == 0 {
            return;
        }
        self.serial = self.serial.wrapping_add(1);
        let was_pouring = std::mem::replace(&mut self.pouring, press != Press::Tap);
        if self.desk.guide.holds_additions() {
            self.event = BenchEvent::Held;
            return;
        }
        if !self.bench.has_room(steps) {
            self.event = BenchEvent::Full;
            return;
        }
        let reacted = self.reacting(addition);
        // A long pour is one addition: it goes back in one step and is explained as one. What
        // else happens to the bench meanwhile ends it, and the next portion is a new addition.
        let goes_on = press == Press::PourWentOn
            && was_pouring
            && self.bench.last.is_some_and(|last| last.reagent == reagent);
        if !goes_on {
            self.remember();
        }
        let so_far = if goes_on {
            self.bench.last.map_or(0, |last| last.steps)
        } else {
            0
        };
        let poured = match reagent {
            Reagent::Acid => &mut self.bench.acid,
            Reagent::Alkali => &mut self.bench.alkali,
        };
        *poured += steps;
        self.bench.last = Some(Addition {
            reagent,
            steps: so_far + steps,
        });
        self.bench.reactions += reacted;
        self.event = BenchEvent::Added(addition);
    }

    /// Steps of `addition` that meet a partner: the pair's other form, or free ions of the
    /// other kind.
    fn reacting(&self, addition: Addition) -> u32 {
        let Ok(setup) = self.bench.recipe.read() else {
            return 0;
        };
        let scale = step_of(&setup);
        let step = |n: u32| scale.step.times(n);
        let mixture = setup.stock.added_to(
            &setup.mixture,
            step(self.bench.acid),
            step(self.bench.alkali),
        );
        let Some(complete) = setup.pair.complete_reaction(&mixture) else {
            return 0;
        };
        let partners = match addition.reagent {
            Reagent::Acid => complete.base + complete.excess_hydroxide,
            Reagent::Alkali => complete.acid + complete.excess_hydrogen,
        };
        let steps = libm::round(partners.mol() / scale.step.mol());
        (0..=addition.steps)
            .rev()
            .find(|n| f64::from(*n) <= steps)
            .unwrap_or(0)
    }

    /// Takes back all that was added.
    fn start_again(&mut self) {
        if self.bench.has_additions() {
            let fresh = Bench::new(self.bench.recipe.clone());
            self.remember();
            self.replace_bench(fresh);
        }
    }

    /// Gives a step of the guided start that has just been opened the fresh flask it asks for.
    pub(super) fn freshen(&mut self, opened: bool) {
        if opened && self.desk.guide.wants_fresh_flask() {
            self.start_again();
            let now = Since::now(self);
            Arc::make_mut(&mut self.desk).guide.since = now;
        }
    }

    /// Puts `recipe` on the bench, as if its fields had been set. If it is there already, what
    /// was added to it is taken back.
    pub(super) fn set_up(&mut self, recipe: Recipe) {
        self.draft = recipe;
        if self.draft == self.bench.recipe {
            self.start_again();
        }
        self.put_draft_on_bench(None);
    }

    /// Puts the draft on the bench if it can be read and is not there already. Typing in one
    /// field in a row is one step back; every other setting is a step of its own.
    fn put_draft_on_bench(&mut self, field: Option<Field>) {
        let goes_on = field.is_some() && field == self.typing;
        if !goes_on {
            self.typing = None;
        }
        if self.draft == self.bench.recipe {
            return;
        }
        let Ok(setup) = self.draft.read() else { return };
        let bench = Bench::new(self.draft.clone());
        if Reading::of(&bench, setup).is_err() {
            return;
        }
        if goes_on {
            self.future.clear();
        } else {
            self.remember();
        }
        self.typing = field;
        self.pouring = false;
        self.bench = bench;
        self.event = BenchEvent::SetUp;
        self.serial = self.serial.wrapping_add(1);
    }

    /// Makes the bench as it is now the place that one step back leads to.
    fn remember(&mut self) {
        if self.past.len() >= HISTORY {
            self.past.remove(0);
        }
        self.past.push(self.bench.clone());
        self.future.clear();
        self.typing = None;
    }

    /// Puts `bench` in place and returns the one that was there.
    fn replace_bench(&mut self, bench: Bench) -> Bench {
        let other_mixture = bench.recipe != self.bench.recipe;
        if other_mixture {
            self.draft = bench.recipe.clone();
        }
        self.event = if other_mixture {
            BenchEvent::SetUp
        } else {
            BenchEvent::Jumped
        };
        self.serial = self.serial.wrapping_add(1);
        self.pouring = false;
        self.typing = None;
        std::mem::replace(&mut self.bench, bench)
    }
}
