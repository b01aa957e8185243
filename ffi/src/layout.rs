//! Where each field of each public struct lies. Every build asserts the table, for every chip; tests/c asserts the same one in C.
//!
//! `python3 tests/c/layouts.py --write` writes the table anew from the header. What is marked 64 has pointers or `size_t` in it.

/// On i386 alone an `i64` lies on bounds of four bytes, in C as in Rust.
const NATURAL: bool = align_of::<i64>() == 8;

macro_rules! layout {
    ($($name:ident $([$bits:literal])?: $size:literal, $align:literal { $($field:ident: $offset:literal),* })*) => { $(
        $(#[cfg(target_pointer_width = $bits)])?
        const _: () = {
            use crate::$name;
            assert!(!NATURAL || size_of::<$name>() == $size, concat!("the size of ", stringify!($name), " has changed"));
            assert!(!NATURAL || align_of::<$name>() == $align, concat!("the alignment of ", stringify!($name), " has changed"));
            $(assert!(
                !NATURAL || core::mem::offset_of!($name, $field) == $offset,
                concat!(stringify!($name), ".", stringify!($field), " has moved")
            );)*
        };
    )* };
}

layout! {
    dryfit_file: 256, 8 { state: 0 }
    dryfit_point: 16, 8 { x: 0, y: 8 }
    dryfit_error: 232, 8 { status: 0, given_unit: 4, range_unit: 8, given: 16, least: 24, most: 32, parameter: 40, place: 88 }
    dryfit_move: 56, 8 { from: 0, to: 16, centre: 32, bend: 48, swivel: 52 }
    dryfit_joint: 64, 8 { kind: 0, count: 4, parity: 8, first: 12, numerator: 16, denominator: 20, ends: 24, width: 32, spacing: 40, end: 48, least: 56 }
    dryfit_fit: 24, 8 { flank: 0, cheek: 8, tip: 16 }
    dryfit_edge: 144, 8 { joint: 0, run: 64, thickness: 72, depth: 80, fit: 88, kerf: 112, at: 120, side: 136 }
    dryfit_vertex: 24, 8 { at: 0, role: 16 }
    dryfit_knife: 24, 8 { trail: 0, swivel_above: 8, overcut: 16 }
    dryfit_flat_box: 152, 8 { outside: 0, thickness: 24, fingers: 32, fit: 96, kerf: 120, at: 128, closed: 144 }
    dryfit_machine: 64, 8 { tool: 0, dynamic: 4, feed: 8, plunge: 16, height: 24, depth: 32, turn_depth: 40, power: 48, speed: 56 }
}
