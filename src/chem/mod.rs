//! The chemistry, once: every number that any part of the page shows starts here.
//!
//! Pure code. It does no I/O, reads no clock and draws no randomness, so every function
//! is a plain map from a mixture to what is true of it.
//!
//! | module | subject |
//! |---|---|
//! | [`quantity`] | amounts, volumes, concentrations, pH, pKa, temperature as types |
//! | [`constants`] | pK<sub>w</sub>, Debye–Hückel A and the correction of pKa for temperature |
//! | [`systems`] | the table of acid–base systems, with sources |
//! | [`mixture`] | what was put together |
//! | [`activity`] | ionic strength and activity coefficients |
//! | [`power`] | powers of ten |
//! | [`root`], [`halley`] | bracketed root finding, without chemistry |
//! | [`balance`] | the charge balance of a mixture as a function of pH |
//! | [`equilibrium`] | [`equilibrium::solve`]: a mixture's pH and species |
//! | [`buffer`] | one conjugate pair: reserves, capacity |
//! | [`titration`] | additions from a stock, equivalence points, curves |

#![cfg_attr(
    test,
    allow(clippy::float_cmp, reason = "unit tests ask for exact values")
)]

pub mod activity;
pub mod balance;
pub mod buffer;
mod conditions;
pub mod constants;
pub mod equilibrium;
mod exact_sum;
pub mod halley;
pub mod mixture;
pub mod power;
pub mod quantity;
pub mod root;
mod scale;
pub mod systems;
mod systems_sources;
mod systems_table;
pub mod titration;
mod weak_term;
