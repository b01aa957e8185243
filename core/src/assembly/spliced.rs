//! Long boards out of short ones, rings out of rails and stiles, and butterfly keys: all of them boards of one plane that share their overlap.

use alloc::format;

use super::Assembly;
use crate::bounds::{PIECES, RATIO_TERM, SIZE, THICKNESS};
use crate::error::{Code, Error, Failure};
use crate::joint::{Joint, Tails};
use crate::length::Nm;
use crate::point::Axis;
use crate::ratio::Ratio;
use crate::round::{half, nearest};

/// A long board out of pieces of equal length, spliced end to end.
///
/// ```text
///  +--------+_      ______+--------+     the run goes across the board (y), the depth along it (x)
///  | piece-1  \____/        piece-2 |
///  |          /    \                |
///  +--------+-      ------+--------+
/// ```
///
/// ```
/// use dryfit_core::{Nm, Ratio, SpliceSpec, Tails, dry_fit};
/// let mm = |v| Nm::from_mm(v);
/// let tails = Tails::new(2, Ratio::new(1, 8)?);
/// let spec = SpliceSpec::new([mm(700.0)?, mm(80.0)?], mm(3.0)?, tails).longest(mm(300.0)?);
/// let board = spec.assembly()?;
/// assert_eq!(board.boards().len(), 3); // the fewest that are no longer than 300 mm
/// assert!(dry_fit(&board.panels()?).ok());
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SpliceSpec {
    size: [Nm; 2],
    thickness: Nm,
    joint: Tails,
    pieces: u32,
    longest: Option<Nm>,
    depth: Option<Nm>,
}

impl SpliceSpec {
    /// Two pieces that make a board of this length (along x) and width (along y).
    pub fn new(size: [Nm; 2], thickness: Nm, joint: Tails) -> SpliceSpec {
        SpliceSpec { size, thickness, joint, pieces: 2, longest: None, depth: None }
    }

    /// So many pieces.
    #[must_use]
    pub fn pieces(self, pieces: u32) -> SpliceSpec {
        SpliceSpec { pieces, longest: None, ..self }
    }

    /// The fewest pieces, at least two, that are no longer than this.
    #[must_use]
    pub fn longest(self, longest: Nm) -> SpliceSpec {
        SpliceSpec { longest: Some(longest), ..self }
    }

    /// How deep the pieces reach into each other. Without it the tails are as long as they are wide at mid-depth, and at least as long
    /// as the board is thick.
    #[must_use]
    pub fn depth(self, depth: Nm) -> SpliceSpec {
        SpliceSpec { depth: Some(depth), ..self }
    }

    /// The pieces, `piece-1` first, as boards that overlap.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for a size, the number of pieces, a depth that leaves a middle piece no board of its own, or a greatest
    /// length that holds no more than two splices. What the tails refuse shows when the panels are made.
    pub fn assembly(&self) -> Result<Assembly, Failure> {
        let [length, width] = self.size;
        let total = SIZE.named("length").check(length.nm())?;
        SIZE.named("width").check(width.nm())?;
        let deep = depth(self.depth, self.joint, width, self.thickness)?;
        let count = self.count(total, deep)?;
        let most = (total - 1) / (count + 1);
        if deep > most {
            return Err(Error::length(Code::OutOfRange, "depth", deep, 1, most).into());
        }
        let start = |i: i64| nearest(i128::from(i) * i128::from(total - deep), i128::from(count));
        let mut board = Assembly::new();
        for i in 0..count {
            let (from, to) = (start(i), start(i + 1) + deep);
            let at = [Nm::raw(from), Nm::ZERO, Nm::ZERO];
            board.add(&format!("piece-{}", i + 1), Axis::Z, at, [Nm::raw(to - from), width], self.thickness)?;
        }
        for i in 1..count {
            board.joint(&format!("piece-{i}"), &format!("piece-{}", i + 1), self.joint.into())?;
        }
        Ok(board)
    }

    fn count(&self, total: i64, deep: i64) -> Result<i64, Error> {
        let Some(longest) = self.longest else { return PIECES.check(i64::from(self.pieces)) };
        // A middle piece has a splice at either end and some board between.
        if longest.nm() <= 2 * deep && total + deep > 2 * longest.nm() {
            return Err(Error::length(Code::OutOfRange, "longest piece", longest.nm(), 2 * deep + 1, total));
        }
        // A piece is as long as its share of what is left without one splice, and a splice; shares are rounded to the nearest.
        let share = (longest.nm() - deep).max(1);
        let count = (total - deep + share - 1).div_euclid(share);
        PIECES.check(count.max(2))
    }
}

