//! Everything that can happen to the state, as facts in the past tense.

use crate::app::picture::Detail;
use crate::app::recipe::{Field, Method, PairChoice};
use crate::app::state::Panel;
use crate::chem::titration::Reagent;
use crate::scene::View;

/// Something that happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// A reagent was added, in steps of the smallest addition. `held` is true from the
    /// second portion of a long press on: it goes with the one before.
    Added {
        /// Which reagent.
        reagent: Reagent,
        /// How many steps.
        steps: u32,
        /// Whether a button is being held down.
        held: bool,
    },
    /// The button that was held down was let go.
    PourEnded,
    /// One step back was asked for.
    Undone,
    /// One step forward again was asked for.
    Redone,
    /// Everything added was to be taken back.
    StartedAgain,
    /// Another pair was chosen.
    PairChosen(PairChoice),
    /// Another way of making it was chosen.
    MethodChosen(Method),
    /// A field now reads so.
    Typed(Field, String),
    /// Sorted or as mixed was chosen.
    ViewChosen(View),
    /// A panel was opened.
    PanelOpened(Panel),
    /// The screen was measured.
    ScreenMeasured(Detail),
}
