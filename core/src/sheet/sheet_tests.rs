use std::string::ToString;
use std::vec::Vec;

use proptest::prelude::*;

use super::{Item, Layout, LayoutSpec, Placement, Stock};
use crate::joint::{Role, Vertex};
use crate::{Code, Failure, Nm, Point, Shape};

const MM: i64 = 1_000_000;

fn mm(v: i64) -> Nm {
    Nm::new(v * MM).unwrap()
}

fn rectangle(w: i64, h: i64) -> Shape {
    Shape::from_loops([[(0, 0), (w, 0), (w, h), (0, h)].map(|(x, y)| Point::raw(x, y))])
}

/// An L with a hole and a role of its own on every edge that can be told.
fn ell() -> Shape {
    let outer = [(2, 1), (9, 1), (9, 4), (5, 4), (5, 8), (2, 8)].map(|(x, y)| Point::raw(x, y));
    let hole = [(3, 2), (3, 3), (4, 3), (4, 2)].map(|(x, y)| Point::raw(x, y));
    let roles = [Role::Flank, Role::Cheek, Role::Tip, Role::Free];
    let mut shape = Shape::default();
    shape.push(outer.into_iter().zip(roles.into_iter().cycle()).map(|(at, role)| Vertex { at, role }));
    shape.push(hole.into_iter().zip(roles).map(|(at, role)| Vertex { at, role }));
    shape
}

fn stock(w: i64, h: i64, border: i64, gap: i64) -> Stock {
    Stock::new(mm(3), [mm(w), mm(h)], mm(border), mm(gap)).unwrap()
}

fn lay(items: &[Item<'_>], stocks: &[Stock]) -> Result<Layout, Failure> {
    LayoutSpec::default().lay_out(items, stocks, &mut |_| true)
}

/// A layout after a short search, as short each time.
fn hasty(items: &[Item<'_>], stocks: &[Stock]) -> Result<Layout, Failure> {
    let mut calls = 0;
    LayoutSpec::default().lay_out(items, stocks, &mut |_| {
        calls += 1;
        calls < 8
    })
}

fn thick<'a>(name: &'a str, shape: &'a Shape, thickness: i64) -> Item<'a> {
    Item { thickness: Some(mm(thickness)), ..Item::new(name, shape) }
}

#[test]
fn a_border_must_leave_some_sheet() {
    let error = Stock::new(mm(3), [mm(100), mm(60)], mm(30), mm(0)).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::BorderTooWide, "border"));
    assert!(Stock::new(mm(3), [mm(100), mm(60)], Nm::new(30 * MM - 1).unwrap(), mm(0)).is_ok());
    let error = Stock::new(mm(0), [mm(100), mm(60)], mm(3), mm(0)).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::OutOfRange, "thickness"));
    let error = Stock::new(mm(3), [mm(100), mm(0)], mm(3), mm(0)).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::OutOfRange, "sheet height"));
    assert_eq!(Stock::new(mm(3), [mm(100), mm(10)], mm(-1), mm(0)).unwrap_err().parameter, "border");
    assert_eq!(Stock::new(mm(3), [mm(100), mm(10)], mm(1), mm(-1)).unwrap_err().parameter, "gap");
}

#[test]
fn readings_have_an_exact_mean() {
    let readings = [2_450_000, 2_500_001].map(Nm::raw);
    assert_eq!(Stock::mean_thickness(&readings), Ok(Nm::raw(2_475_001)));
    assert_eq!(Stock::mean_thickness(&[]).unwrap_err().parameter, "thickness readings");
    assert_eq!(Stock::mean_thickness(&[mm(3), mm(0)]).unwrap_err().parameter, "thickness reading");
}

