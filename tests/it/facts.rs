//! Facts of the trade: what everybody who works with buffers expects to see.

use evenkeel::chem::buffer::{Pair, capacity};
use evenkeel::chem::equilibrium::{Conditions, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Concentration, Ph, Pka, SignedAmount, Volume};
use evenkeel::chem::systems::{AcidSystem, TABLE};
use evenkeel::chem::titration::{Stock, curve};

use crate::published::{Check, Row, check_table, rows};
use crate::short_form::short_form;

const PRACTICE: &str = "common practice, no source";
const WORKED: &str = "worked example, machine-checked, no published source";

fn cm3(value: f64) -> Volume {
    Volume::from_cm3(value).unwrap()
}

fn mmol(value: f64) -> Amount {
    Amount::from_mmol(value).unwrap()
}

fn ph(mixture: &Mixture) -> f64 {
    solve(mixture, &Conditions::classroom())
        .unwrap()
        .ph()
        .value()
}

/// The acid form and the base form of a pair in one flask.
fn buffer(pair: &Pair, acid: Amount, base: Amount, volume: Volume) -> Mixture {
    Mixture::water(volume)
        .with_weak(pair.system(), pair.acid_protons(), acid, Charge::One)
        .with_weak(pair.system(), pair.base_protons(), base, Charge::One)
}

/// The pair of a weak acid given by its Ka, as classroom questions print it.
fn acid_pair(ka: f64) -> Pair {
    Pair::new(AcidSystem::acid(Pka::new(-libm::log10(ka)).unwrap()), 1).unwrap()
}

fn listed_pairs() -> Vec<(String, Pair)> {
    let of_entry = |entry: &'static evenkeel::chem::systems::Entry| {
        (1..=entry.system.protons()).rev().map(move |protons| {
            let name = format!(
                "{}/{}",
                entry.form(protons).formula,
                entry.form(protons - 1).formula
            );
            (name, Pair::new(entry.system, protons).unwrap())
        })
    };
    TABLE.iter().flat_map(of_entry).collect()
}

#[test]
fn water_is_neutral_at_seven() {
    let checks = [
        Check::without_source("pure water", ph(&Mixture::water(cm3(100.0))), 7.0, PRACTICE),
        Check::without_source(
            "salt water",
            ph(&Mixture::water(cm3(100.0)).with_neutral_salt(mmol(10.0), Charge::One, Charge::One)),
            7.0,
            PRACTICE,
        ),
    ];
    check_table("water, 25 °C, Kw = 1.0e-14", 1e-12, &checks);
}

