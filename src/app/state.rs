//! The page's whole state, as plain data.

use std::sync::Arc;

use crate::app::bench::{Addition, Bench};
use crate::app::desk::Desk;
use crate::app::link::notice::Notice;
use crate::app::picture::Detail;
use crate::app::plan::{Look, Part, Plan};
use crate::app::recipe::{Field, Recipe};
use crate::scene::View;

/// Benches that can be gone back to. Holding a button down is one step.
pub const HISTORY: usize = 500;

/// Which panel is open where there is room for one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Panel {
    /// The last addition explained.
    #[default]
    Why,
    /// pH against amount added.
    Curve,
    /// The calculation for the bench.
    Working,
    /// Questions.
    Practice,
    /// Setting up the buffer.
    SetUp,
    /// What the page does not model, and cautions.
    Limits,
    /// The teacher's side.
    Lesson,
}

/// All panels, in the order of their tabs.
pub const PANELS: [Panel; 7] = [
    Panel::Why,
    Panel::Curve,
    Panel::Working,
    Panel::Practice,
    Panel::SetUp,
    Panel::Limits,
    Panel::Lesson,
];

impl Panel {
    /// The part of a lesson that it is; `None` for those that are always there.
    pub const fn part(self) -> Option<Part> {
        match self {
            Self::Curve => Some(Part::Curve),
            Self::Working => Some(Part::Working),
            Self::Practice => Some(Part::Practice),
            Self::SetUp => Some(Part::SetUp),
            Self::Why | Self::Limits | Self::Lesson => None,
        }
    }
}

/// What the last action did to the bench: the particle world follows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BenchEvent {
    /// Another mixture is on the bench.
    #[default]
    SetUp,
    /// Something was added; steps of the smallest addition.
    Added(Addition),
    /// Back or forward to another state of the same mixture.
    Jumped,
    /// The flask was too full for the addition.
    Full,
    /// The guided start waits for a prediction before anything is added.
    Held,
}

/// The state.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct State {
    /// What is on the bench.
    pub bench: Bench,
    /// The recipe as it stands in the fields, readable or not.
    pub draft: Recipe,
    /// Benches to go back to, latest last.
    pub past: Vec<Bench>,
    /// Benches to go forward to, nearest last.
    pub future: Vec<Bench>,
    /// Sorted or as mixed.
    pub view: View,
    /// The open panel.
    pub panel: Panel,
    /// Light or dark.
    pub look: Look,
    /// How many particles the screen takes.
    pub detail: Detail,
    /// What the last action did to the bench.
    pub event: BenchEvent,
    /// Counts the actions that touched the bench, so that the same event twice is two.
    pub serial: u32,
    /// The field whose typing made the last step back, while nothing else happened since:
    /// typing on in it is the same step.
    pub typing: Option<Field>,
    /// Whether a button is being held down: messages wait until it is let go.
    pub pouring: bool,
    /// Practice and the guided start.
    pub desk: Arc<Desk>,
    /// The lesson that was opened.
    pub plan: Arc<Plan>,
    /// What could not be taken from its link as it stands there.
    pub notices: Arc<[Notice]>,
}
