use super::*;
use crate::{Code, DovetailCorner, Fixed, Ratio};
use std::string::String;
use std::vec::Vec;

fn sheet(layout: &DovetailLayout) -> String {
    String::from_utf8(write_corner(Vec::new(), layout, "Drawer & side").unwrap()).unwrap()
}

fn corner() -> DovetailCorner {
    let mm = |v| Nm::from_mm(v).unwrap();
    DovetailCorner::new(mm(120.0), mm(10.0), mm(12.0), 5, Ratio::new(1, 8).unwrap()).socket(mm(8.0))
}

#[test]
fn a_sheet_at_true_scale() {
    let svg = sheet(&corner().layout().unwrap());
    // Down: 10, face 12 + 10, end 10, face 22, 10, face 20, end 12, face 20, 10.
    assert!(svg.contains(r#"width="184mm" height="136mm" viewBox="0 0 184 136""#));
    assert!(svg.contains("<title>Drawer &amp; side</title>"));
    let (marks, cuts) = svg.split_once("<g id=\"cut-outer\"").unwrap();
    // The tail board's outer face ends 32 mm below the sheet's upper edge; its baseline lies 12 mm above that.
    let tail = "<path d=\"M10 20H14L12.5 32H31.5L30 20H38L";
    assert!(cuts.contains(tail) && cuts.matches("<path").count() == 1 && !cuts.contains('Z'), "{cuts}");
    // Six rectangles; baselines on four faces; flanks on five surfaces, the sixth being the outline.
    assert_eq!(marks.matches("<path").count(), 6 + 4 + 5 * 10);
    for surface in Surface::ALL {
        assert!(marks.contains(surface.name()));
    }
    assert_eq!(marks.matches(">tail</text>").count(), 2 * 5);
}

#[test]
fn a_lapped_sheet_leaves_the_front_alone() {
    let svg = sheet(&corner().lapped(Nm::raw(4_000_000)).layout().unwrap());
    let marks = svg.split_once("<g id=\"cut-outer\"").unwrap().0;
    assert_eq!(marks.matches("<path").count(), 6 + 3 + 1 + 4 * 10);
}

#[test]
fn a_small_sink_fills() {
    let layout = corner().layout().unwrap();
    let whole = sheet(&layout).len();
    let mut memory = [0; 20_000];
    for size in [0, 1, 1000, whole - 1] {
        let error = write_corner(Fixed::new(&mut memory[..size]), &layout, "Drawer & side").map(drop).unwrap_err();
        assert_eq!(error.code, Code::SinkFull);
    }
    assert!(write_corner(Fixed::new(&mut memory[..whole]), &layout, "Drawer & side").is_ok());
}
