//! Whether bytes are UTF-8, in a third of the room that the language's own check takes on a chip, which is made to be fast.

/// The bytes as text, if they are.
pub(crate) fn text(bytes: &[u8]) -> Option<&str> {
    if cfg!(target_pointer_width = "64") {
        return core::str::from_utf8(bytes).ok();
    }
    // SAFETY: they are UTF-8.
    is_utf8(bytes).then(|| unsafe { core::str::from_utf8_unchecked(bytes) })
}

/// Letter by letter (The Unicode Standard, table 3-7: well-formed byte sequences).
#[inline(never)]
fn is_utf8(bytes: &[u8]) -> bool {
    // How many bytes a letter has yet, and from where to where the next may be.
    let (mut left, mut low, mut high) = (0, 0x80, 0xBF);
    for &byte in bytes {
        if left > 0 {
            if byte < low || high < byte {
                return false;
            }
            (left, low, high) = (left - 1, 0x80, 0xBF);
            continue;
        }
        match byte {
            0..=0x7F => {}
            0xC2..=0xDF => left = 1,
            0xE0 => (left, low) = (2, 0xA0),
            0xED => (left, high) = (2, 0x9F),
            0xE1..=0xEF => left = 2,
            0xF0 => (left, low) = (3, 0x90),
            0xF4 => (left, high) = (3, 0x8F),
            0xF1..=0xF3 => left = 3,
            _ => return false,
        }
    }
    left == 0
}

#[cfg(test)]
mod tests {
    use super::is_utf8;

    /// Every letter that there is, and every run of bytes up to four of the values where the rules change.
    #[test]
    fn it_says_what_the_language_says() {
        for letter in '\0'..=char::MAX {
            assert!(is_utf8(letter.encode_utf8(&mut [0; 4]).as_bytes()), "{letter:?}");
        }
        const EDGES: [u8; 22] =
            [0, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF, 0xC0, 0xC1, 0xC2, 0xDF, 0xE0, 0xE1, 0xEC, 0xED, 0xEE, 0xEF, 0xF0, 0xF3, 0xF4, 0xF5];
        for index in 0..EDGES.len().pow(4) {
            let place = |power: u32| EDGES[index / EDGES.len().pow(power) % EDGES.len()];
            let bytes = [place(3), place(2), place(1), place(0)];
            for length in 0..=4 {
                let bytes = &bytes[..length];
                assert_eq!(is_utf8(bytes), core::str::from_utf8(bytes).is_ok(), "{bytes:x?}");
            }
        }
    }
}
