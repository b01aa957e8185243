//! Lines of a file in the making: put together in a small memory, then given to the sink one by one, each as a whole.
//!
//! Nothing here depends on the kind of sink, so a machine of 32 bits holds this code once.

use super::number;
use super::sink::Sink;
use super::text::plain;
use crate::error::Error;

/// Nothing is longer that is put together here: a move with five numbers, two of them seventeen letters long, or a remark of 70 letters with what is around it.
const LONGEST: usize = 100;

/// Lines in the making. What does not fit is left out.
#[derive(Debug)]
pub(crate) struct Lines {
    text: [u8; LONGEST],
    used: u8,
}

impl Lines {
    /// Nothing yet.
    pub(crate) const fn new() -> Lines {
        Lines { text: [0; LONGEST], used: 0 }
    }

    /// One more letter.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn letter(&mut self, letter: u8) {
        if let Some(to) = self.text.get_mut(usize::from(self.used)) {
            *to = letter;
            self.used += 1;
        }
    }

    /// More text.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn put(&mut self, text: &str) {
        self.bytes(text.as_bytes());
    }

    /// The same, which is ASCII.
    fn bytes(&mut self, text: &[u8]) {
        let room = self.text.get_mut(usize::from(self.used)..).unwrap_or(&mut []);
        self.used += text.len().min(room.len()) as u8;
        for (to, from) in room.iter_mut().zip(text) {
            *to = *from;
        }
    }

    /// A number of steps that are so many decimal places small.
    #[inline]
    pub(crate) fn number(&mut self, steps: i64, places: usize) {
        self.bytes(number::digits(&mut [0; number::LONGEST], steps, places));
    }

    /// A word of G-code: a letter and a number with four decimal places.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn word(&mut self, letter: u8, steps: i64) {
        self.letter(b' ');
        self.letter(letter);
        self.number(steps, 4);
    }

    /// A comment of G-code on a line of its own: words of ours, then a text as far as it may stand there.
    pub(crate) fn comment(&mut self, first: &str, text: &str) {
        self.letter(b'(');
        self.put(first);
        plain(text).for_each(|letter| self.letter(letter));
        self.put(")\n");
    }

    /// Gives the lines to a sink, one by one, and begins anew.
    pub(crate) fn send(&mut self, sink: &mut dyn Sink) -> Result<(), Error> {
        let used = usize::from(core::mem::replace(&mut self.used, 0));
        let text = self.text.get(..used).unwrap_or(&[]);
        let mut start = 0;
        for (at, _) in text.iter().enumerate().filter(|&(_, &letter)| letter == b'\n') {
            sink.put(text.get(start..=at).unwrap_or(&[]))?;
            start = at + 1;
        }
        Ok(())
    }

    /// The same of one line, or none.
    pub(crate) fn send_one(&mut self, sink: &mut dyn Sink) -> Result<(), Error> {
        match core::mem::replace(&mut self.used, 0) {
            0 => Ok(()),
            used => sink.put(self.text.get(..usize::from(used)).unwrap_or(&[])),
        }
    }
}
