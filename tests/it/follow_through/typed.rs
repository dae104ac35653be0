//! Reading what people type.

use evenkeel::lesson::sums::entry::{Entry, read};
use evenkeel::lesson::sums::mark::{Tolerance, Verdict, mark};
use evenkeel::lesson::sums::question::question;
use evenkeel::lesson::sums::symbol::{Symbol, Unit};
use proptest::prelude::*;
use proptest::sample::select;

use super::any_question;
use crate::draws::check;

/// The same number in every writing that is accepted, with and without its unit.
#[test]
fn every_writing_of_a_number_is_read_alike() {
    let symbols = vec![
        Symbol::Hydrogen,
        Symbol::Ratio,
        Symbol::Acid,
        Symbol::Mass,
        Symbol::StrongVolume,
        Symbol::Ph,
    ];
    let numbers = (select(symbols), 100..999u32, -9..3i32);
    check(&numbers, |(symbol, digits, exponent)| {
        let mantissa = format!("{}.{:02}", digits / 100, digits % 100);
        let up: String = exponent
            .to_string()
            .chars()
            .map(|c| match c {
                '-' => '⁻',
                c => "⁰¹²³⁴⁵⁶⁷⁸⁹"
                    .chars()
                    .nth(c.to_digit(10).unwrap() as usize)
                    .unwrap(),
            })
            .collect();
        let units: &[&str] = match symbol.unit() {
            Unit::Molar => &[
                "",
                " mol dm⁻³",
                "mol dm-3",
                " mol dm^-3",
                " mol/dm³",
                " M",
                " mol L⁻¹",
            ],
            Unit::Mmol => &["", " mmol", "mmol"],
            Unit::Gram => &["", " g"],
            Unit::Cm3 => &["", " cm³", " cm3", " mL", " cm^3"],
            _ => &[""],
        };
        let numbers = [
            format!("{mantissa}e{exponent}"),
            format!("{mantissa}E{exponent}"),
            format!("{mantissa}×10{up}"),
            format!("{mantissa} x 10^{exponent}"),
            format!("{mantissa}·10^{exponent}"),
            format!("{mantissa} × 10{up}"),
        ];
        let wanted = read(symbol, &numbers[0], false);
        let value = |entry| match entry {
            Entry::Number(value) | Entry::Bare(value) => Some(value),
            _ => None,
        };
        prop_assert!(value(wanted).is_some(), "{symbol:?} {wanted:?}");
        for number in &numbers {
            for unit in units {
                for text in [
                    format!("{number}{unit}"),
                    format!("{number}{unit}").replace('.', ","),
                ] {
                    let got = read(symbol, &text, false);
                    prop_assert_eq!(value(got), value(wanted), "{}", text);
                    // Without its unit an amount or a volume may be meant in another one.
                    let open = unit.is_empty() && matches!(symbol.unit(), Unit::Mmol | Unit::Cm3);
                    prop_assert_eq!(matches!(got, Entry::Bare(_)), open, "{}", text);
                }
            }
        }
        Ok(())
    });
}

/// Other units of the same quantity are converted, those of another are said to be such.
#[test]
fn units_are_read_for_what_they_are() {
    let number = |entry| match entry {
        Entry::Number(value) | Entry::Bare(value) => value,
        other => panic!("{other:?}"),
    };
    let near = |a: f64, b: f64| (a - b).abs() < 1e-12 * b;
    assert!(near(
        number(read(Symbol::Acid, "0.0070 mol", false)),
        0.0070
    ));
    assert!(near(number(read(Symbol::Acid, "7.0", false)), 0.0070));
    assert!(near(
        number(read(Symbol::StrongVolume, "0.025 dm³", true)),
        0.025
    ));
    assert!(near(
        number(read(Symbol::StrongVolume, "25 ml", true)),
        0.025
    ));
    assert_eq!(read(Symbol::Mass, "3.57", true), Entry::UnitMissing);
    assert_eq!(read(Symbol::Mass, "3.57 mol", true), Entry::UnitWrong);
    assert_eq!(read(Symbol::Ph, "4.76 cm³", false), Entry::UnitWrong);
    assert!(matches!(
        read(Symbol::Mass, "some", true),
        Entry::Unreadable(_)
    ));
    assert!(matches!(
        read(Symbol::Mass, "g", true),
        Entry::Unreadable(_)
    ));
    assert_eq!(read(Symbol::Mass, "  ", true), Entry::Blank);
}

/// Whatever is typed, nothing panics, and what cannot be read costs nothing.
#[test]
fn junk_costs_nothing() {
    let junk = prop_oneof![
        any::<String>(),
        "[0-9.,eE×x^⁻−+ a-z³%]{0,20}",
        Just("٣٫٥".to_owned()),
        Just("1".repeat(5000)),
    ];
    check(&(any_question(), junk), |((form, seed, place, _), text)| {
        let problem = question(form, seed % 40).problem;
        let asked = problem.asked();
        let place = place % asked.len();
        let entry = read(asked[place], &text, false);
        let mut entries = vec![Entry::Blank; asked.len()];
        entries[place] = entry;
        let verdicts = mark(&problem, &entries, Tolerance::default());
        let marked = !matches!(verdicts[place].verdict, Verdict::NotMarked(_));
        prop_assert_eq!(marked, matches!(entry, Entry::Number(_) | Entry::Bare(_)));
        Ok(())
    });
}
