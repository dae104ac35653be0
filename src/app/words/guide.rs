//! The guided start in words, and the sentences that hold a prediction against what happened.

use crate::app::guide::GuideStep;
use crate::app::prediction::{Direction, Gap, Prediction, Size, gap};
use crate::app::shown::Shown;
use crate::app::state::State;
use crate::app::words::addition::{Voice, ion};
use crate::app::words::difference::moved_by;
use crate::chem::titration::Reagent;
use crate::lesson::sig_fig::Writer;
use crate::lesson::why::{Change, Outcome};

/// Takes the next step.
const NEXT: &str = "Next";

/// Passes over a step.
pub const SKIP: &str = "Skip this step";

/// Goes a step back.
pub const BACK: &str = "Back";

/// Ends it after its last step.
const FINISH: &str = "Finish";

/// Closes the guide.
pub const CLOSE: &str = "Close the guide";

/// Goes to the first question.
pub const OPEN_PRACTICE: &str = "Open Practice";

/// Locks a prediction.
pub const LOCK: &str = "Lock it";

/// Asks which way.
pub const WHICH_WAY: &str = "Which way will the pH go?";

/// Asks how far.
pub const HOW_FAR: &str = "How far?";

/// What a step is called, its one idea, and what to do.
pub const fn step(step: GuideStep) -> [&'static str; 3] {
    match step {
        GuideStep::Look => [
            "One solution, two stores",
            "A buffer holds plenty of a weak acid and plenty of its conjugate base. Sorted, you can count them. In the flask they are mixed.",
            "Change between Sorted and As mixed.",
        ],
        GuideStep::AddAcid => [
            "A little acid",
            "Acid brings H⁺. The more free H⁺, the lower the pH.",
            "Lock what you expect. Then add a little acid.",
        ],
        GuideStep::AddAlkali => [
            "A little alkali",
            "The flask is fresh again. Alkali brings OH⁻, which finds another partner than H⁺ did.",
            "Lock what you expect. Then add a little alkali.",
        ],
        GuideStep::BesideWater => [
            "Beside water",
            "The flask is fresh again. Whatever you add also goes into the same volume of water, which has no store.",
            "Add a little of either. Compare how far this pH moves and how far that of water.",
        ],
        GuideStep::RunOut => [
            "Until it runs out",
            "Each addition uses up some of one form.",
            "Keep adding acid, or keep adding alkali, until one form is gone. Watch the pH there.",
        ],
        GuideStep::Question => [
            "Your first question",
            "The same with a number: both amounts give the pH.",
            "Open Practice and do one question. Wrong tries are welcome: each is met with where its number comes from.",
        ],
    }
}

/// Where a step is: "2 of 6".
pub fn place(step: GuideStep) -> String {
    format!("{} of 6", step as u8 + 1)
}

/// Said once a step is done.
const DONE: &str = "Done.";

/// What the button that goes on says.
pub const fn onward(step: Option<GuideStep>) -> &'static str {
    match step {
        Some(GuideStep::Question) => FINISH,
        _ => NEXT,
    }
}

/// What to do now in the open step.
pub fn to_do(state: &State) -> String {
    let guide = &state.desk.guide;
    let Some(open) = guide.step else {
        return String::new();
    };
    let Some(reagent) = guide.predicts().filter(|_| guide.prediction.locked) else {
        return step(open)[2].to_owned();
    };
    match guide.wrong_reagent(state) {
        Some(added) => format!(
            "That was {}. Undo it, then add {}.",
            name(added),
            name(reagent)
        ),
        None => format!(
            "Locked: {}. Now add a little {}.",
            locked(&guide.prediction),
            name(reagent)
        ),
    }
}

