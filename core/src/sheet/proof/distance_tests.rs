use proptest::prelude::*;

use super::{apart, from_edge, over_length};
use crate::Point;
use crate::sheet::proof::edge::Edge;

fn edge(a: [i64; 2], b: [i64; 2]) -> Edge {
    Edge { a: Point::raw(a[0], a[1]), b: Point::raw(b[0], b[1]), straight: true, number: 0 }
}

#[test]
fn known_triangles() {
    // The height of a right triangle of sides 3, 4 and 5 is 12/5.
    assert_eq!(over_length(12, [3, 4]), 2);
    assert_eq!(from_edge(Point::raw(0, 0), &edge([3_000, 0], [0, 4_000])), 2_400);
    // Beside an end, the end counts.
    assert_eq!(from_edge(Point::raw(-3, -4), &edge([0, 0], [9, 1])), 5);
    assert_eq!(apart(&edge([0, 0], [10, 0]), &edge([14, 3], [30, 3])).0, 5);
    assert_eq!(apart(&edge([0, 0], [10, 10]), &edge([0, 10], [10, 0])).0, 0);
    assert_eq!(apart(&edge([0, 0], [10, 10]), &edge([5, 5], [9, 1])).0, 0);
    assert_eq!(over_length(0, [7, -3]), 0);
}

#[test]
fn across_the_widest_span() {
    // Ten metres along both axes, twice: d of the length fit exactly, and one less does not.
    let (x, y, d) = (20_000_000_000i64, 19_999_999_999i64, 14_142_135_623i64);
    let square = i128::from(x) * i128::from(x) + i128::from(y) * i128::from(y);
    let root = square.isqrt();
    let n = i128::from(d) * (root + 1);
    assert_eq!(over_length(n, [x, -y]), d);
    assert_eq!(over_length(i128::from(d) * root, [-x, y]), d - 1);
}

proptest! {
    #[test]
    fn it_is_the_largest_that_fits(n in 0i128..1 << 40, x in -1_000_000i64..1_000_000, y in -1_000_000i64..1_000_000) {
        prop_assume!((x, y) != (0, 0));
        let d = i128::from(over_length(n, [x, y]));
        let square = i128::from(x) * i128::from(x) + i128::from(y) * i128::from(y);
        prop_assert!(d * d * square <= n * n && n * n < (d + 1) * (d + 1) * square);
    }
}
