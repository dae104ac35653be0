//! Labels and standing texts.

use crate::app::state::BenchEvent;
use crate::app::words::addition::{ion, reagent};
use crate::chem::quantity::{Ph, SignedAmount};
use crate::chem::titration::Reagent;
use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::lesson::markup::{escaped, html};
use crate::lesson::sig_fig::Writer;

/// What the page leaves out.
const LIMITS: &[&str] = &[
    "25 °C. Kw = 1.00×10⁻¹⁴ mol² dm⁻⁶. Volumes add up.",
    "Activities are taken as concentrations, as in class. A meter reads activities, so a measured pH differs: usually by 0.05 to 0.2, in phosphate by about 0.3.",
    "The flask is closed: no CO₂ gets in or out, nothing precipitates, nothing else reacts.",
    "Strong acid and alkali are taken as fully ionised.",
    "The particles show amounts, not sizes, distances or speeds. Real exchange of H⁺ happens millions of times a second.",
];

/// Cautions.
const SAFETY: &str = "If you try this at a real bench: wear eye protection. Dilute is not harmless: sodium hydroxide harms eyes, and ammonia needs ventilation. Your institution's risk assessment and local rules decide. Check a buffer's pH with a calibrated meter. Nothing here is medical, food or product advice.";

/// The same where something is being set up.
pub const SAFETY_SHORT: &str = "A model, not a recipe: some of these solutions are poisonous, or give off a poisonous gas with acid. At a real bench, wear eye protection and follow your institution's risk assessment and local rules.";

/// Leads to the page on what is kept and sent.
pub const PRIVACY: &str = "Privacy: what is kept and sent";

/// In a frame: leads to the same lesson, at this address, in a window of its own; as markup.
pub fn full_page(address: &str) -> String {
    let href = escaped(address);
    format!(
        "<a class=\"key plain\" id=\"full-page\" href=\"{href}\" target=\"_blank\" rel=\"noopener\" aria-label=\"Open full page in a new tab\">Full page</a>"
    )
}

/// What to do first.
pub const TRY_IT: &str = "Add a little acid or alkali. Watch which reservoir takes it up, how far the pH moves, and how far it moves in water alone. Then keep going until a reservoir runs out.";

/// Why nothing was added; nothing where something was.
pub const fn not_added(event: BenchEvent) -> &'static str {
    match event {
        BenchEvent::Full => FLASK_FULL,
        BenchEvent::Held => LOCK_FIRST,
        BenchEvent::SetUp | BenchEvent::Added(_) | BenchEvent::Jumped => "",
    }
}

/// The flask takes no more, or not as much as was asked for.
pub const FLASK_FULL: &str = "That much more does not fit into the flask. Undo, or start again.";

/// Opens the guided start; on a phone only the first words are seen.
pub const GUIDE: [&str; 2] = ["Show me", " in six steps"];

/// A part of the page is being fetched.
pub const ARRIVING: &str = "Fetching this part …";

/// It did not arrive.
pub const NOT_ARRIVED: &str =
    "This part has not arrived: there seems to be no connection. The bench goes on without it.";

/// Asks for it once more.
pub const TRY_AGAIN: &str = "Try again";

/// The guided start waits for a prediction.
pub const LOCK_FIRST: &str = "First choose what you expect, and lock it.";

/// The panel on the model: what it leaves out, what a meter would make of the bench, and
/// cautions, as markup. `davies` is the pH by the Davies equation with
/// its ionic strength.
pub fn limits(ph: Ph, davies: Option<(Ph, f64)>, note: Option<&str>, writer: Writer) -> String {
    let line = |text: &&str| format!("<li>{}</li>", html(text));
    format!(
        "<h2>{LEFT_OUT}</h2><ul>{}</ul><p>{}</p><p>{}</p><p class=\"caution\">{SAFETY}</p>",
        LIMITS.iter().map(line).collect::<String>(),
        html(&model_here(ph, davies, writer)),
        html(note.unwrap_or_default()),
    )
}

/// What a meter would make of the bench.
fn model_here(ideal: Ph, davies: Option<(Ph, f64)>, writer: Writer) -> String {
    let ideal = writer.ph(ideal);
    match davies {
        Some((ph, ionic_strength)) => format!(
            "On the bench now: {ideal} as in class. With activity coefficients (Davies equation, ionic strength {} mol dm⁻³) it is {}, and that is nearer to what a meter shows.",
            writer.significant(ionic_strength, 2),
            writer.ph(ph),
        ),
        None => format!(
            "On the bench now: {ideal} as in class. The ionic strength is above 0.5 mol dm⁻³, where the usual correction for activities no longer holds: expect a meter to differ."
        ),
    }
}

/// Name of the particle view.
pub const RESERVOIRS: &str = "Reservoirs";

/// The words at the start marks.
pub const AT_START: &str = "at start";

