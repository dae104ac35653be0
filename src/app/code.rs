//! A link as a code for a camera (QR code, ISO/IEC 18004, error correction level M).

use qrcodegen::{QrCode, QrCodeEcc};

use crate::lesson::markup::escaped;

/// Largest code that a camera reads from a projector or a sheet: modules on a side (version 15).
const LARGEST: i32 = 77;

/// Free modules around it that the standard asks for.
const QUIET: i32 = 4;

/// Pixels of a module, at least: with two and a half, a camera could not read a code from a screen.
const MODULE: i32 = 4;

/// About as wide as a code should be, in pixels.
const WIDTH: i32 = 224;

/// The code of a text as an SVG called `name`; `None` if it would be too fine to read.
pub fn code(text: &str, name: &str) -> Option<String> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let side = code.size();
    if side > LARGEST {
        return None;
    }
    let whole = side + 2 * QUIET;
    // Whole pixels for a module, or their edges blur.
    let width = (whole * MODULE.max(WIDTH / whole)).to_string();
    let whole = whole.to_string();
    let mut svg = ["<svg viewBox=\"0 0 ", &whole, " ", &whole].concat();
    svg.extend(["\" width=\"", &width]);
    svg.extend(["\" role=\"img\" aria-label=\"", &escaped(name)]);
    svg.extend(["\"><path class=\"light\" d=\"M0 0h", &whole, "v", &whole]);
    svg.push_str("H0z\"/><path d=\"");
    for (x, y) in (0..side).flat_map(|y| (0..side).map(move |x| (x, y))) {
        if code.get_module(x, y) {
            let (x, y) = ((x + QUIET).to_string(), (y + QUIET).to_string());
            svg.extend(["M", &x, " ", &y, "h1v1h-1z"]);
        }
    }
    svg.push_str("\"/></svg>");
    Some(svg)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 18004: version 1 has 21 modules on a side, each further one 4 more; finder
    /// patterns are in three corners; 84 bytes at level M take version 5, 412 version 15. From
    /// memory.
    #[test]
    fn sizes_are_those_of_the_standard() {
        let side = |text: &str, modules: i32, module: i32| {
            let whole = modules + 2 * QUIET;
            let width = whole * module;
            let svg = code(text, "a code").unwrap();
            let head = format!("<svg viewBox=\"0 0 {whole} {whole}\" width=\"{width}\"");
            assert!(svg.starts_with(&head), "{modules}");
        };
        side("x", 21, 7);
        side(&"a".repeat(84), 37, 4);
        side(&"a".repeat(412), 77, 4);
        assert_eq!(code(&"a".repeat(2000), ""), None);
        let svg = code("x", "<b>").unwrap();
        for part in ["M4 4h", "M24 4h", "M4 24h", "&lt;b&gt;"] {
            assert!(svg.contains(part), "{part}");
        }
    }
}
