//! Links: what is read from one opens, and writes a link that opens to the same.

use evenkeel::app::host::asked::{Asked, Command, LONGEST_LESSON, read as asked};
use evenkeel::app::link::{self, Opened};
use evenkeel::app::plan::{
    LONGEST_PROMPT, LONGEST_TITLE, MOST_PROMPTS, MOST_QUESTIONS, Plan, TOLERANCES,
};
use evenkeel::app::planning::frame;
use evenkeel::app::recipe::Recipe;
use evenkeel::app::state::State;
use evenkeel::app::words::{lesson, teacher};

use crate::sound;

/// The recipe as a link can have it: only the fields that count.
fn counting(recipe: &Recipe) -> Recipe {
    let mut bare = Recipe::default();
    (bare.pair, bare.method) = (recipe.pair, recipe.method);
    for field in recipe.fields() {
        bare.set_text(field, recipe.text(field).to_owned());
    }
    bare
}

fn same(one: &Plan, other: &Plan) {
    assert_eq!(counting(&one.recipe), counting(&other.recipe));
    let without = |plan: &Plan| Plan {
        recipe: Recipe::default(),
        ..plan.clone()
    };
    assert_eq!(without(one), without(other));
}

/// Bounds of what a lesson holds.
fn bounded(plan: &Plan) {
    assert!(plan.questions.count <= MOST_QUESTIONS && TOLERANCES.contains(&plan.tolerance.0));
    assert!(plan.title.chars().count() <= LONGEST_TITLE && plan.prompts.len() <= MOST_PROMPTS);
    for line in plan.prompts.iter().chain([&plan.title]) {
        assert!(line.chars().count() <= LONGEST_PROMPT);
        assert!(
            !line.contains(char::is_control),
            "control characters in {line:?}"
        );
    }
    assert!(plan.prompts.iter().all(|prompt| !prompt.is_empty()));
}

/// Opens the link of `text`.
pub fn opened(query: &str, fragment: &str) -> State {
    let Opened { plan, notices } = link::read(query, fragment);
    bounded(&plan);
    let said = lesson::notices(&notices);
    said.iter().for_each(|text| sound::words(text));
    assert!(said.len() <= 40 && said.iter().all(|text| !text.is_empty()));
    let written = link::write(&plan);
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._~=&".contains(&b);
    for part in [&written.query, &written.fragment] {
        assert!(part.bytes().all(plain), "not plain: {part}");
    }
    let again = link::read(&written.query, &written.fragment);
    assert!(
        again.notices.is_empty(),
        "of its own link {}",
        written.written()
    );
    same(&plan, &again.plan);
    assert_eq!(link::write(&again.plan), written);
    // What a teacher takes away of it, and what a page around a frame may ask for.
    let whole = written.written();
    let ask = Asked {
        version: Some(1.0),
        command: Some("open".to_owned()),
        lesson: Some(whole.clone()),
        ..Asked::default()
    };
    assert!(whole.len() <= LONGEST_LESSON);
    let command = asked(&ask, &State::default(), false);
    assert!(
        matches!(command, Ok(Command::Open(_))),
        "{command:?} for {whole}"
    );
    let framed = frame(&plan, &whole);
    assert_eq!(framed.matches(['<', '>', '"']).count(), 12, "{framed}");
    assert_eq!(
        teacher::warning(&plan, &again.notices),
        teacher::warning(&plan, &[])
    );
    State::opened(Opened { plan, notices })
}

/// An address, its query and fragment on one line.
pub fn check(text: &str) {
    let (query, fragment) = text.split_once('#').unwrap_or((text, ""));
    sound::bench(&opened(query, fragment), None);
}
