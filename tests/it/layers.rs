//! The shape of the source: which module may see which, and what pure code may not name.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Who may use whom. A module may always use itself.
const ALLOWED: &[(&str, &[&str])] = &[
    ("chem", &[]),
    ("lesson", &["chem"]),
    ("scene", &["chem"]),
    ("app", &["chem", "lesson", "scene"]),
    ("web", &["app", "chem", "lesson", "scene"]),
    ("ui", &["app", "chem", "lesson", "scene", "web"]),
];

const PURE: &[&str] = &["chem", "lesson", "scene", "app"];

/// Names that pure code may not use: the browser, the outside world, the clock, and
/// randomness without a seed.
const IMPURE: &[&str] = &[
    "leptos",
    "web_sys",
    "js_sys",
    "wasm_bindgen",
    "plotters",
    "std::time",
    "std::fs",
    "std::net",
    "std::env",
    "std::io",
    "std::process",
    "std::thread",
    "thread_rng",
    "from_entropy",
    "from_os_rng",
    "OsRng",
    "println!",
    "eprintln!",
];

/// The only pure file that writes a number with so many decimal places, and with it rounds it.
const WRITES_NUMBERS: &str = "lesson/sig_fig.rs";

/// A file with more is about two things.
const MOST_LINES: usize = 300;

/// Folders of files that people write, and the endings of such files.
const WRITTEN: [&str; 4] = ["src", "tests", ".dev", "style"];
const ENDINGS: [&str; 8] = ["rs", "js", "mjs", "css", "html", "py", "sh", "toml"];

/// Files that may be longer, for they are one table: a line an acid.
const TABLES: [&str; 1] = ["src/chem/systems_table.rs"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn collect(folder: &Path, endings: &[&str], found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let ends = |ending: &&str| path.extension().is_some_and(|own| own == *ending);
        if path.ends_with("node_modules") {
            continue;
        }
        if path.is_dir() {
            collect(&path, endings, found);
        } else if endings.iter().any(ends) {
            found.push(path);
        }
    }
}

/// Every file below `folder` with one of these endings: its path from `from` and its text.
fn files(folder: &Path, from: &Path, endings: &[&str]) -> Vec<(String, String)> {
    let mut paths = Vec::new();
    collect(folder, endings, &mut paths);
    paths.sort();
    let named = |path: PathBuf| {
        let name = path.strip_prefix(from).unwrap().to_string_lossy();
        (name.replace('\\', "/"), fs::read_to_string(&path).unwrap())
    };
    paths.into_iter().map(named).collect()
}

/// Every Rust file below `src`, by its path from there.
fn sources() -> Vec<(String, String)> {
    let source = root().join("src");
    files(&source, &source, &["rs"])
}

/// The text without its comments; a comment may name what it likes.
fn code(text: &str) -> String {
    text.lines()
        .map(|line| line.split("//").next().unwrap_or(""))
        .collect::<Vec<_>>()
        .join("\n")
}

/// The modules that `crate::` paths in `text` lead to, `use crate::{a, b::c}` included.
fn edges(text: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for path in text.split("crate::").skip(1) {
        let word = |s: &str| -> String {
            s.trim_start()
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect()
        };
        let Some(group) = path.strip_prefix('{') else {
            found.insert(word(path));
            continue;
        };
        let (mut depth, mut at_name) = (0, true);
        for (i, c) in group.char_indices() {
            if at_name && depth == 0 && !c.is_whitespace() {
                found.insert(word(&group[i..]));
                at_name = false;
            }
            match c {
                '{' => depth += 1,
                '}' if depth == 0 => break,
                '}' => depth -= 1,
                ',' => at_name = true,
                _ => {}
            }
        }
    }
    found.remove("");
    found
}

fn module(file: &str) -> Option<&str> {
    file.split_once('/').map(|(module, _)| module)
}

