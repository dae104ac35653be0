//! The browser's half of the core's timing: `core.mjs` calls this from a page in Chromium.

#![allow(
    unsafe_code,
    reason = "a name that JavaScript can call; nothing else here is unsafe"
)]

#[path = "work.rs"]
#[allow(
    dead_code,
    reason = "tasks are told apart by number here, by name natively"
)]
mod work;

use std::cell::OnceCell;

thread_local! {
    static TASKS: OnceCell<Vec<work::Task>> = const { OnceCell::new() };
}

/// Does the task of this number `times` over and returns a pH of it.
#[unsafe(no_mangle)]
pub extern "C" fn run(task: usize, times: usize) -> f64 {
    TASKS.with(|tasks| tasks.get_or_init(work::tasks)[task].run(times))
}

fn main() {
    // Kept so that the program has its start; the work is asked for by name.
    run(0, 1);
}
