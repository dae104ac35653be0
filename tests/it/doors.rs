//! No markup from data: every place where text becomes markup, or could become a script, and what
//! makes it. A new place fails until it is written down here.

use std::fs;
use std::path::{Path, PathBuf};

/// What makes a text that becomes markup.
#[derive(Debug, Clone, Copy)]
enum Maker {
    /// `lesson::markup::html` or `mathml`, called on the spot or in the variable's own line.
    OnTheSpot,
    /// A pure function in this file, which puts whatever is no markup of its own through
    /// `lesson::markup`.
    In(&'static str),
    /// A fixed text, or numbers between fixed texts, made in this file.
    Fixed(&'static str),
    /// No text: takes away what is there.
    Empty,
}
use Maker::{Empty, Fixed, In, OnTheSpot};

/// Every place, in the order of the source.
const PLACES: &[(&str, &str, Maker)] = &[
    ("ui/additions.rs", "stock", OnTheSpot),
    ("ui/additions.rs", "title", OnTheSpot),
    ("ui/app.rs", "summary", OnTheSpot),
    ("ui/app.rs", "link", In("app/words/label.rs")),
    ("ui/curve.rs", "drawn", Fixed("web/chart.rs")),
    ("ui/curve.rs", "now", Fixed("web/chart.rs")),
    ("ui/curve.rs", "rows", In("app/words/explanation.rs")),
    ("ui/explanations.rs", "whole", In("app/words/explain.rs")),
    ("ui/explanations.rs", "text", In("app/words/explain.rs")),
    ("ui/explanations.rs", "says", In("app/words/explain.rs")),
    ("ui/glyph.rs", "drawn(body)", Fixed("ui/glyph.rs")),
    ("ui/guide.rs", "told", OnTheSpot),
    ("ui/lesson.rs", "bench", OnTheSpot),
    ("ui/limits.rs", "text", In("app/words/label.rs")),
    ("ui/questions.rs", "name", In("app/words/task.rs")),
    ("ui/questions.rs", "question", In("app/words/task.rs")),
    ("ui/questions.rs", "status", In("app/words/task.rs")),
    ("ui/questions.rs", "finished", In("app/words/summary.rs")),
    ("ui/questions.rs", "solution", In("app/words/task.rs")),
    ("ui/questions.rs", "name", In("app/words/task.rs")),
    ("ui/questions.rs", "name", In("app/words/task.rs")),
    ("ui/questions.rs", "formula", In("app/words/task.rs")),
    ("ui/questions.rs", "shown", In("app/words/task.rs")),
    ("ui/questions.rs", "says", In("app/words/task.rs")),
    (
        "ui/reservoirs.rs",
        "store.text(|r, _| html(&reservoir::acid_title(&r.setup.names)))",
        OnTheSpot,
    ),
    (
        "ui/reservoirs.rs",
        "store.text(|r, _| html(&reservoir::base_title(&r.setup.names)))",
        OnTheSpot,
    ),
    ("ui/reservoirs.rs", "equation", OnTheSpot),
    ("ui/reservoirs.rs", "legend", OnTheSpot),
    ("ui/reservoirs.rs", "passed", OnTheSpot),
    ("ui/set_up.rs", "stale", In("app/words/recipe.rs")),
    ("ui/set_up.rs", "name", OnTheSpot),
    ("ui/set_up.rs", "name", OnTheSpot),
    ("ui/set_up.rs", "message", OnTheSpot),
    ("ui/standing.rs", "stands", In("app/words/objective.rs")),
    ("ui/take_away.rs", "drawn", In("app/code.rs")),
    ("ui/why.rs", "text", In("app/words/explanation.rs")),
    ("ui/working.rs", "text", In("lesson/sums/writers.rs")),
    ("web/page.rs", "\"\"", Empty),
    ("web/print.rs", "markup", In("app/words/paper.rs")),
];

/// Other ways from a text to markup or to a script: nowhere. `innerHTML` is not among the names of
/// Rust, but is here for the scripts.
const NOWHERE: &[&str] = &[
    "innerHTML",
    "outerHTML",
    "outer_html",
    "insertAdjacentHTML",
    "insert_adjacent_html",
    "document.write",
    "setHTML",
    "set_html",
    "srcdoc",
    "eval(",
    "new Function",
    "Function::new",
    "DOMParser",
    "DomParser",
    "createContextualFragment",
    "create_contextual_fragment",
    "javascript:",
];

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs" || e == "js") {
            found.push(path);
        }
    }
}

