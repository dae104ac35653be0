//! Writes course packages as the application makes them, for `course.mjs`:
//! `package FILE FOLDER`, of the lesson's file FILE into FOLDER, one for each edition. The lesson
//! has two questions.

use std::fs;
use std::io;

use evenkeel::app::course::{Edition, lesson_file, package};

fn main() -> io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let (Some(file), Some(folder)) = (arguments.next(), arguments.next()) else {
        return Err(io::Error::other("usage: package FILE FOLDER"));
    };
    let whole = fs::read_to_string(file)?;
    let html = lesson_file(&whole, "?v=1&ask=mix&n=2&level=whole&seed=417");
    let html = html.ok_or_else(|| io::Error::other("the file has no place for a lesson"))?;
    for (edition, name) in [(Edition::Scorm12, "1.2"), (Edition::Scorm2004, "2004")] {
        let bytes = package(edition, "Buffers & how they <hold>", &html);
        fs::write(format!("{folder}/{name}.zip"), bytes)?;
    }
    Ok(())
}
