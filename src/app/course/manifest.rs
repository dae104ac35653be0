//! `imsmanifest.xml`: what a course system reads of a package.
//!
//! Names and order of elements: IMS Content Packaging 1.1.2 with the SCORM 1.2 Content
//! Aggregation Model, 2.3; IMS Content Packaging 1.1.4 with the SCORM 2004 4th Edition
//! Content Aggregation Model, 3.4.

use super::{Edition, PAGE};
use crate::lesson::markup::escaped;

/// What the two editions write differently.
struct Dialect {
    namespaces: &'static str,
    version: &'static str,
    /// The attribute that says that a resource speaks to the course system.
    kind: &'static str,
    /// Sequencing of the course and of its one item.
    sequencing: [&'static str; 2],
}

const fn dialect(edition: Edition) -> Dialect {
    match edition {
        Edition::Scorm12 => Dialect {
            namespaces: r#"xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2" xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2""#,
            version: "1.2",
            kind: "scormtype",
            sequencing: ["", ""],
        },
        Edition::Scorm2004 => Dialect {
            namespaces: r#"xmlns="http://www.imsglobal.org/xsd/imscp_v1p1" xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_v1p3" xmlns:imsss="http://www.imsglobal.org/xsd/imsss""#,
            version: "2004 4th Edition",
            kind: "scormType",
            sequencing: [
                "\n<imsss:sequencing><imsss:controlMode choice=\"true\" flow=\"true\"/></imsss:sequencing>",
                // The lesson says itself whether it is done and passed; a system that is not
                // told so takes a lesson that says nothing for done and passed.
                "\n<imsss:sequencing><imsss:deliveryControls completionSetByContent=\"true\" objectiveSetByContent=\"true\"/></imsss:sequencing>",
            ],
        },
    }
}

/// The manifest of a package with one lesson; `number` tells packages apart.
pub fn write(edition: Edition, title: &str, number: u32) -> String {
    let Dialect {
        namespaces,
        version,
        kind,
        sequencing: [of_course, of_item],
    } = dialect(edition);
    let title = escaped(&fit_for_xml(title));
    format!(
        r#"<?xml version="1.0" encoding="UTF-8"?>
<manifest identifier="evenkeel-{number:08x}" version="1.0" {namespaces}>
<metadata><schema>ADL SCORM</schema><schemaversion>{version}</schemaversion></metadata>
<organizations default="course">
<organization identifier="course">
<title>{title}</title>
<item identifier="lesson" identifierref="page">
<title>{title}</title>{of_item}
</item>{of_course}
</organization>
</organizations>
<resources>
<resource identifier="page" type="webcontent" adlcp:{kind}="sco" href="{PAGE}">
<file href="{PAGE}"/>
</resource>
</resources>
</manifest>
"#
    )
}

/// What XML 1.0 (2.2, Char) has no place for becomes a blank.
fn fit_for_xml(text: &str) -> String {
    let unfit = |c| matches!(c, '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    text.chars()
        .map(|c| if unfit(c) { ' ' } else { c })
        .collect()
}
