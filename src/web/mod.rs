//! Adapters between the pure code and the browser.
//!
//! | module | subject |
//! |---|---|
//! | [`store`] | a signal around the state |
//! | [`repaint`] | paints of a particle scene what differs |
//! | [`canvas`] | its shapes |
//! | `hand` | many shapes with few calls |
//! | `rows` | rows of equal particles, copied at once |
//! | `stamps` | small particles, painted once and copied |
//! | `lettering` | what is written in the scene |
//! | [`palette`] | the theme's colors for it |
//! | [`surface`] | a canvas made ready for it |
//! | [`chart`] | draws a chart as SVG with plotters |
//! | [`course`] | the course system of a course package |
//! | `files` | a lesson's file fetched, and files given to the user |
//! | [`host`] | the page around a frame |
//! | [`keep`] | results on the device, if the learner asks |
//! | [`page`] | address, theme and place of the page itself |
//! | `still` | whether it may scroll and move the focus |
//! | `print` | what is on paper and on no screen |
//! | [`watch`] | media queries, sizes of elements, frames |

pub mod canvas;
pub mod chart;
pub mod course;
#[cfg(feature = "teacher")]
pub mod files;
mod hand;
pub mod host;
pub mod keep;
mod lettering;
pub mod page;
pub mod palette;
#[cfg(feature = "teacher")]
pub mod print;
pub mod repaint;
mod rows;
mod stamps;
mod still;
pub mod store;
pub mod surface;
pub mod watch;
