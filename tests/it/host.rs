//! What the page around a frame is told, and what it may ask for. No source: the messages are our
//! own; amounts and pH are held against each other by their definitions.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::bench::FLASK;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::guide::GuideAction;
use evenkeel::app::host::asked::{Allowance, Asked, Command, MOST_COMMANDS, Refusal, read};
use evenkeel::app::host::{Message, Value, bench, height, ready, refused, results};
use evenkeel::app::link;
use evenkeel::app::plan::Look;
use evenkeel::app::practice::PracticeAction;
use evenkeel::app::recipe::Field;
use evenkeel::app::shown::Shown;
use evenkeel::app::state::{BenchEvent, State};
use evenkeel::app::words::slip::written;
use evenkeel::chem::titration::Reagent;
use proptest::prelude::*;
use proptest::sample::select;

use crate::draws::check;

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

/// Does the open question: all right, or with the layout shown. A word is typed before.
fn finish(state: &mut State, right: bool) {
    let mut act = |action| *state = work(state, DeskAction::Practised(action));
    act(PracticeAction::Typed {
        place: 0,
        text: "Anna Example".to_owned(),
    });
    if !right {
        act(PracticeAction::LayoutAsked);
        return;
    }
    let task = state.desk.practice.task.clone().unwrap();
    *state = work(
        state,
        DeskAction::Practised(PracticeAction::Sorted(task.kind())),
    );
    for (place, line) in task.lines.iter().enumerate() {
        let value = task.right(line.symbol).unwrap();
        let text = written(line.symbol, value, state.writer());
        *state = work(
            state,
            DeskAction::Practised(PracticeAction::Typed { place, text }),
        );
    }
    *state = work(state, DeskAction::Practised(PracticeAction::Checked));
    assert!(state.desk.practice.task.as_ref().unwrap().end.is_some());
}

fn begin(query: &str) -> State {
    let began = PracticeAction::Began { seed: 5 };
    work(&opened(query), DeskAction::Practised(began))
}

fn next(state: &mut State) {
    *state = work(state, DeskAction::Practised(PracticeAction::NextAsked));
}

const RESULT: [&str; 9] = [
    "type", "v", "number", "of", "form", "level", "marks", "most", "last",
];

/// number, marks, marks to be had, last.
fn short(messages: &[Message]) -> Vec<(u32, bool, bool, bool)> {
    let one = |message: &Message| {
        assert_eq!(names(message), RESULT);
        let own = number(message, "marks");
        assert!(number(message, "most") > 0.0);
        (
            number(message, "number") as u32,
            own == number(message, "most"),
            own == 0.0,
            of(message, "last") == Value::Flag(true),
        )
    };
    messages.iter().map(one).collect()
}

#[test]
fn results_are_told_only_where_the_lesson_asks_for_it() {
    let lesson = "v=1&ask=mix.ka&n=2&level=whole&seed=417";
    let mut silent = begin(lesson);
    finish(&mut silent, true);
    assert_eq!(results(&silent, 0), Vec::<Message>::new());

    let mut state = begin(&format!("{lesson}&tell=results"));
    assert!(results(&state, 0).is_empty());
    finish(&mut state, true);
    let first = results(&state, 0);
    assert_eq!(short(&first), [(1, true, false, false)]);
    assert_eq!(of(&first[0], "form"), Value::Text("mix"));
    assert_eq!(of(&first[0], "level"), Value::Text("whole"));
    assert_eq!(number(&first[0], "of"), 2.0);
    // Each once.
    assert!(results(&state, 1).is_empty());
    next(&mut state);
    finish(&mut state, false);
    let second = results(&state, 1);
    assert_eq!(short(&second), [(2, false, true, true)]);
    assert_eq!(of(&second[0], "form"), Value::Text("ka"));
}

#[test]
fn results_wait_until_the_learner_is_told() {
    let mut state = begin("v=1&ask=mix&n=2&level=whole&seed=4&feedback=end&tell=results");
    finish(&mut state, true);
    assert!(results(&state, 0).is_empty());
    next(&mut state);
    finish(&mut state, true);
    let all = [(1, true, false, false), (2, true, false, true)];
    assert_eq!(short(&results(&state, 1)), all);
}

#[test]
fn results_without_end() {
    let mut state = begin("v=1&tell=results");
    finish(&mut state, false);
    next(&mut state);
    finish(&mut state, false);
    let second = results(&state, 1);
    assert_eq!(short(&second), [(2, false, true, false)]);
    assert_eq!(of(&second[0], "of"), Value::None);
}

