//! Every word a learner reads, in one place, in British English.
//!
//! A translation replaces this folder. Chemistry is written with Unicode sub- and
//! superscripts, which the page turns into markup.

pub mod addition;
pub mod announcement;
pub mod asked;
pub mod clauses;
mod difference;
pub mod explain;
pub mod explanation;
pub mod guide;
pub mod kind;
pub mod label;
pub mod lesson;
pub mod objective;
pub mod paper;
pub mod practice;
pub mod question;
pub mod reason;
pub mod recipe;
pub mod reservoir;
mod shares;
pub mod slip;
pub mod step;
pub mod summary;
pub mod task;
pub mod teacher;
mod telling;
mod verdict;
pub mod worked_line;
pub mod working;

pub use crate::lesson::conventions::capital;
