//! The native test binary.
