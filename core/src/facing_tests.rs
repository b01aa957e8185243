use super::*;
use proptest::prelude::*;

fn shape(loops: &[&[(i64, i64)]]) -> Shape {
    Shape::from_loops(loops.iter().map(|points| points.iter().map(|&(x, y)| Point::raw(x, y)).collect::<Vec<_>>()))
}

fn width(loops: &[&[(i64, i64)]]) -> i64 {
    thinnest(&shape(loops)).unwrap().unwrap().width
}

#[test]
fn known_widths() {
    // A tail: its neck is 20 wide, its head 28, 32 long. A shorter one is as thin as it is long, from a corner of its neck.
    assert_eq!(width(&[&[(-40, 0), (-10, 0), (-14, -32), (14, -32), (10, 0), (40, 0), (40, 60), (-40, 60)]]), 20);
    assert_eq!(width(&[&[(-40, 0), (-10, 0), (-12, -16), (12, -16), (10, 0), (40, 0), (40, 60), (-40, 60)]]), 16);
    // A triangle is as thin as its least height: 3, 4, 5 gives 12 / 5 of a unit.
    assert_eq!(width(&[&[(0, 0), (4000, 0), (0, 3000)]]), 2400);
    // A slanted slot near an edge: between the slot's corner and the plate's side.
    assert_eq!(width(&[&[(0, 0), (1000, 0), (1000, 1000), (0, 1000)], &[(100, 500), (500, 900), (530, 870), (130, 470)]]), 100);
    // Two slots whose corners face each other diagonally: 30 and 40 apart.
    let near = [(10, 10), (10, 90), (90, 90), (90, 11)];
    let far = [(120, 130), (119, 200), (190, 200), (190, 131)];
    assert_eq!(width(&[&[(-900, -900), (900, -900), (900, 900), (-900, 900)], &near, &far]), 50);
}

#[test]
fn crossing_edges_are_found() {
    let bow = shape(&[&[(0, 0), (100, 100), (100, 0), (0, 90)]]);
    assert!(thinnest(&bow).is_err());
    // A slot on the plate's edge, over a length.
    assert!(thinnest(&shape(&[&[(0, 0), (100, 0), (120, 100), (0, 100)], &[(10, 0), (10, 50), (50, 50), (50, 0)]])).is_err());
    assert_eq!(thinnest(&Shape::default()), Ok(None));
}

proptest! {
    /// Turned to a slant, a plate with slots is as thin as it was upright, by the other method.
    #[test]
    fn as_the_sweep_finds_it(slots in prop::collection::vec((0i64..9, 1i64..9, 1i64..9), 1..4), wide in 100_000i64..200_000) {
        let mut loops = std::vec![std::vec![(0, 0), (1_000_000, 0), (1_000_000, wide), (0, wide)]];
        for (k, (x, w, y)) in slots.into_iter().enumerate() {
            let (x, y, w) = (k as i64 * 300_000 + x * 10_000 + 20_000, y * wide / 12, w * 9_000);
            loops.push(std::vec![(x, y), (x, y + wide / 13), (x + w, y + wide / 13), (x + w, y)]);
        }
        let upright = Shape::from_loops(loops.iter().map(|l| l.iter().map(|&(x, y)| Point::raw(x, y)).collect::<Vec<_>>()));
        let by_sweep = crate::sweep::thinnest(&crate::edges::Edges::of(&upright, (0, 0))).unwrap().unwrap().width;
        prop_assert_eq!(thinnest(&upright).unwrap().unwrap().width, by_sweep);
        // A turn by 3, 4, 5 that makes everything five times as large.
        let turned = Shape::from_loops(loops.iter().map(|l| l.iter().map(|&(x, y)| Point::raw(4 * x - 3 * y, 3 * x + 4 * y)).collect::<Vec<_>>()));
        prop_assert!((thinnest(&turned).unwrap().unwrap().width - 5 * by_sweep).abs() <= 5);
    }
}
