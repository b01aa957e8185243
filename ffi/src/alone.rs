//! Without std: what becomes of a panic, and where the host layer's memory comes from.

/// There is no panic in the bare layer: `prove-no-panic` shows that by linking. One in the host layer would be a fault of ours, and ends the process.
#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    #[cfg(feature = "prove-no-panic")]
    {
        unsafe extern "C" {
            fn dryfit_error_a_panic_can_be_reached() -> !;
        }
        // SAFETY: there is no such function: a program that could get here does not link.
        unsafe { dryfit_error_a_panic_can_be_reached() }
    }
    #[cfg(all(not(feature = "prove-no-panic"), feature = "host"))]
    {
        unsafe extern "C" {
            fn abort() -> !;
        }
        // SAFETY: abort of the C library may be called at any time.
        unsafe { abort() }
    }
    #[cfg(not(any(feature = "prove-no-panic", feature = "host")))]
    loop {
        core::hint::spin_loop();
    }
}

#[cfg(feature = "host")]
mod memory {
    //! The C library's memory.

    use core::alloc::{GlobalAlloc, Layout};
    use core::ffi::{c_int, c_void};

    unsafe extern "C" {
        fn malloc(size: usize) -> *mut c_void;
        fn realloc(old: *mut c_void, size: usize) -> *mut c_void;
        fn free(old: *mut c_void);
        fn posix_memalign(out: *mut *mut c_void, align: usize, size: usize) -> c_int;
    }

    /// What malloc aligns to.
    const ALIGNED: usize = 2 * size_of::<usize>();

    struct Malloc;

    // SAFETY: malloc, posix_memalign, realloc and free keep the promises that are asked for: memory of the size and alignment or NULL, and no unwinding.
    unsafe impl GlobalAlloc for Malloc {
        unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
            if layout.align() <= ALIGNED {
                // SAFETY: any size may be asked for.
                return unsafe { malloc(layout.size()) }.cast();
            }
            let mut out = core::ptr::null_mut();
            // SAFETY: the alignment is a power of two and larger than a pointer.
            if unsafe { posix_memalign(&mut out, layout.align(), layout.size()) } == 0 { out.cast() } else { core::ptr::null_mut() }
        }

        unsafe fn dealloc(&self, old: *mut u8, _: Layout) {
            // SAFETY: it came from here.
            unsafe { free(old.cast()) }
        }

        unsafe fn realloc(&self, old: *mut u8, layout: Layout, size: usize) -> *mut u8 {
            if layout.align() <= ALIGNED {
                // SAFETY: it came from here.
                return unsafe { realloc(old.cast(), size) }.cast();
            }
            // SAFETY: the size is not 0, and the alignment was good before.
            let new = unsafe { self.alloc(Layout::from_size_align_unchecked(size, layout.align())) };
            if !new.is_null() {
                // SAFETY: both are at least as long, and apart.
                unsafe { core::ptr::copy_nonoverlapping(old, new, layout.size().min(size)) };
                // SAFETY: it came from here.
                unsafe { self.dealloc(old, layout) };
            }
            new
        }
    }

    #[global_allocator]
    static MEMORY: Malloc = Malloc;
}

// The compiler's own parts (128-bit division, lists) come compiled as for programs that unwind and ask for two names of those. Nothing unwinds here, so
// neither is ever called; without them the shared library would not load. Both are weak: what another library of the program brings is taken, and nothing that
// it brings is hidden.
#[cfg(target_os = "linux")]
core::arch::global_asm!(".weak _Unwind_Resume", ".weak rust_eh_personality", "rust_eh_personality:", ".long 0");