#[test]
fn a_part_too_large_is_named() {
    let shape = rectangle(300 * MM, 200 * MM);
    let fail = |w, h| lay(&[thick("front", &shape, 3)], &[stock(w, h, 8, 1)]).unwrap_err();
    let failure = fail(300, 250);
    assert_eq!(failure.error.code, Code::LargerThanSheet);
    assert_eq!(
        failure.to_string(),
        "part \"front\" of 300 mm x 200 mm, at most 284 mm x 234 mm: longer side: 300 mm given, allowed 0 mm to 284 mm: \
         the part does not fit the sheet inside its border"
    );
    assert_eq!(fail(400, 210).error.parameter, "shorter side");
    // It fits exactly, lying or standing.
    for (w, h) in [(316, 216), (216, 316)] {
        let layout = lay(&[thick("front", &shape, 3)], &[stock(w, h, 8, 1)]).unwrap();
        assert_eq!(layout.sheets[0].placements[0].at, Point::raw(8 * MM, 8 * MM));
        assert_eq!(layout.sheets[0].placements[0].quarter_turns, u8::from(w < h));
    }
}

#[test]
fn each_thickness_has_its_own_sheets() {
    let shape = rectangle(30 * MM, 20 * MM);
    let four = Stock::new(mm(4), [mm(100), mm(60)], mm(2), mm(1)).unwrap();
    let parts = [thick("a", &shape, 4), thick("b", &shape, 3), thick("c", &shape, 4)];
    let layout = lay(&parts, &[stock(90, 60, 2, 1), four, stock(400, 400, 0, 0)]).unwrap();
    let mut parts: Vec<Vec<usize>> = layout.sheets.iter().map(|s| s.placements.iter().map(|p| p.part).collect()).collect();
    parts.iter_mut().for_each(|parts| parts.sort_unstable());
    assert_eq!(parts, [[0, 2].as_slice(), &[1]]);
    assert_eq!(layout.sheets[1].stock.width(), mm(90));
    let failure = lay(&[thick("a", &shape, 5)], &[four]).unwrap_err();
    assert_eq!(failure.error.code, Code::WrongThickness);
    assert!(failure.to_string().starts_with("part \"a\": thickness: 5 mm given"), "{failure}");
    assert_eq!(lay(&[thick("a", &shape, 5)], &[]).unwrap_err().error.code, Code::WrongThickness);
}

#[test]
fn nothing_gives_no_sheets() {
    assert_eq!(lay(&[], &[]), Ok(Layout::default()));
    let empty = Shape::default();
    let layout = lay(&[thick("nothing", &empty, 3)], &[stock(90, 60, 2, 1)]).unwrap();
    assert_eq!(layout.sheets[0].placements.len(), 1);
    assert_eq!(layout.cut_length(&[thick("nothing", &empty, 3)]), Ok(0));
    assert_eq!(layout.cut_length(&[]).unwrap_err().parameter, "part");
    assert_eq!(layout.sheets[0].used_height(&[]).unwrap_err().code, Code::OutOfRange);
}

#[test]
fn turns_and_mirrors_keep_loops_and_roles() {
    let shape = ell();
    for quarter_turns in 0..=7 {
        for flipped in [false, true] {
            let placement = Placement { part: 0, at: Point::raw(100, 200), quarter_turns, flipped };
            let placed = placement.place(&shape);
            assert_eq!(placed.twice_area(), shape.twice_area());
            assert_eq!(placed.length(), shape.length());
            let [w, h] = placement.size(&shape);
            assert_eq!(placed.bounds(), (placement.at, Point::new(placement.at.x + w, placement.at.y + h)));
            let hole = placed.loops().nth(1).unwrap();
            assert!(crate::shape::is_hole(hole));
            // The longest edge of each role stays that of its role.
            for role in [Role::Flank, Role::Cheek, Role::Tip, Role::Free] {
                let lengths = |shape: &Shape| {
                    let edges = shape.edges().map(|(a, b)| crate::plane::distance(a, b));
                    // `edges` and `vertices` go in one order.
                    let mut lengths: Vec<i64> = edges.zip(shape.vertices()).filter(|(_, v)| v.role == role).map(|(l, _)| l).collect();
                    lengths.sort_unstable();
                    lengths
                };
                assert_eq!(lengths(&placed), lengths(&shape), "{role:?} {quarter_turns} {flipped}");
            }
        }
    }
    // By hand: mirrored in x, then a quarter turn counter-clockwise, takes (x, y) to (-y, -x).
    let placed = Placement { part: 0, at: Point::default(), quarter_turns: 1, flipped: true }.place(&rectangle(3, 2));
    assert_eq!(placed.bounds().1, Point::raw(2, 3));
    let corner = Placement { part: 0, at: Point::default(), quarter_turns: 1, flipped: true }.place(&ell());
    // The inner corner (5, 4) of the L, box (2, 1) to (9, 8): (8 - 4, 9 - 5).
    assert!(corner.vertices().iter().any(|v| v.at == Point::raw(4, 4)));
}

