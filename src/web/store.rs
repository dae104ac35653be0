//! The state in a signal, and what is derived from it once for all parts.
//!
//! Components take texts, flags and numbers from here, through boxed functions: then there
//! is one compiled copy of the reactive code for each of these three types, however many
//! places use it, and the page stays small for bad networks.

use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::desk::{DeskAction, work};
use crate::app::picture::Picture;
use crate::app::reading::Reading;
use crate::app::shown::Shown;
use crate::app::state::State;
use crate::app::words::addition::Voice;
use crate::lesson::conventions::{Exchanges, rewritten};
use crate::lesson::sig_fig::Writer;

/// Handle on the state; copied freely, found through context.
///
/// An addition shows in the pH first: whoever reads through [`Self::at_once`] runs again in the
/// same turn, and a frame is painted with little else to do. All others follow in the frame after
/// it, and what they wake in the next; at once where anything but an addition is done.
#[derive(Clone, Copy)]
pub struct Store {
    state: RwSignal<State>,
    /// What the state shows.
    now: Memo<Arc<Shown>>,
    /// The same for those who follow.
    followed: Memo<Arc<Shown>>,
    /// Changes when those who follow are to look at the state again.
    turn: RwSignal<u32>,
    due: StoredValue<Due>,
    /// Whether this handle reads at once.
    is_first: bool,
    /// What the lesson's conventions put in place of what.
    exchanges: StoredValue<Exchanges>,
}

/// How long an addition waits for frames at most.
const WITHOUT_FRAMES: Duration = Duration::from_millis(400);

/// Whether an addition has been followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Due {
    Nothing,
    /// Its pH is not painted yet.
    First,
    /// All else is to follow in the next frame.
    Rest,
}

impl Store {
    /// A store around the starting state, provided to every component below.
    pub fn provide(start: State, exchanges: Exchanges) -> Self {
        let exchanges = StoredValue::new(exchanges);
        let state = RwSignal::new(start);
        let now = Memo::new(move |before: Option<&Arc<Shown>>| {
            Arc::new(state.with(|s| Shown::of(s, before.map(Arc::as_ref))))
        });
        let turn = RwSignal::new(0);
        let followed = Memo::new(move |_| {
            turn.track();
            now.get_untracked()
        });
        let store = Self {
            state,
            now,
            followed,
            turn,
            due: StoredValue::new(Due::Nothing),
            is_first: false,
            exchanges,
        };
        provide_context(store);
        store
    }

    /// The store of the components above.
    pub fn get() -> Self {
        expect_context()
    }

    /// The handle of those who do not wait for the pH to be painted.
    pub const fn at_once(mut self) -> Self {
        self.is_first = true;
        self
    }

    /// Changes the state by `action`.
    #[inline(never)]
    pub fn dispatch(self, action: Action) {
        let is_addition = matches!(action, Action::Added { .. });
        self.state.update(|state| state.take(action));
        // Nobody paints a page that is hidden.
        if is_addition && !document().hidden() {
            self.follow_later();
        } else {
            self.follow();
        }
    }

    /// Lets all others look at the state.
    fn follow(self) {
        self.due.set_value(Due::Nothing);
        self.turn.update(|turn| *turn = turn.wrapping_add(1));
    }

    fn follow_later(self) {
        if self.due.get_value() != Due::Nothing {
            return;
        }
        self.due.set_value(Due::First);
        // Where no frames are painted, out of sight for instance, nothing waits for them.
        let turn = self.turn.get_untracked();
        let follow = move || {
            if self.turn.try_get_untracked() == Some(turn) {
                self.follow();
            }
        };
        set_timeout(follow, WITHOUT_FRAMES);
        request_animation_frame(move || {
            if self.due.get_value() == Due::First {
                self.due.set_value(Due::Rest);
                request_animation_frame(move || {
                    if self.due.get_value() == Due::Rest {
                        self.follow();
                    }
                });
            }
        });
    }

    /// Whether the frame to come is the one that shows an addition's pH: what need not be painted in
    /// it waits.
    pub fn is_first_frame(self) -> bool {
        self.due.get_value() == Due::First
    }

