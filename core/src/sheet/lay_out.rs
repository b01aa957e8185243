//! From parts and stocks to sheets: what is tried, and which of it is best.

use alloc::collections::BTreeMap;
use alloc::format;
use alloc::vec::Vec;

use super::block::Block;
use super::job::Job;
use super::nest::Nest;
use super::pack::{Bin, Packing, Rect, Spot, pack};
use super::score::{Score, largest};
use super::seams::clusterings;
use super::watch::Watch;
use super::{Item, Layout, Sheet, Stock, area};
use crate::error::{Amount, Code, Error, Failure};
use crate::length::Nm;

/// How parts are laid out.
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Fit, Item, LayoutSpec, Nm, Parts, Stock};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let parts = Parts::cut(&panels, Cutter::beam(Nm::ZERO)?, Fit::EXACT, Nm::ZERO)?;
/// let stock = Stock::new(mm(2.5)?, [mm(350.0)?, mm(250.0)?], mm(8.0)?, mm(1.0)?)?;
/// let layout = LayoutSpec::default().lay_out(&Item::of(&parts), &[stock], &mut |_| true)?;
/// assert_eq!(layout.sheets.len(), 1);
/// assert_eq!(layout.sheets[0].placements.len(), 6);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LayoutSpec {
    /// Whether parts may interlock so that one cut is the edge of two.
    pub share_cuts: bool,
    /// Whether parts may be turned, by quarters and as the grain allows; else they lie as they are drawn.
    pub turns: bool,
    /// Whether parts may lie mirrored.
    pub flips: bool,
    /// Whether the parts of a group keep to as few sheets as they can, apart from other groups where they need more than one.
    pub together: bool,
    /// Where the search starts: the same seed gives the same layout.
    pub seed: u64,
    /// Whether the search goes on until `progress`, which has a clock, stops it; else it takes a number of steps that depends on the parts alone.
    pub timed: bool,
}

impl Default for LayoutSpec {
    fn default() -> LayoutSpec {
        LayoutSpec { share_cuts: false, turns: true, flips: false, together: false, seed: 0, timed: false }
    }
}

