use std::string::{String, ToString};
use std::vec::Vec;

use proptest::prelude::*;

use super::label::{Font, Spot, spot, text_width};
use super::number::{integer, millimetres};
use super::text::escaped;
use super::{Fixed, Sink, Svg, kerf_svg, panel_svg, sheet_picture, sheet_svg, write_sheet};
use crate::{BoxSpec, Code, Error, Item, LayoutSpec, LineKind, Nm, Point, Shape, Stock};

const MM: i64 = 1_000_000;

fn written(write: impl FnOnce(&mut Vec<u8>) -> Result<(), Error>) -> String {
    let mut bytes = Vec::new();
    write(&mut bytes).unwrap();
    String::from_utf8(bytes).unwrap()
}

fn loops(loops: &[&[(i64, i64)]]) -> Shape {
    Shape::from_loops(loops.iter().map(|ring| ring.iter().map(|&(x, y)| Point::raw(x * MM, y * MM)).collect::<Vec<_>>()))
}

/// The panels of a box with one divider, and a layout of them.
fn job() -> (Vec<(String, Shape)>, Stock) {
    let mm = |v| Nm::from_mm(v).unwrap();
    let mut spec = BoxSpec::outside([mm(110.0), mm(85.0), mm(60.0)], mm(2.5));
    spec.dividers = [1, 0];
    let panels = spec.assembly().unwrap().panels().unwrap();
    let stock = Stock::new(mm(2.5), [mm(500.0), mm(350.0)], mm(8.0), mm(1.0)).unwrap();
    (panels.iter().map(|p| (p.name().to_string(), p.shape().clone())).collect(), stock)
}

#[test]
fn what_has_no_length_draws_nothing() {
    let at = Point::raw(MM, MM);
    let still = crate::Move { from: at, to: at, centre: None, clockwise: true };
    for moves in [&[][..], &[still]] {
        let mut svg = Svg::begin(Vec::new(), Nm::raw(9 * MM), Nm::raw(9 * MM), "t", "d").unwrap();
        svg.moves(LineKind::CutOuter, true, moves.iter().copied()).unwrap();
        assert!(!String::from_utf8(svg.end().unwrap()).unwrap().contains("<path"));
    }
}

#[test]
fn numbers_are_exact_and_short() {
    for (nm, text) in [
        (0, "0"),
        (1, "0.000001"),
        (-1, "-0.000001"),
        (2_500_000, "2.5"),
        (-2_000_000, "-2"),
        (10_000_000_000, "10000"),
        (120_034_000, "120.034"),
        (1_000_001, "1.000001"),
        (i64::MAX, "9223372036854.775807"),
        (i64::MIN, "-9223372036854.775808"),
    ] {
        assert_eq!(written(|out| millimetres(out, nm)), text);
    }
    for value in [0, 7, 10, -10, i64::MAX, i64::MIN] {
        assert_eq!(written(|out| integer(out, value)), value.to_string());
    }
}

#[test]
fn labels_never_break_a_file() {
    let text = written(|out| escaped(out, "a<b> & \"c\" 'd' ]]>\n\t\u{0}\u{7f}\u{85}\u{ffff}é漢-->"));
    assert_eq!(text, "a&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39; ]]&gt;      é漢--&gt;");
    let nasty = "</title><script>\n]]>&";
    let tile = loops(&[&[(0, 0), (90, 0), (90, 40), (0, 40)]]);
    let stock = Stock::new(Nm::raw(3 * MM), [Nm::raw(100 * MM), Nm::raw(50 * MM)], Nm::raw(2 * MM), Nm::ZERO).unwrap();
    let parts = [Item::new(nasty, &tile)];
    let layout = LayoutSpec::default().lay_out(&parts, &[stock], &mut |_| true).unwrap();
    for svg in [sheet_svg(&layout.sheets[0], &parts, nasty).unwrap(), panel_svg(&tile, nasty)] {
        assert_eq!(svg.matches("&lt;/title&gt;&lt;script&gt; ]]&gt;&amp;</").count(), 2, "{svg}");
        assert!(!svg.contains("<script"));
    }
    // In the head, as the part's own and on it.
    let shown = sheet_picture(&layout.sheets[0], &parts, nasty).unwrap();
    assert_eq!((shown.matches("&lt;script&gt;").count(), shown.contains("<script")), (3, false), "{shown}");
    let part = kerf_svg(&tile, &tile, Nm::ZERO, None, nasty);
    assert_eq!((part.matches("&lt;script&gt;").count(), part.contains("<script")), (1, false), "{part}");
}

#[test]
fn a_comment_has_no_double_hyphen() {
    let svg = written(|out| Svg::begin(out, Nm::MAX, Nm::MAX, "", "").and_then(Svg::end).map(|_| ()));
    let comment = svg.split_once("<!--").unwrap().1.split_once("-->").unwrap().0;
    assert!(!comment.contains("--"));
    assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10000mm\" height=\"10000mm\" viewBox=\"0 0 10000 10000\">"));
}

