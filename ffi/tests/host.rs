//! A whole job through the C functions, against the same job in Rust.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use std::ffi::{CStr, c_char, c_void};
use std::ptr::{null, null_mut};

use dryfit::*;
use dryfit_core::{BoxSpec, Cutter, Fit, Item, LayoutSpec, MotionSpec, Nm, Parts, Stock, Top, gcode, hpgl, order, sheet_dxf, sheet_svg};

const MM: i64 = DRYFIT_MM;

fn no_error() -> dryfit_error {
    dryfit_error { status: 0, given_unit: 0, range_unit: 0, given: 0, least: 0, most: 0, parameter: [0; 48], place: [0; 144] }
}

fn no_joint() -> dryfit_joint {
    dryfit_joint::default()
}

fn a_box() -> dryfit_box {
    dryfit_box {
        size: [110 * MM, 85 * MM, 60 * MM],
        thickness: 5 * MM / 2,
        fingers: no_joint(),
        clearance: 0,
        feet: 0,
        shelves: null(),
        shelf_count: 0,
        dividers: [2, 1],
        into_base: 0,
        top: DRYFIT_TOP_OPEN,
        inside: 0,
    }
}

/// Gathers what is written.
unsafe extern "C" fn gather(user: *mut c_void, bytes: *const c_char, length: usize) -> i32 {
    let text = unsafe { &mut *user.cast::<Vec<u8>>() };
    text.extend_from_slice(unsafe { std::slice::from_raw_parts(bytes.cast(), length) });
    0
}

fn words(room: &[c_char]) -> &str {
    unsafe { CStr::from_ptr(room.as_ptr()) }.to_str().unwrap()
}

/// Asks how many there are, then for them.
fn all<T: Clone + Default>(mut ask: impl FnMut(*mut T, usize, *mut usize) -> i32) -> Vec<T> {
    let mut needed = 77;
    assert_eq!(ask(null_mut(), 0, &mut needed), DRYFIT_OK);
    let mut out = vec![T::default(); needed + 1];
    let mut again = 78;
    if needed > 0 {
        assert_eq!(ask(out.as_mut_ptr(), needed - 1, &mut again), DRYFIT_BUFFER_TOO_SMALL);
        assert_eq!(again, needed);
    }
    assert_eq!(ask(out.as_mut_ptr(), out.len(), &mut again), DRYFIT_OK);
    assert_eq!(again, needed);
    out.truncate(needed);
    out
}

fn text(mut ask: impl FnMut(*mut c_char, usize, *mut usize) -> i32) -> String {
    let bytes = all(&mut ask);
    assert_eq!(bytes.last(), Some(&0));
    words(&bytes).to_owned()
}

struct Job {
    assembly: *mut dryfit_assembly,
    parts: *mut dryfit_parts,
    layout: *mut dryfit_layout,
}

const FIT: dryfit_fit = dryfit_fit { flank: 30_000, cheek: 100_000, tip: 0 };

fn job() -> Job {
    let mut job = Job { assembly: null_mut(), parts: null_mut(), layout: null_mut() };
    let cutter = dryfit_cutter { width: 180_000, trail: 0, tool: DRYFIT_TOOL_BEAM };
    let cut = dryfit_cut { cutter, fit: FIT, ..dryfit_cut::default() };
    let stock = dryfit_stock { thickness: 5 * MM / 2, width: 400 * MM, height: 300 * MM, border: 8 * MM, gap: MM, count: 0, grain: 0 };
    let mut error = no_error();
    unsafe {
        assert_eq!(dryfit_assembly_of_box(&a_box(), &mut job.assembly, &mut error), 0, "{}", words(&error.place));
        assert_eq!(dryfit_parts_cut(job.assembly, &cut, &mut job.parts, &mut error), 0, "{}", words(&error.place));
        assert_eq!(dryfit_layout_new(job.parts, &stock, 1, null(), None, null_mut(), &mut job.layout, &mut error), 0);
    }
    job
}

impl Drop for Job {
    fn drop(&mut self) {
        unsafe {
            assert_eq!(dryfit_assembly_free(&mut self.assembly), 0);
            assert_eq!(dryfit_parts_free(&mut self.parts), 0);
            assert_eq!(dryfit_layout_free(&mut self.layout), 0);
            // Once more: the pointers are NULL now.
            assert!(self.assembly.is_null() && self.parts.is_null() && self.layout.is_null());
            assert_eq!(dryfit_assembly_free(&mut self.assembly), 0);
            assert_eq!(dryfit_layout_free(null_mut()), 0);
        }
    }
}

