//! Worked solutions as markup: well formed, and nothing of a name is taken for a tag.

use evenkeel::app::words::working::{solution_html, solution_spoken};
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::question::question;
use evenkeel::lesson::sums::solution::Solution;

use crate::sums::{ACID, KA, problem};
use crate::writers::POINT;

/// Tags open and close in order, attributes are quoted, and nothing else uses < or &.
pub fn is_well_formed(html: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = html;
    while let Some(at) = rest.find('<') {
        assert!(!rest[..at].contains('>'), "a bare > in {}", &rest[..at]);
        let end = rest[at..].find('>').unwrap() + at;
        let tag = &rest[at + 1..end];
        match tag.strip_prefix('/') {
            Some(name) => assert_eq!(open.pop(), Some(name), "in {html}"),
            None => {
                assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
                let name = tag.split(' ').next().unwrap();
                assert!(name.chars().all(|c| c.is_ascii_alphanumeric()), "{tag}");
                open.push(name);
            }
        }
        rest = &rest[end + 1..];
    }
    assert!(open.is_empty(), "left open: {open:?}");
    for entity in html.split('&').skip(1) {
        let known = ["amp;", "lt;", "gt;", "quot;"];
        assert!(known.iter().any(|k| entity.starts_with(k)), "&{entity}");
    }
}

#[test]
fn solutions_are_well_formed_and_escaped() {
    for form in FORMS {
        for seed in 0..20 {
            let question = question(form, seed);
            let solution = Solution::of_question(&question);
            let html = solution_html(&question.problem, &solution, POINT);
            is_well_formed(&html);
            assert!(!html.contains('₊') && !html.contains('⁺'), "{html}");
            let spoken = solution_spoken(&question.problem, &solution, POINT);
            assert!(!spoken.contains('<'), "{spoken}");
        }
    }
    // A name that means mischief stays text.
    let mut problem = problem(
        Form::TwoVolumes,
        ACID,
        "ethanoic",
        &[KA, 0.150, 0.0400, 0.0800, 0.0600],
    );
    problem.names.acid_symbol = "<b>&\"x".to_owned();
    problem.names.acid_name = "</p><script>".to_owned();
    let html = solution_html(&problem, &Solution::of(&problem, Vec::new()), POINT);
    assert!(!html.contains("<b>") && !html.contains("<script>"));
    assert!(html.contains("&lt;b&gt;&amp;&quot;x"));
    is_well_formed(&html);
}
