//! The guided start: six short steps, each with one new idea.

use crate::app::bench::Addition;
use crate::app::prediction::{Direction, Prediction, Size};
use crate::app::reading::Reading;
use crate::app::state::{BenchEvent, State};
use crate::chem::titration::Reagent;
use crate::lesson::why::Outcome;
use crate::scene::View;

/// A step of the guided start.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GuideStep {
    /// Two reservoirs in one solution.
    Look,
    /// Acid is added, predicted first.
    AddAcid,
    /// Alkali is added, predicted first.
    AddAlkali,
    /// The same in water.
    BesideWater,
    /// Until a reservoir runs out.
    RunOut,
    /// A first question.
    Question,
}

/// All steps, in their order.
pub const STEPS: [GuideStep; 6] = [
    GuideStep::Look,
    GuideStep::AddAcid,
    GuideStep::AddAlkali,
    GuideStep::BesideWater,
    GuideStep::RunOut,
    GuideStep::Question,
];

/// What a step is held against: how things were when it began.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Since {
    /// Actions on the bench so far.
    pub serial: u32,
    /// Sorted or as mixed.
    pub view: View,
    /// Questions that have ended so far.
    pub questions: u32,
}

impl Since {
    /// How things are now.
    pub fn now(state: &State) -> Self {
        Self {
            serial: state.serial,
            view: state.view,
            questions: state.desk.practice.ended,
        }
    }
}

/// The guide.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Guide {
    /// The step that is open; `None` while the guide is closed.
    pub step: Option<GuideStep>,
    /// What was said of each step once it was done; empty before.
    pub told: [String; STEPS.len()],
    /// What a screen reader was told of it last, and after how many actions on the bench.
    pub heard: Option<(u32, String)>,
    /// What is predicted in the open step.
    pub prediction: Prediction,
    /// How things were when the step began, or when the prediction was locked.
    pub since: Since,
}

/// Something that happened to the guide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GuideAction {
    /// It was opened, or begun again.
    Started,
    /// A step was gone to, back or forward.
    WentTo(GuideStep),
    /// The next step was taken, whether this one is done or skipped.
    WentOn,
    /// What the step asks for was seen to be done, and this was said.
    Seen(String),
    /// It was closed.
    Closed,
    /// A direction was chosen.
    DirectionChosen(Direction),
    /// A size was chosen.
    SizeChosen(Size),
    /// The prediction was locked.
    Locked,
}

/// The guide after `action`; `now` is how things are. Pure.
pub fn guide(guide: &Guide, action: GuideAction, now: Since) -> Guide {
    let mut next = guide.clone();
    let mut go_to = |step| {
        next.step = step;
        next.prediction = Prediction::default();
        next.since = now;
    };
    match action {
        GuideAction::Started => {
            go_to(Some(GuideStep::Look));
            next.told = Default::default();
            next.heard = None;
        }
        GuideAction::WentTo(step) => go_to(Some(step)),
        GuideAction::WentOn => {
            let after = |step| STEPS.into_iter().find(|s| *s > step);
            go_to(guide.step.and_then(after));
        }
        GuideAction::Seen(text) => {
            if let Some(step) = guide.step {
                // Practice speaks for itself.
                if step != GuideStep::Question {
                    next.heard = Some((now.serial, text.clone()));
                }
                next.told[step as usize] = text;
            }
        }
        GuideAction::Closed => go_to(None),
        GuideAction::DirectionChosen(direction) if !guide.prediction.locked => {
            next.prediction.direction = Some(direction);
        }
        GuideAction::SizeChosen(size) if !guide.prediction.locked => {
            next.prediction.size = Some(size);
        }
        GuideAction::Locked if guide.prediction.is_complete() => {
            next.prediction.locked = true;
            next.since = now;
        }
        GuideAction::DirectionChosen(_) | GuideAction::SizeChosen(_) | GuideAction::Locked => {}
    }
    next
}

impl Guide {
    /// The step before the open one.
    pub fn before(&self) -> Option<GuideStep> {
        STEPS.into_iter().rev().find(|s| Some(*s) < self.step)
    }

    /// The reagent that this step asks a prediction for.
    pub const fn predicts(&self) -> Option<Reagent> {
        match self.step {
            Some(GuideStep::AddAcid) => Some(Reagent::Acid),
            Some(GuideStep::AddAlkali) => Some(Reagent::Alkali),
            _ => None,
        }
    }

    /// What was said of the open step once it was done; empty before.
    pub fn told(&self) -> &str {
        self.step.map_or("", |step| &self.told[step as usize])
    }

    /// Whether the open step is done. It stays done, also when it is gone back to.
    pub fn done(&self) -> bool {
        !self.told().is_empty()
    }

    /// Whether additions wait until a prediction is locked.
    pub fn holds_additions(&self) -> bool {
        self.predicts().is_some() && !self.prediction.locked && !self.done()
    }

    /// Whether the open step begins with a fresh flask: what was added before would hide what
    /// it shows.
    pub fn wants_fresh_flask(&self) -> bool {
        let fresh = [
            GuideStep::Look,
            GuideStep::AddAlkali,
            GuideStep::BesideWater,
        ];
        !self.done() && self.step.is_some_and(|step| fresh.contains(&step))
    }

    /// Whether what the open step asks for has happened, as `state` and its reading show it.
    pub fn is_met(&self, state: &State, reading: &Reading) -> bool {
        self.step
            .is_some_and(|step| self.meets(step, state, reading))
    }

    /// The reagent that was added although the step asks for the other.
    pub fn wrong_reagent(&self, state: &State) -> Option<Reagent> {
        let added = self.added(state)?;
        (self.prediction.locked && Some(added) != self.predicts()).then_some(added)
    }

    /// What was added since the step began or its prediction was locked.
    fn added(&self, state: &State) -> Option<Reagent> {
        let touched = state.serial != self.since.serial && !state.pouring;
        match state.event {
            BenchEvent::Added(Addition { reagent, .. }) if touched => Some(reagent),
            _ => None,
        }
    }

    /// Whether what `step` asks for has happened since it began.
    fn meets(&self, step: GuideStep, state: &State, reading: &Reading) -> bool {
        let added = self.added(state);
        match step {
            GuideStep::Look => state.view != self.since.view,
            GuideStep::AddAcid | GuideStep::AddAlkali => {
                self.prediction.locked && added.is_some() && added == self.predicts()
            }
            GuideStep::BesideWater => added.is_some(),
            GuideStep::RunOut => {
                let outcome = reading.change().map(|change| change.outcome());
                added.is_some() && matches!(outcome, Some(Outcome::RanOut | Outcome::NothingLeft))
            }
            GuideStep::Question => state.desk.practice.ended != self.since.questions,
        }
    }
}
