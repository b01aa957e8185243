//! Exact joinery arithmetic for flat-pack boxes in sheet board, and the proof that they fit.
//!
//! A joint shares out a block: model every board as the full slab it would be if it won every argument; where two slabs
//! overlap, the overlap is a *block*, and a joint is a way to share that block out. A *dry fit* then asks of the finished
//! outlines whether the blocks really are shared out.
//!
//! Lengths are whole nanometres ([`Nm`]). Outer loops run counter-clockwise, holes clockwise, x right, y up. Kerf is the full
//! width of the cut. Without the feature `alloc` there are joints, profiles and whole boxes as iterators; nothing panics.
//!
//! ```
//! use dryfit_core::{BoxSpec, Cutter, Fit, Nm, Parts, dry_fit, dry_fit_parts, order};
//! let mm = |v| Nm::from_mm(v);
//! let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
//! assert!(dry_fit(&panels).ok());
//! let fit = Fit::new(Nm::ZERO, mm(0.05)?, Nm::ZERO)?;
//! let parts = Parts::cut(&panels, Cutter::beam(mm(0.18)?)?, fit, Nm::ZERO)?;
//! let report = dry_fit_parts(&parts); // of what comes off the cutter
//! assert!(report.ok() && report.gap_max == mm(0.05)?);
//! assert_eq!(order(&panels)?.len(), 6);
//! # Ok::<(), dryfit_core::Failure>(())
//! ```
//!
//! The rooms, and the only way data flows: `joint` → `assembly` → `cut` → `check` → `sheet` → `write`.
#![no_std]
#![forbid(unsafe_code)]
#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing))]

#[cfg(feature = "alloc")]
extern crate alloc;
#[cfg(any(feature = "std", test))]
extern crate std;

mod angle;
mod arc;
#[cfg(feature = "alloc")]
mod assembly;
pub mod bounds;
#[cfg(feature = "alloc")]
mod check;
mod cut;
#[cfg(feature = "alloc")]
mod edges;
mod error;
#[cfg(feature = "alloc")]
mod facing;
mod hardware;
#[cfg(feature = "alloc")]
mod islands;
mod joint;
mod kind;
mod length;
mod message;
#[cfg(feature = "alloc")]
mod necks;
#[cfg(feature = "alloc")]
mod overlay;
mod plane;
mod point;
mod ratio;
pub mod round;
#[cfg(feature = "alloc")]
mod shape;
#[cfg(feature = "alloc")]
mod sheet;
#[cfg(feature = "alloc")]
mod straight;
#[cfg(feature = "alloc")]
mod sweep;
#[cfg(feature = "alloc")]
mod within;
mod write;

// Numbers.
pub use angle::Angle;
pub use arc::Arc;
#[cfg(feature = "alloc")]
pub use error::Failure;
pub use error::{Amount, Code, Error};
pub use length::Nm;
pub use message::{amount as write_amount, refusal as write_refusal};
pub use point::{Axis, Point};
pub use ratio::Ratio;

// Joints, without heap.
pub use joint::proportion;
pub use joint::{
    Boundaries, Corner, DovetailCorner, DovetailLayout, DovetailWarning, DovetailWidths, Face, Fingers, Fit, FlatBox, Half, Halves, Joint,
    LayoutLine, Outline, OutlineWalk, Parity, Pattern, Profile, Role, Share, Side, Span, Spans, Stroke, Surface, Tabs, Tails, Vertex, Vertices,
};

// Screws and nuts.
pub use hardware::{Clearance, Thread};

// Assemblies.
#[cfg(feature = "alloc")]
pub use assembly::{Assembly, Board, Bolt, BoxSpec, Frame, Opening, Panel, PrismSpec, RingSpec, SpliceSpec, Top};
#[cfg(feature = "alloc")]
pub use shape::{Ring, Shape};

// Parts.
pub use cut::{Action, AxisMove, Cutter, Follow, Gaps, Knife, KnifeSpec, Making, Move, flat};
#[cfg(feature = "alloc")]
pub use cut::{
    BridgeSpec, Bridges, Contour, Cost, Cut, Entry, Estimate, Figures, Machine, MachineSpec, Many, MotionSpec, Pace, Part, Parts, Pass, PassOrder,
    PassSpec, Piece, Plan, Reach, Relief, Route, RouteSpec, Start, Tally, Track, Turning, Work,
};

// The proof.
#[cfg(feature = "alloc")]
pub use check::{Direction, Report, Step, dry_fit, dry_fit_parts, dry_fit_shapes, order};

// Sheets.
#[cfg(feature = "alloc")]
pub use sheet::{Grain, Item, Layout, LayoutReport, LayoutSpec, Offcut, Placement, Sheet, Stock};

// Files.
pub use kind::LineKind;
pub use write::{Dxf, Fixed, Gcode, GcodeSpec, Hpgl, PathData, Sink, Svg, write_corner};
#[cfg(feature = "alloc")]
pub use write::{explode, exploded, gcode, hpgl, kerf_svg, panel_svg, plan_svg, sheet_dxf, sheet_picture, sheet_svg, write_gcode, write_sheet};

/// The README's Rust, compiled and run.
#[cfg(doctest)]
#[doc = include_str!("../../README.md")]
mod readme {}