/// Whatever is typed, every text in every message is one of these.
#[test]
fn no_message_has_a_word_that_was_typed() {
    let mut state = begin("v=1&tell=results");
    let mut all = vec![ready()];
    for round in 0..40 {
        let before = state.desk.practice.ended;
        finish(&mut state, round % 2 == 0);
        state = apply(
            &state,
            Action::Typed(Field::AcidVolume, format!("{} Anna", round + 1)),
        );
        all.extend(results(&state, before));
        all.push(told(&state));
        next(&mut state);
    }
    let codes = [
        "conc",
        "mix",
        "alkali",
        "acid",
        "salt",
        "add-acid",
        "add-alkali",
        "excess",
        "equivalence",
        "half",
        "dilution",
        "ka",
        "recipe-salt",
        "recipe-alkali",
        "choose",
        "weak",
    ];
    for (name, value) in all.iter().flatten() {
        let fine = match (*name, *value) {
            ("type", Value::Text(text)) => {
                ["evenkeel:ready", "evenkeel:state", "evenkeel:result"].contains(&text)
            }
            ("links", Value::Text(text)) => text == "1",
            ("form", Value::Text(text)) => codes.contains(&text),
            ("level", Value::Text(text)) => ["example", "steps", "whole"].contains(&text),
            (_, Value::Text(_)) => false,
            (_, Value::Number(number)) => number.is_finite() && number >= 0.0,
            (name, Value::None) => name == "of",
            (_, Value::Flag(_)) => true,
        };
        assert!(fine, "{name}: {value:?}");
    }
    assert_eq!(all.len(), 81);
}

#[test]
fn a_command_does_what_a_learner_does() {
    let mut state = opened("");
    let mut own = state.clone();
    for (command, action) in [
        (adding("acid", 0.002), added(Reagent::Acid, 20)),
        (adding("alkali", 0.0005), added(Reagent::Alkali, 5)),
        (asked("undo"), Action::Undone),
        (asked("redo"), Action::Redone),
        (asked("start-again"), Action::StartedAgain),
    ] {
        assert_eq!(obey(&mut state, &command), Ok(()), "{command:?}");
        own = apply(&own, action);
        assert_eq!(state, own, "{command:?}");
    }
    let dark = Asked {
        theme: Some("dark".to_owned()),
        ..asked("theme")
    };
    assert_eq!(obey(&mut state, &dark), Ok(()));
    assert_eq!(state.look, Look::Dark);
    assert_eq!(read(&asked("tell"), &state, true), Ok(Command::Tell));
}

fn poured(reagent: Reagent, press: Press) -> Action {
    Action::Added {
        reagent,
        steps: 5,
        press,
    }
}

/// The host takes back what the learner is pouring: what runs on is an addition of its own, also
/// where the one before it was of the same reagent, and leaves nothing to redo.
#[test]
fn a_pour_does_not_join_what_stood_before_it() {
    let acid = |press| poured(Reagent::Acid, press);
    let mut state = apply(&opened(""), added(Reagent::Acid, 20));
    let before = state.bench.clone();
    state = apply(&state, acid(Press::PourBegun));
    state = apply(&state, acid(Press::PourWentOn));
    assert_eq!(obey(&mut state, &asked("undo")), Ok(()));
    assert_eq!(state.bench, before);
    state = apply(&state, acid(Press::PourWentOn));
    assert_eq!(obey(&mut state, &asked("redo")), Err(Refusal::Nothing));
    state = apply(&state, acid(Press::PourWentOn));
    state = apply(&state, Action::PourEnded);
    assert_eq!(state.bench.acid, 30);
    assert_eq!(state.bench.last.map(|last| last.steps), Some(10));
    assert_eq!(obey(&mut state, &asked("undo")), Ok(()));
    assert_eq!(state.bench, before);
}

