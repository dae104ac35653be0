//! What the page around a frame may ask for. It can do what a learner can do at the bench, and
//! besides choose light or dark and open another lesson, which it could as well by another address
//! of the frame; what a lesson holds back from learners it holds back from it.

use crate::app::action::{Action, Press};
use crate::app::bench::{FLASK, step_of};
use crate::app::host::VERSION;
use crate::app::link;
use crate::app::link::keys::from_code;
use crate::app::state::State;
use crate::chem::power::whole;
use crate::chem::titration::Reagent;

/// What a command says, as far as each part is of the type that it should be.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asked {
    /// Its version.
    pub version: Option<f64>,
    /// Which command.
    pub command: Option<String>,
    /// To add: which reagent.
    pub reagent: Option<String>,
    /// To add: how much, in mol.
    pub mol: Option<f64>,
    /// Light or dark.
    pub theme: Option<String>,
    /// To open: the lesson, as in a link from its `?` on.
    pub lesson: Option<String>,
}

/// Something to be done.
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// At the bench.
    Act(Action),
    /// The lesson of this query and fragment is to be opened.
    Open(String),
    /// The state is to be told.
    Tell,
}

/// Why a command is not carried out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// It is of another version.
    Version,
    /// There is no such command.
    Command,
    /// A value is missing or means nothing.
    Value,
    /// The guided start waits for the learner's prediction.
    Held,
    /// That much does not fit into the flask.
    Full,
    /// There is nothing to take back.
    Nothing,
    /// This file holds one lesson only, or the frame has no address that could change.
    Fixed,
    /// There were too many commands in a short time.
    TooMany,
}

impl Refusal {
    /// What stands for it in a message.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Version => "version",
            Self::Command => "command",
            Self::Value => "value",
            Self::Held => "held",
            Self::Full => "full",
            Self::Nothing => "nothing",
            Self::Fixed => "fixed",
            Self::TooMany => "too-many",
        }
    }
}

/// Most commands that are carried out before a rest.
pub const MOST_COMMANDS: u32 = 30;

/// Counts commands between two rests, so that a host in a loop does not hold up the page.
#[derive(Debug, Clone, Copy, Default)]
pub struct Allowance(u32);

impl Allowance {
    /// Whether one more command is looked at; `None` once the host was told that it is not.
    pub const fn take(&mut self) -> Option<Result<(), Refusal>> {
        self.0 = self.0.saturating_add(1);
        match self.0 {
            ..=MOST_COMMANDS => Some(Ok(())),
            n if n == MOST_COMMANDS + 1 => Some(Err(Refusal::TooMany)),
            _ => None,
        }
    }

    /// Whether the command just taken was the first.
    pub const fn is_begun(self) -> bool {
        self.0 == 1
    }
}

/// What is to be done. `fixed` says that the page holds its lesson in itself. Pure.
///
/// # Errors
/// Why it is not done.
pub fn read(asked: &Asked, state: &State, fixed: bool) -> Result<Command, Refusal> {
    // The very number: no other is a version.
    if asked.version != Some(VERSION.into()) {
        return Err(Refusal::Version);
    }
    let some = |there: bool, action| {
        let command = Command::Act(action);
        there.then_some(command).ok_or(Refusal::Nothing)
    };
    match asked.command.as_deref() {
        Some("add") => add(asked, state),
        Some("undo") => some(!state.past.is_empty(), Action::Undone),
        Some("redo") => some(!state.future.is_empty(), Action::Redone),
        Some("start-again") => some(state.bench.has_additions(), Action::StartedAgain),
        Some("theme") => {
            let look = asked.theme.as_deref().and_then(from_code);
            let look = look.ok_or(Refusal::Value)?;
            Ok(Command::Act(Action::LookChosen(look)))
        }
        Some("open") if fixed => Err(Refusal::Fixed),
        Some("open") => open(asked.lesson.as_deref()),
        Some("tell") => Ok(Command::Tell),
        _ => Err(Refusal::Command),
    }
}

/// Adds what is asked for in whole steps of the smallest addition, and at least one.
fn add(asked: &Asked, state: &State) -> Result<Command, Refusal> {
    let reagent = match asked.reagent.as_deref() {
        Some("acid") => Reagent::Acid,
        Some("alkali") => Reagent::Alkali,
        _ => return Err(Refusal::Value),
    };
    let mol = asked.mol.filter(|mol| mol.is_finite() && *mol > 0.0);
    let mol = mol.ok_or(Refusal::Value)?;
    if state.desk.guide.holds_additions() {
        return Err(Refusal::Held);
    }
    let setup = state.bench.recipe.read().map_err(|_| Refusal::Value)?;
    let steps = libm::round(mol / step_of(&setup).step.mol());
    // More than the flask holds is too much, however much more.
    let steps = steps.clamp(1.0, f64::from(FLASK) + 1.0);
    let steps = u32::try_from(whole(steps)).unwrap_or(u32::MAX);
    if !state.bench.has_room(steps) {
        return Err(Refusal::Full);
    }
    Ok(Command::Act(Action::Added {
        reagent,
        steps,
        press: Press::Tap,
    }))
}

/// Longest lesson that is looked at: a link with words of the teacher's own.
pub const LONGEST_LESSON: usize = 9000;

/// A lesson that can be opened just as its link has it. Whatever else an address can hold,
/// another page's for one, is no lesson.
fn open(lesson: Option<&str>) -> Result<Command, Refusal> {
    let text = lesson.filter(|text| text.len() <= LONGEST_LESSON);
    let text = text.ok_or(Refusal::Value)?.trim_start_matches('?');
    let (query, fragment) = text.split_once('#').unwrap_or((text, ""));
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._~=&%+".contains(&b);
    let sound = query.bytes().chain(fragment.bytes()).all(plain);
    if !sound || !link::read(query, fragment).notices.is_empty() {
        return Err(Refusal::Value);
    }
    Ok(Command::Open(["?", text].concat()))
}
