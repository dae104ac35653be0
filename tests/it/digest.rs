//! The native half of the comparison between platforms.

use crate::digest_cases::{EXPECTED, digest};

#[test]
fn every_bit_is_as_it_was() {
    let (ours, count) = digest();
    println!("digest of {count} figures: {ours:#018x} (no source: computed by this code)");
    assert!(count > 2000, "only {count} figures");
    assert_eq!(ours, EXPECTED, "the figures changed: {ours:#018x}");
}