/// What is to be said once what the open step asks for has happened; empty before.
pub fn news(state: &State, shown: &Shown, writer: Writer) -> String {
    let guide = &state.desk.guide;
    let reading = &shown.reading;
    if guide.done() || !guide.is_met(state, reading) {
        return String::new();
    }
    let voice = Voice::of(reading, writer);
    let text = reading.change().and_then(|change| match guide.step? {
        GuideStep::AddAcid | GuideStep::AddAlkali => compare(&voice, &guide.prediction, &change),
        GuideStep::BesideWater => {
            let [this, water] = both_moves(writer, &change);
            Some(format!(
                "This pH changed by {this}, that of water by {water}."
            ))
        }
        GuideStep::RunOut => Some(format!(
            "{} With the last addition the pH went from {} to {}.",
            voice.what_met_what(&change),
            writer.ph(change.before.ph),
            writer.ph(change.after.ph),
        )),
        GuideStep::Look | GuideStep::Question => None,
    });
    text.unwrap_or_else(|| DONE.to_owned())
}

const fn name(reagent: Reagent) -> &'static str {
    match reagent {
        Reagent::Acid => "acid",
        Reagent::Alkali => "alkali",
    }
}

/// "down, by less than 0.1"
fn locked(prediction: &Prediction) -> String {
    let way = prediction.direction.map_or("", direction);
    match (prediction.direction, prediction.size) {
        (Some(Direction::Up | Direction::Down), Some(far)) => [way, ", by ", size(far)].concat(),
        _ => way.to_owned(),
    }
}

/// A direction to choose.
pub const fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::Up => "up",
        Direction::Down => "down",
        Direction::Nowhere => "not at all",
    }
}

/// A size to choose.
pub const fn size(size: Size) -> &'static str {
    match size {
        Size::Slight => "less than 0.1",
        Size::Moderate => "0.1 to 1",
        Size::Large => "more than 1",
    }
}

/// What was locked, what happened, and what explains the difference.
pub fn compare(voice: &Voice<'_>, prediction: &Prediction, change: &Change) -> Option<String> {
    let gap = gap(prediction, change, voice.writer.ph_decimals)?;
    let [step, water] = both_moves(voice.writer, change);
    let expected = locked(prediction);
    Some(format!(
        "You locked: {expected}. The pH changed by {step}; in water alone by {water}. {} {} {}",
        explained(voice, gap, change),
        voice.headline(change),
        voice.what_met_what(change),
    ))
}

/// By how much this pH moved and by how much that of water, as the readout shows both.
fn both_moves(writer: Writer, change: &Change) -> [String; 2] {
    let (before, after) = (&change.before, &change.after);
    [(before.ph, after.ph), (before.water, after.water)].map(|(was, is)| {
        moved_by(
            &writer.ph(was),
            &writer.ph(is),
            writer.ph_decimals(),
            writer,
        )
    })
}

/// The sentence that explains the gap.
fn explained(voice: &Voice<'_>, gap: Gap, change: &Change) -> String {
    let (acid, base) = (&voice.names.acid_symbol, &voice.names.base_symbol);
    let (less, more, way) = match change.reagent {
        Reagent::Acid => (base, acid, "down"),
        Reagent::Alkali => (acid, base, "up"),
    };
    let ran_out = matches!(change.outcome(), Outcome::RanOut | Outcome::NothingLeft);
    match gap {
        Gap::None => "As you said.".to_owned(),
        Gap::NotNowhere if ran_out => {
            format!("It cannot stay the same once there is no {less} left to take it up.")
        }
        Gap::NotNowhere => format!(
            "Little is not nothing: {} leaves less {less} and more {more}, so the pH moves a little.",
            ion(change.reagent)
        ),
        Gap::OtherWay => format!(
            "{} leaves less {less} and more {more}: that takes the pH {way}, never the other way.",
            ion(change.reagent)
        ),
        Gap::LessFar => format!(
            "Less far than you said: there is so much {acid} and {base} that their ratio hardly moves."
        ),
        Gap::Further if ran_out => {
            format!("Further than you said: {less} has run out, and nothing else takes it up.")
        }
        Gap::Further => format!(
            "Further than you said: what was added is no longer small beside the {less} that there was."
        ),
    }
}