fn the_same_in_rust() -> (Vec<dryfit_core::Panel>, Parts, Stock) {
    let mm = |nm| Nm::new(nm).unwrap();
    let mut spec = BoxSpec::outside([mm(110 * MM), mm(85 * MM), mm(60 * MM)], mm(5 * MM / 2));
    (spec.top, spec.dividers) = (Top::Open, [2, 1]);
    let panels = spec.assembly().unwrap().panels().unwrap();
    let fit = Fit::new(mm(FIT.flank), mm(FIT.cheek), mm(FIT.tip)).unwrap();
    let parts = Parts::cut(&panels, Cutter::beam(mm(180_000)).unwrap(), fit, Nm::ZERO).unwrap();
    (panels, parts, Stock::new(mm(5 * MM / 2), [mm(400 * MM), mm(300 * MM)], mm(8 * MM), mm(MM)).unwrap())
}

#[test]
fn parts_are_the_same() {
    let (job, (_, parts, _)) = (job(), the_same_in_rust());
    let mut count = 0;
    assert_eq!(unsafe { dryfit_parts_count(job.parts, &mut count, null_mut()) }, 0);
    assert_eq!(count, parts.iter().count());
    for (number, part) in parts.iter().enumerate() {
        assert_eq!(text(|out, cap, needed| unsafe { dryfit_parts_name(job.parts, number, out, cap, needed, null_mut()) }), part.name());
        let mut found = 99;
        assert_eq!(unsafe { dryfit_parts_find(job.parts, part.name().as_ptr().cast(), part.name().len(), &mut found, null_mut()) }, 0);
        assert_eq!(found, number);
        let mut told = dryfit_part::default();
        assert_eq!(unsafe { dryfit_parts_part(job.parts, number, &mut told, null_mut()) }, 0);
        assert_eq!((told.cut_length, told.area), (part.path().length(), part.finished().area_mm2()));
        assert_eq!(told.frame, part.board().unwrap().frame().matrix());
        for (outline, shape) in [(DRYFIT_OUTLINE_PATH, part.path()), (DRYFIT_OUTLINE_FINISHED, part.finished())] {
            for (number_of_ring, ring) in shape.rings().enumerate() {
                let vertices = all(|out, cap, needed| unsafe {
                    dryfit_parts_vertices(job.parts, number, outline, number_of_ring, out, cap, needed, null_mut())
                });
                let expected: Vec<[i64; 2]> = ring.vertices().iter().map(|vertex| [vertex.at.x.nm(), vertex.at.y.nm()]).collect();
                assert_eq!(vertices.iter().map(|vertex| [vertex.at.x, vertex.at.y]).collect::<Vec<_>>(), expected);
                let moves =
                    all(|out, cap, needed| unsafe { dryfit_parts_moves(job.parts, number, outline, number_of_ring, out, cap, needed, null_mut()) });
                assert_eq!(moves.iter().map(|way| way.from).collect::<Vec<_>>(), vertices.iter().map(|vertex| vertex.at).collect::<Vec<_>>());
                assert!(moves.iter().zip(moves.iter().cycle().skip(1)).all(|(way, next)| way.to == next.from));
            }
        }
    }
}

#[test]
fn proofs_and_order_are_the_same() {
    let (job, (panels, parts, _)) = (job(), the_same_in_rust());
    for expected in [dryfit_core::dry_fit(&panels), dryfit_core::dry_fit_parts(&parts)] {
        let mut report = null_mut();
        let status = unsafe {
            if expected.gap_max == Nm::ZERO {
                dryfit_assembly_dry_fit(job.assembly, &mut report, null_mut())
            } else {
                dryfit_parts_dry_fit(job.parts, &mut report, null_mut())
            }
        };
        assert_eq!(status, 0);
        let mut found = dryfit_findings::default();
        assert_eq!(unsafe { dryfit_report_findings(report, &mut found, null_mut()) }, 0);
        assert_eq!(found.problems, expected.problems.len());
        assert_eq!(
            [found.overlap_max, found.gap_min, found.gap_max, found.thinnest_neck],
            [expected.overlap_max.nm(), expected.gap_min.nm(), expected.gap_max.nm(), expected.thinnest_neck.nm()]
        );
        assert_eq!(found.void_volume, expected.void_volume as f64 / 1e18);
        assert_eq!(unsafe { dryfit_report_free(&mut report) }, 0);
    }
    let steps = all(|out, cap, needed| unsafe { dryfit_assembly_order(job.assembly, out, cap, needed, null_mut()) });
    let expected = order(&panels).unwrap();
    assert_eq!(steps.iter().map(|step| step.board).collect::<Vec<_>>(), expected.iter().map(|step| step.board).collect::<Vec<_>>());
    assert_eq!(
        steps.iter().map(|step| step.upwards == 1).collect::<Vec<_>>(),
        expected.iter().map(|step| step.direction.upwards).collect::<Vec<_>>()
    );
    let names =
        (0..steps.len()).map(|number| text(|out, cap, needed| unsafe { dryfit_assembly_name(job.assembly, number, out, cap, needed, null_mut()) }));
    assert_eq!(names.collect::<Vec<_>>(), panels.iter().map(|panel| panel.name()).collect::<Vec<_>>());
}

