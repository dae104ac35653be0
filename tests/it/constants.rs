//! The constants of the engine against the published tables they were taken from.

use evenkeel::chem::activity::ActivityCoefficients;
use evenkeel::chem::constants::{debye_huckel_a, pkw};
use evenkeel::chem::quantity::{Amount, Celsius};
use evenkeel::chem::systems::{self, TABLE};

use crate::published::{Check, Row, check_table, rows};
use crate::short_form::short_form;

fn celsius(row: &Row) -> Celsius {
    Celsius::new(row.number("temperature_C")).unwrap()
}

/// The table of systems is an exact copy of `pka_25C.csv`, row by row and in its order.
#[test]
fn systems_equal_the_published_table() {
    let published = rows("pka_25C");
    let steps = TABLE
        .iter()
        .flat_map(|e| (1..).zip(e.system.steps()).map(move |(n, s)| (e, n, s)));
    let ours: Vec<_> = steps.collect();
    assert_eq!(
        ours.len(),
        published.len(),
        "steps in the table and rows in the file"
    );
    let mut wrong = Vec::new();
    let mut columns: [Vec<Check>; 3] = Default::default();
    for (row, (entry, number, step)) in published.iter().zip(ours) {
        let key = row.text("key");
        let place = format!("{key} step {}", row.text("step"));
        let charge = row.number("charge_of_fully_protonated_form");
        if key != entry.key
            || row.number("step") != f64::from(number)
            || charge != f64::from(entry.system.top_charge())
        {
            wrong.push(format!("{place} is {} step {number} here", entry.key));
            continue;
        }
        let heat = step.heat.unwrap_or_else(|| panic!("{place} has no heat"));
        let enthalpy = row.number("dH_ionisation_kJ_per_mol");
        // No published heat capacity counts as zero.
        let capacity = row
            .maybe_number("dCp_ionisation_J_per_mol_K")
            .unwrap_or(0.0);
        columns[0].push(row.check(place.clone(), step.pka.value(), row.number("pKa_25C_I0")));
        columns[1].push(row.check(place.clone(), heat.enthalpy, enthalpy));
        columns[2].push(row.check(place, heat.capacity, capacity));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for (title, column) in ["pKa at 25 °C", "enthalpy", "heat capacity"]
        .iter()
        .zip(columns)
    {
        check_table(title, 0.0, &column);
    }
}

/// One series is the engine's own and equal to it. The others show how far published series
/// are from each other; their limits are chosen here, a little above what is found, to catch
/// a slip in any of them.
#[test]
fn water_constants() {
    let series = |file: &str, column: &str, own: &str, f: fn(Celsius) -> f64| -> [Vec<Check>; 2] {
        let mut checks: [Vec<Check>; 2] = Default::default();
        for row in rows(file) {
            let name = row.text("series");
            let place = format!("{name}, {} °C", row.text("temperature_C"));
            let check = row.check(place, f(celsius(&row)), row.number(column));
            checks[usize::from(name != own)].push(check);
        }
        checks
    };
    let [own, others] = series("kw_temperature", "pKw", "CRC_Marshall_Franck_1981", pkw);
    assert_eq!(own.len(), 13);
    check_table("pKw, the engine's series", 0.0, &own);
    check_table("pKw, other published series", 0.02, &others);
    let column = "A_log10_kg0.5_mol-0.5";
    let [own, others] = series("debye_huckel_A", column, "IAPWS_computed", debye_huckel_a);
    assert_eq!(own.len(), 13);
    check_table("Debye–Hückel A, the engine's series", 0.0, &own);
    check_table("Debye–Hückel A, other published series", 0.005, &others);
}

/// The printed Kw beside pKw: half a unit of its fifth figure and of the fourth decimal of
/// pKw together are 1.7e-4.
#[test]
fn kw_and_pkw_columns_agree() {
    let check = |row: Row| {
        let place = format!("{}, {} °C", row.text("series"), row.text("temperature_C"));
        row.check(
            place,
            libm::exp10(-row.number("pKw")) / row.number("Kw"),
            1.0,
        )
    };
    let checks: Vec<Check> = rows("kw_temperature").into_iter().map(check).collect();
    check_table("Kw from pKw, relative", 1.7e-4, &checks);
}

/// Enthalpy and heat capacity against measured series; the limits are chosen here, the
/// sources give none. Methylammonium's pKa, whose heat capacity is unknown, comes from
/// another source than its series.
#[test]
fn pka_against_temperature() {
    let mut checks: [Vec<Check>; 2] = Default::default();
    for row in rows("pka_vs_temperature") {
        let key = row.text("key");
        let step = *systems::find(key).unwrap().system.steps().next().unwrap();
        let place = format!("{key}, {} °C", row.text("temperature_C"));
        let check = row.check(place, step.pka_at(celsius(&row)), row.number("pKa"));
        checks[usize::from(key == "methylammonium")].push(check);
    }
    check_table("pKa against temperature", 0.006, &checks[0]);
    check_table("pKa against temperature, two sources", 0.03, &checks[1]);
}

/// The engine's activity coefficients are the 1962 form, and not the one of 1938.
#[test]
fn davies_forms() {
    let (strength, a) = (0.1, 0.509);
    let root = libm::sqrt(strength);
    let computed = libm::log10(ActivityCoefficients::davies(strength, a).of(1));
    let checks: Vec<Check> = rows("davies_equation")
        .into_iter()
        .map(|row| {
            let linear = row.number("linear_coefficient");
            let published = -a * (root / (1.0 + root) - linear * strength);
            let reason = (linear == 0.2).then_some("the engine uses the later form");
            row.check(row.text("form").into(), computed, published)
                .known_failure(reason)
        })
        .collect();
    check_table(
        "Davies equation at I = 0.1, log10 of the coefficient",
        1e-12,
        &checks,
    );
}

/// Plasma by the Henderson–Hasselbalch convention: pK' + log₁₀ of hydrogencarbonate over
/// solubility × pCO₂. Figures for a lesson, not for judging anybody's blood.
#[test]
fn clinical_figures() {
    let all = rows("clinical");
    let row = |start: &str| {
        all.iter()
            .find(|r| r.text("quantity").starts_with(start))
            .unwrap()
    };
    let low = |start: &str| row(start).number("value_low");
    let plasma = |pk: f64, solubility: f64, bicarbonate: f64, pressure: f64| {
        let mmol = |value| Amount::from_mmol(value).unwrap();
        short_form(pk, mmol(solubility * pressure), mmol(bicarbonate))
    };
    let (pk, solubility) = (low("pK' of CO2"), low("CO2 solubility in plasma, 37 C"));
    let check = |start: &str, computed: f64| row(start).check(start.into(), computed, low(start));
    let printed = [
        check(
            "worked check: pH at HCO3 24",
            plasma(pk, solubility, 24.0, 40.0),
        ),
        check("worked check: same with 0.03", plasma(pk, 0.03, 24.0, 40.0)),
    ];
    check_table("plasma, printed to three decimals", 0.000_5, &printed);
    let si = check("CO2 solubility in plasma, 37 C (SI)", solubility * 7.50062);
    check_table(
        "CO2 solubility per kPa, printed to two decimals",
        0.005,
        &[si],
    );

    // The printed 7.7 follows from the 25 °C constant; blood's own gives 7.40.
    let book = "OpenStax Chemistry 2e 14.6 blood example";
    let as_printed = check(book, plasma(6.4, 1.0, 24.0, 1.2));
    let contradicted = check(book, plasma(pk, 1.0, 24.0, 1.2)).known_failure(Some(
        "the book uses pKa 6.4 (25 °C) for blood and contradicts its own 7.4",
    ));
    check_table(
        "printed blood example, one decimal",
        0.05,
        &[as_printed, contradicted],
    );

    let within = |start: &str, value: f64| {
        let row = row(start);
        let (from, to) = (row.number("value_low"), row.number("value_high"));
        println!(
            "  {start}: {value:.3} in {from} to {to}. source: {}",
            row.text("source")
        );
        assert!((from..=to).contains(&value), "{start}: {value}");
    };
    within(
        "arterial pH reference range",
        plasma(pk, solubility, 24.0, 40.0),
    );
    within("arterial pCO2 reference range", 40.0);
    within("bicarbonate reference range", 24.0);
}
