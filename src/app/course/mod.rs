//! A lesson as a package for a course system: the lesson's file and the manifest that SCORM
//! asks for, in one zip archive.
//!
//! No pass mark is written into the manifest: a course system that finds one judges by score
//! alone and overrules what the lesson itself says of passing.

mod manifest;
mod zip;

use crate::app::crc::crc32;
use crate::lesson::markup::escaped;

/// Which SCORM a package is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edition {
    /// SCORM 1.2, which every course system takes.
    Scorm12,
    /// SCORM 2004, 4th edition.
    Scorm2004,
}

/// What a download is called: the lesson's file, or its package of an edition.
pub const fn file_name(edition: Option<Edition>) -> &'static str {
    match edition {
        None => "evenkeel-lesson.html",
        Some(Edition::Scorm12) => "evenkeel-scorm-1.2.zip",
        Some(Edition::Scorm2004) => "evenkeel-scorm-2004.zip",
    }
}

/// The page at the root of a package.
const PAGE: &str = "index.html";

/// The mark that the lesson's file carries, unset and set: `src/web/course.js` speaks to a
/// course system only where it is set.
const MARK: [&str; 2] = [
    r#"<meta name="evenkeel-course" content="">"#,
    r#"<meta name="evenkeel-course" content="scorm">"#,
];

/// The mark in which a file carries its lesson, empty.
const LESSON: &str = r#"<meta name="evenkeel-lesson" content="">"#;

/// The file of one lesson: `html`, the file that every lesson is made from, with `link`, the
/// lesson in the grammar of links, query and fragment. `None` if it has no place for one.
pub fn lesson_file(html: &str, link: &str) -> Option<String> {
    let (before, after) = html.split_once(LESSON)?;
    let link = escaped(link.trim_start_matches('?'));
    let own = ["<meta name=\"evenkeel-lesson\" content=\"", &link, "\">"].concat();
    Some([before, &own, after].concat())
}

/// The zip archive of a package of `edition`: the manifest, with `title` as the course
/// system shows it, and `html`, the lesson's file, which is marked as part of a course.
/// The same input gives the same bytes.
pub fn package(edition: Edition, title: &str, html: &str) -> Vec<u8> {
    let page = html.replacen(MARK[0], MARK[1], 1);
    // Systems take a package with an identifier that they know for a new version of the
    // same course, so it follows from what is inside.
    let crc = crc32(page.as_bytes()) ^ crc32(title.as_bytes());
    let manifest = manifest::write(edition, title, crc);
    zip::stored(&[
        ("imsmanifest.xml", manifest.as_bytes()),
        (PAGE, page.as_bytes()),
    ])
}
