//! What is painted, as data: the particle world and the chart.
//!
//! [`particles::World`] holds one conjugate pair in two reservoirs. Solved
//! amounts go in as plain numbers ([`tally::Amounts`]), are counted in whole
//! particles ([`tally::Tally`]), and come out as shapes in paint order
//! ([`shape::Scene`]). Time comes from outside, in [`World::step`]; chance
//! comes from a seed.
//!
//! What the picture promises, each held by a test:
//!
//! - Drawn counts are within one particle of the solved amounts; particles
//!   and protons are conserved at every sub-step, in flight or at rest.
//! - Free H⁺ and OH⁻ are drawn only when they amount to a particle.
//! - Nothing overlaps at rest. Equal levels are equal counts.
//! - Giving and taking go on equally, whatever was added.
//! - The same seed and the same calls give the same scene, bit for bit.
//!
//! To show a state that additions led to without showing the additions (a
//! link, a change of unit), build the world from the starting amounts, so
//! that the start marks and the ledger are right, then
//! [`World::show`] the state and [`World::settle`].
//!
//! [`World::step`]: particles::World::step
//! [`World::show`]: particles::World::show
//! [`World::settle`]: particles::World::settle

mod addition;
mod census;
mod chance;
pub mod chart;
mod clockwork;
mod crowd;
mod exchange;
mod extent;
mod flight;
mod grid;
mod ion_rows;
mod ions;
mod mixed;
mod motion;
pub mod particles;
mod picture;
mod readjustment;
mod relayout;
mod rounding;
pub mod shape;
pub mod stage;
pub mod tally;
pub mod tiles;

pub use census::Census;
pub use crowd::View;
pub use ions::Reagent;
