//! How chemistry is written for people: numbers, formulas, equations and explanations,
//! as finished data. Pure; uses [`chem`](crate::chem) only.
//!
//! | module | subject |
//! |---|---|
//! | [`sig_fig`] | the only rounding and number writing |
//! | [`read`] | the only reading of typed numbers |
//! | [`notation`] | symbols and formulas of a pair, equations as data |
//! | [`equation`] | chemical equations |
//! | [`explain`] | explanations built from clauses |
//! | [`markup`] | the same as HTML and MathML |
//! | [`runs`] | text on and off the line |
//! | [`superscript`] | digits above the line |
//! | [`why`] | what an addition did, as data |
//! | [`sums`] | calculations as sheets: forms of question, slips, marking, solutions |

mod amount_scale;
pub mod conventions;
pub mod equation;
pub mod explain;
pub mod hydrogen_ion;
pub mod markup;
pub mod notation;
pub mod read;
pub mod runs;
pub mod sig_fig;
pub mod sums;
pub mod superscript;
pub mod why;
