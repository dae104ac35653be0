//! Course packages, read by others: `unzip`, Python's zipfile and XML reader, and Java's
//! stream reader, which course systems written in Java use and which takes no shortcut
//! through the directory at the end.

use std::path::PathBuf;
use std::process::Command;

use evenkeel::app::course::{Edition, package};
use serde_json::Value;

const EDITIONS: [Edition; 2] = [Edition::Scorm12, Edition::Scorm2004];

/// A stand-in for the lesson's file, with the two marks that it carries and with bytes
/// that a zip reader could take for its own.
const HTML: &str = "<!doctype html><meta name=\"evenkeel-lesson\" content=\"\">\
    <meta name=\"evenkeel-course\" content=\"\"><p>pH 4.87, [A⁻] PK\u{3}\u{4} PK\u{5}\u{6}\r\n";

/// The same as the package holds it: spoken to a course system.
const MARKED: &str = "<!doctype html><meta name=\"evenkeel-lesson\" content=\"\">\
    <meta name=\"evenkeel-course\" content=\"scorm\"><p>pH 4.87, [A⁻] PK\u{3}\u{4} PK\u{5}\u{6}\r\n";

const TITLE: &str = "Buffers";

/// Titles that an author may type, and what stands for them in XML 1.0.
const TITLES: &[(&str, &str)] = &[
    (TITLE, TITLE),
    ("a < b & c > d", "a < b & c > d"),
    ("</title><item>", "</title><item>"),
    (
        "&amp; \"quoted\" 'twice' ]]>",
        "&amp; \"quoted\" 'twice' ]]>",
    ),
    ("Ácido–base ⇌ 缓冲溶液 🧪", "Ácido–base ⇌ 缓冲溶液 🧪"),
    // XML 1.0, 2.2: these are no characters.
    ("bell\u{7}nul\u{0}last\u{ffff}", "bell nul last "),
];

/// `bytes` as a file of the name.
fn written(name: &str, bytes: &[u8]) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

/// What `command` prints; fails with what it complains of.
fn printed(command: &mut Command, needs: &str) -> Result<String, String> {
    let output = command
        .output()
        .unwrap_or_else(|e| panic!("{command:?}: {e}. Install {needs}; `make test` does"));
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    if output.status.success() {
        Ok(text(&output.stdout))
    } else {
        Err(format!("{}{}", text(&output.stdout), text(&output.stderr)))
    }
}

fn beside(name: &str) -> String {
    format!("{}/tests/it/course/{name}", env!("CARGO_MANIFEST_DIR"))
}

fn by_unzip(path: &PathBuf) -> Result<String, String> {
    printed(Command::new("unzip").arg("-t").arg(path), "unzip")
}

fn by_python(path: &PathBuf) -> Result<Value, String> {
    let python = std::env::var("EVENKEEL_PYTHON").unwrap_or_else(|_| "python3".into());
    let mut command = Command::new(python);
    command.arg(beside("check.py")).arg(path);
    printed(&mut command, "Python 3.9 or newer").map(|json| serde_json::from_str(&json).unwrap())
}

fn by_java(path: &PathBuf) -> Result<String, String> {
    let mut command = Command::new("java");
    command.arg(beside("Check.java")).arg(path);
    printed(
        &mut command,
        "a Java of version 11 or newer with its compiler (Debian: default-jre-headless)",
    )
}

/// Every reader finds both files whole, the manifest at the root.
#[test]
fn three_readers() {
    for edition in EDITIONS {
        let path = written(
            &format!("package-{edition:?}.zip"),
            &package(edition, TITLE, HTML),
        );
        let told = by_unzip(&path).unwrap();
        assert!(told.contains("No errors detected"), "{told}");

        let seen = by_python(&path).unwrap();
        let files = seen["files"].as_array().unwrap();
        let names: Vec<_> = files.iter().map(|f| f["name"].as_str().unwrap()).collect();
        assert_eq!(names, ["imsmanifest.xml", "index.html"]);
        for file in files {
            assert_eq!(file["date"], serde_json::json!([1980, 1, 1, 0, 0, 0]));
            assert_eq!(file["method"], 0, "not stored");
            // APPNOTE 4.4.4: bit 11 says that names are UTF-8, bit 3 that sizes follow.
            assert_eq!(file["flags"], 1 << 11);
        }
        assert_eq!(files[1]["size"], MARKED.len());

        let java = by_java(&path).unwrap();
        let expected: Vec<_> = files
            .iter()
            .map(|f| format!("{} {} {}", f["name"].as_str().unwrap(), f["size"], f["crc"]))
            .collect();
        assert_eq!(java.lines().collect::<Vec<_>>(), expected);
    }
}

