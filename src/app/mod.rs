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
//! | [`picture`] | the particle counts of a reading |
//! | [`playback`] | the particle world kept in step with the bench |
//! | [`graph`] | the curve of a reading |
//! | [`shown`] | all of these for one state |
//! | [`state`], [`action`], [`apply`] | the page's state and the only way it changes |
//! | [`words`] | every word a learner reads |

pub mod action;
pub mod apply;
pub mod bench;
pub mod field;
pub mod graph;
pub mod pair;
pub mod picture;
pub mod playback;
pub mod reading;
pub mod recipe;
pub mod shown;
pub mod state;
pub mod words;
