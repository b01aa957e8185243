//! What is looked at and not cut: a panel, a sheet with its parts, a part as a cut of some width leaves it. On boards of light colour with dark lines, so that
//! all can be read on light and dark pages.

use alloc::string::String;
use alloc::vec::Vec;

use super::label::{Font, Spot, spot};
use super::number::millimetres;
use super::path::{bent, path};
use super::sheet::{names, text};
use super::sink::Sink;
use super::svg::{drop, head};
use super::text::escaped;
use crate::bounds::MM;
use crate::error::Error;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;
use crate::shape::{Ring, Shape};
use crate::sheet::{Item, Sheet, item};

/// Board that is left over, and board of parts.
const BOARD: &str = "#FBF6EC";
const PART: &str = "#F2DFBF";
/// Edges, and what is written.
const EDGE: &str = "#8A6A3B";
/// What a cut takes away.
const CUT: &str = "#C9A66E";
const INK: &str = "#5C4322";
/// For an outline's own width.
const MARGIN: i64 = MM;
/// How wide and high a close-up is on the page.
const CLOSE_UP: i64 = 80 * MM;

/// The SVG of one panel for a notebook or a page: board filled in a light colour that can be read on light and dark pages, holes open, its name on it.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, panel_svg};
/// let mm = |v| Nm::from_mm(v);
/// let boards = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?;
/// let svg = panel_svg(boards.panels()?[0].shape(), "front");
/// assert!(svg.contains("<title>front</title>"));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn panel_svg(shape: &Shape, name: &str) -> String {
    // A vector takes all bytes.
    panel(shape, name).map(text).unwrap_or_default()
}

fn panel(shape: &Shape, name: &str) -> Result<Vec<u8>, Error> {
    let mut page = Page::around(shape, MARGIN);
    page.open(name)?;
    page.fill(PART, EDGE, 400_000)?;
    page.outline(shape)?;
    page.name(name, spot(shape, name, Font::PLAIN, |_, _| true))?;
    page.close()
}

/// The SVG of a sheet for a notebook or a page: the board with its parts in another tone, their names, and the cuts that two parts share. The file to cut by is
/// [`crate::sheet_svg`].
///
/// # Errors
/// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
///
/// ```
/// use dryfit_core::{Item, LayoutSpec, Nm, Point, Shape, Stock, sheet_picture};
/// let mm = |v| Nm::from_mm(v);
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let tile = Shape::from_loops([[p(0.0, 0.0)?, p(40.0, 0.0)?, p(40.0, 25.0)?, p(0.0, 25.0)?]]);
/// let items = [Item::new("tile", &tile)];
/// let stock = Stock::new(mm(2.5)?, [mm(100.0)?, mm(50.0)?], mm(8.0)?, mm(1.0)?)?;
/// let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
/// let svg = sheet_picture(&layout.sheets[0], &items, "Tiles")?;
/// assert!(svg.contains("<title>tile</title>") && svg.contains("M9 43H49V18H9Z"));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn sheet_picture(sheet: &Sheet, items: &[Item<'_>], title: &str) -> Result<String, Error> {
    let stock = &sheet.stock;
    let mut page = Page { lo: Point::new(Nm::ZERO, Nm::ZERO), hi: Point::new(stock.width(), stock.height()), margin: MARGIN, out: Vec::new() };
    page.open(title)?;
    // Large sheets are shown small.
    let thin = (stock.width().max(stock.height()).nm() / 1_000_000 * 1000).max(MM / 5);
    page.fill(BOARD, EDGE, thin)?;
    page.rectangle(Nm::ZERO)?;
    if stock.border() > Nm::ZERO {
        page.line("#999999", thin)?;
        page.out.put(b"\" stroke-dasharray=\"4 2\" d=\"")?;
        page.rectangle(stock.border())?;
    }
    for placement in &sheet.placements {
        let item = item(items, placement.part)?;
        page.out.put(b"<g><title>")?;
        escaped(&mut page.out, item.name)?;
        page.out.put(b"</title>")?;
        page.fill(PART, EDGE, thin)?;
        page.outline(&placement.place(item.path))?;
        page.out.put(b"</g>\n")?;
    }
    for line in sheet.lines(items)?.iter().filter(|line| line.kind == LineKind::CutShared) {
        page.line(LineKind::CutShared.colour(), 2 * thin)?;
        page.out.put(b"\" d=\"")?;
        let points: Vec<_> = line.points.iter().map(|(vertex, _)| page.at(vertex.at)).collect();
        path(&mut page.out, points, line.closed)?;
        page.out.put(b"\"/>\n")?;
    }
    for (name, spot) in names(sheet, items)? {
        page.name(name, Some(spot))?;
    }
    page.close().map(text)
}

