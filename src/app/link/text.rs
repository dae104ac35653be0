//! A teacher's own words in a link: a title and prompts, as `t=1.checksum.letters`.
//!
//! The letters are base64url (RFC 4648, section 5, unpadded) of the lines in UTF-8, the checksum
//! is the CRC-32 of those bytes (the one of zip files) in hexadecimal. A link that was cut or
//! changed on its way is noticed.

use crate::app::crc::crc32;
use crate::app::plan::{LONGEST_PROMPT, LONGEST_TITLE, MOST_PROMPTS, tidy};

/// The form of this text.
const FORM: &str = "1";

/// Most letters that are looked at: title and prompts at their longest, four bytes a character.
const LONGEST: usize = 8000;

const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// The fragment for a title and prompts; empty without any.
pub fn write(title: &str, prompts: &[String]) -> String {
    let lines = tidied(title, prompts);
    if lines.iter().all(String::is_empty) {
        return String::new();
    }
    let text = lines.join("\n");
    let sum = format!("{:08x}", crc32(text.as_bytes()));
    ["t=", FORM, ".", &sum, ".", &letters(text.as_bytes())].concat()
}

/// The title and prompts of a value; `None` if it is damaged or of another form.
pub fn read(value: &str) -> Option<(String, Vec<String>)> {
    let mut parts = value.splitn(3, '.');
    let (form, sum, letters) = (parts.next()?, parts.next()?, parts.next()?);
    if form != FORM || letters.len() > LONGEST {
        return None;
    }
    let bytes = bytes(letters)?;
    let sum = u32::from_str_radix(sum, 16).ok()?;
    let text = String::from_utf8(bytes).ok()?;
    if crc32(text.as_bytes()) != sum {
        return None;
    }
    let mut lines = text.split('\n');
    let title = tidy(lines.next()?, LONGEST_TITLE);
    let prompts = lines.map(|line| tidy(line, LONGEST_PROMPT));
    let prompts: Vec<_> = prompts.filter(|line| !line.is_empty()).collect();
    Some((title, prompts.into_iter().take(MOST_PROMPTS).collect()))
}

/// The lines as they are kept: title first, no empty prompts.
fn tidied(title: &str, prompts: &[String]) -> Vec<String> {
    let prompts = prompts.iter().map(|prompt| tidy(prompt, LONGEST_PROMPT));
    let prompts = prompts.filter(|prompt| !prompt.is_empty());
    [tidy(title, LONGEST_TITLE)]
        .into_iter()
        .chain(prompts.take(MOST_PROMPTS))
        .collect()
}

fn letters(bytes: &[u8]) -> String {
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let word = [0, 1, 2].map(|i| u32::from(*chunk.get(i).unwrap_or(&0)));
        let word = word[0] << 16 | word[1] << 8 | word[2];
        for place in 0..=chunk.len() {
            let six = word >> (18 - 6 * place) & 63;
            out.push(char::from(LETTERS[six as usize]));
        }
    }
    out
}

fn bytes(letters: &str) -> Option<Vec<u8>> {
    let mut out = Vec::with_capacity(letters.len() / 4 * 3 + 2);
    let (mut word, mut bits) = (0_u32, 0);
    for letter in letters.bytes() {
        let six = LETTERS.iter().position(|known| *known == letter)?;
        word = word << 6 | u32::try_from(six).ok()?;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            out.push(u8::try_from(word >> bits & 255).ok()?);
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648 section 10, without padding.
    #[test]
    fn letters_against_published_vectors() {
        for (text, expected) in [
            ("", ""),
            ("f", "Zg"),
            ("fo", "Zm8"),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg"),
            ("fooba", "Zm9vYmE"),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(letters(text.as_bytes()), expected);
            assert_eq!(bytes(expected).unwrap(), text.as_bytes());
        }
    }
}
