//! Numbers: the first line is what somebody typed, the second how many figures it is written with.

use evenkeel::app::link::keys;
use evenkeel::app::recipe::{Field, Recipe};
use evenkeel::app::words::recipe as words;
use evenkeel::chem::quantity::{Amount, Concentration, Ph, Pka, SignedAmount, Volume};
use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::read::{figures, number};
use evenkeel::lesson::sig_fig::{DecimalMark, PhDecimals, Writer, decimals_of};
use evenkeel::lesson::sums::entry::{Entry, read};
use evenkeel::lesson::sums::symbol::Symbol;

use crate::sound;

/// Half of the last of `figures` significant figures, as a share of the number at most.
fn half_a_digit(figures: usize) -> f64 {
    0.5 * 10_f64.powi(1 - i32::try_from(figures).expect("a few"))
}

fn written(value: f64, places: usize) {
    for mark in [DecimalMark::Point, DecimalMark::Comma] {
        let writer = Writer {
            mark,
            ph_decimals: PhDecimals::Three,
            ion: HydrogenIon::Bare,
        };
        let text = writer.significant(value, places);
        sound::words(&text);
        let again = number(&text).unwrap_or_else(|e| panic!("{value}: wrote {text}, read {e:?}"));
        let off = (again - value).abs();
        // The writer takes what is a hair below a tie for the tie.
        let most = (half_a_digit(places) + 2e-12) * value.abs();
        assert!(
            off <= most || value.abs() < 1e-300,
            "{value} to {places} figures is {text}"
        );
        if value.abs() < 1e15 {
            let text = writer.fixed(value, places);
            let again = number(&text).unwrap_or_else(|e| panic!("{value}: {text}, {e:?}"));
            let most =
                0.5 * 10_f64.powi(-i32::try_from(places).expect("a few")) + 2e-12 * value.abs();
            assert!(
                (again - value).abs() <= most,
                "{value} to {places} places is {text}"
            );
            let signed = writer.signed(value, places);
            assert_eq!(number(&signed), Ok(again), "{signed}");
        }
        sound::words(&writer.about(value.abs()));
    }
}

fn quantities(value: f64) {
    if let Ok(amount) = Amount::from_mol(value) {
        assert!(amount.mol() >= 0.0 && amount.mmol().is_finite());
        assert!((amount + amount).mol().is_finite() && amount.times(u32::MAX).mol().is_finite());
    } else {
        assert!(value < 0.0 || !value.is_finite());
    }
    if let (Ok(strength), Ok(volume)) = (Concentration::from_molar(value), Volume::from_cm3(value))
    {
        let amount = strength * volume;
        assert!(amount.mol().is_finite() && amount.mol() >= 0.0);
        if let Ok(back) = amount.in_volume(volume) {
            assert!(back.molar().is_finite());
        }
    }
    if let Ok(signed) = SignedAmount::from_mol(value) {
        assert!(signed.size().mol() >= 0.0);
    }
    let scales = [
        Ph::new(value).map(Ph::value),
        Pka::new(value).map(Pka::value),
    ];
    assert!(scales.iter().flatten().all(|on_scale| on_scale.is_finite()));
    assert!(decimals_of(value) <= 330);
}

/// Every reading of a text is finite, and what is written of it reads back as the same.
pub fn check(text: &str) {
    let (typed, places) = text.split_once('\n').unwrap_or((text, ""));
    let places = 1 + places.bytes().fold(0, |n: usize, b| n + usize::from(b)) % 12;
    assert!(figures(typed) <= typed.chars().count());
    for symbol in [
        Symbol::Ph,
        Symbol::Ka,
        Symbol::Acid,
        Symbol::TotalVolume,
        Symbol::Mass,
    ] {
        for with_unit in [false, true] {
            if let Entry::Number(value) | Entry::Bare(value) = read(symbol, typed, with_unit) {
                assert!(
                    value.is_finite(),
                    "{typed} is {value} in a line about {symbol:?}"
                );
            }
        }
    }
    let mut recipe = Recipe::default();
    for field in [Field::AcidConcentration, Field::AcidVolume, Field::Stock] {
        recipe.set_text(field, typed.to_owned());
        assert_eq!(recipe.text(field), typed, "what was typed is changed");
        if let Some(problem) = recipe.problem(field) {
            let said = words::problem(field, problem, Writer::default());
            assert!(!said.is_empty());
            sound::words(&said);
        }
    }
    let in_a_link = keys::number(typed);
    let Ok(value) = number(typed) else { return };
    assert!(value.is_finite());
    if typed.is_ascii() && typed.len() < 40 {
        assert_eq!(
            number(&in_a_link),
            Ok(value),
            "{typed} became {in_a_link} in a link"
        );
    }
    quantities(value);
    written(value, places);
    written(-value, places);
}
