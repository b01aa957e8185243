//! How a search reports how far it is, and learns that it should stop.

/// A search calls it now and then with what is done of the whole, 0 to 1; it answers whether to go on. With a clock, the listener is told
/// up to which share of its time this stretch may last, and answers whether it is still earlier than that.
pub(crate) struct Watch<'a> {
    call: &'a mut dyn FnMut(f64) -> bool,
    /// Whether the search goes on until it is stopped; else it takes a number of steps that depends on nothing but its input.
    pub timed: bool,
    from: f64,
    to: f64,
    stopped: bool,
}

impl<'a> Watch<'a> {
    pub fn new(call: &'a mut dyn FnMut(f64) -> bool, timed: bool) -> Watch<'a> {
        Watch { call, timed, from: 0.0, to: 1.0, stopped: false }
    }

    /// Says what is done, 0 to 1. True: go on. Once false, always false.
    pub fn go_on(&mut self, done: f64) -> bool {
        let told = if self.timed { self.to } else { self.from + (self.to - self.from) * done };
        self.stopped = self.stopped || !(self.call)(told);
        !self.stopped
    }

    /// A watch for one stretch of the work, 0 to 1 of which is `from` to `to` of this one.
    pub fn stretch(&mut self, from: f64, to: f64) -> Watch<'_> {
        let at = |part: f64| self.from + (self.to - self.from) * part;
        Watch { from: at(from), to: at(to), timed: self.timed, stopped: self.stopped, call: &mut *self.call }
    }
}
