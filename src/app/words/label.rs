//! Labels and standing texts.

use crate::chem::quantity::Ph;
use crate::lesson::sig_fig::Writer;

/// What the page leaves out.
pub const LIMITS: &[&str] = &[
    "25 °C. Kw = 1.00×10⁻¹⁴ mol² dm⁻⁶. Volumes add up.",
    "Activities are taken as concentrations, as in class. A meter reads activities, so a measured pH differs: usually by 0.05 to 0.2, in phosphate by about 0.3.",
    "The flask is closed: no CO₂ gets in or out, nothing precipitates, nothing else reacts.",
    "Strong acid and alkali are taken as fully ionised.",
    "The particles show amounts, not sizes, distances or speeds. Real exchange of H⁺ happens millions of times a second.",
];

/// Cautions.
pub const SAFETY: &str = "If you try this at a real bench: wear eye protection. Dilute is not harmless: sodium hydroxide harms eyes, and ammonia needs ventilation. Your institution's risk assessment and local rules decide. Check a buffer's pH with a calibrated meter. Nothing here is medical, food or product advice.";

/// The same where something is being set up.
pub const SAFETY_SHORT: &str = "A model, not a recipe. At a real bench, wear eye protection and follow your institution's risk assessment and local rules.";

/// What to do first.
pub const TRY_IT: &str = "Add a little acid or alkali. Watch which reservoir takes it up, how far the pH moves, and how far it moves in water alone. Then keep going until a reservoir runs out.";

/// The flask takes no more.
pub const FLASK_FULL: &str = "The flask is full. Undo, or start again.";

/// The bench by the Davies equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Davies {
    /// pH as an activity.
    pub ph: Ph,
    /// Ionic strength, mol dm⁻³.
    pub ionic_strength: f64,
}

/// What a meter would make of the bench.
pub fn model_here(ideal: Ph, davies: Option<Davies>, writer: Writer) -> String {
    let ideal = writer.ph(ideal);
    match davies {
        Some(davies) => format!(
            "On the bench now: {ideal} as in class. With activity coefficients (Davies equation, ionic strength {} mol dm⁻³) it is {}, and that is nearer to what a meter shows.",
            writer.significant(davies.ionic_strength, 2),
            writer.ph(davies.ph),
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

/// The view that counts the two forms side by side.
pub const SORTED: &str = "Sorted";

/// The view that shows them in one solution.
pub const MIXED: &str = "As mixed";

/// Shows the last addition again.
pub const REPLAY: &str = "Replay";

/// Goes through the last addition beat by beat.
pub const STEP: &str = "Step";

/// The still picture before the last addition.
pub const BEFORE: &str = "Before";

/// The still picture after it.
pub const AFTER: &str = "After";

/// Counter of particles that met a partner.
pub const REACTIONS: &str = "Reactions so far:";