/// The SVG of what a cut of width `kerf` leaves of a board when its middle follows `path`: the part, the cut itself, and in dashes the outline that was `meant`. With
/// `side`, only the square of that side at the lower left corner, much enlarged.
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Fit, Nm, Parts, kerf_svg};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let parts = Parts::cut(&panels, Cutter::beam(mm(0.2)?)?, Fit::EXACT, Nm::ZERO)?;
/// let part = parts.iter().next().unwrap();
/// let svg = kerf_svg(part.path(), part.finished(), mm(0.3)?, Some(mm(12.0)?), "front");
/// assert!(svg.contains("stroke-width=\"0.3\""));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn kerf_svg(path: &Shape, meant: &Shape, kerf: Nm, side: Option<Nm>, name: &str) -> String {
    cut(path, meant, kerf, side, name).map(text).unwrap_or_default()
}

fn cut(path: &Shape, meant: &Shape, kerf: Nm, side: Option<Nm>, name: &str) -> Result<Vec<u8>, Error> {
    let (lo, hi) = path.bounds();
    let longest = (hi.x - lo.x).nm().max((hi.y - lo.y).nm());
    let side = side.map(Nm::nm).filter(|&side| 0 < side && side < longest);
    // What is seen, for widths of lines.
    let scale = side.unwrap_or(longest.max(CLOSE_UP)) as f64 / CLOSE_UP as f64;
    let mut page = Page::around(path, kerf.nm() + (scale * MARGIN as f64) as i64);
    if let Some(side) = side {
        // The picture shows what lies above and right of the corner, as wide and high as it is.
        let corner = side - 2 * page.margin;
        page.hi = Point::raw(page.lo.x.nm() + corner, page.lo.y.nm() + corner);
    }
    let [width, height] = page.size();
    let enlarged = |nm: i64| if side.is_some() { (nm as f64 / scale) as i64 } else { nm };
    head(&mut page.out, enlarged(width), enlarged(height), name)?;
    page.out.put(b"<g transform=\"scale(")?;
    millimetres(&mut page.out, enlarged(MM))?;
    page.out.put(b")\">\n")?;
    page.fill(BOARD, EDGE, 0)?;
    page.rectangle(Nm::raw(-page.margin))?;
    page.fill(PART, CUT, kerf.nm())?;
    page.outline(path)?;
    let thin = (scale * 300_000.0) as i64;
    page.line("#000000", thin)?;
    page.out.put(b"\" stroke-dasharray=\"")?;
    millimetres(&mut page.out, 6 * thin)?;
    page.out.put(b" ")?;
    millimetres(&mut page.out, 3 * thin)?;
    page.out.put(b"\" d=\"")?;
    page.outline(meant)?;
    page.out.put(b"</g>\n")?;
    page.close()
}

/// A rectangle of the plane with a margin around it, in the making.
struct Page {
    lo: Point,
    hi: Point,
    margin: i64,
    out: Vec<u8>,
}

impl Page {
    fn around(shape: &Shape, margin: i64) -> Page {
        let (lo, hi) = shape.bounds();
        Page { lo, hi, margin, out: Vec::new() }
    }

