//! What the fuzz targets try, and what must be so whatever was read. Every target takes text: a
//! corpus that people can read and add to.

pub mod actions;
pub mod answers;
pub mod lessons;
pub mod links;
pub mod numbers;
pub mod sound;

/// A lesson's address, which is the first line of an input, in its query and fragment; and the
/// lines below it.
pub fn parts(text: &str) -> (&str, &str, std::str::Lines<'_>) {
    let (address, rest) = text.split_once('\n').unwrap_or((text, ""));
    let (query, fragment) = address.split_once('#').unwrap_or((address, ""));
    (query, fragment, rest.lines())
}
