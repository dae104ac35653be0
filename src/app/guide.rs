//! The guided start: six short steps, each with one new idea, and prediction, locked before
//! an addition and held against what happens.

use crate::app::bench::Addition;
use crate::app::reading::Reading;
use crate::app::state::{BenchEvent, State};
use crate::chem::titration::Reagent;
use crate::lesson::why::{Change, Outcome};
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

/// Which way the pH is expected to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// Up.
    Up,
    /// Down.
    Down,
    /// Nowhere at all.
    Nowhere,
}

/// All directions, in the order in which they are offered.
pub const DIRECTIONS: [Direction; 3] = [Direction::Up, Direction::Down, Direction::Nowhere];

/// How far it is expected to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Size {
    /// Less than 0.1.
    Slight,
    /// 0.1 to 1.
    Moderate,
    /// More than 1.
    Large,
}

/// All sizes, smallest first.
pub const SIZES: [Size; 3] = [Size::Slight, Size::Moderate, Size::Large];

/// A prediction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Prediction {
    /// Which way.
    pub direction: Option<Direction>,
    /// How far; not asked where it goes nowhere.
    pub size: Option<Size>,
    /// Whether it is locked.
    pub locked: bool,
}

impl Prediction {
    /// Whether there is enough to lock.
    pub const fn is_complete(&self) -> bool {
        matches!(
            (self.direction, self.size),
            (Some(Direction::Nowhere), _) | (Some(_), Some(_))
        )
    }
}

/// What a step is held against: how things were when it began.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Since {
    /// Actions on the bench so far.
    pub serial: u32,
    /// Sorted or as mixed.
    pub view: View,
    /// Questions done so far.
    pub results: usize,
}

impl Since {
    /// How things are now.
    pub fn now(state: &State) -> Self {
        Self {
            serial: state.serial,
            view: state.view,
            results: state.desk.practice.results.len(),
        }
    }
}

/// The guide.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Guide {
    /// The step that is open; `None` while the guide is closed.
    pub step: Option<GuideStep>,
    /// Whether what the step asks for was done.
    pub done: bool,
    /// What is predicted in this step.
    pub prediction: Prediction,
    /// How things were when the step began, or when the prediction was locked.
    pub since: Since,
}

/// Something that happened to the guide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GuideAction {
    /// It was opened, or begun again.
    Started,
    /// A step was gone to, back or forward.
    WentTo(GuideStep),
    /// The next step was taken, whether this one is done or skipped.
    WentOn,
    /// What the step asks for was seen to be done.
    Seen,
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
    let mut next = *guide;
    let at = |step| Guide {
        step,
        since: now,
        ..Guide::default()
    };
    match action {
        GuideAction::Started => next = at(Some(GuideStep::Look)),
        GuideAction::WentTo(step) => next = at(Some(step)),
        GuideAction::WentOn => {
            let after = |step| STEPS.into_iter().find(|s| *s > step);
            next = at(guide.step.and_then(after));
        }
        GuideAction::Seen => next.done = true,
        GuideAction::Closed => next = at(None),
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

    /// Whether additions wait until a prediction is locked.
    pub const fn holds_additions(&self) -> bool {
        self.predicts().is_some() && !self.prediction.locked
    }

    /// Whether what the open step asks for has happened, as `state` and its reading show it.
    /// A step that is done stays done: [`GuideAction::Seen`] remembers it.
    pub fn is_done(&self, state: &State, reading: &Reading) -> bool {
        self.done
            || self
                .step
                .is_some_and(|step| self.is_met(step, state, reading))
    }

    /// Whether what `step` asks for has happened since it began.
    fn is_met(&self, step: GuideStep, state: &State, reading: &Reading) -> bool {
        let touched = state.serial != self.since.serial && !state.pouring;
        let added = match state.event {
            BenchEvent::Added(Addition { reagent, .. }) if touched => Some(reagent),
            _ => None,
        };
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
            GuideStep::Question => state.desk.practice.results.len() > self.since.results,
        }
    }
}

/// How a prediction compares with what happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gap {
    /// It went that way and about so far.
    None,
    /// It went the other way.
    OtherWay,
    /// It went somewhere, though nowhere was expected.
    NotNowhere,
    /// It went less far.
    LessFar,
    /// It went further.
    Further,
}

/// How far a change of pH goes, as it is printed: to two decimal places.
fn size(step: f64) -> Size {
    let hundredths = libm::round(step.abs() * 100.0);
    if hundredths < 10.0 {
        Size::Slight
    } else if hundredths <= 100.0 {
        Size::Moderate
    } else {
        Size::Large
    }
}

/// Holds a prediction against what happened; `None` where nothing was predicted.
pub fn gap(prediction: &Prediction, change: &Change) -> Option<Gap> {
    let step = change.step();
    let way = if step > 0.0 {
        Direction::Up
    } else {
        Direction::Down
    };
    Some(match (prediction.direction?, prediction.size) {
        (Direction::Nowhere, _) => Gap::NotNowhere,
        (direction, _) if direction != way => Gap::OtherWay,
        (_, Some(expected)) if expected > size(step) => Gap::LessFar,
        (_, Some(expected)) if expected < size(step) => Gap::Further,
        _ => Gap::None,
    })
}
