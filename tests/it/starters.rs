//! The lessons on the page for teachers are links like any other: they open as that page says.

use evenkeel::app::link::{read, write};
use evenkeel::app::pair::PairChoice;
use evenkeel::app::plan::{Access, Feedback, Part, Plan};
use evenkeel::lesson::sums::form::Form;

/// The heading of each card and the lesson that its link opens.
fn starters() -> Vec<(String, Plan)> {
    let page = include_str!("../../src/web/teachers.html");
    let between = |text: &str, before: &str, after: &str| {
        let rest = text.split_once(before)?.1;
        Some(rest.split_once(after)?.0.to_owned())
    };
    let cards = page.split("<div class=\"card\">").skip(1);
    cards
        .map(|card| {
            let title = between(card, "<h3>", "</h3>").expect("a card has a heading");
            let address = between(card, "class=\"opens\" href=\"./", "\"").expect("and a link");
            let address = address.replace("&amp;", "&");
            let (query, fragment) = address.split_once('#').expect("the teacher's words");
            let opened = read(query, fragment);
            assert_eq!(opened.notices, [], "{title}");
            // As the page itself would write it, so that there is one link for one lesson.
            assert_eq!(write(&opened.plan).written(), address, "{title}");
            (title, opened.plan)
        })
        .collect()
}

#[test]
fn lessons_to_start_from_open_as_they_are_described() {
    let all = starters();
    assert_eq!(all.len(), 5);
    for (title, plan) in &all {
        assert_eq!(*title, plan.title);
        assert!(
            plan.recipe.read().is_ok() && !plan.prompts.is_empty(),
            "{title}"
        );
    }
    let [water, dairy, store, flask, test] = [0, 1, 2, 3, 4].map(|place| &all[place].1);
    assert!(water.guided && water.access(Part::Practice) == Access::Open);
    assert_eq!(dairy.recipe.pair, PairChoice::Listed("lactic", 1));
    assert_eq!(store.recipe.pair, PairChoice::Listed("ammonium", 1));
    assert_eq!(store.questions.forms, [Form::BaseWithAcid]);
    assert_eq!(store.questions.count, 4);
    let setup = flask.recipe.read().unwrap();
    let forms = setup.pair.complete_reaction(&setup.mixture).unwrap();
    assert!((forms.acid.mol() / forms.base.mol() - 4.0).abs() < 1e-9);
    assert_eq!(test.questions.feedback, Feedback::AtTheEnd);
    assert_eq!(test.access(Part::Working), Access::Locked);
    assert_eq!(
        usize::from(test.questions.count),
        test.questions.forms.len()
    );
}
