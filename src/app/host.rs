//! The page that shows this one in a frame: what it is told, and (in [`asked`]) what it may ask
//! for.
//!
//! Every message is a flat object with `type` and the version `v`; names are added to it, none
//! changes its meaning. There is nothing of a learner in any of them but what became of a
//! question, and that only where the lesson says so: not a word that was typed, no name, no time.

pub mod asked;

use crate::app::bench::Bench;
use crate::app::carried::marks;
use crate::app::host::asked::Refusal;
use crate::app::link;
use crate::app::link::keys::code;
use crate::app::plan::{Feedback, Telling};
use crate::app::reading::Reading;
use crate::app::state::State;
use crate::app::task::Task;
use crate::lesson::why::has_run_out;

/// The version of all messages, those from the host included.
pub const VERSION: u8 = 1;

/// A value in a message.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value {
    /// A number, not rounded.
    Number(f64),
    /// One of our own words.
    Text(&'static str),
    /// Yes or no.
    Flag(bool),
    /// There is none.
    None,
}

/// A message, as its names and values.
pub type Message = Vec<(&'static str, Value)>;

fn message(kind: &'static str, parts: &[(&'static str, Value)]) -> Message {
    let mut message = vec![
        ("type", Value::Text(kind)),
        ("v", Value::Number(VERSION.into())),
    ];
    message.extend_from_slice(parts);
    message
}

/// The page is there and listens. `links` is the version of the links that it opens.
pub fn ready() -> Message {
    message("evenkeel:ready", &[("links", Value::Text(link::VERSION))])
}

/// How high the page is, in pixels: the common message of widgets in frames, in two dialects.
pub fn height(pixels: u32) -> [Message; 2] {
    let height = ("height", Value::Number(pixels.into()));
    let subject = ("subject", Value::Text("lti.frameResize"));
    [message("widget:height", &[height]), vec![subject, height]]
}

/// What is on the bench: amounts in mol, the volume in dm³, pH by its definition. A form is used
/// up when the page says that it has run out.
pub fn bench(bench: &Bench, reading: &Reading) -> Message {
    let (now, particle) = (&reading.now, reading.scale.step);
    let (acid, base) = (now.reserves.acid, now.reserves.base);
    let free = &now.equilibrium;
    let number = Value::Number;
    let used_up = |form| Value::Flag(has_run_out(form, particle));
    message(
        "evenkeel:state",
        &[
            ("pH", number(now.ph().value())),
            ("pHWater", number(now.water.value())),
            ("acidForm", number(acid.mol())),
            ("baseForm", number(base.mol())),
            ("freeH", number(free.free_hydrogen().mol())),
            ("freeOH", number(free.free_hydroxide().mol())),
            ("volume", number(now.volume().dm3())),
            ("addedAcid", number(particle.times(bench.acid).mol())),
            ("addedAlkali", number(particle.times(bench.alkali).mol())),
            ("acidFormUsedUp", used_up(acid)),
            ("baseFormUsedUp", used_up(base)),
        ],
    )
}

/// How a question of the lesson went: the codes are those of links, the marks those of the first
/// tries.
fn result(task: &Task, number: u32, of: u8) -> Message {
    let (own, most) = marks(task);
    let of = (of > 0).then(|| u32::from(of));
    message(
        "evenkeel:result",
        &[
            ("number", Value::Number(number.into())),
            ("of", of.map_or(Value::None, |of| Value::Number(of.into()))),
            ("form", Value::Text(code(task.question.problem.form))),
            ("level", Value::Text(code(task.level))),
            ("marks", Value::Number(own.into())),
            ("most", Value::Number(most.into())),
            ("last", Value::Flag(of.is_some_and(|of| number >= of))),
        ],
    )
}

/// How the questions went that have ended since `before` had: nothing unless the lesson asks for
/// it, and not before the learner is told.
pub fn results(state: &State, before: u32) -> Vec<Message> {
    let practice = &state.desk.practice;
    let new = usize::try_from(practice.ended.wrapping_sub(before)).unwrap_or(0);
    if state.plan.telling != Telling::Results || new == 0 {
        return Vec::new();
    }
    let (finished, of) = (&practice.finished, practice.set.count);
    if of == 0 {
        let ended = practice.task.iter().filter(|task| task.end.is_some());
        return ended
            .map(|task| result(task, practice.number, of))
            .collect();
    }
    let first = match practice.manner.feedback {
        Feedback::AtOnce => finished.len().saturating_sub(new),
        Feedback::AtTheEnd if practice.set_is_over() => 0,
        Feedback::AtTheEnd => finished.len(),
    };
    let numbered = (1..).zip(finished).skip(first);
    numbered
        .map(|(number, task)| result(task, number, of))
        .collect()
}

/// A command was not carried out.
pub fn refused(refusal: Refusal) -> Message {
    message(
        "evenkeel:refused",
        &[("reason", Value::Text(refusal.code()))],
    )
}