/// Every source file below `src`: its path from there and its code, without comments.
fn files() -> Vec<(String, String)> {
    let mut paths = Vec::new();
    collect(&source(), &mut paths);
    paths.sort();
    let read = |path: PathBuf| {
        let name = path.strip_prefix(source()).unwrap().to_string_lossy();
        let text = fs::read_to_string(&path).unwrap();
        let is_code = |line: &&str| !line.trim_start().starts_with("//");
        let code: Vec<&str> = text.lines().filter(is_code).collect();
        (name.replace('\\', "/"), code.join("\n"))
    };
    paths.into_iter().map(read).collect()
}

/// The value that `code` begins with, up to the end of the `call` or of the attribute that it is
/// given to; brackets and texts are seen through.
fn value(code: &str, call: bool) -> &str {
    let (mut depth, mut quoted) = (0, false);
    let end = code.find(|c: char| {
        match c {
            '"' => quoted = !quoted,
            _ if quoted => {}
            '(' | '{' | '[' => depth += 1,
            ')' | '}' | ']' => depth -= 1,
            _ => {}
        }
        depth < 0 || (!call && depth == 0 && !quoted && (c.is_whitespace() || c == '>' || c == '/'))
    });
    &code[..end.unwrap_or(code.len())]
}

/// Every place where `code` makes markup of a text: the value.
fn places(code: &str) -> Vec<String> {
    let mut found: Vec<(usize, String)> = Vec::new();
    for name in ["inner_html=", "set_inner_html(", "inner_html("] {
        for (at, _) in code.match_indices(name) {
            // The last name is the end of the one before it, too.
            if name == "inner_html(" && code[..at].ends_with("set_") {
                continue;
            }
            found.push((
                at,
                value(&code[at + name.len()..], name.ends_with('(')).to_owned(),
            ));
        }
    }
    found.sort();
    found.into_iter().map(|(_, value)| value).collect()
}

#[test]
fn every_place_that_makes_markup_is_known() {
    let found: Vec<(String, String)> = files()
        .iter()
        .filter(|(name, _)| name.ends_with(".rs"))
        .flat_map(|(name, code)| places(code).into_iter().map(|v| (name.clone(), v)))
        .collect();
    let known: Vec<(String, String)> = PLACES
        .iter()
        .map(|(file, value, _)| ((*file).to_owned(), (*value).to_owned()))
        .collect();
    let new: Vec<_> = found.iter().filter(|p| !known.contains(p)).collect();
    let gone: Vec<_> = known.iter().filter(|p| !found.contains(p)).collect();
    assert!(
        new.is_empty() && gone.is_empty(),
        "new: {new:?}, gone: {gone:?}"
    );
    assert_eq!(found, known, "one place more or less of the same name");
}

#[test]
fn each_is_made_where_it_is_said_to_be() {
    let files = files();
    let code = |name: &str| &files.iter().find(|(file, _)| file == name).unwrap().1;
    for (file, value, maker) in PLACES {
        let made = match maker {
            // `let value = …` of the component, up to its next line of the kind or its markup; a
            // function of the same file may stand between.
            OnTheSpot => {
                let own = format!("let {value} =");
                let by_hand = |text: &str| {
                    ["html(", "mathml(", "problem(s, field)"]
                        .iter()
                        .any(|by| text.contains(by))
                };
                let end = |text: &'_ str| text.find("\n    let ").or(text.find("\n    view!"));
                by_hand(value)
                    || code(file)
                        .split(&own)
                        .skip(1)
                        .any(|after| by_hand(&after[..end(after).unwrap_or(0)]))
            }
            In(writer) => {
                let code = code(writer);
                let layer = writer.split('/').next().unwrap();
                ["lesson", "app"].contains(&layer)
                    && code.contains("lesson::markup::")
                    && (code.contains("html(") || code.contains("escaped("))
            }
            Fixed(writer) => !code(writer).contains("State"),
            Empty => *value == "\"\"",
        };
        assert!(made, "{file}: {value} is not made as {maker:?}");
    }
}

#[test]
fn there_is_no_other_way() {
    let wrong: Vec<String> = files()
        .iter()
        .flat_map(|(file, code)| {
            let used = NOWHERE.iter().filter(|name| code.contains(**name));
            used.map(move |name| format!("{file} has {name}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The check itself sees what it should.
#[test]
fn new_places_are_seen() {
    assert_eq!(places("<p class=\"a\" inner_html=text></p>"), ["text"]);
    assert_eq!(
        places("<p inner_html=f(|r| g(\")\", r)) id=a/>"),
        ["f(|r| g(\")\", r))"]
    );
    assert_eq!(places("a.set_inner_html(markup);"), ["markup"]);
    assert_eq!(
        places("p().inner_html(move || a.get())"),
        ["move || a.get()"]
    );
    assert!(places("<p title=inner_htmls></p>").is_empty());
}
