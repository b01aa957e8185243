//! What needs a heap: behind opaque handles.

mod assembly;
mod boxes;
mod files;
mod handle;
mod layout;
mod motion;
mod parts;
mod report;
mod stock;

pub use assembly::*;
pub use boxes::*;
pub use layout::*;
pub use motion::*;
pub use parts::*;
pub use report::*;
pub use stock::*;
