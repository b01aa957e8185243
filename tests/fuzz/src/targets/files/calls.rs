//! The calls of each format under one roof.

use std::ffi::{c_char, c_void};

use dryfit::*;

use super::formats;
use super::writer::{Writer, write};
use crate::made;
use crate::source::Source;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    Gcode,
    Hpgl,
    Svg,
    Dxf,
    Path,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    Begin,
    Cut,
    /// All moves of an edge, the file being the callback's user.
    Edge,
    Line,
    Label,
    Lift,
    Depth,
    Pause,
    Close,
    End,
}

use Act::*;
use Format::*;

impl Act {
    pub fn any(s: &mut Source<'_>) -> Act {
        s.pick(&[Cut, Cut, Cut, Cut, Begin, Edge, Line, Lift, Depth, Pause, Close, Label, End])
    }
}

const NULL: *mut dryfit_error = std::ptr::null_mut();

impl Format {
    pub const ALL: [Format; 5] = [Gcode, Hpgl, Svg, Dxf, Path];

    /// The function's name in C.
    pub fn name(self, act: Act) -> &'static str {
        match (self, act) {
            (Gcode, Begin) => "dryfit_gcode_begin",
            (Gcode, Cut) => "dryfit_gcode_cut",
            (Gcode, Lift) => "dryfit_gcode_lift",
            (Gcode, Depth) => "dryfit_gcode_depth",
            (Gcode, Pause) => "dryfit_gcode_pause",
            (Gcode, End) => "dryfit_gcode_end",
            (Hpgl, Begin) => "dryfit_hpgl_begin",
            (Hpgl, Cut) => "dryfit_hpgl_cut",
            (Hpgl, Line) => "dryfit_hpgl_line",
            (Hpgl, End) => "dryfit_hpgl_end",
            (Svg, Begin) => "dryfit_svg_begin",
            (Svg, Cut) => "dryfit_svg_cut",
            (Svg, Line) => "dryfit_svg_line",
            (Svg, Label) => "dryfit_svg_label",
            (Svg, End) => "dryfit_svg_end",
            (Dxf, Begin) => "dryfit_dxf_begin",
            (Dxf, Cut) => "dryfit_dxf_cut",
            (Dxf, Line) => "dryfit_dxf_line",
            (Dxf, Label) => "dryfit_dxf_label",
            (Dxf, End) => "dryfit_dxf_end",
            (Path, Begin) => "dryfit_path_begin",
            (Path, Cut) => "dryfit_path_cut",
            (Path, Close) => "dryfit_path_close",
            (Path, End) => "dryfit_path_end",
            _ => "dryfit_edge_moves",
        }
    }

    pub fn has(self, act: Act) -> bool {
        self.name(act) != "dryfit_edge_moves"
    }

    pub fn begin(self, s: &mut Source<'_>, file: &mut dryfit_file, writer: &mut Writer, error: *mut dryfit_error) -> i32 {
        let (title, more, user) = (s.text(), s.text(), writer.user());
        let file = if s.null() { std::ptr::null_mut() } else { &raw mut *file };
        let write: dryfit_write = if s.null() { None } else { Some(write) };
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe {
            match self {
                Gcode => {
                    let machine = made::machine(s);
                    dryfit_gcode_begin(file, s.at(&machine), text(s, &title), title.len(), write, user, error)
                }
                Hpgl => dryfit_hpgl_begin(file, write, user, error),
                Svg => {
                    let [width, height] = [(); 2].map(|()| s.number(100_000_000..=1_200_000_000, dryfit_core::bounds::SHEET));
                    dryfit_svg_begin(file, width, height, text(s, &title), title.len(), text(s, &more), more.len(), write, user, error)
                }
                Dxf => dryfit_dxf_begin(file, text(s, &title), title.len(), write, user, error),
                Path => {
                    let (nanometres, parts) =
                        s.pick(&[(1_000_000, 1), (25_400_000, 96), (25_400_000, 72), (1, 1), (1, 1_000_000_000), (0, 1), (1, -1)]);
                    let nanometres = if s.one_in(8) { s.number(1..=1_000_000_000, dryfit_core::bounds::UNIT) } else { nanometres };
                    let corner = made::point(s);
                    dryfit_path_begin(file, nanometres, parts, if s.below(2) == 0 { std::ptr::null() } else { &corner }, write, user, error)
                }
            }
        }
    }

    pub fn cut(self, file: *mut dryfit_file, way: *const dryfit_move) -> i32 {
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { (self.cutter())(file.cast(), way) }
    }

    fn cutter(self) -> unsafe extern "C" fn(*mut c_void, *const dryfit_move) -> i32 {
        match self {
            Gcode => dryfit_gcode_cut,
            Hpgl => dryfit_hpgl_cut,
            Svg => dryfit_svg_cut,
            Dxf => dryfit_dxf_cut,
            Path => dryfit_path_cut,
        }
    }

    pub fn edge(self, edge: &dryfit_edge, file: &mut dryfit_file, error: *mut dryfit_error) -> i32 {
        // SAFETY: the pointers lead to what they should.
        unsafe { dryfit_edge_moves(edge, Some(self.cutter()), (&raw mut *file).cast(), error) }
    }

    pub fn act(self, s: &mut Source<'_>, act: Act, file: &mut dryfit_file, error: *mut dryfit_error) -> i32 {
        let file = if s.null() { std::ptr::null_mut() } else { &raw mut *file };
        let (label, centre) = (s.text(), made::point(s));
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe {
            match (self, act) {
                (Gcode, Lift) => dryfit_gcode_lift(file, error),
                (Gcode, Depth) => {
                    let depth = if s.below(2) == 0 { s.number(1..=10_000_000, dryfit_core::bounds::DEPTH) } else { 0 };
                    let power = if s.below(2) == 0 { s.number(0..=100_000_000, dryfit_core::bounds::POWER) } else { 0 };
                    dryfit_gcode_depth(file, depth, power, error)
                }
                (Gcode, Pause) => dryfit_gcode_pause(file, error),
                (Gcode, _) => dryfit_gcode_end(file, error),
                (Hpgl, Line) => dryfit_hpgl_line(file, s.choice(5), error),
                (Hpgl, _) => dryfit_hpgl_end(file, error),
                (Svg, Line) => dryfit_svg_line(file, s.choice(5), s.choice(2), error),
                (Svg, Label) => {
                    let letters = letters(s);
                    dryfit_svg_label(file, text(s, &label), label.len(), s.at(&centre), letters, error)
                }
                (Svg, _) => dryfit_svg_end(file, error),
                (Dxf, Line) => dryfit_dxf_line(file, s.choice(5), s.choice(2), error),
                (Dxf, Label) => {
                    let letters = letters(s);
                    dryfit_dxf_label(file, text(s, &label), label.len(), s.at(&centre), letters, error)
                }
                (Dxf, _) => dryfit_dxf_end(file, error),
                (Path, Close) => dryfit_path_close(file, error),
                (Path, _) => dryfit_path_end(file, error),
            }
        }
    }

    /// What a callback may try with the file that it serves.
    ///
    /// # Safety
    /// `file` leads to a file of this format, which is in use.
    pub unsafe fn inside(self, file: *mut dryfit_file) -> [i32; 2] {
        let way = dryfit_move { to: dryfit_point { x: 1_000_000, y: 0 }, ..dryfit_move::default() };
        let end = match self {
            Gcode => dryfit_gcode_end,
            Hpgl => dryfit_hpgl_end,
            Svg => dryfit_svg_end,
            Dxf => dryfit_dxf_end,
            Path => dryfit_path_end,
        };
        // SAFETY: as the caller promises.
        unsafe { [(self.cutter())(file.cast(), &way), end(file, NULL)] }
    }

    /// Whether a file that went well to its end is one of the format.
    pub fn whole(self, bytes: &[u8]) {
        let text = std::str::from_utf8(bytes).expect("not UTF-8");
        match self {
            Gcode => formats::gcode(text),
            Hpgl => formats::hpgl(text),
            Svg => formats::svg(text),
            Dxf => formats::dxf(text),
            Path => formats::path(text),
        }
    }

    /// What holds at any time, also of a file whose callback has failed.
    pub fn so_far(self, writer: &Writer) {
        if self == Gcode {
            formats::printable(&writer.bytes);
            formats::whole_lines(&writer.bytes, &writer.ends);
            formats::safe(&writer.bytes);
        }
    }
}

fn text(s: &mut Source<'_>, bytes: &[u8]) -> *const c_char {
    if bytes.is_empty() || s.null() { std::ptr::null() } else { bytes.as_ptr().cast() }
}

fn letters(s: &mut Source<'_>) -> i64 {
    s.number(1_000_000..=20_000_000, dryfit_core::bounds::LENGTH)
}
