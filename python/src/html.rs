//! How values show themselves on a page. The pages are made of tables and pictures in one place: the package's `_html`.

use pyo3::PyTypeInfo;
use pyo3::prelude::*;

/// What the page's function for this kind of value makes of it.
pub(crate) fn html<T: PyTypeInfo>(value: &Bound<'_, T>, kind: &str) -> PyResult<String> {
    value.py().import("dryfit._html")?.call_method1(kind, (value,))?.extract()
}
