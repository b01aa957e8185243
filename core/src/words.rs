//! Texts put together from parts.

/// As the macro of the same name, whose function comes compiled for programs that unwind: a C library without std would miss `_Unwind_Resume`.
/// This one is compiled with the rest.
macro_rules! format {
    ($($part:tt)*) => {{
        let mut text = alloc::string::String::new();
        // Room is made as it is needed: nothing is refused.
        let _ = core::fmt::Write::write_fmt(&mut text, core::format_args!($($part)*));
        text
    }};
}
pub(crate) use format;
