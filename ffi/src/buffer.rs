//! What goes out: one value, or as many as there are into memory of the caller.

use core::ffi::c_char;
use core::mem::MaybeUninit;

use dryfit_core::{Code, Error, Sink};

use crate::given::{Given, Refused, entries};

/// Where one result goes.
pub(crate) struct Out<T>(*mut T);

impl<T> Out<T> {
    /// # Safety
    /// The pointer is NULL or leads to room for a `T` that nobody else uses meanwhile.
    #[cfg(feature = "host")]
    pub unsafe fn new(pointer: *mut T, name: &'static str) -> Result<Out<T>, Error> {
        // SAFETY: as the caller promises.
        Given::asked(|given| unsafe { given.out(pointer, name) })
    }

    /// Fills the room, and gives it to work on.
    pub fn fill<'a>(self, value: T) -> &'a mut T {
        // SAFETY: it was promised room for it that nobody else uses. What stood there is not dropped: it may be anything.
        unsafe { self.0.write(value) };
        // SAFETY: it was just written.
        unsafe { &mut *self.0 }
    }

    pub fn put(self, value: T) {
        // SAFETY: it was promised room for it. What stood there is not dropped: it may be anything.
        unsafe { self.0.write(value) };
    }
}

impl Given {
    /// # Safety
    /// The pointer is NULL or leads to room for a `T` that nobody else uses meanwhile.
    pub unsafe fn out<T>(&mut self, pointer: *mut T, name: &'static str) -> Result<Out<T>, Refused> {
        if pointer.is_null() { Err(self.null(name)) } else { Ok(Out(pointer)) }
    }

    /// # Safety
    /// `out` is NULL or leads to room for so many `T`, and `needed` is NULL or leads to a `size_t`; nobody else uses either meanwhile.
    pub unsafe fn buffer<T>(&mut self, out: *mut T, room: usize, needed: *mut usize) -> Result<Buffer<T>, Refused> {
        if needed.is_null() {
            return Err(self.null("needed"));
        }
        if out.is_null() && room > 0 {
            return Err(self.null("out"));
        }
        Ok(Buffer { out, room, needed })
    }
}

/// Where several results go: `(T *out, size_t cap, size_t *needed)`.
///
/// How many there are goes to `needed` always. With `out` NULL and `cap` 0 that is all. With less room than needed nothing else is written.
pub(crate) struct Buffer<T> {
    out: *mut T,
    room: usize,
    needed: *mut usize,
}

impl<T> Buffer<T> {
    /// # Safety
    /// `out` is NULL or leads to room for so many `T`, and `needed` is NULL or leads to a `size_t`; nobody else uses either meanwhile.
    #[cfg(feature = "host")]
    pub unsafe fn new(out: *mut T, room: usize, needed: *mut usize) -> Result<Buffer<T>, Error> {
        // SAFETY: as the caller promises.
        Given::asked(|given| unsafe { given.buffer(out, room, needed) })
    }

    /// Hands over all that come, if there is room for `count` of them. No more than that are written.
    pub fn fill(self, count: usize, values: impl Iterator<Item = T>) -> Result<(), Error> {
        // SAFETY: it was promised that it leads to a number.
        unsafe { self.needed.write(count) };
        if self.out.is_null() {
            return Ok(());
        }
        if self.room < count {
            return Err(too_small(self.room, count));
        }
        // SAFETY: there is room for `count` entries, and nobody else uses it.
        let out = unsafe { core::slice::from_raw_parts_mut(self.out.cast::<MaybeUninit<T>>(), count) };
        let mut room = out.iter_mut();
        values.for_each(|value| {
            if let Some(to) = room.next() {
                to.write(value);
            }
        });
        Ok(())
    }
}

impl Buffer<c_char> {
    /// Hands over what `written` writes, and a zero after it. It is asked twice: how long it is, and for the bytes.
    pub fn text(self, written: impl Fn(&mut dyn Sink) -> Result<(), Error>) -> Result<(), Error> {
        let mut counted = Counted(0);
        written(&mut counted)?;
        let (out, needed) = (self.out, counted.0 + 1);
        self.fill(needed, core::iter::empty())?;
        if out.is_null() {
            return Ok(());
        }
        let mut bytes = Bytes { out, left: counted.0 };
        written(&mut bytes)?;
        // SAFETY: `fill` has found room for `needed` bytes, and fewer than that are written.
        unsafe { bytes.out.write(0) };
        Ok(())
    }
}

/// Counts bytes.
struct Counted(usize);

impl Sink for Counted {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        self.0 += bytes.len();
        Ok(())
    }
}

/// Memory of the caller, byte by byte.
struct Bytes {
    out: *mut c_char,
    left: usize,
}

impl Sink for Bytes {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        for &byte in bytes.iter().take(self.left) {
            // SAFETY: there is room for `left` more.
            unsafe { self.out.write(byte as c_char) };
            // SAFETY: one behind the last byte at most.
            self.out = unsafe { self.out.add(1) };
        }
        self.left = self.left.saturating_sub(bytes.len());
        Ok(())
    }
}

#[cold]
fn too_small(room: usize, count: usize) -> Error {
    // The same on chips of any width.
    Error::count(Code::BufferTooSmall, "cap", entries(room), entries(count), i64::MAX)
}
