//! Mounts the page in place of its first paint.

use evenkeel::app::link::Opened;
use evenkeel::lesson::conventions::Exchanges;
use evenkeel::ui::{App, AppProps, open};
use evenkeel::web::page;
use leptos::prelude::*;

fn main() {
    match page::link() {
        Some(link) => open(link, start),
        None => start(Opened::default(), Exchanges::default()),
    }
}

fn start(opened: Opened, exchanges: Exchanges) {
    page::dress(opened.plan.look);
    if let Some(place) = page::take_place() {
        mount_to(place, move || App(AppProps { opened, exchanges })).forget();
    }
}
