//! A Rust library of somebody else with std, which unwinds from a panic and goes on.

struct Guard<'a>(&'a mut u32);

impl Drop for Guard<'_> {
    fn drop(&mut self) {
        *self.0 += 1;
    }
}

/// The sum of the numbers below `end`; of more than 100 it panics inside, cleans up, and says 7.
#[unsafe(no_mangle)]
pub extern "C" fn second_sum(end: u32) -> u32 {
    let mut cleaned = 6;
    std::panic::set_hook(Box::new(|_| ()));
    let sum = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        let guard = Guard(&mut cleaned);
        assert!(end <= 100, "too many");
        *guard.0 -= 1;
        (0..end).sum()
    }));
    sum.unwrap_or(cleaned)
}
