use super::*;

fn mm(text: &str) -> Nm {
    Nm::parse(text).unwrap()
}

/// The six panels fill the shell exactly: BOX-1 to BOX-4, pure geometry (outer volume less inner volume, over the thickness).
#[test]
fn panels_add_up_to_the_shell() {
    for (size, t, closed, expected_mm2) in [
        (["100", "80", "60"], "3", true, 34_792),
        (["200", "150", "100"], "6", true, 119_488),
        (["60", "60", "60"], "2", true, 20_192),
        (["100", "80", "60"], "3", false, 27_836),
    ] {
        for count in 1..=9 {
            let flat = FlatBox::new(size.map(mm), mm(t), closed, Fingers::count(count)).unwrap();
            let twice: i128 = Face::ALL.into_iter().filter_map(|f| flat.panel(f, Fit::EXACT, Nm::ZERO).unwrap()).map(|o| o.twice_area()).sum();
            assert_eq!(twice, 2 * expected_mm2 * 1_000_000_000_000, "{size:?} {closed} {count}");
        }
    }
}

#[test]
fn a_box_thinner_than_its_walls_is_refused() {
    let error = FlatBox::new([mm("100"), mm("6"), mm("60")], mm("3"), true, Fingers::default()).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::ThickerThanBox, "outside y"));
}
