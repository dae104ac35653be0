//! What is said to a screen reader.

use crate::app::reading::Reading;
use crate::app::state::{BenchEvent, State};
use crate::app::words::addition::Voice;
use crate::app::words::label;
use crate::lesson::sig_fig::Writer;

/// The message for `state`; `before` is the one said last, kept while a button is held down.
pub fn announcement(
    state: &State,
    reading: &Reading,
    before: Option<&str>,
    writer: Writer,
) -> String {
    let told = match &state.desk.guide.heard {
        Some((serial, text)) if *serial == state.serial => Some(text),
        _ => None,
    };
    if state.serial == 0 && told.is_none() {
        return String::new();
    }
    if state.pouring {
        return before.unwrap_or_default().to_owned();
    }
    let ph = || writer.ph(reading.now.ph());
    let text = match (state.event, reading.change(), told) {
        // What the guide says of an addition goes with it: one message.
        (BenchEvent::Added(_), Some(_), Some(told)) => [&label::ph_is(&ph()), " ", told].concat(),
        (_, _, Some(told)) => told.clone(),
        (BenchEvent::Full, ..) => label::FLASK_FULL.to_owned(),
        (BenchEvent::Held, ..) => label::LOCK_FIRST.to_owned(),
        (BenchEvent::Added(_), Some(change), _) => Voice::of(reading, writer).announcement(&change),
        (BenchEvent::SetUp, ..) => label::new_buffer(&ph()),
        (BenchEvent::Jumped | BenchEvent::Added(_), ..) => label::ph_is(&ph()),
    };
    // The same words twice are two messages: a space that nobody hears makes them differ.
    let again = if state.serial.is_multiple_of(2) {
        ""
    } else {
        "\u{a0}"
    };
    text + again
}