/// The depth asked for, or that of tails as long as wide.
fn depth(asked: Option<Nm>, joint: Tails, width: Nm, thickness: Nm) -> Result<i64, Error> {
    let bound = crate::bounds::DEPTH;
    match asked {
        Some(depth) => bound.check(depth.nm()),
        None => {
            let thick = THICKNESS.check(thickness.nm())?;
            Ok((width.nm() / (2 * i64::from(joint.pitches()).max(1))).clamp(thick, bound.most))
        }
    }
}

/// A rectangular ring: two stiles as high as the ring, and two rails let into them with tails.
///
/// ```text
///   stile          rail          stile
///  +------+--------------------+------+
///  |    __|                    |__    |     each rail ends inside a stile: the tails stop before its outer edge
///  |   |__                      __|   |
///  |      |                    |      |
///  |      +--------------------+      |
/// ```
///
/// ```
/// use dryfit_core::{Nm, Ratio, RingSpec, Tails, dry_fit};
/// let mm = |v| Nm::from_mm(v);
/// let ring = RingSpec::new([mm(400.0)?, mm(300.0)?], mm(50.0)?, mm(3.0)?, Tails::new(1, Ratio::new(1, 6)?)).assembly()?;
/// let names: Vec<_> = ring.boards().iter().map(|b| b.name().to_string()).collect();
/// assert_eq!(names, ["left", "right", "bottom", "top"]);
/// assert!(dry_fit(&ring.panels()?).ok());
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct RingSpec {
    outside: [Nm; 2],
    width: Nm,
    thickness: Nm,
    joint: Tails,
    depth: Option<Nm>,
}

impl RingSpec {
    /// A ring by its outside size along x and y, and the width of its rails and stiles.
    pub fn new(outside: [Nm; 2], width: Nm, thickness: Nm, joint: Tails) -> RingSpec {
        RingSpec { outside, width, thickness, joint, depth: None }
    }

    /// How deep the rails reach into the stiles: half their width if left out.
    #[must_use]
    pub fn depth(self, depth: Nm) -> RingSpec {
        RingSpec { depth: Some(depth), ..self }
    }

    /// The boards `left`, `right` (the stiles), `bottom` and `top` (the rails, whose tails they are).
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for a size, a width that leaves no opening, or a depth that goes through a stile.
    pub fn assembly(&self) -> Result<Assembly, Failure> {
        let [x, y] = self.outside;
        SIZE.named("outside[0]").check(x.nm())?;
        SIZE.named("outside[1]").check(y.nm())?;
        let most = half(x.nm().min(y.nm()) - 1);
        let width = SIZE.named("width").check(self.width.nm())?;
        if width > most {
            return Err(Error::length(Code::OutOfRange, "width", width, SIZE.least, most).into());
        }
        let deep = self.depth.map_or(half(width), Nm::nm);
        if deep < 1 || deep >= width {
            return Err(Error::length(Code::OutOfRange, "depth", deep, 1, width - 1).into());
        }
        let at = |x: i64, y: i64| [Nm::raw(x), Nm::raw(y), Nm::ZERO];
        let rail = [Nm::raw(x.nm() - 2 * (width - deep)), self.width];
        let mut ring = Assembly::new();
        ring.add("left", Axis::Z, at(0, 0), [self.width, y], self.thickness)?;
        ring.add("right", Axis::Z, at(x.nm() - width, 0), [self.width, y], self.thickness)?;
        ring.add("bottom", Axis::Z, at(width - deep, 0), rail, self.thickness)?;
        ring.add("top", Axis::Z, at(width - deep, y.nm() - width), rail, self.thickness)?;
        for rail in ["bottom", "top"] {
            for stile in ["left", "right"] {
                ring.joint(rail, stile, self.joint.into())?;
            }
        }
        Ok(ring)
    }
}

