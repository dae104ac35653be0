//! The checksum of zip files and of a teacher's words in a link: CRC-32 (ISO 3309, ITU-T V.42).

/// The remainders of the 16 values of half a byte by the polynomial of CRC-32, bits reversed.
/// A table for whole bytes would be 1 KB of the page for nothing that is noticed.
const REMAINDERS: [u32; 16] = {
    let mut table = [0; 16];
    let mut i = 0;
    while i < 16 {
        let mut rest = i;
        let mut bit = 0;
        while bit < 4 {
            rest = rest >> 1 ^ (0xEDB8_8320 * (rest & 1));
            bit += 1;
        }
        table[i as usize] = rest;
        i += 1;
    }
    table
};

/// The CRC-32 of some bytes, as the zip format has it (APPNOTE 4.4.7).
pub fn crc32(bytes: &[u8]) -> u32 {
    let step = |crc: u32, half: u8| crc >> 4 ^ REMAINDERS[((crc ^ u32::from(half)) & 15) as usize];
    !bytes
        .iter()
        .fold(!0, |crc, &byte| step(step(crc, byte), byte >> 4))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn crc_of_the_catalog() {
        // The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC
        // algorithms (R. Williams' "123456789"); from memory.
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
        assert_eq!(crc32(b""), 0);
    }
}
