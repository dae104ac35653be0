//! Everything that can happen to the state, as facts in the past tense.

use crate::app::picture::Detail;
use crate::app::plan::Look;
use crate::app::recipe::{Field, Method, PairChoice};
use crate::app::state::Panel;
use crate::chem::titration::Reagent;
use crate::scene::View;

/// How a button was pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// Once.
    Tap,
    /// It is being held down, and this is the first portion.
    PourBegun,
    /// It is still being held down; the portion goes with those before.
    PourWentOn,
}

/// Something that happened.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// A reagent was added, in steps of the smallest addition.
    Added {
        /// Which reagent.
        reagent: Reagent,
        /// How many steps.
        steps: u32,
        /// How the button was pressed.
        press: Press,
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
    /// The guided start was asked for.
    GuideStarted,
    /// Light or dark was chosen, by the page around this one.
    LookChosen(Look),
    /// The screen was measured.
    ScreenMeasured(Detail),
}