/// The readers do see what is wrong with an archive.
#[test]
fn a_damaged_package_is_seen() {
    let mut bytes = package(Edition::Scorm12, TITLE, HTML);
    let at = bytes.windows(7).position(|w| w == b"doctype").unwrap();
    bytes[at] ^= 1;
    let path = written("damaged.zip", &bytes);
    assert!(by_unzip(&path).is_err());
    assert!(by_python(&path).unwrap_err().contains("damaged"));
    assert!(by_java(&path).unwrap_err().contains("invalid entry CRC"));

    // Sizes behind a stored file (bit 3): what Java's reader refuses, and why there are none.
    let mut bytes = package(Edition::Scorm12, TITLE, HTML);
    bytes[6] |= 1 << 3;
    let told = by_java(&written("trailing.zip", &bytes)).unwrap_err();
    assert!(
        told.contains("only DEFLATED entries can have EXT descriptor"),
        "{told}"
    );
}

#[test]
fn the_page_is_whole_and_marked() {
    let bytes = package(Edition::Scorm2004, TITLE, HTML);
    let holds = |text: &str| bytes.windows(text.len()).any(|w| w == text.as_bytes());
    assert!(holds(MARKED) && !holds(HTML));
    assert_eq!(bytes, package(Edition::Scorm2004, TITLE, HTML));
    assert_ne!(bytes, package(Edition::Scorm2004, "Another", HTML));
}

/// Whatever the title, the manifest is well-formed and says it twice, as text.
#[test]
fn titles() {
    for edition in EDITIONS {
        for (i, (title, expected)) in TITLES.iter().enumerate() {
            let bytes = package(edition, title, HTML);
            let seen = by_python(&written(&format!("title-{i}-{edition:?}.zip"), &bytes)).unwrap();
            let titles: Vec<_> = elements(&seen)
                .filter(|e| e["path"].as_str().unwrap().ends_with("}title"))
                .map(|e| e["text"].as_str().unwrap().to_owned())
                .collect();
            assert_eq!(titles, [*expected, *expected], "{edition:?} {title:?}");
        }
    }
}

fn elements(seen: &Value) -> impl Iterator<Item = &Value> {
    seen["elements"].as_array().unwrap().iter()
}

/// The content packaging and the ADL namespaces, what the schema version is called, and how
/// the attribute is written that makes a resource one that speaks.
///
/// SCORM 1.2: Content Aggregation Model 1.2, 2.3.2 and its sample manifests. SCORM 2004:
/// Content Aggregation Model 4th Edition, 3.4 and 3.8. Both from memory, no schema at hand.
const NAMES: [[&str; 4]; 2] = [
    [
        "http://www.imsproject.org/xsd/imscp_rootv1p1p2",
        "http://www.adlnet.org/xsd/adlcp_rootv1p2",
        "1.2",
        "scormtype",
    ],
    [
        "http://www.imsglobal.org/xsd/imscp_v1p1",
        "http://www.adlnet.org/xsd/adlcp_v1p3",
        "2004 4th Edition",
        "scormType",
    ],
];

/// The elements that the standard requires, in its namespaces, each naming the next.
#[test]
fn required_elements() {
    for (edition, [imscp, adlcp, version, kind]) in EDITIONS.into_iter().zip(NAMES) {
        let path = written(
            &format!("names-{edition:?}.zip"),
            &package(edition, TITLE, HTML),
        );
        let seen = by_python(&path).unwrap();
        let find = |names: &str| {
            let path: String = names
                .split('/')
                .map(|n| format!("/{{{imscp}}}{n}"))
                .collect();
            let found: Vec<_> = elements(&seen).filter(|e| e["path"] == path).collect();
            assert_eq!(found.len(), 1, "{edition:?}: {names}");
            found[0]
        };
        let attribute = |names: &str, name: &str| {
            let value = &find(names)["attributes"][name];
            value
                .as_str()
                .unwrap_or_else(|| panic!("{edition:?}: {names} has no {name}"))
                .to_owned()
        };
        // An xs:ID starts with a letter and has no blank.
        let identifier = attribute("manifest", "identifier");
        assert!(
            identifier.starts_with("evenkeel-") && !identifier.contains(' '),
            "{identifier}"
        );
        assert_eq!(find("manifest/metadata/schema")["text"], "ADL SCORM");
        assert_eq!(find("manifest/metadata/schemaversion")["text"], version);
        let course = "manifest/organizations/organization";
        assert_eq!(
            attribute("manifest/organizations", "default"),
            attribute(course, "identifier")
        );
        let item = format!("{course}/item");
        assert!(!attribute(&item, "identifier").is_empty());
        let resource = "manifest/resources/resource";
        assert_eq!(
            attribute(&item, "identifierref"),
            attribute(resource, "identifier")
        );
        assert_eq!(attribute(resource, "type"), "webcontent");
        assert_eq!(attribute(resource, &format!("{{{adlcp}}}{kind}")), "sco");
        assert_eq!(attribute(resource, "href"), "index.html");
        assert_eq!(
            attribute("manifest/resources/resource/file", "href"),
            "index.html"
        );
        // Sequencing belongs to SCORM 2004 alone, a mastery score to 1.2; we write none.
        let whole = seen["elements"].to_string();
        assert_eq!(whole.contains("imsss"), edition == Edition::Scorm2004);
        assert!(!whole.contains("masteryscore"));
    }
}
