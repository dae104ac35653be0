//! What a teacher takes away: the link, its code, the frame, files, paper; and a preview of what it opens.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::lesson::draft;
use super::paper::Paper;
use crate::app::code::code;
use crate::app::course::{Edition, file_name, lesson_file, package};
use crate::app::link;
use crate::app::planning::frame;
use crate::app::state::State;
use crate::app::words::teacher as words;
use crate::web::store::{Store, memo_text, react};
use crate::web::{files, page};

/// The address of the draft's page.
fn address(state: &State) -> String {
    let link = draft(state, link::write);
    [page::address().as_str(), &link.written()].concat()
}

/// The part of the panel.
#[component]
pub(super) fn TakeAway() -> impl IntoView {
    let store = Store::get();
    let warning = store.state_text(|s| {
        draft(s, |plan| {
            let link = link::write(plan);
            let notices = link::read(&link.query, &link.fragment).notices;
            words::warning(plan, &notices).to_owned()
        })
    });
    let link = store.typed(address);
    let framed = store.typed(move |s| draft(s, |plan| frame(plan, &link.get())));
    let size = RwSignal::new(words::SIZES[0].0);
    let sizes = words::SIZES.map(|(name, text)| {
        let pressed = move || (size.get() == name).to_string();
        view! {
            <button type="button" class="key" aria-pressed=pressed on:click=move |_| size.set(name)>{text}</button>
        }
        .into_any()
    });
    // Typing makes a link a letter; the preview follows once it is asked for.
    let previewed = RwSignal::new(String::new());
    let preview = move |_| previewed.set(link.get_untracked());
    let none = move || previewed.with(String::is_empty);
    view! {
        <h3>{words::TAKE_AWAY}</h3>
        <p class="warning" role="status">{warning}</p>
        {copied("lesson-link", words::LINK, link)}
        <p class="quiet">{words::WHO_OPENS_IT}</p>
        <Camera link/>
        {copied("lesson-frame", words::FRAME, framed)}
        <Files/>
        <Paper/>
        <div class="back">
            <button type="button" class="key main" on:click=preview>{words::PREVIEW}</button>
            <span class="back" hidden=none>{sizes.collect_view()}</span>
        </div>
        <div class="preview" role="group" aria-label=words::PREVIEW tabindex="0" hidden=none>
            {move || {
                let address = previewed.get();
                (!address.is_empty()).then(|| {
                    view! { <iframe class=move || size.get() title=words::PREVIEW src=address></iframe> }.into_any()
                })
            }}
        </div>
    }
}

/// The link as a code.
#[component]
fn Camera(
    /// The link.
    link: Memo<String>,
) -> impl IntoView {
    let drawn = memo_text(Box::new(move |_| {
        code(&link.get(), words::CODE).unwrap_or_default()
    }));
    let fits = move || !drawn.with(String::is_empty);
    view! {
        <div class="code" inner_html=drawn></div>
        <p class="quiet" hidden=fits>{words::NO_CODE}</p>
    }
}

/// A text that is taken away by copying it.
fn copied(id: &'static str, name: &'static str, text: Memo<String>) -> AnyView {
    let done = RwSignal::new(None);
    let copy = move |_| done.set(Some(page::copy(id)));
    let said = move || done.get().map_or("", words::copied);
    react(Box::new(move || {
        text.track();
        done.set(None);
    }));
    view! {
        <label for=id>{name}</label>
        <div class="copied">
            <input id=id type="text" readonly prop:value=text/>
            <button type="button" class="key" aria-label=[words::COPY, ": ", name].concat() on:click=copy>{words::COPY}</button>
        </div>
        <p class="quiet" role="status">{said}</p>
    }
    .into_any()
}

/// What is downloaded.
#[component]
fn Files() -> impl IntoView {
    let store = Store::get();
    let said = RwSignal::new("");
    let kinds = [None, Some(Edition::Scorm12), Some(Edition::Scorm2004)];
    let buttons = kinds
        .into_iter()
        .zip(words::DOWNLOADS)
        .map(|(edition, name)| {
            let make = move |_| {
                said.set(words::file(None));
                spawn_local(async move {
                    let whole = files::whole().await;
                    let made = whole.is_some_and(|whole| store.peek(|s| save(s, edition, &whole)));
                    said.try_set(words::file(Some(made)));
                });
            };
            view! { <button type="button" class="key" on:click=make>{name}</button> }.into_any()
        });
    view! {
        <h3>{words::FILES}</h3>
        <div class="back">{buttons.collect_view()}</div>
        <p class="quiet">{words::WHAT_IS_TOLD}</p>
        <p role="status">{said}</p>
    }
}

/// Makes the draft's file of `whole` and gives it to the user; whether that went well.
fn save(state: &State, edition: Option<Edition>, whole: &str) -> bool {
    let Some(plan) = &state.desk.draft else {
        return false;
    };
    let Some(html) = lesson_file(whole, &link::write(plan).written()) else {
        return false;
    };
    let name = file_name(edition);
    match edition {
        None => files::save(name, "text/html", html.as_bytes()),
        Some(edition) => {
            let package = package(edition, &plan.name(), &html);
            files::save(name, "application/zip", &package)
        }
    }
}