impl LayoutSpec {
    /// Lays items out on sheets. Each goes on sheets of exactly its thickness, one without a thickness on that of the first stock.
    ///
    /// Stocks are used in the order given: one that is at hand in a limited number, such as an offcut, comes before the next. Then the fewest
    /// sheets count, and then the largest offcut. Borders stay free, and so does the gap between any two parts that share no cut; half
    /// the kerf too keeps off the border. Where stocks of one thickness differ in their gap, the widest counts.
    ///
    /// `progress` is told what is done, 0 to 1, and answers whether to go on; stopped, the best so far is the result. With `timed` it is
    /// told up to which share of the time the search may go now, and answers whether it is still earlier. Parts for which no sheet is
    /// left are listed in [`Layout::unplaced`].
    ///
    /// # Errors
    /// [`Code::WrongThickness`] and [`Code::LargerThanSheet`], with the part's name, its size and the largest that would fit.
    pub fn lay_out(&self, items: &[Item<'_>], stocks: &[Stock], progress: &mut dyn FnMut(f64) -> bool) -> Result<Layout, Failure> {
        let jobs = self.jobs(items, stocks)?;
        let mut watch = Watch::new(progress, self.timed);
        let mut layout = Layout::default();
        let share = 1.0 / jobs.len().max(1) as f64;
        for (index, job) in jobs.iter().enumerate() {
            let from = index as f64 * share;
            let part = search(job, &mut watch.stretch(from, from + share));
            layout.sheets.extend(part.sheets);
            layout.unplaced.extend(part.unplaced);
        }
        layout.unplaced.sort_unstable();
        Ok(layout)
    }

    /// One job for each thickness, in the order of the items.
    fn jobs<'a>(&self, items: &'a [Item<'a>], stocks: &[Stock]) -> Result<Vec<Job<'a>>, Failure> {
        let mut groups: Vec<(Vec<usize>, Vec<Stock>)> = Vec::new();
        let any = stocks.first().map(Stock::thickness);
        for (number, item) in items.iter().enumerate() {
            let thickness = item.thickness.or(any);
            let known = groups.iter_mut().find(|(_, stocks)| stocks.first().map(Stock::thickness) == thickness);
            if let Some((wanted, _)) = known {
                wanted.push(number);
                continue;
            }
            let stocks: Vec<Stock> = stocks.iter().filter(|stock| Some(stock.thickness()) == thickness).copied().collect();
            if stocks.is_empty() {
                let given = thickness.map_or(Amount::Unstated, |thickness| Amount::Length(thickness.nm()));
                let error = Error::bare(Code::WrongThickness, "thickness").giving(given);
                return Err(Failure::at(error, format!("part \"{}\"", item.name)));
            }
            groups.push((Vec::from([number]), stocks));
        }
        let jobs: Vec<Job<'a>> = groups.into_iter().map(|(wanted, stocks)| Job::new(items, wanted, stocks, *self)).collect();
        jobs.iter().try_for_each(Job::check)?;
        Ok(jobs)
    }
}

/// The best layout of one job.
fn search(job: &Job<'_>, watch: &mut Watch<'_>) -> Layout {
    if job.spec.together { together(job, watch) } else { free(job, watch) }
}

/// All items at once: as rectangles, or by their true outlines where that is better.
fn free(job: &Job<'_>, watch: &mut Watch<'_>) -> Layout {
    let Some(nest) = Nest::of(job) else { return boxed(job, watch) };
    let boxed = boxed(job, &mut watch.stretch(0.0, 0.5));
    let nested = nest.lay_out(&mut watch.stretch(0.5, 1.0));
    nested.filter(|nested| Score::of(job, nested) < Score::of(job, &boxed)).unwrap_or(boxed)
}

/// The best layout of the rectangles around the items, or around those that interlock.
fn boxed(job: &Job<'_>, watch: &mut Watch<'_>) -> Layout {
    let singles: Vec<Block> = job.wanted.iter().filter_map(|&part| Block::single(job, part)).collect();
    if !job.spec.share_cuts {
        return blocks(job, &singles, watch);
    }
    let mut ways = clusterings(job, &mut watch.stretch(0.0, 0.5));
    ways.push(singles);
    let share = 0.5 / ways.len() as f64;
    let mut tried: Vec<Layout> = Vec::with_capacity(ways.len());
    for (index, way) in ways.iter().enumerate() {
        let from = 0.5 + share * index as f64;
        tried.push(blocks(job, way, &mut watch.stretch(from, from + share)));
    }
    tried.into_iter().min_by_key(|layout| Score::of(job, layout)).unwrap_or_default()
}

/// Group by group: those that fit on one sheet together share it.
fn together(job: &Job<'_>, watch: &mut Watch<'_>) -> Layout {
    let mut groups: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for &number in &job.wanted {
        groups.entry(job.item(number).map_or(0, |item| item.group)).or_default().push(number);
    }
    let count = groups.len().max(1) as f64;
    let mut rest = job.stocks.clone();
    let mut layout = Layout::default();
    let mut open: Option<(Vec<usize>, Layout)> = None;
    for (index, group) in groups.into_values().enumerate() {
        let mut watch = watch.stretch(index as f64 / count, (index + 1) as f64 / count);
        let mut lay = |wanted: Vec<usize>, stocks: &[Stock]| {
            let job = Job::new(job.items, wanted, stocks.to_vec(), job.spec);
            (free(&job, &mut watch), job.wanted)
        };
        if let Some((wanted, known)) = open.take() {
            let (both, wanted) = lay(wanted.iter().chain(&group).copied().collect(), &rest);
            if both.sheets.len() <= 1 && both.unplaced.is_empty() {
                open = Some((wanted, both));
                continue;
            }
            close(job, &mut layout, known, &mut rest);
        }
        let (alone, wanted) = lay(group, &rest);
        open = Some((wanted, alone));
    }
    if let Some((_, known)) = open {
        close(job, &mut layout, known, &mut rest);
    }
    layout
}

/// Keeps what a group has got, and takes its sheets off the stocks.
fn close(job: &Job<'_>, layout: &mut Layout, known: Layout, rest: &mut Vec<Stock>) {
    for sheet in known.sheets {
        if let Some(place) = rest.iter().position(|stock| stock.alike(&sheet.stock)) {
            let one_less = rest.remove(place).one_less();
            one_less.into_iter().for_each(|stock| rest.insert(place, stock));
        }
        // The sheet is one of those that were given, not of those that were left by then.
        let stock = job.stocks.iter().find(|stock| stock.alike(&sheet.stock)).copied().unwrap_or(sheet.stock);
        layout.sheets.push(Sheet { stock, ..sheet });
    }
    layout.unplaced.extend(known.unplaced);
}

/// Blocks packed as rectangles: the last sheet filled from below, or from the left where that leaves a clearly larger offcut.
fn blocks(job: &Job<'_>, blocks: &[Block], watch: &mut Watch<'_>) -> Layout {
    let gap = job.gap();
    let rects: Vec<Rect> = blocks.iter().map(|block| Rect { size: block.size.map(|side| side + gap) }).collect();
    let bins: Vec<Bin> = job.stocks.iter().map(|stock| Bin { size: job.room(stock).map(|side| side + gap), count: stock.count() }).collect();
    let allowed = |rect: usize, bin: usize| match (blocks.get(rect), job.stocks.get(bin)) {
        (Some(block), Some(stock)) => [0, 1].map(|turns| block.may_turn(job, stock, turns)),
        _ => [false, false],
    };
    let packing = pack(&rects, &bins, &allowed, job.spec.seed, &mut watch.stretch(0.0, 0.8));
    let upright = unpack(job, blocks, &packing);
    let Some((last, stock)) = packing.sheets.last().and_then(|&bin| Some((bins.get(bin)?.size, job.stocks.get(bin)?))) else { return upright };
    let on_last = || packing.spots.iter().filter(|spot| spot.sheet + 1 == packing.sheets.len());
    let side = |spot: &Spot| blocks.get(spot.rect).map_or([0; 2], |block| block.size);
    let spare = area([stock.width(), stock.height()].map(Nm::nm)) - on_last().map(|spot| area(side(spot))).sum::<i128>();
    // The strip above all parts counts where it is too low for an offcut, too: at the side it would be no more than that.
    let top = on_last().filter_map(|spot| Some(spot.at[1] + rects.get(spot.rect)?.lying(spot.turned)[1])).max().unwrap_or(0);
    let kept = largest(job, &upright).max(area([last[0], last[1] - top]));
    // Less than a tenth more is not worth a layout that fills the sheet from the side.
    let clearly_more = |offcut: i128| kept * 11 < offcut * 10;
    if !clearly_more(spare) {
        return upright;
    }
    let sideways = sideways(&packing, &rects, &bins, &allowed, job.spec.seed, &mut watch.stretch(0.8, 1.0));
    let sideways = sideways.map(|packing| unpack(job, blocks, &packing));
    sideways.filter(|layout| clearly_more(largest(job, layout))).unwrap_or(upright)
}

/// The same with the last sheet packed from left to right: its rectangles and its bin with x and y exchanged.
fn sideways(
    packing: &Packing,
    rects: &[Rect],
    bins: &[Bin],
    allowed: &dyn Fn(usize, usize) -> [bool; 2],
    seed: u64,
    watch: &mut Watch<'_>,
) -> Option<Packing> {
    let sheet = packing.sheets.len().checked_sub(1)?;
    let bin = *packing.sheets.get(sheet)?;
    let [width, height] = bins.get(bin)?.size;
    let (last, mut spots): (Vec<Spot>, Vec<Spot>) = packing.spots.iter().partition(|spot| spot.sheet == sheet);
    let turned = |rect: &Rect| Rect { size: [rect.size[1], rect.size[0]] };
    let some: Vec<Rect> = last.iter().filter_map(|spot| rects.get(spot.rect).map(turned)).collect();
    let one = Bin { size: [height, width], count: Some(1) };
    let allowed = |rect: usize, _: usize| last.get(rect).map_or([false; 2], |spot| allowed(spot.rect, bin));
    let again = pack(&some, &[one], &allowed, seed, watch);
    if !again.unplaced.is_empty() {
        return None;
    }
    spots.extend(again.spots.iter().filter_map(|spot| Some(Spot { rect: last.get(spot.rect)?.rect, sheet, at: [spot.at[1], spot.at[0]], ..*spot })));
    Some(Packing { spots, ..packing.clone() })
}

/// Placements from where the blocks lie.
fn unpack(job: &Job<'_>, blocks: &[Block], packing: &Packing) -> Layout {
    let mut layout = Layout::default();
    layout.sheets.extend(packing.sheets.iter().filter_map(|&bin| job.stocks.get(bin)).map(|&stock| Sheet {
        stock,
        placements: Vec::new(),
        share_cuts: job.spec.share_cuts,
    }));
    for spot in &packing.spots {
        if let (Some(block), Some(sheet)) = (blocks.get(spot.rect), layout.sheets.get_mut(spot.sheet)) {
            let corner = job.corner(&sheet.stock);
            sheet.placements.extend(block.at(job, spot.at.map(|at| at + corner), spot.turned));
        }
    }
    let unplaced = packing.unplaced.iter().filter_map(|&block| blocks.get(block));
    layout.unplaced.extend(unplaced.flat_map(|block| block.members.iter().map(|member| member.part)));
    layout
}
