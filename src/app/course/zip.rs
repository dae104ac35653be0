//! A zip archive whose files are stored as they are.
//!
//! Layout and field names: PKWARE's APPNOTE, sections 4.3.7 (local header), 4.3.12
//! (central directory), 4.3.16 (its end). Sizes stand in front of each file, never behind
//! it: Java's stream reader refuses stored files whose sizes follow them.

use crate::app::crc::crc32;

/// Version 2.0 of the format: as little as a reader must know.
const VERSION: u16 = 20;
/// Bit 11: names are UTF-8.
const FLAGS: u16 = 1 << 11;
/// Stored, not compressed.
const METHOD: u16 = 0;
/// Midnight of 1 January 1980, the first that can be written: no clock is asked, so the
/// same files give the same archive.
const TIME: u16 = 0;
const DATE: u16 = 1 << 5 | 1;

/// The archive of `files`: a name with `/` between folders, and what is in it.
///
/// # Panics
///
/// Beyond what the format without its extension holds: 65,535 files, 4 GiB, names of 64 KiB.
pub fn stored(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut archive = Vec::new();
    let mut directory = Vec::new();
    for (name, content) in files {
        let place = long(archive.len());
        // What the local header and the directory both say of a file.
        let mut common = Vec::new();
        for field in [VERSION, FLAGS, METHOD, TIME, DATE] {
            put(&mut common, field);
        }
        let size = long(content.len());
        for field in [crc32(content), size, size] {
            common.extend(field.to_le_bytes());
        }
        put(&mut common, short(name.len()));
        put(&mut common, 0); // No extra field.

        archive.extend(b"PK\x03\x04");
        archive.extend(&common);
        archive.extend(name.as_bytes());
        archive.extend(*content);

        directory.extend(b"PK\x01\x02");
        put(&mut directory, VERSION); // Made by.
        directory.extend(&common);
        // Comment, disk, internal attributes: none.
        directory.extend([0; 6]);
        // External attributes: none.
        directory.extend([0; 4]);
        directory.extend(place.to_le_bytes());
        directory.extend(name.as_bytes());
    }
    let (place, size) = (long(archive.len()), long(directory.len()));
    let count = short(files.len());
    archive.append(&mut directory);
    archive.extend(b"PK\x05\x06");
    for field in [0, 0, count, count] {
        put(&mut archive, field);
    }
    archive.extend(size.to_le_bytes());
    archive.extend(place.to_le_bytes());
    put(&mut archive, 0); // No comment.
    archive
}

fn put(bytes: &mut Vec<u8>, field: u16) {
    bytes.extend(field.to_le_bytes());
}

fn short(length: usize) -> u16 {
    u16::try_from(length).expect("a package has few files with short names")
}

fn long(length: usize) -> u32 {
    u32::try_from(length).expect("a package is a few hundred kilobytes")
}
