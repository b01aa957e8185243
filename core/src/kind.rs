//! Kinds of lines on a sheet, and how files tell them apart.

/// What a line is for. A file has one group a kind, in this order: what is done first comes first.
///
/// ```
/// use dryfit_core::LineKind;
/// assert_eq!(LineKind::CutInner.id(), "cut-inner");
/// assert!(LineKind::CutInner < LineKind::CutOuter && !LineKind::CutOuter.dashed());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum LineKind {
    /// Drawn, scored or not at all; never cut through.
    Mark,
    /// Holes and slots inside a part.
    CutInner,
    /// One cut that is the edge of two parts.
    CutShared,
    /// Outlines: the part comes free.
    CutOuter,
    /// Cuts through what is left of the sheet.
    Trim,
}

impl LineKind {
    /// All kinds, in their order.
    pub const ALL: [LineKind; 5] = [LineKind::Mark, LineKind::CutInner, LineKind::CutShared, LineKind::CutOuter, LineKind::Trim];

    /// The group's id: `"mark"`, `"cut-inner"`, `"cut-shared"`, `"cut-outer"` or `"trim"`.
    pub const fn id(self) -> &'static str {
        match self {
            LineKind::Mark => "mark",
            LineKind::CutInner => "cut-inner",
            LineKind::CutShared => "cut-shared",
            LineKind::CutOuter => "cut-outer",
            LineKind::Trim => "trim",
        }
    }

    /// A colour of the palette of Okabe and Ito, which the colour-blind can tell apart, as `#rrggbb`.
    pub const fn colour(self) -> &'static str {
        match self {
            LineKind::Mark => "#CC79A7",
            LineKind::CutInner => "#009E73",
            LineKind::CutShared => "#E69F00",
            LineKind::CutOuter => "#000000",
            LineKind::Trim => "#56B4E9",
        }
    }

    /// Whether it is drawn with dashes. Cuts of parts never are: some machines would cut the dashes.
    pub const fn dashed(self) -> bool {
        matches!(self, LineKind::Mark | LineKind::Trim)
    }
}
