//! Every word a learner reads, in one place, in British English.
//!
//! A translation replaces this folder. Chemistry is written with Unicode sub- and
//! superscripts, which the page turns into markup.

pub mod addition;
pub mod announcement;
mod difference;
pub mod explanation;
pub mod label;
pub mod recipe;
pub mod reservoir;
mod shares;
pub mod step;

/// With its first letter a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |c| {
        core::iter::once(c.to_ascii_uppercase())
            .chain(letters)
            .collect()
    })
}
