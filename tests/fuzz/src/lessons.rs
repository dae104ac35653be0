//! What a lesson's file and a course system keep: a lesson, a title, the state of an earlier
//! visit, kept results, a line each.

use evenkeel::app::carried::Carried;
use evenkeel::app::course::{Edition, lesson_file, package};
use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::progress::{Kept, REMEMBERED, objectives, row};
use evenkeel::app::words::objective::{stands, suggestion};

use crate::links::opened;
use crate::sound;

const LESSON: &str = r#"<meta name="evenkeel-lesson" content="">"#;
const COURSE: &str = r#"<meta name="evenkeel-course" content="">"#;

/// What an attribute holds, as a browser reads it.
fn attribute(html: &str) -> String {
    let named = [
        ("&quot;", "\""),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&amp;", "&"),
    ];
    named
        .into_iter()
        .fold(html.to_owned(), |text, (name, sign)| {
            text.replace(name, sign)
        })
}

fn file(link: &str, title: &str) {
    let head = [LESSON, COURSE, "<title>Evenkeel</title>"].concat();
    let html = lesson_file(&head, link).expect("there is a place for a lesson");
    let rest = html.strip_prefix(r#"<meta name="evenkeel-lesson" content=""#);
    let (content, rest) = rest.and_then(|r| r.split_once('"')).expect("one attribute");
    assert_eq!(
        attribute(content),
        link.trim_start_matches('?'),
        "the lesson in its file"
    );
    assert!(
        rest.starts_with(&[">", COURSE].concat()),
        "the lesson breaks out of its mark"
    );
    for edition in [Edition::Scorm12, Edition::Scorm2004] {
        let zip = package(edition, title, &html);
        let text = String::from_utf8_lossy(&zip);
        let end = "</manifest>";
        let from = text.find("<?xml").expect("a manifest");
        let to = text[from..].find(end).expect("its end") + from + end.len();
        let manifest = &text[from..to];
        assert_eq!(manifest.matches("</title>").count(), 2, "{manifest}");
        let (_, titled) = manifest.split_once("<title>").expect("a title");
        let (titled, _) = titled.split_once("</title>").expect("its end");
        assert!(
            !titled.contains(['<', '>', '"']) && !titled.contains(|c: char| c < ' '),
            "{titled}"
        );
    }
}

fn carried(practice: &Practice, kept: &str) {
    let Some(carried) = Carried::read(kept) else {
        return;
    };
    let resumed = practise(practice, PracticeAction::Resumed(carried));
    let begun = practise(&resumed, PracticeAction::Began { seed: 7 });
    assert!(begun.set_is_over() || begun.task.is_some(), "nothing to do");
    let Some(report) = begun.report() else { return };
    assert!(
        report
            .score
            .is_none_or(|score| (0.0..=100.0).contains(&score)),
        "{report:?}"
    );
    assert_eq!(Carried::read(&report.state), Some(carried), "from {kept}");
    assert!(report.state.len() <= 4096, "too long for a course system");
}

fn results(practice: &Practice, kept: &str) {
    let Ok(kept) = serde_json::from_str::<Kept>(kept) else {
        return;
    };
    let Some(results) = kept.results() else {
        return;
    };
    assert!(results.len() <= REMEMBERED);
    let again = Kept::of(&results);
    assert_eq!(again.results().as_ref(), Some(&results));
    let practice = practise(practice, PracticeAction::ResultsRestored(results.clone()));
    assert_eq!(practice.results, results);
    for objective in objectives() {
        let _ = row(&results, objective);
        sound::words(&stands(&results, objective));
    }
    sound::words(&suggestion(&practice));
    let practice = practise(&practice, PracticeAction::Began { seed: 3 });
    assert!(practice.task.is_some() || practice.set_is_over());
}

/// Four lines: lesson, title, state, results.
pub fn check(text: &str) {
    let mut lines = text.split('\n').map(|line| line.trim_end_matches('\r'));
    let mut line = || lines.next().unwrap_or_default();
    let (link, title) = (line(), line());
    file(link, title);
    // As the page does: the lesson in a file is split where a link's fragment begins.
    let (query, fragment) = link.split_once('#').unwrap_or((link, ""));
    let state = opened(query, fragment);
    carried(&state.desk.practice, line());
    results(&state.desk.practice, line());
}
