//! A Rust library of somebody else, without std as well, with a heap and a panic of its own.
#![no_std]

extern crate alloc;

use alloc::vec::Vec;
use core::alloc::{GlobalAlloc, Layout};

unsafe extern "C" {
    fn abort() -> !;
    fn malloc(size: usize) -> *mut u8;
    fn free(block: *mut u8);
}

struct Malloc;

// SAFETY: the layouts asked for here need no more alignment than malloc gives.
unsafe impl GlobalAlloc for Malloc {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        unsafe { malloc(layout.size()) }
    }
    unsafe fn dealloc(&self, block: *mut u8, _: Layout) {
        unsafe { free(block) }
    }
}

#[global_allocator]
static HEAP: Malloc = Malloc;

#[panic_handler]
fn panic(_: &core::panic::PanicInfo) -> ! {
    unsafe { abort() }
}

/// The sum of the numbers below `end`; of more than 100 it panics.
#[unsafe(no_mangle)]
pub extern "C" fn second_sum(end: u32) -> u32 {
    assert!(end <= 100, "too many");
    (0..end).collect::<Vec<u32>>().iter().sum()
}
