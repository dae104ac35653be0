//! Mounts the page in place of its first paint.

use evenkeel::ui::App;
use evenkeel::web::page;
use leptos::prelude::*;

fn main() {
    page::dress(page::Wishes::read());
    if let Some(place) = page::take_place() {
        mount_to(place, App).forget();
    }
}
