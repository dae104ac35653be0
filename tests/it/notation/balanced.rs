//! Equations conserve atoms and charge in either notation.

use std::collections::BTreeMap;

use evenkeel::app::pair::PAIRS;
use evenkeel::app::recipe::Recipe;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::notation::{Equation, Writing};

/// Atoms and charge of a species as it is written: "2H₂O", "(CH₂OH)₃CNH₃⁺".
fn counted(species: &str) -> BTreeMap<String, i32> {
    let digit = |c: char| match c {
        '₀'..='₉' => Some(c as i32 - '₀' as i32),
        _ => None,
    };
    let raised = |c: char| match c {
        '²' => Some(2),
        '³' => Some(3),
        '⁴' => Some(4),
        _ => None,
    };
    let chars: Vec<char> = species.chars().collect();
    let times = chars[0].to_digit(10).map_or(1, |d| d as i32);
    let mut levels: Vec<BTreeMap<String, i32>> = vec![BTreeMap::new()];
    let mut place = usize::from(times > 1);
    let number = |place: &mut usize| {
        let mut value = 0;
        while let Some(d) = chars.get(*place).copied().and_then(digit) {
            value = 10 * value + d;
            *place += 1;
        }
        value.max(1)
    };
    while place < chars.len() {
        let c = chars[place];
        place += 1;
        match c {
            '(' => levels.push(BTreeMap::new()),
            ')' => {
                let group = levels.pop().unwrap();
                let count = number(&mut place);
                for (atom, n) in group {
                    *levels.last_mut().unwrap().entry(atom).or_default() += n * count;
                }
            }
            '⁺' | '⁻' => {
                let before = chars[..place - 1].last().copied().and_then(raised);
                let sign = if c == '⁺' { 1 } else { -1 };
                let charge = sign * before.unwrap_or(1);
                *levels[0].entry("charge".to_owned()).or_default() += charge;
            }
            c if raised(c).is_some() => {}
            c => {
                let mut atom = c.to_string();
                while let Some(lower) = chars.get(place).filter(|c| c.is_lowercase()) {
                    atom.push(*lower);
                    place += 1;
                }
                let count = number(&mut place);
                *levels.last_mut().unwrap().entry(atom).or_default() += count;
            }
        }
    }
    let mut all = levels.pop().unwrap();
    for n in all.values_mut() {
        *n *= times;
    }
    all.retain(|_, n| *n != 0);
    all
}

pub fn side<'a>(species: impl IntoIterator<Item = &'a str>) -> BTreeMap<String, i32> {
    let mut all = BTreeMap::new();
    for one in species {
        for (atom, n) in counted(one) {
            *all.entry(atom).or_default() += n;
        }
    }
    all.retain(|_, n| *n != 0);
    all
}

fn is_balanced(equation: &Equation) -> bool {
    let of = |species: &[String]| side(species.iter().map(String::as_str));
    of(&equation.left) == of(&equation.right)
}

#[test]
fn the_counter_of_atoms_sees_what_is_wrong() {
    assert_eq!(counted("(CH₂OH)₃CNH₃⁺")["H"], 12);
    assert_eq!(counted("2H₂O")["H"], 4);
    assert_eq!(counted("HPO₄²⁻")["charge"], -2);
    assert_ne!(side(["H₃O⁺", "A⁻"]), side(["HA"]));
}

#[test]
fn equations_are_balanced_in_either_notation() {
    for choice in PAIRS {
        let mut recipe = Recipe::default();
        recipe.pair = *choice;
        let names = recipe.read().unwrap().names;
        for writing in [Writing::Symbols, Writing::Formulas] {
            for equation in [
                names.reaction(Reagent::Acid, writing),
                names.reaction(Reagent::Alkali, writing),
                names.ionization(writing),
                Equation::water(),
            ] {
                assert!(is_balanced(&equation), "{}", equation.plain());
                let hydrated = equation.with(HydrogenIon::Hydrated);
                assert!(is_balanced(&hydrated), "{}", hydrated.plain());
                let mut all = hydrated.left.iter().chain(&hydrated.right);
                assert!(all.all(|s| s != "H⁺"), "{}", hydrated.plain());
                assert_eq!(equation.with(HydrogenIon::Bare), equation);
            }
        }
    }
    let water = Equation::water().with(HydrogenIon::Hydrated);
    assert_eq!(water.plain(), "H₃O⁺ + OH⁻ → 2H₂O");
    assert_eq!(
        water.spoken(),
        "H 3 O, one plus, plus O H, one minus, gives 2 H 2 O"
    );
}
