//! What could not be taken from a link as it stands there.

/// One such thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Notice {
    /// The link is of a version that this page does not know.
    UnknownVersion,
    /// This key's value means nothing; the usual one is there.
    Refused(&'static str),
    /// A whole number outside its bounds was moved to the nearer one.
    Clamped(&'static str, u32),
    /// A quantity of the bench outside its bounds was moved to the nearer one.
    OutOfRange(&'static str),
    /// The mixture cannot be made; the usual one is on the bench.
    NoMixture,
    /// The teacher's words are damaged; they are left out.
    TextBroken,
}
