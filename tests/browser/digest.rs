//! The browser's half of the comparison between platforms: `digest.mjs` starts this in the
//! browser's own WebAssembly engine, where the figures must be those of the native check.

#[path = "../it/digest_cases.rs"]
mod digest_cases;

use std::process::ExitCode;

fn main() -> ExitCode {
    let (ours, _) = digest_cases::digest();
    if ours == digest_cases::EXPECTED {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
