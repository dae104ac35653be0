//! Digits above the line, as in 10⁻³.

/// 0 to 9.
const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];

/// The digit that a superscript stands for; `None` for any other character.
pub fn digit(c: char) -> Option<char> {
    let value = RAISED.iter().position(|raised| *raised == c)?;
    char::from_digit(u32::try_from(value).ok()?, 10)
}

/// An integer in superscript characters.
pub fn superscript(value: i32) -> String {
    let raised = |c: char| match c.to_digit(10) {
        Some(value) => RAISED[value as usize],
        None => '⁻',
    };
    value.to_string().chars().map(raised).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        assert_eq!(superscript(-1_234_567_890), "⁻¹²³⁴⁵⁶⁷⁸⁹⁰");
        let back: Option<String> = superscript(1_234_567_890).chars().map(digit).collect();
        assert_eq!(back.as_deref(), Some("1234567890"));
        for other in ['1', '₁', '⁻', '⁺', '\u{2071}'] {
            assert_eq!(digit(other), None);
        }
    }
}
