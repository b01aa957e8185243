//! Strips with known optima (`tests/data/packing`) beside a packing crate, as JSON in the file that the environment names in `STRIPS`.
//!
//! Of the crate (`binpack2d`): the lowest height that any of its rules reaches with parts as drawn, lying or standing, how long that one takes,
//! and all together. Of dryfit: the height by the default effort and how long that takes; and for searches stopped early, after ever more calls of
//! `progress`, how long each takes and how high it fills. Beside that, what 10 to 10,000 rectangles on as many sheets as they need cost, once each.

#[path = "../../tests/src/strip.rs"]
mod strip;

use std::fmt::Write;
use std::time::Instant;

use binpack2d::Dimension;
use binpack2d::guillotine::{GuillotineBin, RectHeuristic, SplitHeuristic};
use binpack2d::maxrects::{Heuristic, MaxRectsBin};
use dryfit_benches::{laid_out, mm, rectangle, rectangles};
use dryfit_core::{Item, LayoutSpec, Nm, Shape, Stock};
use strip::{Strip, strips};

type Rule = Box<dyn Fn(&[Dimension], i32, i32) -> Option<i32>>;

fn main() {
    let Some(file) = std::env::var_os("STRIPS") else { return };
    let mut rows = Vec::new();
    for strip in strips("hopper_turton_c") {
        rows.push(format!("\"{}\": {{{}, {}}}", strip.name, peer(&strip), ours(&strip)));
    }
    let growth = [10, 100, 1000, 10_000].map(|count| format!("\"{count}\": {}", growth(count)));
    let text = format!("{{\"strips\": {{{}}},\n\"parts\": {{{}}}}}\n", rows.join(",\n"), growth.join(", "));
    std::fs::write(file, text).expect("the file can be written");
}

/// Sheets and seconds.
fn growth(count: u64) -> String {
    let shapes = rectangles(count);
    let area: i64 = shapes.iter().map(|shape| (shape.bounds().1.x.nm() / 100_000 + 10) * (shape.bounds().1.y.nm() / 100_000 + 10)).sum();
    let start = Instant::now();
    let layout = laid_out(&shapes, [mm(1200), mm(600)]);
    let seconds = start.elapsed().as_secs_f64();
    // The area with its gaps, in sheets inside their borders: no layout needs fewer.
    format!("[{}, {}, {seconds}]", layout.sheets.len(), area as f64 / (11_910.0 * 5_910.0))
}

fn ours(strip: &Strip) -> String {
    let shapes: Vec<Shape> = strip.sizes.iter().map(|size| rectangle(size.map(mm))).collect();
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("part", shape)).collect();
    let stock = Stock::new(mm(1), [mm(strip.width), mm(2 * strip.optimum)], Nm::ZERO, Nm::ZERO).expect("a sheet");
    let lay = |calls: u64| {
        let mut heard = 0;
        let mut listen = |_| {
            heard += 1;
            heard < calls
        };
        let start = Instant::now();
        let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut listen).expect("all fit");
        let seconds = start.elapsed().as_secs_f64();
        let [sheet] = &layout.sheets[..] else { panic!("{}: not one sheet", strip.name) };
        (sheet.used_height(&items).expect("its own items").nm() / 1_000_000, seconds)
    };
    let (height, seconds) = lay(u64::MAX);
    let mut text = format!("\"height\": {height}, \"seconds\": {seconds}, \"stopped\": [");
    for calls in (0..16).map(|k| 1 << k) {
        let rounds: Vec<_> = (0..5).map(|_| lay(calls)).collect();
        let (height, seconds) = rounds.into_iter().min_by(|a, b| a.1.total_cmp(&b.1)).expect("five rounds");
        write!(text, "{}[{height}, {seconds}]", if calls == 1 { "" } else { ", " }).expect("a string");
        if height == strip.optimum {
            break;
        }
    }
    text + "]"
}

fn peer(strip: &Strip) -> String {
    let optimum = strip.optimum as i32;
    let (mut best, mut seconds) = (3 * optimum, 0.0);
    let began = Instant::now();
    for turn in 0..3 {
        let size = |&[w, h]: &[i64; 2]| match turn {
            0 => [w, h],
            1 => [w.max(h), w.min(h)],
            _ => [w.min(h), w.max(h)],
        };
        let sizes: Vec<Dimension> = strip.sizes.iter().map(size).map(|[w, h]| Dimension::new(w as i32, h as i32)).collect();
        for rule in rules() {
            let mut most = 2 * optimum;
            while most >= optimum {
                let start = Instant::now();
                let Some(height) = rule(&sizes, strip.width as i32, most).filter(|height| *height <= best) else { break };
                if height < best {
                    (best, seconds) = (height, start.elapsed().as_secs_f64());
                }
                most = height - 1;
            }
        }
    }
    format!("\"crate height\": {best}, \"crate seconds\": {seconds}, \"crate all\": {}", began.elapsed().as_secs_f64())
}

/// How high each rule fills a strip; nothing where an item is left out.
fn rules() -> Vec<Rule> {
    use Heuristic::{BestAreaFit, BestLongSideFit, BestShortSideFit, BottomLeftRule, ContactPointRule};
    use SplitHeuristic::{LongerAxis, LongerLeftoverAxis, MaximizeArea, MinimizeArea, ShorterAxis, ShorterLeftoverAxis};
    let top = |(lying, left): (Vec<binpack2d::Rectangle>, Vec<Dimension>)| {
        left.is_empty().then(|| lying.iter().map(|r| r.y() + r.height()).max()).flatten()
    };
    let mut rules: Vec<Rule> = Vec::new();
    for rule in [BestShortSideFit, BestLongSideFit, BestAreaFit, BottomLeftRule, ContactPointRule] {
        rules.push(Box::new(move |sizes, width, most| top(MaxRectsBin::new(width, most).insert_list(sizes, rule))));
    }
    for choice in [RectHeuristic::BestShortSideFit, RectHeuristic::BestLongSideFit, RectHeuristic::BestAreaFit] {
        for split in [ShorterLeftoverAxis, LongerLeftoverAxis, MinimizeArea, MaximizeArea, ShorterAxis, LongerAxis] {
            rules.push(Box::new(move |sizes, width, most| top(GuillotineBin::new(width, most).insert_list(sizes, true, choice, split))));
        }
    }
    rules
}
