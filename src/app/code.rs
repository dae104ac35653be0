//! A link as a code for a camera (QR code, ISO/IEC 18004, error correction level M).

use qrcodegen::{QrCode, QrCodeEcc};

/// Largest code that a camera reads from a projector or a sheet: modules on a side (version 15).
const LARGEST: i32 = 77;

/// Free modules around it that the standard asks for.
pub const QUIET: i32 = 4;

/// A code: modules on a side without the quiet zone, and its dark modules as the path of an SVG
/// in which the quiet zone's corner is the origin.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Code {
    /// Modules on a side.
    pub side: i32,
    /// The dark ones.
    pub path: String,
}

/// The code of a text; `None` if it would be too fine to read.
pub fn code(text: &str) -> Option<Code> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let side = code.size();
    if side > LARGEST {
        return None;
    }
    let mut path = String::new();
    for y in 0..side {
        for x in 0..side {
            if code.get_module(x, y) {
                let (x, y) = ((x + QUIET).to_string(), (y + QUIET).to_string());
                path.extend(["M", &x, " ", &y, "h1v1h-1z"]);
            }
        }
    }
    Some(Code { side, path })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 18004: version 1 has 21 modules on a side, each further one 4 more; finder
    /// patterns are in three corners. The number of modules for 84 bytes at level M is 37.
    #[test]
    fn sizes_are_those_of_the_standard() {
        assert_eq!(code("x").unwrap().side, 21);
        assert_eq!(code(&"a".repeat(84)).unwrap().side, 37);
        assert_eq!(code(&"a".repeat(412)).unwrap().side, 77);
        assert_eq!(code(&"a".repeat(2000)), None);
        let path = code("x").unwrap().path;
        for corner in ["M4 4h", "M24 4h", "M4 24h"] {
            assert!(path.contains(corner), "{corner}");
        }
    }
}
