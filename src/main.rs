//! Mounts the page in place of its first paint.

use evenkeel::ui::{App, AppProps};
use evenkeel::web::page;
use leptos::prelude::*;

fn main() {
    let opened = page::lesson();
    page::dress(opened.plan.look);
    if let Some(place) = page::take_place() {
        mount_to(place, move || App(AppProps { opened })).forget();
    }
}
