use std::vec::Vec;

use proptest::prelude::*;

use super::{dot, nearest};

fn shares(columns: &[Vec<f64>], wanted: &[f64]) -> Vec<f64> {
    let found = nearest(columns, wanted);
    let mut shares = std::vec![0.0; columns.len()];
    found.picked.iter().zip(&found.shares).for_each(|(&column, &share)| shares[column] = share);
    shares
}

#[test]
fn what_would_be_negative_is_nothing() {
    // Plain least squares would be (-1, 2).
    let columns = [[1.0, 0.0].to_vec(), [1.0, 1.0].to_vec()];
    let found = shares(&columns, &[1.0, 2.0]);
    assert!(found[0] == 0.0 && (found[1] - 1.5).abs() < 1e-12, "{found:?}");
    assert_eq!(shares(&columns, &[-1.0, -2.0]), [0.0, 0.0]);
    assert_eq!(nearest(&[], &[3.0, 4.0]).rest(), 25.0);
}

#[test]
fn of_columns_that_are_alike_the_first_is_taken() {
    let column = [1.0, 2.0, 3.0].to_vec();
    let found = nearest(&[column.clone(), column.iter().map(|value| value * 3.0).collect(), column], &[2.0, 4.0, 6.0]);
    assert_eq!((found.picked, found.shares.len()), (std::vec![0], 1));
    assert!((found.shares[0] - 2.0).abs() < 1e-12);
}

fn tables() -> impl Strategy<Value = (Vec<Vec<f64>>, Vec<f64>)> {
    (1usize..6, 1usize..9).prop_flat_map(|(columns, rows)| {
        let value = -10.0..10.0f64;
        (prop::collection::vec(prop::collection::vec(value.clone(), rows), columns), prop::collection::vec(value, rows))
    })
}

proptest! {
    /// The conditions of Karush, Kuhn and Tucker, which no other shares but the best fulfil: none negative; what has a share stands upright on what is
    /// left; of what has none, more would only make it worse.
    #[test]
    fn nothing_comes_nearer((columns, wanted) in tables()) {
        let found = nearest(&columns, &wanted);
        let shares = shares(&columns, &wanted);
        for (row, &goal) in wanted.iter().enumerate() {
            let made: f64 = columns.iter().zip(&shares).map(|(column, share)| column[row] * share).sum();
            prop_assert!((goal - made - found.residuals[row]).abs() < 1e-7);
        }
        for (column, share) in columns.iter().zip(&shares) {
            prop_assert!(*share >= 0.0);
            let gain = dot(column, &found.residuals);
            let scale = 1e-9 * (1.0 + dot(column, column).sqrt() * dot(&wanted, &wanted).sqrt());
            prop_assert!(if *share > 0.0 { gain.abs() <= scale } else { gain <= scale }, "{} {}", share, gain);
        }
    }
}
