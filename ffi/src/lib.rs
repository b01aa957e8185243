//! Dryfit for C: the same mathematics behind one header, `include/dryfit.h`.
//!
//! Two layers. *bare* needs no heap and no operating system: lengths, patterns, profiles, boxes without heap, blade paths, writers through a
//! callback. *host* adds assemblies, parts, proofs, layouts and files behind opaque handles. Names are spelled here as C sees them.
//!
//! How a call is made, which all functions share, stands in `README.md` of this folder and in the files `answer.rs` (status and error), `given.rs` (what comes in)
//! and `buffer.rs` (what goes out).
#![cfg_attr(not(any(feature = "std", test)), no_std)]
#![allow(non_camel_case_types, reason = "names are spelled as C sees them")]
#![allow(clippy::missing_safety_doc, reason = "one contract holds for all functions: README.md, Pointers")]
#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing))]

#[cfg(feature = "host")]
extern crate alloc;

#[cfg(not(any(feature = "std", test)))]
mod alone;
mod answer;
mod bare;
mod buffer;
mod given;
#[cfg(feature = "host")]
mod host;
mod layout;
mod status;
mod utf8;
mod version;

pub use answer::*;
pub use bare::*;
#[cfg(feature = "host")]
pub use host::*;
pub use status::*;
pub use version::*;