    fn size(&self) -> [i64; 2] {
        [(self.hi.x - self.lo.x).nm() + 2 * self.margin, (self.hi.y - self.lo.y).nm() + 2 * self.margin]
    }

    /// A point on the page, where y goes down.
    fn at(&self, p: Point) -> (i64, i64) {
        ((p.x - self.lo.x).nm() + self.margin, (self.hi.y - p.y).nm() + self.margin)
    }

    fn open(&mut self, title: &str) -> Result<(), Error> {
        let [width, height] = self.size();
        head(&mut self.out, width, height, title)
    }

    /// Starts a path that is filled, its edge so wide.
    fn fill(&mut self, colour: &str, edge: &str, width: i64) -> Result<(), Error> {
        self.out.put(b"<path fill=\"")?;
        self.out.put(colour.as_bytes())?;
        self.out.put(b"\" fill-rule=\"evenodd\" stroke=\"")?;
        self.out.put(edge.as_bytes())?;
        self.out.put(b"\" stroke-width=\"")?;
        millimetres(&mut self.out, width)?;
        self.out.put(b"\" stroke-linejoin=\"round\" d=\"")
    }

    /// Starts a path that is a line, so wide.
    fn line(&mut self, colour: &str, width: i64) -> Result<(), Error> {
        self.out.put(b"<path fill=\"none\" stroke=\"")?;
        self.out.put(colour.as_bytes())?;
        self.out.put(b"\" stroke-width=\"")?;
        millimetres(&mut self.out, width)
    }

    /// Ends a path with the loops of a shape.
    fn outline(&mut self, shape: &Shape) -> Result<(), Error> {
        for ring in shape.rings() {
            let points: Vec<_> = rounded(ring).map(|(p, radius)| (self.at(p), radius.map(Nm::nm))).collect();
            bent(&mut self.out, points, true)?;
        }
        self.out.put(b"\"/>\n")
    }

    /// Ends a path with the rectangle itself, so much narrower on each side.
    fn rectangle(&mut self, inset: Nm) -> Result<(), Error> {
        let (lo, hi) = (Point::new(self.lo.x + inset, self.lo.y + inset), Point::new(self.hi.x - inset, self.hi.y - inset));
        let corners = [lo, Point::new(hi.x, lo.y), hi, Point::new(lo.x, hi.y)].map(|p| self.at(p));
        path(&mut self.out, corners, true)?;
        self.out.put(b"\"/>\n")
    }

    fn name(&mut self, name: &str, spot: Option<Spot>) -> Result<(), Error> {
        let Some(Spot { centre, size }) = spot else { return Ok(()) };
        let (x, y) = self.at(centre);
        self.out.put(b"<text x=\"")?;
        millimetres(&mut self.out, x)?;
        self.out.put(b"\" y=\"")?;
        millimetres(&mut self.out, y + drop(size))?;
        self.out.put(b"\" font-size=\"")?;
        millimetres(&mut self.out, size.nm())?;
        self.out.put(b"\" font-family=\"sans-serif\" text-anchor=\"middle\" fill=\"")?;
        self.out.put(INK.as_bytes())?;
        self.out.put(b"\">")?;
        escaped(&mut self.out, name)?;
        self.out.put(b"</text>\n")
    }

    fn close(mut self) -> Result<Vec<u8>, Error> {
        self.out.put(b"</svg>\n")?;
        Ok(self.out)
    }
}

/// The points of a loop, each with the radius of the arc that leaves it.
fn rounded(ring: Ring<'_>) -> impl Iterator<Item = (Point, Option<Nm>)> {
    let mut arcs = ring.arcs().peekable();
    ring.vertices().iter().enumerate().map(move |(index, v)| (v.at, arcs.next_if(|&(at, _)| at == index).map(|(_, arc)| arc.radius())))
}
