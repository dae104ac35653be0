//! Leptos components, one file each. They show what the store knows and dispatch what the
//! user did; they decide nothing.

mod additions;
mod app;
mod curve;
mod explanations;
mod glyph;
mod guide;
mod later;
#[cfg(feature = "teacher")]
mod lesson;
#[cfg(feature = "teacher")]
mod lesson_fields;
mod limits;
mod linked;
mod panels;
#[cfg(feature = "teacher")]
mod paper;
mod ph_line;
mod practice;
mod questions;
mod readout;
mod reservoirs;
mod set_up;
mod standing;
mod status;
#[cfg(feature = "teacher")]
mod take_away;
mod told;
mod why;
mod working;
mod world_view;

pub use app::{App, AppProps};
pub use linked::open;