/// The words at free OH⁻ and at free H⁺.
pub const fn free(ion: HydrogenIon) -> [&'static str; 2] {
    let hydrogen = match ion {
        HydrogenIon::Bare => "free H⁺",
        HydrogenIon::Hydrated => "free H₃O⁺",
    };
    ["free OH⁻", hydrogen]
}

/// Beside the sign of the water that a reaction makes.
pub const NEW_WATER: &str = "water made";

/// The view that counts the two forms side by side.
pub const SORTED: &str = "Sorted";

/// The view that shows them in one solution.
pub const MIXED: &str = "As mixed";

/// Shows the last addition again.
pub const REPLAY: &str = "Replay";

/// Goes through the last addition beat by beat.
pub const STEP: &str = "Step";

/// Beside a ring such as the still picture draws around what an addition changed.
pub const CHANGED: &str = "changed by it";

/// The still picture before the last addition.
pub const BEFORE: &str = "Before";

/// The still picture after it.
pub const AFTER: &str = "After";

/// Counter of added ions that met a partner.
pub const REACTIONS: &str = "Taken up so far:";

/// Heading of the big number.
pub const PH_NOW: &str = "pH now";

/// The pH before any addition.
pub const AT_THE_START: &str = "at the start";

/// The comparison.
pub const WATER_ALONE: &str = "water alone";

/// The same on the pH line.
pub const WATER: &str = "water";

/// The marker of the buffer on the pH line.
pub const NOW: &str = "now";

/// The curve of the buffer.
pub const THIS_BUFFER: &str = "this buffer";

/// The range where the pair holds pH usefully.
pub fn useful_range(low: &str, high: &str) -> String {
    format!("useful range {low}–{high}")
}

/// Heading of a reagent's buttons.
pub fn add_heading(which: Reagent, unit: &str) -> String {
    format!("Add {} · {} / {unit}", reagent(which), ion(which))
}

/// Beside the buttons: what the additions come from.
pub fn stock(strength: &str) -> String {
    format!("from {strength}")
}

/// Takes back the last addition or setting.
pub const UNDO: &str = "Undo";

/// Brings it back.
pub const REDO: &str = "Redo";

/// Takes back everything added.
pub const START_AGAIN: &str = "Start again";

/// The full name of an addition's button.
pub fn add(amount: &str, reagent: &str) -> String {
    format!("Add {amount} of {reagent}")
}

/// Said before it to a screen reader.
pub const SET_UP_PREFIX: &str = "Set up: ";

/// Heading of the curve.
pub const CURVE: &str = "pH against amount added";

/// The curve in words.
pub fn curve_description(ph: &str, water: &str) -> String {
    format!("Curve of pH against amount added. Now: pH {ph}, water {water}.")
}

/// The left half of the curve's axis.
pub fn acid_axis(unit: &str) -> String {
    format!("← acid / {unit}")
}

/// The right half.
pub fn alkali_axis(unit: &str) -> String {
    format!("alkali / {unit} →")
}

/// Key of the curve's marks, each with its sign.
pub const CURVE_KEY: [(&str, &str); 5] = [
    ("▭", "useful range (pKa ± 1)"),
    ("●", "half-neutralised"),
    ("□", "equivalence"),
    ("◎", "now"),
    ("○", "water now"),
];

/// The curve as numbers.
pub const AS_TABLE: &str = "The same as a table";

/// Heading of the table's first column.
pub fn added(unit: &str) -> String {
    format!("added / {unit}")
}

/// One row's amount in the table.
pub fn row(amount: &str, added: SignedAmount) -> String {
    match added.mol() {
        a if a < 0.0 => format!("{amount} {}", reagent(Reagent::Acid)),
        a if a > 0.0 => format!("{amount} {}", reagent(Reagent::Alkali)),
        _ => "nothing".to_owned(),
    }
}

/// Said when another buffer is on the bench.
pub fn new_buffer(ph: &str) -> String {
    format!("New buffer on the bench. pH {ph}.")
}

/// Said when the bench went back or forward.
pub fn ph_is(ph: &str) -> String {
    format!("pH {ph}.")
}

/// Names of the panels, in their order.
pub const PANELS: [&str; 7] = [
    "Why", "Curve", "Working", "Practice", "Set up", "Limits", "Lesson",
];

/// Heading of the panel on the model.
const LEFT_OUT: &str = "What this page leaves out";

/// Headings of the table of changes.
pub const BEFORE_AFTER_CHANGE: [&str; 3] = ["before", "after", "change"];

/// Its rows for pH and for water.
pub const PH_ROWS: [&str; 2] = ["pH", "pH of water alone"];

/// Caption of that table.
pub const THIS_ADDITION: &str = "Before and after this addition";

/// Heading before anything was added.
pub const NOTHING_YET: &str = "Nothing added yet";
