//! Evenkeel: watch a buffer solution hold its pH, push it until it fails, see why.
//!
//! Layers, each allowed to see only those above it (a test reads the `use` lines):
//!
//! | module | what it holds | browser? |
//! |---|---|---|
//! | [`chem`] | quantities, acid–base systems, mixtures, equilibrium, curves | no |
//! | [`lesson`] | rounding and number writing, explanations as data | no |
//! | [`scene`] | the particle world and the chart, as data | no |
//! | [`app`] | one plain state, one pure `apply` | no |
//! | `web` | adapters: canvas, chart, page | yes |
//! | `ui` | Leptos components | yes |

#![cfg_attr(
    test,
    allow(
        clippy::float_cmp,
        reason = "these tests ask for the very number, not for one near it"
    )
)]

pub mod app;
pub mod chem;
pub mod lesson;
pub mod scene;

#[cfg(feature = "web")]
pub mod ui;
#[cfg(feature = "web")]
pub mod web;