#[test]
fn sheets_and_files_are_the_same() {
    let (job, (_, parts, stock)) = (job(), the_same_in_rust());
    let items = Item::of(&parts);
    let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true).unwrap();
    let mut sheets = 0;
    assert_eq!(unsafe { dryfit_layout_sheets(job.layout, &mut sheets, null_mut()) }, 0);
    assert_eq!(sheets, layout.sheets.len());
    let sheet = &layout.sheets[0];
    let placements = all(|out, cap, needed| unsafe { dryfit_layout_placements(job.layout, 0, out, cap, needed, null_mut()) });
    let expected = sheet.placements.iter().map(|lies| (lies.part, lies.at.x.nm(), lies.at.y.nm(), u32::from(lies.quarter_turns)));
    assert_eq!(placements.iter().map(|lies| (lies.part, lies.at.x, lies.at.y, lies.quarter_turns)).collect::<Vec<_>>(), expected.collect::<Vec<_>>());
    let offcuts = all(|out, cap, needed| unsafe { dryfit_layout_offcuts(job.layout, out, cap, needed, null_mut()) });
    assert_eq!(offcuts.len(), layout.offcuts(&items).unwrap().len());
    let mut told = dryfit_sheet::default();
    assert_eq!(unsafe { dryfit_layout_sheet(job.layout, 0, &mut told, null_mut()) }, 0);
    assert_eq!((told.cut_length, told.placements), (sheet.cut_length(&items).unwrap(), sheet.placements.len()));
    let mut report = null_mut();
    let mut found = dryfit_findings::default();
    unsafe {
        assert_eq!(dryfit_layout_check(job.layout, &mut report, null_mut()), 0);
        assert_eq!(dryfit_report_findings(report, &mut found, null_mut()), 0);
        assert_eq!(dryfit_report_free(&mut report), 0);
    }
    assert_eq!((found.problems, found.gap_min), (0, MM));

    let cutter = dryfit_cutter { width: 180_000, trail: 0, tool: DRYFIT_TOOL_BEAM };
    let motion = dryfit_motion { cutter, ..dryfit_motion::default() };
    let plan = sheet.plan(&items, Cutter::beam(Nm::new(180_000).unwrap()).unwrap(), &MotionSpec::default()).unwrap();
    let file = |write: &dyn Fn(*mut c_void) -> i32| {
        let mut bytes: Vec<u8> = Vec::new();
        assert_eq!(write((&raw mut bytes).cast()), 0);
        String::from_utf8(bytes).unwrap()
    };
    let (layout, title, size) = (job.layout, c"Sheet 1".as_ptr(), 7);
    let write = Some(gather as unsafe extern "C" fn(*mut c_void, *const c_char, usize) -> i32);
    unsafe {
        assert_eq!(
            file(&|user| dryfit_layout_svg(layout, 0, null(), title, size, write, user, null_mut())),
            sheet_svg(sheet, &items, "Sheet 1").unwrap()
        );
        assert_eq!(file(&|user| dryfit_layout_gcode(layout, 0, &motion, title, size, write, user, null_mut())), gcode(&plan, "Sheet 1").unwrap());
        assert_eq!(file(&|user| dryfit_layout_hpgl(layout, 0, &motion, write, user, null_mut())), hpgl(&plan).unwrap());
        let dxf = sheet_dxf(sheet, &items, Some(&plan), "Sheet 1").unwrap();
        assert_eq!(file(&|user| dryfit_layout_dxf(layout, 0, &motion, title, size, write, user, null_mut())), dxf);
        let picture = file(&|user| dryfit_assembly_exploded(job.assembly, 40 * MM, write, user, null_mut()));
        assert!(picture.starts_with("<svg") && picture.contains(">divider-x2</text>"));
        assert!(file(&|user| dryfit_parts_svg(job.parts, 0, DRYFIT_OUTLINE_PATH, write, user, null_mut())).starts_with("<svg"));
    }
}

