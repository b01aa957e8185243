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
    dryfit_file: 320, 8 { state: 0 }
    dryfit_point: 16, 8 { x: 0, y: 8 }
    dryfit_error: 232, 8 { status: 0, given_unit: 4, range_unit: 8, given: 16, least: 24, most: 32, parameter: 40, place: 88 }
    dryfit_move: 56, 8 { from: 0, to: 16, centre: 32, bend: 48, swivel: 52 }
    dryfit_joint: 64, 8 { kind: 0, count: 4, parity: 8, first: 12, numerator: 16, denominator: 20, ends: 24, width: 32, spacing: 40, end: 48, least: 56 }
    dryfit_fit: 24, 8 { flank: 0, cheek: 8, tip: 16 }
    dryfit_edge: 144, 8 { joint: 0, run: 64, thickness: 72, depth: 80, fit: 88, kerf: 112, at: 120, side: 136 }
    dryfit_vertex: 24, 8 { at: 0, role: 16 }
    dryfit_knife: 24, 8 { trail: 0, swivel_above: 8, overcut: 16 }
    dryfit_fingers: 256, 8 { state: 0 }
    dryfit_flat_box: 152, 8 { outside: 0, thickness: 24, fingers: 32, fit: 96, kerf: 120, at: 128, top: 144 }
    dryfit_machine: 64, 8 { tool: 0, dynamic: 4, feed: 8, plunge: 16, height: 24, depth: 32, turn_depth: 40, power: 48, speed: 56 }
}

#[cfg(feature = "host")]
layout! {
    dryfit_board: 72, 8 { normal: 0, turned: 4, at: 8, size: 32, thickness: 48, turn: 56, turn_axis: 64 }
    dryfit_opening: 40, 8 { centre: 0, width: 16, height: 24, kind: 32 }
    dryfit_step ["64"]: 32, 8 { board: 0, step: 8, axis: 16, upwards: 20, own: 24 }
    dryfit_box ["64"]: 152, 8 { size: 0, thickness: 24, fingers: 32, clearance: 96, feet: 104, shelves: 112, shelf_count: 120, dividers: 128, into_base: 136, top: 140, inside: 144 }
    dryfit_stock: 48, 8 { thickness: 0, width: 8, height: 16, border: 24, gap: 32, count: 40, grain: 44 }
    dryfit_layout_spec: 32, 8 { seed: 0, share_cuts: 8, unturned: 12, flips: 16, together: 20, grain: 24 }
    dryfit_sheet ["64"]: 72, 8 { stock: 0, placements: 48, cut_length: 56, shared_length: 64 }
    dryfit_placement ["64"]: 32, 8 { part: 0, at: 8, quarter_turns: 24, flipped: 28 }
    dryfit_cutter: 24, 8 { width: 0, trail: 8, tool: 16 }
    dryfit_motion: 184, 8 { cutter: 0, feed: 24, plunge: 32, height: 40, depth: 48, step: 56, light: 64, passes: 72, power: 80, light_power: 88, speed: 96, ramp: 104, swivel_above: 112, overcut: 120, turn_depth: 128, bridges: 136, bridge_width: 144, lead: 152, flat: 160, dynamic: 168, sheet_by_sheet: 172, pause: 176 }
    dryfit_cut: 72, 8 { cutter: 0, fit: 24, web: 48, relief: 56, reach: 64 }
    dryfit_part ["64"]: 168, 8 { thickness: 0, cut_length: 8, area: 16, frame: 24, loops: 152, finished_loops: 160 }
    dryfit_findings ["64"]: 80, 8 { problems: 0, loose_pieces: 8, overlap_max: 16, gap_min: 24, gap_max: 32, thinnest_neck: 40, corner_fillet: 48, shared_length: 56, overlap_volume: 64, void_volume: 72 }
}
