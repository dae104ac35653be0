//! What a learner expects of an addition, locked before it and held against what happens.

use crate::lesson::sig_fig::PhDecimals;
use crate::lesson::why::Change;

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

/// How far a change of pH goes, as it is printed: to two or three decimal places.
fn size(step: f64, decimals: PhDecimals) -> Size {
    let one = match decimals {
        PhDecimals::Two => 100.0,
        PhDecimals::Three => 1000.0,
    };
    let printed = libm::round(step.abs() * one);
    if 10.0 * printed < one {
        Size::Slight
    } else if printed <= one {
        Size::Moderate
    } else {
        Size::Large
    }
}

/// Holds a prediction against what happened; `None` where nothing was predicted.
pub fn gap(prediction: &Prediction, change: &Change, decimals: PhDecimals) -> Option<Gap> {
    let step = change.step();
    let way = if step > 0.0 {
        Direction::Up
    } else {
        Direction::Down
    };
    let went = size(step, decimals);
    Some(match (prediction.direction?, prediction.size) {
        (Direction::Nowhere, _) => Gap::NotNowhere,
        (direction, _) if direction != way => Gap::OtherWay,
        (_, Some(expected)) if expected > went => Gap::LessFar,
        (_, Some(expected)) if expected < went => Gap::Further,
        _ => Gap::None,
    })
}