/// Two things move a buffer of equal amounts off its pKa. The forms give up h and take oh
/// (mol dm⁻³), so the ratio is (c + h − oh)/(c − h + oh); and of a system with another
/// step near, x = 10^(−distance) of the pair turns into a third form, which costs the
/// proton balance log₁₀(1 + 3x). The limit is their sum, with a tenth for their interplay.
#[test]
fn equal_amounts_sit_at_the_pka() {
    let concentration = 0.5;
    let mut plain = Vec::new();
    let mut wrong = Vec::new();
    for (name, pair) in listed_pairs() {
        let amount = mmol(1000.0 * concentration);
        let mixture = buffer(&pair, amount, amount, cm3(1000.0));
        let solved = solve(&mixture, &Conditions::classroom()).unwrap();
        let deviation = solved.ph().value() - pair.pka().value();
        let free = (solved.hydrogen().molar() - solved.hydroxide().molar()).abs();
        let own = libm::log10((concentration + free) / (concentration - free));
        let neighbor = pair
            .system()
            .steps()
            .map(|step| (step.pka.value() - pair.pka().value()).abs())
            .filter(|distance| *distance > 0.0)
            .map(|distance| libm::log10(1.0 + 3.0 * libm::exp10(-distance)))
            .sum::<f64>();
        if own + neighbor < 0.005 {
            plain.push(Check::without_source(
                &name,
                solved.ph().value(),
                pair.pka().value(),
                PRACTICE,
            ));
        } else {
            println!("  {name}: {deviation:+.3} (free ions {own:.3}, next step {neighbor:.3})");
        }
        if deviation.is_nan() || deviation.abs() > 1.1 * (own + neighbor) + 1e-9 {
            wrong.push(format!(
                "{name}: {deviation:+.4}, explained {own:.4} + {neighbor:.4}"
            ));
        }
    }
    check_table("equal amounts, 0.5 mol dm-3 each: pH = pKa", 0.005, &plain);
    assert!(plain.len() >= 20, "only {} pairs are plain", plain.len());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// At half-neutralization pH = pKa: by adding alkali, and as the landmark on the curve.
#[test]
fn half_neutralization_reads_the_pka() {
    let stock = Stock::new(Concentration::from_molar(1.0).unwrap()).unwrap();
    let mut checks = Vec::new();
    for (name, pair) in listed_pairs() {
        // Outside, water's own ions shift a 0.1 molar solution by more than 0.005.
        let alone = pair.system().protons() == 1;
        if !alone || !(3.5..=10.5).contains(&pair.pka().value()) {
            continue;
        }
        let acid = buffer(&pair, mmol(20.0), Amount::ZERO, cm3(200.0));
        let half = pair.landmarks(&acid).unwrap().half;
        let conditions = Conditions::classroom();
        let ends = (
            SignedAmount::default(),
            SignedAmount::from_mol(0.03).unwrap(),
        );
        let drawn = curve(&acid, &conditions, &stock, ends, &[half], 50).unwrap();
        let on_curve = drawn.iter().find(|p| p.added == half).unwrap().ph.value();
        let added = stock.added_to(&acid, Amount::ZERO, half.size());
        checks.push(Check::without_source(
            &name,
            on_curve,
            pair.pka().value(),
            PRACTICE,
        ));
        checks.push(Check::without_source(
            &name,
            ph(&added),
            pair.pka().value(),
            PRACTICE,
        ));
    }
    assert!(checks.len() >= 20);
    check_table("half-neutralization: pH = pKa", 0.005, &checks);
}

/// Useful range pKa ± 1: there the capacity of the pair alone is 4·10/11² of its peak.
#[test]
fn useful_range_ends_at_a_third_of_the_capacity() {
    let pair = acid_pair(1e-7);
    let conditions = Conditions::classroom();
    let range = pair.useful_range(&conditions).unwrap();
    let beta = |distance: f64| {
        let base = 1.0 / (1.0 + libm::exp10(-distance));
        let mixture = buffer(
            &pair,
            mmol(1000.0 * (1.0 - base)),
            mmol(1000.0 * base),
            cm3(1000.0),
        );
        capacity(&mixture, &conditions).unwrap().molar()
    };
    let share = |ratio: f64| 4.0 * ratio / ((1.0 + ratio) * (1.0 + ratio));
    let checks = [
        Check::without_source("lower end", range.start().value(), 6.0, PRACTICE),
        Check::without_source("upper end", range.end().value(), 8.0, PRACTICE),
        Check::without_source(
            "capacity at −1",
            beta(-1.0) / beta(0.0),
            share(10.0),
            WORKED,
        ),
        Check::without_source("capacity at +1", beta(1.0) / beta(0.0), share(10.0), WORKED),
        Check::without_source("a third", beta(1.0) / beta(0.0), 1.0 / 3.0, PRACTICE),
        Check::without_source(
            "capacity at ±2",
            beta(2.0) / beta(-0.0),
            share(100.0),
            WORKED,
        ),
    ];
    check_table("useful range and capacity", 0.003, &checks);
    assert!(
        beta(-0.1) < beta(0.0) && beta(0.1) < beta(0.0),
        "the peak is at the pKa"
    );
}

/// Blood, pH 7.35 to 7.45: the convention at 24 mmol dm⁻³ and 40 mmHg, by the short form
/// and by the full balance of a closed flask. A simplified figure for a lesson: whoever
/// reads anything about a person from a pH is a licensed practitioner with a blood sample.
#[test]
fn blood_lies_in_its_reference_range() {
    let all = rows("clinical");
    let range = all
        .iter()
        .find(|r| r.text("quantity") == "arterial pH reference range")
        .unwrap();
    let (acid, base) = (mmol(0.0307 * 40.0), mmol(24.0));
    let pair = acid_pair(libm::exp10(-6.1));
    let full = ph(&buffer(&pair, acid, base, cm3(1000.0)));
    let short = short_form(6.1, acid, base);
    println!("\nblood: {short:.3} by the short form, {full:.3} by the full balance");
    println!(
        "  source: {} [{}]",
        range.text("source"),
        range.text("status")
    );
    for value in [full, short] {
        let ends = range.number("value_low")..=range.number("value_high");
        assert!(ends.contains(&value), "{value} is outside {ends:?}");
    }
}

/// Skin, pH about 5.5: no listed pair has its pKa there, so no equal mixture shows it; but
/// pairs hold that pH within their useful range, lactate not among them, and one mixed at
/// the ratio of the short form reads it. Not a recipe for anything that touches skin.
#[test]
fn skin_lies_in_the_useful_range_of_some_pair() {
    let skin = Ph::new(5.5).unwrap();
    let conditions = Conditions::classroom();
    let holds = |pair: &Pair| pair.useful_range(&conditions).unwrap().contains(&skin);
    let (holding, others): (Vec<_>, Vec<_>) =
        listed_pairs().into_iter().partition(|(_, p)| holds(p));
    let names: Vec<&str> = holding.iter().map(|(name, _)| name.as_str()).collect();
    println!(
        "\nskin, about 5.5 ({PRACTICE}): within the range of {}",
        names.join(", ")
    );
    assert!(names.contains(&"CH3COOH/CH3COO") && names.contains(&"CH3CH2COOH/CH3CH2COO"));
    assert!(
        others
            .iter()
            .any(|(name, _)| name == "CH3CH(OH)COOH/CH3CH(OH)COO")
    );
    let single = |(_, pair): &&(String, Pair)| pair.system().protons() == 1;
    let checks: Vec<Check> = holding
        .iter()
        .filter(single)
        .map(|(name, pair)| {
            let ratio = libm::exp10(skin.value() - pair.pka().value());
            let mixture = buffer(pair, mmol(50.0), mmol(50.0 * ratio), cm3(1000.0));
            Check::without_source(name, ph(&mixture), skin.value(), PRACTICE)
        })
        .collect();
    check_table("mixed at the ratio for pH 5.5", 0.005, &checks);
}

/// The published table of a strong acid against a strong alkali, read off a curve.
#[test]
fn strong_acid_titration_curve() {
    let table: Vec<Row> = rows("textbook_examples");
    let of_table: Vec<&Row> = table
        .iter()
        .filter(|r| r.text("id").starts_with("HCl_"))
        .collect();
    let flask = Mixture::water(cm3(25.0)).with_strong_acid(mmol(2.5), Charge::One);
    let stock = Stock::new(Concentration::from_molar(0.1).unwrap()).unwrap();
    let added: Vec<SignedAmount> = of_table
        .iter()
        .map(|row| row.text("id")["HCl_".len()..].parse::<f64>().unwrap())
        .map(|volume| SignedAmount::from_mol(volume * 1e-4).unwrap())
        .collect();
    let ends = (
        SignedAmount::default(),
        SignedAmount::from_mol(0.006).unwrap(),
    );
    let drawn = curve(&flask, &Conditions::classroom(), &stock, ends, &added, 400).unwrap();
    let checks: Vec<Check> = of_table
        .iter()
        .zip(&added)
        .map(|(row, place)| {
            let point = drawn.iter().find(|p| p.added == *place).unwrap();
            row.check(
                row.text("id").into(),
                point.ph.value(),
                row.number("published_answer"),
            )
        })
        .collect();
    assert_eq!(checks.len(), 19);
    // A half of the last printed digit from our side, a half from theirs.
    check_table("strong acid and alkali, on a curve", 0.01, &checks);
}