/// What happens while a button may be held down, and who does it.
#[derive(Debug, Clone)]
enum Step {
    Pour(Reagent),
    LetGo,
    SetUp(&'static str),
    Host(Asked),
}

fn any_step() -> impl Strategy<Value = Step> {
    let reagent = || select(vec![Reagent::Acid, Reagent::Alkali]);
    let command = select(vec![
        adding("acid", 0.0005),
        adding("alkali", 0.0005),
        asked("undo"),
        asked("redo"),
        asked("start-again"),
    ]);
    prop_oneof![
        6 => reagent().prop_map(Step::Pour),
        1 => Just(Step::LetGo),
        1 => select(vec!["90", "100"]).prop_map(Step::SetUp),
        5 => command.prop_map(Step::Host),
    ]
}

/// A learner pours while the host does what it likes: only portions of one pour in a row are one
/// addition, back leads to the bench before it, and what was taken back is gone once the bench
/// changes otherwise.
#[test]
fn a_pour_and_commands_in_any_order() {
    let steps = prop::collection::vec(any_step(), 0..40);
    check(&steps, |steps| {
        let mut state = opened("");
        // The button that is held down, and whether the last addition is that pour's.
        let (mut held, mut one) = (None, false);
        for step in steps {
            let before = state.clone();
            match step {
                Step::Pour(reagent) => {
                    let goes_on = held == Some(reagent);
                    let press = if goes_on {
                        Press::PourWentOn
                    } else {
                        Press::PourBegun
                    };
                    state = apply(&state, poured(reagent, press));
                    let joins = goes_on && one;
                    let mut past = before.past.clone();
                    if !joins {
                        past.push(before.bench.clone());
                    }
                    prop_assert_eq!(&state.past, &past);
                    let so_far = before.bench.last.filter(|_| joins).map_or(0, |l| l.steps);
                    prop_assert_eq!(state.bench.last.map(|l| l.steps), Some(so_far + 5));
                    prop_assert!(state.future.is_empty());
                    (held, one) = (Some(reagent), true);
                }
                Step::LetGo => {
                    state = apply(&state, Action::PourEnded);
                    (held, one) = (None, false);
                }
                Step::SetUp(volume) => {
                    state = apply(&state, Action::Typed(Field::AcidVolume, volume.to_owned()));
                    one &= state.bench == before.bench;
                }
                Step::Host(command) => {
                    let done = obey(&mut state, &command).is_ok();
                    one &= !done;
                    if done && matches!(command.command.as_deref(), Some("add" | "start-again")) {
                        prop_assert_eq!(state.past.last(), Some(&before.bench));
                        prop_assert!(state.future.is_empty());
                    }
                }
            }
            if state.bench != before.bench {
                prop_assert_eq!(state.pouring, one);
            }
        }
        Ok(())
    });
}

#[test]
fn amounts_are_whole_steps() {
    let mut state = opened("");
    for (mol, steps) in [
        (0.00204, 20),
        (0.00206, 21),
        (1e-9, 1),
        (f64::MIN_POSITIVE, 1),
        (0.1, 1000),
    ] {
        let command = Command::Act(added(Reagent::Acid, steps));
        assert_eq!(read(&adding("acid", mol), &state, false), Ok(command));
    }
    for mol in [0.0, -0.0, -0.002, f64::NAN, f64::INFINITY, -f64::INFINITY] {
        let said = read(&adding("acid", mol), &state, false);
        assert_eq!(said, Err(Refusal::Value), "{mol}");
    }
    for mol in [0.2001, 1e9, f64::MAX] {
        let said = read(&adding("acid", mol), &state, false);
        assert_eq!(said, Err(Refusal::Full), "{mol}");
    }
    // To the brim, and no further.
    assert_eq!(obey(&mut state, &adding("acid", 0.2)), Ok(()));
    assert_eq!(state.bench.acid, FLASK);
    let before = state.clone();
    assert_eq!(
        obey(&mut state, &adding("alkali", 0.0001)),
        Err(Refusal::Full)
    );
    assert_eq!(state, before);
}

#[test]
fn what_is_refused_changes_nothing() {
    let state = opened("");
    let wrong = |version| Asked {
        version,
        ..adding("acid", 0.002)
    };
    for (command, refusal) in [
        (wrong(None), Refusal::Version),
        (wrong(Some(2.0)), Refusal::Version),
        (wrong(Some(f64::NAN)), Refusal::Version),
        (asked("drain"), Refusal::Command),
        (asked(""), Refusal::Command),
        (
            Asked {
                command: None,
                ..asked("")
            },
            Refusal::Command,
        ),
        (adding("ACID", 0.002), Refusal::Value),
        (asked("add"), Refusal::Value),
        (asked("theme"), Refusal::Value),
        (
            Asked {
                theme: Some("plaid".into()),
                ..asked("theme")
            },
            Refusal::Value,
        ),
        (asked("undo"), Refusal::Nothing),
        (asked("redo"), Refusal::Nothing),
        (asked("start-again"), Refusal::Nothing),
        (asked("open"), Refusal::Value),
    ] {
        assert_eq!(read(&command, &state, false), Err(refusal), "{command:?}");
    }
}

#[test]
fn what_the_guide_holds_back_stays_back() {
    let mut state = opened("v=1&start=guided");
    assert_eq!(obey(&mut state, &adding("acid", 0.002)), Ok(()));
    state = work(&state, DeskAction::Guided(GuideAction::WentOn));
    let before = state.clone();
    let said = obey(&mut state, &adding("acid", 0.002));
    assert_eq!(said, Err(Refusal::Held));
    assert_eq!(state, before);
    assert_ne!(state.event, BenchEvent::Held);
}

#[test]
fn lessons_that_can_be_opened() {
    let state = opened("");
    let open = |lesson: &str| {
        let asked = Asked {
            lesson: Some(lesson.to_owned()),
            ..asked("open")
        };
        read(&asked, &state, false)
    };
    let opens = |link: &str| Ok(Command::Open(link.to_owned()));
    for lesson in ["", "?", "?v=1&pair=ethanoic.1&n=3", "v=1&ca=0.2"] {
        let link = format!("?{}", lesson.trim_start_matches('?'));
        assert_eq!(open(lesson), opens(&link), "{lesson}");
    }
    let words = "?v=1#t=1.cbf43926.MTIzNDU2Nzg5";
    assert_eq!(open(words), opens(words));
    for lesson in [
        "https://elsewhere.example/?v=1",
        "javascript:alert(1)",
        "//elsewhere.example",
        "../other/?v=1",
        "?v=1&pair=vinegar",
        "?v=2",
        "?v=1#t=1.00000000.abc",
        "?v=1#a#b",
        "?v=1\n",
        "?v=1&ca=1e9",
        &"?v=1&x=".repeat(9000),
    ] {
        assert_eq!(open(lesson), Err(Refusal::Value), "{lesson:.40}");
    }
    let fixed = Asked {
        lesson: Some("?v=1".to_owned()),
        ..asked("open")
    };
    assert_eq!(read(&fixed, &state, true), Err(Refusal::Fixed));
}

#[test]
fn a_host_in_a_loop_is_told_once() {
    let mut allowance = Allowance::default();
    let answers: Vec<_> = (0..10_000).map(|_| allowance.take()).collect();
    let most = MOST_COMMANDS as usize;
    assert!(answers[..most].iter().all(|a| *a == Some(Ok(()))));
    assert_eq!(answers[most], Some(Err(Refusal::TooMany)));
    assert!(answers[most + 1..].iter().all(Option::is_none));
    let mut again = Allowance::default();
    again.take();
    assert!(again.is_begun());
    again.take();
    assert!(!again.is_begun());
}

fn numbers() -> impl Strategy<Value = Option<f64>> {
    prop_oneof![
        any::<Option<f64>>(),
        select(vec![Some(1.0), Some(1.0), Some(0.0), Some(f64::NAN)]),
        (-8.0..3.0).prop_map(|x| Some(libm::exp10(x))),
    ]
}

fn texts(known: &'static [&'static str]) -> impl Strategy<Value = Option<String>> {
    prop_oneof![
        1 => any::<Option<String>>(),
        4 => select(known).prop_map(|text| Some(text.to_owned())),
    ]
}

