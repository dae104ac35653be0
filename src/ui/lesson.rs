//! The teacher's side: what a class opens.

use leptos::prelude::*;

use super::lesson_fields::{coded, convention, listed, tick, typed};
use super::take_away::TakeAway;
use crate::app::desk::DeskAction;
use crate::app::plan::{
    ACCESSES, LONGEST_PROMPT, LONGEST_TITLE, MOST_PROMPTS, MOST_QUESTIONS, PARTS, Plan, TOLERANCES,
    Telling, short_seed,
};
use crate::app::planning::PlanAction;
use crate::app::progress::LEVELS;
use crate::app::state::State;
use crate::app::words::{practice, recipe, teacher as words};
use crate::lesson::markup::html;
use crate::lesson::sums::form::FORMS;
use crate::web::page;
use crate::web::store::Store;

/// What the draft has.
pub(super) fn draft<T: Default>(state: &State, part: impl FnOnce(&Plan) -> T) -> T {
    state.desk.draft.as_ref().map(part).unwrap_or_default()
}

pub(super) fn act(store: Store, action: PlanAction) {
    store.work(DeskAction::Planned(action));
}

/// The panel.
#[component]
pub(super) fn Lesson() -> impl IntoView {
    let store = Store::get();
    store.work(DeskAction::PlanBegun);
    let take = move |_| {
        store.work(DeskAction::BenchTaken);
    };
    let bench =
        store.state_text(|s| draft(s, |plan| html(&recipe::described(&plan.recipe, s.writer()))));
    let [on_bench, shows, questions, written, own] = words::SECTIONS;
    let parts = PARTS.map(|part| {
        listed(
            store,
            words::part(part),
            ACCESSES.map(|a| words::access(a).to_owned()).to_vec(),
            Box::new(move |plan| {
                let place = ACCESSES.iter().position(|a| *a == plan.access(part));
                place.unwrap_or(0)
            }),
            Box::new(move |_, n| PlanAction::AccessChosen(part, ACCESSES[n])),
        )
    });
    let guided = tick(
        store,
        words::GUIDED,
        Box::new(|plan| plan.guided),
        Box::new(|_, yes| PlanAction::GuidedChosen(yes)),
    );
    let title = typed(
        store,
        (words::TITLE.to_owned(), LONGEST_TITLE),
        Box::new(|plan| plan.title.clone()),
        Box::new(|_, text| PlanAction::TitleTyped(text)),
    );
    let prompts = (0..MOST_PROMPTS).map(|place| {
        typed(
            store,
            (words::prompt(place), LONGEST_PROMPT),
            Box::new(move |plan| plan.prompts.get(place).cloned().unwrap_or_default()),
            Box::new(move |_, text| PlanAction::PromptTyped(place, text)),
        )
    });
    view! {
        <div class="panel form lesson">
            <p>{words::INTRODUCTION}</p>
            <p><a class="more" href="teachers.html" target="_blank" rel="noopener">{words::STARTERS}</a></p>
            <details class="choices" open>
                <summary>{on_bench}</summary>
                <p inner_html=bench></p>
                <div><button type="button" class="key" on:click=take>{words::TAKE_BENCH}</button></div>
            </details>
            <details class="choices">
                <summary>{shows}</summary>
                {guided}
                <div class="two">{parts.collect_view()}</div>
            </details>
            <details class="choices"><summary>{questions}</summary><Questions/></details>
            <details class="choices"><summary>{written}</summary><Written/></details>
            <details class="choices">
                <summary>{own}</summary>
                {title}
                {prompts.collect_view()}
            </details>
            <TakeAway/>
        </div>
    }
}

/// The questions.
#[component]
fn Questions() -> impl IntoView {
    let store = Store::get();
    let forms = FORMS.map(|form| {
        tick(
            store,
            practice::form(form),
            Box::new(move |plan| plan.questions.forms.contains(&form)),
            Box::new(move |_, _| PlanAction::FormSwitched(form)),
        )
    });
    let count = listed(
        store,
        words::COUNT,
        (0..=MOST_QUESTIONS).map(words::count).collect(),
        Box::new(|plan| plan.questions.count.into()),
        Box::new(|_, n| PlanAction::CountChosen(u8::try_from(n).unwrap_or(MOST_QUESTIONS))),
    );
    let names = LEVELS.map(practice::level).map(str::to_owned);
    let level = listed(
        store,
        words::LEVEL,
        std::iter::once(practice::AUTO.to_owned())
            .chain(names)
            .collect(),
        Box::new(|plan| {
            let place = LEVELS.iter().position(|l| Some(*l) == plan.questions.level);
            place.map_or(0, |n| n + 1)
        }),
        Box::new(|_, n| PlanAction::LevelChosen(n.checked_sub(1).map(|n| LEVELS[n]))),
    );
    let same = tick(
        store,
        words::SAME,
        Box::new(|plan| plan.questions.seed.is_some()),
        Box::new(|_, yes| PlanAction::SeedChosen(yes.then(|| short_seed(page::seed())))),
    );
    let feedback = coded(
        store,
        words::FEEDBACK,
        words::feedback,
        |plan| plan.questions.feedback,
        |_, feedback| PlanAction::FeedbackChosen(feedback),
    );
    let tell = tick(
        store,
        words::TELL,
        Box::new(|plan| plan.telling == Telling::Results),
        Box::new(|_, yes| {
            PlanAction::TellingChosen(if yes {
                Telling::Results
            } else {
                Telling::Bench
            })
        }),
    );
    view! {
        <fieldset>
            <legend>{words::FORMS}</legend>
            {forms.collect_view()}
        </fieldset>
        {count}
        {level}
        {feedback}
        {same}
        {tell}
    }
}

/// Notation, marking, light.
#[component]
fn Written() -> impl IntoView {
    let store = Store::get();
    let low = usize::from(*TOLERANCES.start());
    let tolerance = listed(
        store,
        words::TOLERANCE,
        TOLERANCES.map(|n| words::tolerance(n, '.')).collect(),
        Box::new(move |plan| usize::from(plan.tolerance.0) - low),
        Box::new(move |_, n| PlanAction::ToleranceChosen(u8::try_from(n + low).unwrap_or(1))),
    );
    let concentration = convention(store, words::CONCENTRATION, words::concentration, |c| {
        &mut c.concentration
    });
    let volume = convention(store, words::VOLUME, words::volume, |c| &mut c.volume);
    let names = convention(store, words::NAMES, words::names, |c| &mut c.names);
    let mark = convention(store, words::MARK, words::mark, |c| &mut c.mark);
    let decimals = convention(store, words::PH_DECIMALS, words::ph_decimals, |c| {
        &mut c.ph_decimals
    });
    let ion = convention(store, words::ION, words::ion, |c| &mut c.ion);
    let by = convention(store, words::PH_BY, words::ph_by, |c| &mut c.ph_by);
    let look = coded(
        store,
        words::LOOK,
        words::look,
        |plan| plan.look,
        |_, look| PlanAction::LookChosen(look),
    );
    view! {
        <div class="two">
            {concentration}{volume}{names}{mark}{ion}{by}{decimals}{tolerance}{look}
        </div>
    }
}