#[test]
fn kinds_have_their_ids_and_no_code_of_colours() {
    assert_eq!(LineKind::ALL.map(LineKind::id), ["mark", "cut-inner", "cut-shared", "cut-outer", "trim"]);
    for kind in LineKind::ALL {
        // Okabe and Ito's vermillion and blue.
        assert!(!["#D55E00", "#0072B2"].contains(&kind.colour()));
        assert_eq!(kind.dashed(), !kind.id().starts_with("cut"));
    }
    assert!(LineKind::ALL.is_sorted());
}

#[test]
fn kinds_come_in_order() {
    let p = Point::raw(MM, MM);
    let mut svg = Svg::begin(Vec::new(), Nm::raw(MM), Nm::raw(MM), "", "").unwrap();
    svg.path(LineKind::CutInner, [p]).unwrap();
    svg.path(LineKind::CutInner, []).unwrap();
    assert_eq!(svg.label("late", p, p.x).unwrap_err().parameter, "line kind");
    assert_eq!(svg.border(p, p).unwrap_err().code, Code::OutOfRange);
    svg.line(LineKind::Trim, [p, Point::raw(3 * MM, 2 * MM), Point::raw(3 * MM, 2 * MM)]).unwrap();
    let text = String::from_utf8(svg.end().unwrap()).unwrap();
    assert!(text.contains("<path d=\"M1 0Z\"/>\n</g>\n<g id=\"trim\""), "{text}");
    assert!(text.ends_with("<path d=\"M1 0L3 -1\"/>\n</g>\n</svg>\n"), "{text}");
}

#[test]
fn a_sheet_has_all_its_groups_in_order() {
    let (shapes, stock) = job();
    let parts: Vec<_> = shapes.iter().map(|(n, s)| Item::new(n, s)).collect();
    let layout = LayoutSpec::default().lay_out(&parts, &[stock], &mut |_| true).unwrap();
    let svg = sheet_svg(&layout.sheets[0], &parts, "Box").unwrap();
    let ids: Vec<&str> = svg.split("<g id=\"").skip(1).map(|rest| rest.split_once('"').unwrap().0).collect();
    assert_eq!(ids, ["border", "mark", "cut-inner", "cut-outer"]);
    assert!(svg.contains("width=\"500mm\" height=\"350mm\" viewBox=\"0 0 500 350\""));
    assert!(svg.contains("<desc>Sheet 500 mm x 350 mm x 2.5 mm, border 8 mm, parts: 7.</desc>"));
    for (name, _) in &shapes {
        assert_eq!(svg.matches(&std::format!(">{name}</text>")).count(), 1);
    }
    let edges: usize = shapes.iter().map(|(_, s)| s.loops().len()).sum();
    assert_eq!(svg.matches("<path").count(), edges + 1);
    // The same file through a fixed buffer, and none through one a byte too small.
    let mut memory = std::vec![0; svg.len()];
    let sink = write_sheet(Fixed::new(&mut memory), &layout.sheets[0], &parts, "Box").unwrap();
    assert_eq!(sink.written(), svg.as_bytes());
    for short in (0..svg.len()).step_by(157).chain([svg.len() - 1]) {
        let sink = Fixed::new(memory.get_mut(..short).unwrap());
        assert_eq!(write_sheet(sink, &layout.sheets[0], &parts, "Box").unwrap_err().code, Code::SinkFull);
    }
    // A list that is not the one laid out.
    assert_eq!(sheet_svg(&layout.sheets[0], &parts[1..], "Box").unwrap_err().parameter, "part");
}