const COMMANDS: &[&str] = &[
    "add",
    "add",
    "add",
    "undo",
    "redo",
    "start-again",
    "theme",
    "open",
    "tell",
];

fn any_asked() -> impl Strategy<Value = Asked> {
    (
        prop_oneof![9 => Just(Some(1.0)), 1 => numbers()],
        texts(COMMANDS),
        texts(&["acid", "alkali"]),
        numbers(),
        texts(&["light", "dark", "system"]),
        texts(&["?v=1", "?v=1&n=3", "?v=7", "#", "%"]),
    )
        .prop_map(|(version, command, reagent, mol, theme, lesson)| Asked {
            version,
            command,
            reagent,
            mol,
            theme,
            lesson,
        })
}

/// Hostile and sensible commands in any order, on benches of all kinds: the bench can always be
/// read, and what is told of it is sound.
#[test]
fn whatever_is_asked_for_the_bench_stays_sound() {
    let lessons = vec![
        "",
        "v=1&start=guided",
        "v=1&pair=citric.2&ca=0.00001&cb=0.00001",
        "v=1&pair=ammonium.1&made=part&cw=10&vw=1&cs=10",
        "v=1&pair=own-base&pka=13&stock=10",
    ];
    let commands = prop::collection::vec(any_asked(), 0..40);
    check(&(select(lessons), commands), |(lesson, commands)| {
        let mut state = opened(lesson);
        for command in commands {
            let before = state.clone();
            if obey(&mut state, &command).is_err() {
                prop_assert_eq!(&state, &before);
            }
            prop_assert!(state.bench.acid + state.bench.alkali <= FLASK);
        }
        for (name, value) in told(&state) {
            if let Value::Number(number) = value {
                let low = if name.starts_with("pH") { -2.0 } else { 0.0 };
                prop_assert!(number.is_finite() && number >= low, "{name} {number}");
            }
        }
        Ok(())
    });
}
