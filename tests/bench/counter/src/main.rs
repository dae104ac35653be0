//! A bare counter: what a page with one number and one button weighs.

use leptos::prelude::*;

fn main() {
    mount_to_body(|| {
        let (count, set_count) = signal(0);
        view! {
            <button on:click=move |_| set_count.update(|count| *count += 1)>"Add one"</button>
            <output>{count}</output>
        }
    });
}
