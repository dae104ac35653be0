//! Commands of every kind, sensible and not.

use evenkeel::app::bench::FLASK;
use evenkeel::app::host::Value;
use evenkeel::app::host::asked::Asked;
use proptest::prelude::*;
use proptest::sample::select;

use super::{obey, opened, told};
use crate::draws::check;

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
