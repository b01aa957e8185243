//! What the C layer must keep to, whatever it is given: targets that libFuzzer drives, and a bounded run of the tests.
//!
//! A target is a function of bytes. It makes calls from them as a host would, most of them plausible, and holds the answers against what the header
//! promises. See `README.md`.

mod contract;
mod made;
mod memory;
mod source;
mod targets;
mod watch;

use targets::{blades, boxes, edges, files, host, lengths, messages, patterns};

/// A target's name and what it does with bytes.
pub type Target = (&'static str, fn(&[u8]));

/// All targets.
pub const TARGETS: &[Target] = &[
    ("blades", blades::run),
    ("boxes", boxes::run),
    ("edges", edges::run),
    ("files", files::run),
    ("host", host::run),
    ("lengths", lengths::run),
    ("messages", messages::run),
    ("patterns", patterns::run),
];

/// The target of a name.
pub fn target(name: &str) -> Option<fn(&[u8])> {
    TARGETS.iter().find(|target| target.0 == name).map(|target| target.1)
}
