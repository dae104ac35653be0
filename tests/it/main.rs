//! The native test binary.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    clippy::cast_possible_truncation,
    reason = "a test may panic, asks for exact values where they are due, and counts to a few"
)]

mod constants;
mod course;
mod curves;
mod digest;
mod digest_cases;
mod draws;
mod facts;
mod follow_through;
mod guide;
mod host;
mod hostile;
mod journey;
mod layers;
mod links;
mod notation;
mod opening;
mod paper;
mod particles;
mod practice;
mod properties;
mod published;
mod recipes;
mod recognition;
mod reference;
mod starters;
mod sums;
mod tables;
mod textbook;
mod words;
mod worked;
mod working;
