//! Where the bytes of a file go.

use crate::error::{Code, Error};

/// Takes the bytes of a file, in order.
///
/// ```
/// use dryfit_core::{Code, Error, Sink};
/// struct Count(usize);
/// impl Sink for Count {
///     fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
///         self.0 += bytes.len();
///         Ok(())
///     }
/// }
/// let mut count = Count(0);
/// count.put(b"abc")?;
/// assert_eq!(count.0, 3);
/// # Ok::<(), Error>(())
/// ```
pub trait Sink {
    /// Takes all of `bytes`.
    ///
    /// # Errors
    /// [`Code::SinkFull`] where it cannot; the file is then incomplete.
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error>;
}

impl<S: Sink + ?Sized> Sink for &mut S {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        (**self).put(bytes)
    }
}

#[cfg(feature = "alloc")]
impl Sink for alloc::vec::Vec<u8> {
    /// Never fails.
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        self.extend_from_slice(bytes);
        Ok(())
    }
}

/// A sink of fixed size over memory of the caller.
///
/// ```
/// use dryfit_core::{Code, Fixed, Sink};
/// let mut memory = [0; 4];
/// let mut sink = Fixed::new(&mut memory);
/// sink.put(b"abc")?;
/// assert_eq!(sink.put(b"de").unwrap_err().code, Code::SinkFull);
/// assert_eq!(sink.written(), b"abc");
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Debug)]
pub struct Fixed<'a> {
    memory: &'a mut [u8],
    used: usize,
}

impl<'a> Fixed<'a> {
    /// An empty sink that holds as many bytes as `memory`.
    pub const fn new(memory: &'a mut [u8]) -> Fixed<'a> {
        Fixed { memory, used: 0 }
    }

    /// What was taken so far.
    pub fn written(&self) -> &[u8] {
        self.memory.get(..self.used).unwrap_or(&[])
    }
}

impl Sink for Fixed<'_> {
    /// Takes all of `bytes` or none.
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        let end = self.used.saturating_add(bytes.len());
        match self.memory.get_mut(self.used..end) {
            Some(free) => {
                for (to, from) in free.iter_mut().zip(bytes) {
                    *to = *from;
                }
                self.used = end;
                Ok(())
            }
            None => Err(full(end, self.memory.len())),
        }
    }
}

#[cold]
fn full(needed: usize, capacity: usize) -> Error {
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    Error::count(Code::SinkFull, "bytes", count(needed), 0, count(capacity))
}