    /// A handler that does one thing, whatever the event was.
    pub fn doing<E>(self, action: Action) -> impl Fn(E) + Clone + 'static {
        move |_| self.dispatch(action.clone())
    }

    /// Changes the state by an action at the desk.
    #[inline(never)]
    pub fn work(self, action: DeskAction) {
        self.state.update(|state| *state = work(state, action));
        self.follow();
    }

    /// A handler that does one thing at the desk.
    pub fn working<E>(self, action: DeskAction) -> impl Fn(E) + Clone + 'static {
        move |_| self.work(action.clone())
    }

    /// The state now, without subscribing to it.
    pub fn peek<T>(self, part: impl FnOnce(&State) -> T) -> T {
        self.state.with_untracked(part)
    }

    fn with<T>(self, part: impl FnOnce(&State) -> T) -> T {
        if self.is_first {
            self.state.with(part)
        } else {
            self.turn.track();
            self.state.with_untracked(part)
        }
    }

    /// What is shown; whoever reads it runs again when it changes.
    pub fn shown<T>(self, part: impl FnOnce(&Shown) -> T) -> T {
        let memo = if self.is_first {
            self.now
        } else {
            self.followed
        };
        memo.with(|shown| part(shown))
    }

    /// What is shown now, without subscribing to it.
    pub fn peek_shown<T>(self, part: impl FnOnce(&Shown) -> T) -> T {
        self.now.with_untracked(|shown| part(shown))
    }

    /// The state and what it shows; whoever reads it runs again when they change.
    pub fn read<T>(self, part: impl FnOnce(&State, &Shown) -> T) -> T {
        self.with(|state| self.shown(|shown| part(state, shown)))
    }

    /// A text in the lesson's conventions.
    pub fn put(self, text: String) -> String {
        self.exchanges
            .with_value(|exchanges| rewritten(text, exchanges))
    }

    /// How numbers are written; a lesson does not change that.
    pub fn writer(self) -> Writer {
        self.peek(State::writer)
    }

    /// A claim about the state; its readers run again only when it changes.
    pub fn flag(self, claim: impl Fn(&State) -> bool + Send + Sync + 'static) -> Memo<bool> {
        self.boxed_flag(Box::new(claim))
    }

    /// The same as "true" or "false", for an attribute.
    pub fn truth(self, claim: impl Fn(&State) -> bool + Send + Sync + 'static) -> Memo<String> {
        self.boxed_state_text(Box::new(move |state| claim(state).to_string()))
    }

    /// A number in the state; its readers run again only when it changes.
    pub fn number(self, part: fn(&State) -> u32) -> Memo<u32> {
        Memo::new(move |_| self.with(part))
    }

    /// A text that follows from the state.
    pub fn state_text(
        self,
        write: impl Fn(&State) -> String + Send + Sync + 'static,
    ) -> Memo<String> {
        self.boxed_state_text(Box::new(write))
    }

    /// What somebody typed, as it stands in the state: nothing in it is exchanged.
    pub fn typed(self, part: impl Fn(&State) -> String + Send + Sync + 'static) -> Memo<String> {
        memo_text(Box::new(move |_| self.with(&part)))
    }

    /// A text that follows from the state and what it shows; the last text is given too.
    #[inline(never)]
    pub fn message(self, write: fn(&State, &Shown, Option<&String>) -> String) -> Memo<String> {
        memo_text(Box::new(move |before| {
            self.put(self.read(|state, shown| write(state, shown, before)))
        }))
    }

    /// A text that follows from the reading.
    pub fn text(
        self,
        write: impl Fn(&Reading, Writer) -> String + Send + Sync + 'static,
    ) -> Memo<String> {
        let writer = self.writer();
        self.shown_text(Box::new(move |shown| write(&shown.reading, writer)))
    }

    /// A text that follows from the reading and its particles.
    pub fn picture_text(self, write: fn(&Voice<'_>, &Reading, &Picture) -> String) -> Memo<String> {
        let writer = self.writer();
        self.shown_text(Box::new(move |s| {
            write(&Voice::of(&s.reading, writer), &s.reading, &s.picture)
        }))
    }

    /// A text that follows from all that is shown.
    #[inline(never)]
    pub fn shown_text(self, write: Box<dyn Fn(&Shown) -> String + Send + Sync>) -> Memo<String> {
        memo_text(Box::new(move |_| self.put(self.shown(&write))))
    }

    #[inline(never)]
    fn boxed_flag(self, claim: Box<dyn Fn(&State) -> bool + Send + Sync>) -> Memo<bool> {
        memo_flag(Box::new(move || self.with(&claim)))
    }

    #[inline(never)]
    fn boxed_state_text(self, write: Box<dyn Fn(&State) -> String + Send + Sync>) -> Memo<String> {
        memo_text(Box::new(move |_| self.put(self.with(&write))))
    }
}

/// Does something now and whenever what it reads changes, in one compiled kind.
#[inline(never)]
pub fn react(mut run: Box<dyn FnMut()>) {
    Effect::new(move |_| run());
}

/// A text worked out anew when what it reads changes, given the last one.
type TextOf = Box<dyn Fn(Option<&String>) -> String + Send + Sync>;

/// A text memo of one compiled kind.
#[inline(never)]
pub fn memo_text(write: TextOf) -> Memo<String> {
    Memo::new(write)
}

/// A flag memo of one compiled kind.
#[inline(never)]
pub fn memo_flag(claim: Box<dyn Fn() -> bool + Send + Sync>) -> Memo<bool> {
    Memo::new(move |_| claim())
}
