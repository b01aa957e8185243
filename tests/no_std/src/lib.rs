//! The core on a machine with no std and no allocator.
//!
//! Built as a static library with a panic handler of its own: if the core pulled std in, there would be two handlers (E0152);
//! if it allocated, "no global memory allocator found". Every exported function is a root of the shared object, so with the
//! feature `prove-no-panic` a panic that any of them could reach leaves an undefined symbol.
#![no_std]

mod blade;
mod boxes;
mod dovetails;
mod files;
mod joints;
mod lengths;
mod motion;

#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    #[cfg(feature = "prove-no-panic")]
    {
        unsafe extern "C" {
            fn dryfit_error_a_panic_can_be_reached() -> !;
        }
        unsafe { dryfit_error_a_panic_can_be_reached() }
    }
    #[cfg(not(feature = "prove-no-panic"))]
    loop {
        core::hint::spin_loop();
    }
}

/// The number of an error, or what was asked for.
fn status(result: Result<i64, dryfit_core::Error>) -> i64 {
    result.unwrap_or_else(|error| -i64::from(error.code.number()))
}

/// The host's arithmetic helpers were compiled for unwinding and name this; nothing ever calls it, as a panic aborts here.
#[unsafe(no_mangle)]
pub extern "C" fn rust_eh_personality() {}
