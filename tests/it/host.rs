//! What the page around a frame is told, and what it may ask for. No source: the messages are our
//! own; amounts and pH are held against each other by their definitions.

mod commands;
mod hostile;
mod pours;
mod results;

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::host::asked::{Asked, Command, Refusal, read};
use evenkeel::app::host::{Message, Value, bench, height, ready, refused};
use evenkeel::app::link;
use evenkeel::app::recipe::Field;
use evenkeel::app::shown::Shown;
use evenkeel::app::state::State;
use evenkeel::chem::titration::Reagent;

fn opened(query: &str) -> State {
    State::opened(link::read(query, ""))
}

fn told(state: &State) -> Message {
    bench(&state.bench, &Shown::of(state, None).reading)
}

fn of(message: &Message, name: &str) -> Value {
    let found = message.iter().find(|(own, _)| *own == name);
    found.unwrap_or_else(|| panic!("no {name}")).1
}

fn number(message: &Message, name: &str) -> f64 {
    let Value::Number(number) = of(message, name) else {
        panic!("{name} is no number");
    };
    number
}

fn names(message: &Message) -> Vec<&'static str> {
    message.iter().map(|(name, _)| *name).collect()
}

fn close(a: f64, b: f64) -> bool {
    (a / b - 1.0).abs() < 1e-9
}

fn asked(command: &str) -> Asked {
    Asked {
        version: Some(1.0),
        command: Some(command.to_owned()),
        ..Asked::default()
    }
}

fn adding(reagent: &str, mol: f64) -> Asked {
    Asked {
        reagent: Some(reagent.to_owned()),
        mol: Some(mol),
        ..asked("add")
    }
}

fn added(reagent: Reagent, steps: u32) -> Action {
    Action::Added {
        reagent,
        steps,
        press: Press::Tap,
    }
}

/// Does what was asked for, as the page does.
fn obey(state: &mut State, asked: &Asked) -> Result<(), Refusal> {
    if let Command::Act(action) = read(asked, state, false)? {
        *state = apply(state, action);
    }
    Ok(())
}

const STATE: [&str; 13] = [
    "type",
    "v",
    "pH",
    "pHWater",
    "acidForm",
    "baseForm",
    "freeH",
    "freeOH",
    "volume",
    "addedAcid",
    "addedAlkali",
    "acidFormUsedUp",
    "baseFormUsedUp",
];

#[test]
fn what_is_told_of_the_bench_is_what_is_on_it() {
    let mut state = opened("");
    let start = told(&state);
    assert_eq!(names(&start), STATE);
    assert_eq!(of(&start, "type"), Value::Text("evenkeel:state"));
    assert_eq!(number(&start, "v"), 1.0);
    for (action, acid, alkali) in [
        (added(Reagent::Acid, 20), 0.002, 0.0),
        (added(Reagent::Alkali, 5), 0.002, 0.0005),
        (added(Reagent::Acid, 100), 0.012, 0.0005),
    ] {
        state = apply(&state, action);
        let now = told(&state);
        assert!(close(number(&now, "addedAcid"), acid));
        assert_eq!(number(&now, "addedAlkali"), alkali);
        // 1.00 mol dm⁻³ stock on 200 cm³.
        let volume = number(&now, "volume");
        assert!(close(volume, 0.2 + acid + alkali), "{volume}");
        let hydrogen = number(&now, "freeH") / volume;
        let hydroxide = number(&now, "freeOH") / volume;
        assert!(close(-libm::log10(hydrogen), number(&now, "pH")));
        assert!(close(hydrogen * hydroxide, 1e-14));
        let [ha, a] = ["acidForm", "baseForm"].map(|name| number(&now, name));
        assert!(close(ha + a, 0.02), "the pair is {}", ha + a);
        let ka = hydrogen * a / ha;
        let start_ka =
            number(&start, "freeH") / 0.2 * number(&start, "baseForm") / number(&start, "acidForm");
        assert!(close(ka, start_ka), "Ka {ka}");
        // Water with the same in the same volume.
        let excess = acid - alkali;
        let water = -libm::log10(excess / volume);
        assert!((number(&now, "pHWater") - water).abs() < 1e-6);
    }
    let end = told(&state);
    assert_eq!(of(&end, "baseFormUsedUp"), Value::Flag(true));
    assert_eq!(of(&end, "acidFormUsedUp"), Value::Flag(false));
    assert_eq!(of(&start, "baseFormUsedUp"), Value::Flag(false));
    let full = apply(&opened(""), added(Reagent::Alkali, 300));
    assert_eq!(of(&told(&full), "acidFormUsedUp"), Value::Flag(true));
    // Only what changes it is news: not a panel, not a word that is typed and cannot be read.
    let same = apply(&state, Action::Typed(Field::AcidVolume, "Anna".to_owned()));
    assert_eq!(told(&same), end);
}

#[test]
fn greeting_height_and_refusal() {
    let hello = ready();
    assert_eq!(names(&hello), ["type", "v", "links"]);
    assert_eq!(of(&hello, "links"), Value::Text("1"));
    let [common, course] = height(760);
    assert_eq!(names(&common), ["type", "v", "height"]);
    assert_eq!(of(&common, "type"), Value::Text("widget:height"));
    assert_eq!(names(&course), ["subject", "height"]);
    assert_eq!(number(&course, "height"), 760.0);
    let no = refused(Refusal::TooMany);
    assert_eq!(names(&no), ["type", "v", "reason"]);
    assert_eq!(of(&no, "reason"), Value::Text("too-many"));
}