#[test]
fn groups_keep_together_and_counts_are_kept() {
    let shape = rectangle(40 * MM, 40 * MM);
    // Two sheets' worth for the first group, one each for the others; a sheet holds four.
    let groups = [0, 0, 0, 0, 0, 0, 1, 1, 1, 2, 2, 3];
    let items: Vec<Item<'_>> = groups.into_iter().map(|group| Item { group, ..thick("p", &shape, 3) }).collect();
    let spec = LayoutSpec { together: true, ..LayoutSpec::default() };
    let sheets = |count| stock(90, 90, 2, 1).sheets(count).unwrap();
    let layout = spec.lay_out(&items, &[sheets(4)], &mut |_| true).unwrap();
    let of = |sheet: &super::Sheet| sheet.placements.iter().map(|placement| groups[placement.part]).collect::<Vec<_>>();
    let mut on: Vec<Vec<usize>> = layout.sheets.iter().map(of).collect();
    on.iter_mut().for_each(|groups| groups.sort_unstable());
    assert_eq!(on, [std::vec![0, 0, 0, 0], std::vec![0, 0], std::vec![1, 1, 1], std::vec![2, 2, 3]]);
    assert!(layout.sheets.iter().all(|sheet| sheet.stock == sheets(4)) && layout.unplaced.is_empty());
    // One sheet less, and the last groups are named.
    let layout = spec.lay_out(&items, &[sheets(3)], &mut |_| true).unwrap();
    assert_eq!((layout.sheets.len(), layout.unplaced), (3, std::vec![9, 10, 11]));
}

proptest! {
    #[test]
    fn all_inside_the_border_and_apart(
        sizes in prop::collection::vec((1i64..120, 1i64..90), 0..40),
        (border, gap) in (0i64..20, 0i64..15),
    ) {
        let shapes: Vec<Shape> = sizes.iter().map(|&(w, h)| rectangle(w * MM + 1, h * MM - 1)).collect();
        let parts: Vec<_> = shapes.iter().map(|s| thick("p", s, 3)).collect();
        let stock = stock(161, 140, border, gap);
        let layout = hasty(&parts, &[stock]).unwrap();
        prop_assert_eq!(&hasty(&parts, &[stock]).unwrap(), &layout);
        let mut seen: Vec<usize> = layout.sheets.iter().flat_map(|s| s.placements.iter().map(|p| p.part)).collect();
        seen.sort_unstable();
        prop_assert_eq!(seen, (0..parts.len()).collect::<Vec<_>>());
        for sheet in &layout.sheets {
            let boxes: Vec<_> = sheet.placements.iter().map(|p| p.place(parts[p.part].path).bounds()).collect();
            let (b, g) = (mm(border), mm(gap));
            for (i, (lo, hi)) in boxes.iter().enumerate() {
                prop_assert!(lo.x >= b && lo.y >= b && hi.x <= stock.width() - b && hi.y <= stock.height() - b);
                for (lo2, hi2) in &boxes[..i] {
                    prop_assert!(hi.x + g <= lo2.x || hi2.x + g <= lo.x || hi.y + g <= lo2.y || hi2.y + g <= lo.y);
                }
            }
            let highest = boxes.iter().map(|(_, hi)| hi.y).max().unwrap();
            prop_assert_eq!(sheet.used_height(&parts), Ok(highest + b));
        }
    }
}