/// What is wrong with one file's imports and names.
fn check(file: &str, text: &str) -> Vec<String> {
    let Some(module) = module(file) else {
        return Vec::new();
    };
    let Some((_, allowed)) = ALLOWED.iter().find(|(name, _)| *name == module) else {
        return vec![format!(
            "{file}: the module {module} has no place among the layers"
        )];
    };
    let code = code(text);
    let mut wrong: Vec<String> = edges(&code)
        .into_iter()
        .filter(|to| to != module && !allowed.contains(&to.as_str()))
        .map(|to| format!("{file}: {module} may not use {to}"))
        .collect();
    // Climbing out of the module without naming the crate would hide an edge.
    if file.matches('/').count() == 1 && code.contains("super::super::super") {
        wrong.push(format!("{file}: say crate:: instead of climbing"));
    }
    if PURE.contains(&module) {
        let named = IMPURE.iter().filter(|name| code.contains(**name));
        wrong.extend(named.map(|name| format!("{file}: pure code names {name}")));
    }
    let after = |(place, mark): (usize, &str)| code[place + mark.len()..].chars().next();
    let mut places = code.match_indices(":.").filter_map(after);
    if PURE.contains(&module)
        && file != WRITES_NUMBERS
        && places.any(|c| c.is_ascii_digit() || c == '*')
    {
        wrong.push(format!("{file}: numbers are written in {WRITES_NUMBERS}"));
    }
    if module == "chem" && code.contains("serde") {
        wrong.push(format!("{file}: chem knows no serde"));
    }
    wrong
}

#[test]
fn every_edge_is_allowed() {
    let files = sources();
    assert!(
        files.iter().any(|(name, _)| name == "chem/equilibrium.rs"),
        "src was not read"
    );
    let wrong: Vec<String> = files
        .iter()
        .flat_map(|(name, text)| check(name, text))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_file_is_long() {
    let all: Vec<(String, usize)> = WRITTEN
        .iter()
        .flat_map(|folder| files(&root().join(folder), root(), &ENDINGS))
        .map(|(name, text)| (name, text.lines().count()))
        .collect();
    for folder in WRITTEN {
        let is_in = |(name, _): &(String, usize)| name.starts_with(&format!("{folder}/"));
        assert!(all.iter().any(is_in), "{folder} was not read");
    }
    let long: Vec<String> = all
        .iter()
        .filter(|(name, lines)| *lines > MOST_LINES && !TABLES.contains(&name.as_str()))
        .map(|(name, lines)| format!("{name} has {lines} lines"))
        .collect();
    assert!(
        long.is_empty(),
        "over {MOST_LINES} lines: {}",
        long.join(", ")
    );
    for table in TABLES {
        let is_long = |(name, lines): &(String, usize)| name == table && *lines > MOST_LINES;
        assert!(all.iter().any(is_long), "{table} needs no exception");
    }
}

/// The check itself sees what it should.
#[test]
fn wrong_edges_are_seen() {
    let seen = |file: &str, text: &str| check(file, text).len();
    assert_eq!(
        seen(
            "chem/x.rs",
            "use crate::chem::root;\n// crate::app is elsewhere"
        ),
        0
    );
    assert_eq!(seen("chem/x.rs", "use crate::lesson::words;"), 1);
    assert_eq!(
        seen(
            "scene/x.rs",
            "use crate::{chem::{root, mixture}, lesson::words};"
        ),
        1
    );
    assert_eq!(seen("lesson/x.rs", "let a = crate::scene::shape();"), 1);
    assert_eq!(
        seen("app/x.rs", "use crate::{\n    ui,\n    web::canvas,\n};"),
        2
    );
    assert_eq!(
        seen("web/x.rs", "use crate::app::State; use leptos::prelude::*;"),
        0
    );
    assert_eq!(seen("lesson/x.rs", "use std::time::Instant;"), 1);
    assert_eq!(seen("chem/x.rs", "#[derive(serde::Serialize)]"), 1);
    assert_eq!(seen("app/x.rs", r#"format!("{ph:.2}")"#), 1);
    assert_eq!(seen("app/x.rs", r#"format!("{:.*}", 2, ph)"#), 1);
    assert_eq!(seen(WRITES_NUMBERS, r#"format!("{ph:.2}")"#), 0);
    assert_eq!(seen("web/x.rs", r#"format!("{x:.1}")"#), 0);
    assert_eq!(seen("other/x.rs", ""), 1);
}