impl Assembly {
    /// Lets a butterfly key into two boards of one plane that touch: two tails back to back, a board of its own.
    ///
    /// `size` is its length across the seam and its width at both ends, `at` where its middle lies along the seam, from the seam's lower
    /// end. Seen from its ends it narrows by `slope` towards the seam.
    ///
    /// ```text
    ///         seam
    ///      ____ | ____
    ///      \   \|/   /
    ///  left |   |   |  right
    ///      /___/|\___\
    /// ```
    ///
    /// ```
    /// use dryfit_core::{Assembly, Axis, Nm, Ratio, dry_fit};
    /// let mm = |v| Nm::from_mm(v);
    /// let mut top = Assembly::new();
    /// top.add("left", Axis::Z, [Nm::ZERO; 3], [mm(100.0)?, mm(80.0)?], mm(3.0)?)?;
    /// top.add("right", Axis::Z, [mm(100.0)?, Nm::ZERO, Nm::ZERO], [mm(90.0)?, mm(80.0)?], mm(3.0)?)?;
    /// top.key("key", ["left", "right"], [mm(30.0)?, mm(20.0)?], mm(40.0)?, Ratio::new(1, 6)?)?;
    /// let panels = top.panels()?;
    /// assert_eq!(panels[2].shape().vertices().len(), 6);
    /// assert!(dry_fit(&panels).ok());
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    ///
    /// # Errors
    /// [`Code::NoSuchBoard`], [`Code::NoSeam`] where the two do not touch along a seam in one plane, [`Code::OutOfRange`] for a key
    /// that is longer than the boards reach or lies outside the seam; and what [`Assembly::add`] and [`Assembly::joint`] refuse.
    pub fn key(&mut self, name: &str, boards: [&str; 2], size: [Nm; 2], at: Nm, slope: Ratio) -> Result<usize, Failure> {
        let place = |error| Failure::at(error, format!("key \"{name}\""));
        let number = |name: &str| self.find(name).ok_or_else(|| Failure::at(Error::bare(Code::NoSuchBoard, "key"), format!("board \"{name}\"")));
        let [first, second] = [number(boards[0])?, number(boards[1])?];
        RATIO_TERM.named("slope").check(i64::from(slope.num())).map_err(place)?;
        let (Some(p), Some(q)) = (self.boards().get(first), self.boards().get(second)) else {
            return Err(place(Error::bare(Code::NoSuchBoard, "key")));
        };
        let normal = p.normal();
        let (u, v) = normal.plane();
        let same = q.normal() == normal && (p.lo(normal), p.hi(normal)) == (q.lo(normal), q.hi(normal));
        let touch = |axis: Axis| p.hi(axis) == q.lo(axis) || q.hi(axis) == p.lo(axis);
        let seam = |across: Axis| {
            let along = normal.third(across);
            let (from, to) = (p.lo(along).max(q.lo(along)), p.hi(along).min(q.hi(along)));
            (same && touch(across) && from < to).then_some((across, along, from, to))
        };
        let Some((across, along, from, to)) = [u, v].into_iter().find_map(seam) else {
            return Err(Failure::at(Error::bare(Code::NoSeam, "key"), format!("boards \"{}\" and \"{}\"", boards[0], boards[1])));
        };
        let seam = p.hi(across).min(q.hi(across));
        let [length, width] = size;
        // Half of the key lies in either board, and leaves some of it behind.
        let longest = 2 * (p.size(across).min(q.size(across)) - 1);
        let check = |name, value: i64, least, most| {
            if (least..=most).contains(&value) { Ok(()) } else { Err(place(Error::length(Code::OutOfRange, name, value, least, most))) }
        };
        check("key length", length.nm(), 2 * SIZE.least, longest)?;
        check("key width", width.nm(), SIZE.least, to - from - 2)?;
        let low = half(width.nm());
        check("key at", at.nm(), low + 1, to - from - (width.nm() - low) - 1)?;
        let thickness = p.thickness();
        let mut corner = [Nm::ZERO; 3];
        for (axis, place) in Axis::ALL.into_iter().zip(&mut corner) {
            *place = Nm::raw(match axis {
                _ if axis == across => seam - half(length.nm()),
                _ if axis == along => from + at.nm() - low,
                _ => p.lo(normal),
            });
        }
        // Two equal halves.
        let length = Nm::raw(2 * half(length.nm()));
        let sides = if across == u { [length, width] } else { [width, length] };
        let joint = Joint::from(Tails::key(slope));
        let number = self.add(name, normal, corner, sides, thickness)?;
        for board in boards {
            self.joint(name, board, joint)?;
        }
        Ok(number)
    }
}