#[test]
fn names_lie_on_solid_board() {
    // A frame: the middle is a hole. An L: the middle is outside.
    let frame = loops(&[&[(0, 0), (100, 0), (100, 60), (0, 60)], &[(15, 15), (15, 45), (85, 45), (85, 15)]]);
    let ell = loops(&[&[(0, 0), (100, 0), (100, 20), (20, 20), (20, 80), (0, 80)]]);
    for shape in [&frame, &ell] {
        let Spot { centre, size } = spot(shape, "front", Font::PLAIN, |_, _| true).unwrap();
        assert!(size.nm() >= 3 * MM, "{size}");
        let half = text_width("front", size.nm()) / 2;
        let (lo, hi) =
            (Point::raw(centre.x.nm() - half, centre.y.nm() - size.nm() / 2), Point::raw(centre.x.nm() + half, centre.y.nm() + size.nm() / 2));
        // No vertex or edge in the rectangle; axis-parallel edges here.
        for (a, b) in shape.edges() {
            let apart = a.x.max(b.x) < lo.x || a.x.min(b.x) > hi.x || a.y.max(b.y) < lo.y || a.y.min(b.y) > hi.y;
            assert!(apart, "{centre:?} {size}");
        }
    }
    // A plain board: the exact middle.
    let plain = loops(&[&[(0, 0), (101, 0), (101, 60), (0, 60)]]);
    assert_eq!(spot(&plain, "front", Font::PLAIN, |_, _| true).unwrap().centre, Point::raw(50_500_000, 30 * MM));
    // A triangle: the long side is sloped.
    let triangle = loops(&[&[(0, 0), (100, 0), (0, 60)]]);
    let Spot { centre, size } = spot(&triangle, "abc", Font::PLAIN, |_, _| true).unwrap();
    let (right, top) = (centre.x.nm() + text_width("abc", size.nm()) / 2, centre.y.nm() + size.nm() / 2);
    assert!(right * 60 + top * 100 < 6000 * MM);
    // No room, no shape, no text.
    assert_eq!(spot(&loops(&[&[(0, 0), (100, 0), (100, 1), (0, 1)]]), "front", Font::PLAIN, |_, _| true), None);
    assert_eq!(spot(&Shape::default(), "front", Font::PLAIN, |_, _| true), None);
    assert_eq!(spot(&plain, " \n", Font::PLAIN, |_, _| true), None);
}

proptest! {
    #[test]
    fn decimals_read_back(nm in any::<i64>(), small in -3_000_000i64..3_000_000) {
        for nm in [nm, small] {
            let text = written(|out| millimetres(out, nm));
            let (sign, digits) = text.strip_prefix('-').map_or((1, text.as_str()), |rest| (-1, rest));
            let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
            prop_assert!(part.len() <= 6 && !part.ends_with('0'));
            let padded = std::format!("{whole}{part:0<6}");
            prop_assert_eq!(sign * padded.parse::<i128>().unwrap(), i128::from(nm));
            prop_assert_eq!(written(|out| integer(out, nm)), nm.to_string());
        }
    }

    #[test]
    fn any_text_is_safe(text in "\\PC*|[\\x00-\\x1f<>&'\"a]*") {
        let out = written(|out| escaped(out, &text));
        prop_assert!(!out.contains(['<', '>', '"', '\'']) && !out.chars().any(char::is_control));
        let back = out.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'").replace("&amp;", "&");
        prop_assert_eq!(back.chars().count(), text.chars().count());
        panel_svg(&Shape::default(), &text);
    }

    #[test]
    fn a_small_buffer_is_full_and_holds_what_fitted(size in 0usize..40, chunks in prop::collection::vec(0usize..20, 0..8)) {
        let mut memory = std::vec![0u8; size];
        let mut sink = Fixed::new(&mut memory);
        let mut used = 0;
        for chunk in chunks {
            let bytes = std::vec![b'x'; chunk];
            match sink.put(&bytes) {
                Ok(()) => used += chunk,
                Err(error) => {
                    prop_assert!(used + chunk > size);
                    prop_assert_eq!(error.code, Code::SinkFull);
                }
            }
            prop_assert_eq!(sink.written().len(), used);
        }
    }
}

#[test]
fn a_cut_is_drawn_as_wide_as_it_is_and_a_close_up_in_its_scale() {
    let tile = loops(&[&[(0, 0), (90, 0), (90, 40), (0, 40)]]);
    let whole = kerf_svg(&tile, &tile, Nm::raw(MM / 2), None, "tile");
    // 0.5 mm of kerf and a margin of 90/80 mm all around.
    assert!(whole.contains("width=\"93.25mm\" height=\"43.25mm\""), "{whole}");
    assert_eq!((whole.matches("stroke-width=\"0.5\"").count(), whole.matches("M1.625 41.625H91.625V1.625H1.625Z").count()), (1, 2), "{whole}");
    let close = kerf_svg(&tile, &tile, Nm::raw(MM / 2), Some(Nm::raw(10 * MM)), "tile");
    assert!(close.contains("width=\"80mm\" height=\"80mm\"") && close.contains("scale(8)"), "{close}");
    // The corner is 0.625 mm from the lower left one of the 10 mm that are shown.
    assert_eq!(close.matches("M0.625 9.375H").count(), 2, "{close}");
    // A square that is larger than the part shows all of it.
    assert_eq!(kerf_svg(&tile, &tile, Nm::raw(MM / 2), Some(Nm::raw(90 * MM)), "tile"), whole);
    assert!(kerf_svg(&Shape::default(), &Shape::default(), Nm::ZERO, None, "").ends_with("</svg>\n"));
    assert!(kerf_svg(&tile, &tile, Nm::MAX, Some(Nm::raw(1)), "").ends_with("</svg>\n"));
}
