//! Leptos components, one file each. They show what the store knows and dispatch what the
//! user did; they decide nothing.

mod additions;
mod app;
mod curve;
mod glyph;
mod limits;
mod panels;
mod ph_line;
mod practice;
mod readout;
mod reservoirs;
mod set_up;
mod status;
mod why;
mod working;
mod world_view;

pub use app::App;
