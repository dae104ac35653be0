//! The state in a signal, and what is derived from it once for all parts.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::apply::apply;
use crate::app::graph::{self, Range};
use crate::app::picture::Picture;
use crate::app::reading::Reading;
use crate::app::state::State;
use crate::app::words::addition::Voice;
use crate::lesson::sig_fig::Writer;
use crate::scene::chart::Chart;

/// Handle on the state; copied freely, found through context.
#[derive(Clone, Copy)]
pub struct Store {
    state: RwSignal<State>,
    /// The bench, solved.
    pub reading: Memo<Reading>,
    /// The bench in particles.
    pub picture: Memo<Picture>,
    /// The range that the curve covers.
    pub range: Memo<Range>,
    /// The curve; it changes with the recipe and the range only.
    pub chart: Memo<Option<Chart>>,
}

impl Store {
    /// A store around the starting state, provided to every component below.
    pub fn provide() -> Self {
        let state = RwSignal::new(State::default());
        let bench = Memo::new(move |_| state.with(|s| s.bench.clone()));
        let reading = Memo::new(move |_| bench.with(|b| read(b)));
        let detail = Memo::new(move |_| state.with(|s| s.detail));
        let picture = Memo::new(move |_| reading.with(|r| Picture::of(r, detail.get())));
        let range = Memo::new(move |_| reading.with(Range::of));
        let recipe = Memo::new(move |_| state.with(|s| s.bench.recipe.clone()));
        let chart = Memo::new(move |_| {
            recipe.track();
            let range = range.get();
            reading.with_untracked(|r| graph::chart(r, range).ok())
        });
        let store = Self {
            state,
            reading,
            picture,
            range,
            chart,
        };
        provide_context(store);
        store
    }

    /// The store of the components above.
    pub fn get() -> Self {
        expect_context()
    }

    /// Changes the state by `action`.
    pub fn dispatch(self, action: Action) {
        self.state.update(|state| *state = apply(state, action));
    }

    /// A part of the state that re-runs its readers only when it changes.
    ///
    /// Here and below the argument is a plain function, so that every caller shares one
    /// compiled copy: the page is downloaded on bad networks.
    pub fn select<T>(self, part: fn(&State) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.state.with(part))
    }

    /// The same with something to look for.
    pub fn select_for<K, T>(self, key: K, part: fn(&State, K) -> T) -> Memo<T>
    where
        K: Copy + Send + Sync + 'static,
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.state.with(|state| part(state, key)))
    }

    /// "true" or "false" for an attribute.
    pub fn truth<K>(self, key: K, claim: fn(&State, K) -> bool) -> Signal<&'static str>
    where
        K: Copy + Send + Sync + 'static,
    {
        Signal::derive(move || {
            if self.state.with(|state| claim(state, key)) {
                "true"
            } else {
                "false"
            }
        })
    }

    /// A text that follows from the reading.
    pub fn text(self, write: fn(&Reading, Writer) -> String) -> Signal<String> {
        Signal::derive(move || self.reading.with(|reading| write(reading, self.writer())))
    }

    /// A text that follows from the reading and its particles.
    pub fn picture_text(
        self,
        write: fn(&Voice<'_>, &Reading, &Picture) -> String,
    ) -> Signal<String> {
        Signal::derive(move || {
            self.reading.with(|reading| {
                self.picture
                    .with(|picture| write(&voice(reading, self.writer()), reading, picture))
            })
        })
    }

    /// A handler that does one thing, whatever the event was.
    pub fn doing<E>(self, action: Action) -> impl Fn(E) + Clone + 'static {
        move |_| self.dispatch(action.clone())
    }

    /// The state now, without subscribing to it.
    pub fn peek<T>(self, part: impl FnOnce(&State) -> T) -> T {
        self.state.with_untracked(part)
    }

    /// Notation of numbers.
    pub fn writer(self) -> Writer {
        Writer::default()
    }
}

fn read(bench: &crate::app::bench::Bench) -> Reading {
    let setup = bench
        .recipe
        .read()
        .expect("only a recipe that can be read comes on the bench");
    Reading::of(bench, setup).expect("only a mixture that can be solved comes on the bench")
}

/// What sentences about `reading` are written with.
pub fn voice(reading: &Reading, writer: Writer) -> Voice<'_> {
    let pair = &reading.setup.pair;
    let pka = |protons| pair.system().step_from(protons).map(|s| s.pka.value());
    Voice {
        names: &reading.setup.names,
        scale: reading.scale,
        writer,
        next_acid_pka: pka(pair.acid_protons() + 1),
        next_base_pka: pka(pair.base_protons()),
    }
}
