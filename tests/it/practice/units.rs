//! Amounts typed in mol where the line is in mmol. Common practice, no source.

use evenkeel::lesson::sums::entry::{Entry, read_line, unit_wanted};
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::mark::{Tolerance, Verdict, mark};
use evenkeel::lesson::sums::question::question;
use evenkeel::lesson::sums::symbol::{Symbol, Unit};

/// Learners work in mol and dm³ where the line is in mmol or cm³: common practice, no source.
#[test]
fn a_bare_amount_in_mol_is_read_as_such() {
    for form in FORMS {
        for seed in 0..50 {
            let problem = question(form, seed).problem;
            let asked = problem.asked();
            for (place, symbol) in asked.iter().copied().enumerate() {
                let large = match symbol.unit() {
                    _ if unit_wanted(&problem, symbol) => continue,
                    Unit::Mmol => "mol",
                    Unit::Cm3 => "dm³",
                    _ => continue,
                };
                let right = problem.sheet.right().get(symbol).unwrap();
                let marked = |text: &str| {
                    let mut entries = vec![Entry::Blank; asked.len()];
                    entries[place] = read_line(&problem, symbol, text);
                    mark(&problem, &entries, Tolerance::default()).swap_remove(place)
                };
                let small = symbol.unit().symbol();
                for text in [
                    format!("{right}"),
                    format!("{right:e}"),
                    format!("{:.4}x10^-3", 1000.0 * right),
                    format!("{right} {large}"),
                    format!("{}", 1000.0 * right),
                    format!("{} {small}", 1000.0 * right),
                ] {
                    let line = marked(&text);
                    assert_eq!(line.verdict, Verdict::Right, "{form:?} {symbol:?} {text}");
                    let Entry::Number(value) = line.entry else {
                        panic!("{line:?}");
                    };
                    assert!((value / right - 1.0).abs() < 1e-3, "{text}: {value}");
                }
                // With its unit it is what it says.
                let said = marked(&format!("{right} {small}"));
                assert!(!said.verdict.earns(), "{form:?} {symbol:?} {said:?}");
            }
        }
    }
}

/// An amount that nothing leads to is taken in the unit of the line before.
#[test]
fn a_habit_of_mol_is_kept() {
    let problem = question(Form::AcidWithAlkali, 4).problem;
    let right = problem.sheet.right();
    let [start, strong] = [Symbol::AcidStart, Symbol::Strong].map(|s| right.get(s).unwrap());
    // Far too much alkali, and the acid that would leave: less than nothing is not typed, so
    // the base that it would make.
    let texts = [
        format!("{start:e}"),
        format!("{}", 77.0 * strong),
        String::new(),
        format!("{}", 77.0 * strong),
    ];
    let entries: Vec<_> = problem
        .asked()
        .into_iter()
        .zip(&texts)
        .map(|(symbol, text)| read_line(&problem, symbol, text))
        .collect();
    let marked = mark(&problem, &entries, Tolerance::default());
    assert_eq!(marked[1].verdict, Verdict::Unknown);
    assert_eq!(marked[1].entry, Entry::Number(77.0 * strong));
    assert_eq!(marked[3].verdict, Verdict::FollowsThrough, "{marked:?}");
}
