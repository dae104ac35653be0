//! Writes course packages as the application makes them, for `course.mjs`:
//! `package FILE FOLDER`, of the lesson's file FILE into FOLDER, one for each edition.

use std::fs;
use std::io;

use evenkeel::app::course::{Edition, package};

fn main() -> io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let (Some(file), Some(folder)) = (arguments.next(), arguments.next()) else {
        return Err(io::Error::other("usage: package FILE FOLDER"));
    };
    let html = fs::read_to_string(file)?;
    for (edition, name) in [(Edition::Scorm12, "1.2"), (Edition::Scorm2004, "2004")] {
        let bytes = package(edition, "Buffers & how they <hold>", &html);
        fs::write(format!("{folder}/{name}.zip"), bytes)?;
    }
    Ok(())
}
