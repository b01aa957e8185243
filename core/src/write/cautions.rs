//! What every file for a machine says first.

/// The usual cautions, a line each: short enough for a controller's line, and without a sign that any of the formats gives a meaning to.
pub(super) const CAUTIONS: [&str; 9] = [
    "Blades, beams and bits do harm, and so do fumes, dust and fire.",
    "The instructions of the machine's maker and local rules come first,",
    "and some work is for licensed people alone.",
    "Wear eye protection that suits the tool, for a beam its wavelength.",
    "Draw off fumes and dust. Never burn PVC, other chlorinated plastics,",
    "or boards, coatings and glues that you do not know.",
    "Never leave a running machine unattended. Keep hands out of its reach,",
    "means to put out a fire within yours, and the sheet held down all over.",
    "Run the file with the tool up or the beam off first.",
];

/// Where a file has the way of the axis and not the outlines.
pub(super) const AXIS: &str = "These are the ways of the tool's axis: set no other offset for blade or kerf.";
/// What a trailing blade needs before its first cut.
pub(super) const BLADE: &str = "Trailing blade: before the start, turn it by hand to point along +X.";
