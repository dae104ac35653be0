//! What the page knows: one plain [`state::State`], one pure [`apply::apply`], and what
//! follows from a bench, as data.
//!
//! | module | subject |
//! |---|---|
//! | [`field`] | what can be typed, and what can be wrong with it |
//! | [`pair`] | the conjugate pairs on offer |
//! | [`recipe`] | how the buffer on the bench is made, as typed and as read |
//! | [`bench`](mod@bench) | a recipe and what was added to it |
//! | [`reading`] | everything that the parts show of a bench, solved once |
//! | [`ph_line`] | where a pH stands on its line |
//! | [`picture`] | the particle counts of a reading |
//! | [`playback`] | the particle world kept in step with the bench |
//! | [`graph`] | the curve of a reading |
//! | [`working`] | the calculation for a bench, worked |
//! | [`practice`] | one question at a time |
//! | [`task`] | a question being worked on |
//! | [`on_bench`] | a question's mixture as a recipe |
//! | [`progress`] | how a learner stands, and what comes next |
//! | [`desk`] | practice, the guided start and what is kept, in the one state |
//! | [`guide`] | the guided start |
//! | [`prediction`] | predict, lock, compare |
//! | [`host`] | what the page around a frame is told, and what it may ask for |
//! | [`paper`] | a lesson's questions, their answers and its bench, for printing |
//! | [`course`] | a lesson as a package for a course system |
//! | [`shown`] | all of these for one state |
//! | [`state`], [`action`], [`apply`] | the page's state and the only way it changes |
//! | [`words`] | every word a learner reads |

pub mod action;
pub mod apply;
pub mod bench;
mod calculation;
pub mod carried;
pub mod code;
pub mod course;
mod crc;
pub mod desk;
pub mod field;
pub mod graph;
pub mod guide;
pub mod host;
mod left_out;
pub mod link;
pub mod on_bench;
pub mod opening;
pub mod pair;
pub mod paper;
pub mod ph_line;
pub mod picture;
pub mod plan;
pub mod planning;
pub mod playback;
pub mod practice;
pub mod prediction;
pub mod progress;
pub mod reading;
pub mod recipe;
mod remains;
pub mod shown;
pub mod state;
pub mod task;
pub mod words;
pub mod working;