#[test]
fn handles_of_another_kind_are_refused() {
    let job = job();
    let mut error = no_error();
    let mut count = 7;
    unsafe {
        assert_eq!(dryfit_parts_count(job.assembly.cast(), &mut count, &mut error), DRYFIT_WRONG_HANDLE);
        assert_eq!(words(&error.parameter), "parts");
        assert_eq!(dryfit_parts_count(null(), &mut count, &mut error), DRYFIT_NULL_POINTER);
        assert_eq!(dryfit_layout_sheets(job.parts.cast(), &mut count, &mut error), DRYFIT_WRONG_HANDLE);
        let mut zeros = [0u64; 8];
        let mut forged: *mut dryfit_parts = zeros.as_mut_ptr().cast();
        assert_eq!(dryfit_parts_free(&mut forged), DRYFIT_WRONG_HANDLE);
        assert!(!forged.is_null());
    }
    assert_eq!(count, 7);
}

/// What is refused leaves the assembly as it was, and says where.
#[test]
fn refusals_say_where() {
    let (mut assembly, mut error) = (null_mut(), no_error());
    let board = dryfit_board { normal: DRYFIT_AXIS_Z, size: [50 * MM, 40 * MM], thickness: 2 * MM, ..dryfit_board::default() };
    unsafe {
        assert_eq!(dryfit_assembly_new(&mut assembly, &mut error), 0);
        assert_eq!(dryfit_assembly_add(assembly, c"floor".as_ptr(), 5, &board, &mut error), 0);
        assert_eq!(dryfit_assembly_add(assembly, c"floor".as_ptr(), 5, &board, &mut error), DRYFIT_NAME_TAKEN);
        assert_eq!((words(&error.place), words(&error.parameter)), ("board \"floor\"", "name"));
        let thin = dryfit_board { thickness: 1, ..board };
        assert_eq!(dryfit_assembly_add(assembly, c"thin".as_ptr(), 4, &thin, &mut error), DRYFIT_OUT_OF_RANGE);
        let message = text(|out, cap, needed| dryfit_error_message(&error, out, cap, needed));
        assert_eq!(message, "board \"thin\": thickness: 0.000001 mm given, allowed 0.01 mm to 200 mm");
        let odd = dryfit_board { normal: 3, ..board };
        assert_eq!(dryfit_assembly_add(assembly, c"odd".as_ptr(), 3, &odd, &mut error), DRYFIT_OUT_OF_RANGE);
        assert_eq!((words(&error.parameter), error.given, error.most), ("normal", 3, 2));
        let spun = dryfit_board { turned: 1, turn: 361 * DRYFIT_DEGREE, ..board };
        assert_eq!(dryfit_assembly_add(assembly, c"spun".as_ptr(), 4, &spun, &mut error), DRYFIT_OUT_OF_RANGE);
        let message = text(|out, cap, needed| dryfit_error_message(&error, out, cap, needed));
        assert_eq!(message, "turn: 361 deg given, allowed -360 deg to 360 deg");
        let mut count = 0;
        assert_eq!(dryfit_assembly_count(assembly, &mut count, &mut error), 0);
        assert_eq!(count, 1);
        assert_eq!(dryfit_assembly_free(&mut assembly), 0);
    }
}

/// A callback's number stops the work and comes back; one that ends the search leaves the best so far.
#[test]
fn callbacks_stop_the_work() {
    unsafe extern "C" fn refuse(user: *mut c_void, _: *const c_char, _: usize) -> i32 {
        let left = unsafe { &mut *user.cast::<i32>() };
        *left -= 1;
        if *left < 0 { -4711 } else { 0 }
    }
    unsafe extern "C" fn enough(_: *mut c_void, _: f64) -> i32 {
        1
    }
    let job = job();
    let stock = dryfit_stock { thickness: 5 * MM / 2, width: 400 * MM, height: 300 * MM, ..dryfit_stock::default() };
    let mut layout = null_mut();
    unsafe {
        for mut left in [0, 1, 5] {
            assert_eq!(dryfit_layout_svg(job.layout, 0, null(), null(), 0, Some(refuse), (&raw mut left).cast(), null_mut()), -4711);
        }
        assert_eq!(dryfit_layout_new(job.parts, &stock, 1, null(), Some(enough), null_mut(), &mut layout, null_mut()), 0);
        assert_eq!(dryfit_layout_free(&mut layout), 0);
        let narrow = dryfit_stock { width: 20 * MM, ..stock };
        let mut error = no_error();
        assert_eq!(dryfit_layout_new(job.parts, &narrow, 1, null(), None, null_mut(), &mut layout, &mut error), DRYFIT_LARGER_THAN_SHEET);
        assert!(layout.is_null() && words(&error.place).contains("front"));
    }
}
