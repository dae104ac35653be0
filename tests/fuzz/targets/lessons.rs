#![no_main]
libfuzzer_sys::fuzz_target!(
    |text: &[u8]| evenkeel_fuzz::lessons::check(&String::from_utf8_lossy(text))
);
