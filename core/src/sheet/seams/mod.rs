//! Shared cuts: parts that interlock, so that one cut is the edge of two.

mod shared;

#[allow(unused_imports)]
pub(crate) use shared::shared_length;
