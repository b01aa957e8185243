//! Labels in files: whatever the text, the file stays whole.

use super::sink::Sink;
use crate::error::Error;

/// Writes text for XML content and attributes. The five special characters are escaped; control characters and what XML cannot hold become blanks.
pub(crate) fn escaped(sink: &mut impl Sink, text: &str) -> Result<(), Error> {
    // What stands before `rest` is written.
    let mut rest = text;
    let mut ahead = text.char_indices();
    while let Some((at, letter)) = ahead.next() {
        let instead: &[u8] = match letter {
            '<' => b"&lt;",
            '>' => b"&gt;",
            '&' => b"&amp;",
            '"' => b"&quot;",
            '\'' => b"&#39;",
            '\u{fffe}' | '\u{ffff}' => b" ",
            control if control.is_control() => b" ",
            _ => continue,
        };
        let start = text.len() - rest.len();
        sink.put(text.get(start..at).unwrap_or("").as_bytes())?;
        sink.put(instead)?;
        rest = ahead.as_str();
    }
    sink.put(rest.as_bytes())
}

/// So much of a text is shown in a comment.
const SHOWN: usize = 70;

/// The first of a text for a comment of G-code: what could end the comment or have a meaning of its own is left out. (`!`, `~` and `?` are commands to some
/// controllers wherever they stand: common practice, no source.)
pub(crate) fn plain(text: &str) -> impl Iterator<Item = u8> {
    // A letter beyond ASCII counts at its second byte.
    let mut first = 0;
    let letters = text.bytes().filter_map(move |byte| match (core::mem::replace(&mut first, byte), byte) {
        (_, b'(') => Some(b'['),
        (_, b')') => Some(b']'),
        (_, b'%' | b';' | b'!' | b'~' | b'?') => Some(b' '),
        (_, b' '..=b'~') => Some(byte),
        // Control characters, with the second set of them.
        (_, ..=0x7F) | (0xC2, 0x80..0xA0) => Some(b' '),
        (0xC0.., ..0xC0) => Some(b'_'),
        _ => None,
    });
    letters.take(SHOWN)
}
