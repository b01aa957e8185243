//! What comes into a sweep: single lengths and arrays of them, which go together as numpy broadcasts them.

use dryfit_core::bounds::{Bound as Range, LENGTH};
use dryfit_core::{Amount, Code, Nm};
use pyo3::buffer::PyBuffer;
use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use pyo3::types::{PyList, PyTuple};

use crate::door;
use crate::refusal::Refusal;

/// One parameter as it was given. Arrays are copied, so that whoever changes one meanwhile changes nothing here.
pub(crate) struct Given {
    name: &'static str,
    range: Range,
    shape: Vec<usize>,
    values: Values,
}

enum Values {
    Exact(Vec<Nm>),
    Floats(Vec<f64>),
}

const AN_ARRAY: &str = "a number of mm, a string such as \"3/32 in\", or an array of real numbers";

impl Given {
    /// A length or an array of any shape, but not an empty one.
    pub(crate) fn read(value: &Bound<'_, PyAny>, range: Range, name: &'static str) -> PyResult<Given> {
        let given = |shape: Vec<usize>, values| Given { name, range, shape, values };
        if door::is_single(value) {
            return Ok(given(Vec::new(), Values::Exact(vec![door::length(value, &range, name)?])));
        }
        let made = match PyBuffer::<f64>::get(value) {
            // A mask is no part of the buffer, and the order of bytes no part of its type.
            Ok(buffer) if native(&buffer) && !value.hasattr("mask")? => given(buffer.shape().to_vec(), Values::Floats(buffer.to_vec(value.py())?)),
            _ => given_by_numpy(value, range, name)?,
        };
        if made.shape.contains(&0) {
            let shape = shown_shape(&made.shape);
            return Err(Refusal::new(Code::OutOfRange, name, format!("an empty array of shape {shape} given, allowed one value or more")).into());
        }
        Ok(made)
    }

    /// A single length that is known already.
    pub(crate) fn one(length: Nm, name: &'static str) -> Given {
        Given { name, range: LENGTH, shape: Vec::new(), values: Values::Exact(vec![length]) }
    }

    /// The same if its last axis has three values: along x, y and z.
    pub(crate) fn of_three(self) -> PyResult<Given> {
        if self.shape.last() == Some(&3) {
            return Ok(self);
        }
        let said = format!("an array of shape {} given, allowed (..., 3): sizes along x, y and z", shown_shape(&self.shape));
        Err(Refusal::new(Code::WrongType, self.name, said).into())
    }

    /// The same for a parameter that may be left out.
    pub(crate) fn maybe(value: Option<&Bound<'_, PyAny>>, range: Range, name: &'static str) -> PyResult<Option<Given>> {
        door::given(value).map(|value| Given::read(value, range, name)).transpose()
    }

    /// Whole nanometres, each within the range. Needs no Python.
    pub(crate) fn column(self) -> Result<Column, Refusal> {
        let lengths = match self.values {
            Values::Exact(lengths) => lengths,
            // In the same memory: a double is as wide as a length.
            Values::Floats(floats) => {
                let read = |(index, mm): (usize, f64)| self.range.length_of(mm).ok_or((index, mm));
                let read = floats.into_iter().enumerate().map(read).collect::<Result<_, _>>();
                read.map_err(|(index, mm)| refuse(&self.range, &place(self.name, &self.shape, index), mm))?
            }
        };
        Ok(Column { name: self.name, shape: self.shape, lengths })
    }
}

/// Whether the doubles of a buffer are in this machine's order of bytes, as PEP 3118 names it.
fn native(buffer: &PyBuffer<f64>) -> bool {
    let own: &[u8] = if cfg!(target_endian = "little") { b"<d" } else { b">d" };
    [b"d".as_slice(), b"@d", b"=d", own].contains(&buffer.format().to_bytes())
}

/// The refusal of one number of an array.
fn refuse(range: &Range, place: &str, mm: f64) -> Refusal {
    let error = match Nm::from_mm(mm) {
        Ok(nm) => range.error(nm.nm()),
        Err(error) => {
            let given = if error.code == Code::NotFinite { Amount::Unstated } else { error.given() };
            let mut refused = range.error(0).giving(given);
            refused.code = error.code;
            refused
        }
    };
    let shown = if mm.is_nan() { "nan".to_owned() } else { format!("{mm:?}") };
    Refusal::named(error, place, &shown)
}

/// `name[2][5]` of the value that is the `index`th in a row.
fn place(name: &str, shape: &[usize], index: usize) -> String {
    let mut rest = index;
    let mut places: Vec<usize> = shape
        .iter()
        .rev()
        .map(|&size| {
            let at = rest % size.max(1);
            rest /= size.max(1);
            at
        })
        .collect();
    places.reverse();
    places.iter().fold(name.to_owned(), |name, at| format!("{name}[{at}]"))
}

/// Whatever numpy takes for an array: other kinds of numbers, other orders of bytes, lists, also of strings with units.
fn given_by_numpy(value: &Bound<'_, PyAny>, range: Range, name: &'static str) -> PyResult<Given> {
    let py = value.py();
    let refuse = |error: PyErr| {
        let known = error.is_instance_of::<PyValueError>(py) || error.is_instance_of::<PyTypeError>(py);
        if known { door::wrong(value, name, AN_ARRAY).into() } else { error }
    };
    let numpy = py.import("numpy")?;
    // The items of a list may be of several kinds, which numpy would make one.
    let listed = value.is_instance_of::<PyList>() || value.is_instance_of::<PyTuple>();
    // The masks of tables are methods.
    let masked = value.hasattr("mask")? && value.is_instance(&numpy.getattr("ma")?.getattr("MaskedArray")?)?;
    let array = if masked { value.clone() } else { numpy.call_method1("asarray", (value, listed.then_some("O"))).map_err(refuse)? };
    let all = |dtype| {
        let all = array.call_method1("astype", (dtype,))?;
        if masked { all.call_method1("filled", (f64::NAN,)) } else { Ok(all) }
    };
    let kind: String = array.getattr("dtype")?.getattr("kind")?.extract()?;
    let shape: Vec<usize> = array.getattr("shape")?.extract()?;
    let values = match kind.as_str() {
        "f" | "i" | "u" => Values::Floats(PyBuffer::<f64>::get(&all("f8")?)?.to_vec(py)?),
        "O" | "U" if !shape.is_empty() => {
            let read = |(index, item): (usize, PyResult<Bound<'_, PyAny>>)| door::length(&item?, &range, &place(name, &shape, index));
            Values::Exact(all("O")?.call_method0("ravel")?.call_method0("tolist")?.try_iter()?.enumerate().map(read).collect::<PyResult<_>>()?)
        }
        _ => return Err(door::wrong(value, name, AN_ARRAY).into()),
    };
    Ok(Given { name, range, shape, values })
}

/// A shape as Python writes it.
fn shown_shape(shape: &[usize]) -> String {
    match shape {
        [only] => format!("({only},)"),
        _ => format!("({})", shape.iter().map(usize::to_string).collect::<Vec<_>>().join(", ")),
    }
}

/// The values of one parameter, in whole nanometres.
#[derive(Clone)]
pub(crate) struct Column {
    name: &'static str,
    shape: Vec<usize>,
    lengths: Vec<Nm>,
}

impl Column {
    /// One length for all rows.
    pub(crate) fn one(length: Nm) -> Column {
        Column { name: "", shape: Vec::new(), lengths: vec![length] }
    }

    /// The length at a place in the memory of this column.
    pub(crate) fn at(&self, place: usize) -> Nm {
        self.lengths.get(place).copied().unwrap_or(Nm::ZERO)
    }
}

/// The rows of a sweep: the common shape of several columns, and where in each column a row finds its value.
#[derive(Clone)]
pub(crate) struct Rows<const N: usize> {
    pub(crate) shape: Vec<usize>,
    /// By how much the place in each column grows along each axis.
    steps: Vec<[usize; N]>,
}

impl<const N: usize> Rows<N> {
    /// Columns go together where, counted from the last, each axis is as long in all of them, or 1, or not there. The last `inner` axes of a
    /// column belong to its value.
    pub(crate) fn of(columns: [(&Column, usize); N]) -> Result<Rows<N>, Refusal> {
        let outer = columns.map(|(column, inner)| column.shape.get(..column.shape.len().saturating_sub(inner)).unwrap_or_default());
        let axes = outer.iter().map(|shape| shape.len()).max().unwrap_or(0);
        let size = |shape: &[usize], axis: usize| (axis + shape.len()).checked_sub(axes).and_then(|axis| shape.get(axis)).copied().unwrap_or(1);
        let mut shape = Vec::with_capacity(axes);
        for axis in 0..axes {
            let longest = outer.iter().map(|shape| size(shape, axis)).max().unwrap_or(1);
            if outer.iter().any(|shape| !matches!(size(shape, axis), 1) && size(shape, axis) != longest) {
                return Err(apart(columns.map(|(column, _)| column).as_slice()));
            }
            shape.push(longest);
        }
        let mut steps = vec![[0; N]; axes];
        for (number, (column, inner)) in columns.iter().enumerate() {
            let mut step: usize = column.shape.iter().rev().take(*inner).product();
            for (axis, into) in steps.iter_mut().enumerate().rev() {
                let size = outer.get(number).map_or(1, |shape| size(shape, axis));
                if let Some(into) = into.get_mut(number).filter(|_| size > 1) {
                    *into = step;
                }
                step *= size;
            }
        }
        Ok(Rows { shape, steps })
    }

    /// Rows in a row: the places of the first one's values, by how much they grow from one to the next, and how many there are.
    pub(crate) fn runs(&self) -> impl Iterator<Item = ([usize; N], [usize; N], usize)> {
        let (count, step) = (self.shape.last().copied().unwrap_or(1), self.steps.last().copied().unwrap_or([0; N]));
        let outer = self.shape.len().saturating_sub(1);
        let outer = Rows { shape: self.shape.iter().take(outer).copied().collect(), steps: self.steps.iter().take(outer).copied().collect() };
        outer.each().map(move |first| (first, step, count))
    }

    /// The places of every row's values, row after row as numpy has them in memory.
    pub(crate) fn each(self) -> impl Iterator<Item = [usize; N]> {
        let Rows { shape, steps } = self;
        let mut next = Some((vec![0usize; shape.len()], [0usize; N]));
        std::iter::from_fn(move || {
            let (digits, places) = next.as_mut()?;
            let now = *places;
            let mut more = false;
            for ((digit, &size), steps) in digits.iter_mut().zip(&shape).zip(&steps).rev() {
                *digit += 1;
                if *digit < size {
                    places.iter_mut().zip(steps).for_each(|(place, step)| *place += step);
                    more = true;
                    break;
                }
                places.iter_mut().zip(steps).for_each(|(place, step)| *place -= step * (size - 1));
                *digit = 0;
            }
            if !more {
                next = None;
            }
            Some(now)
        })
    }
}

/// Shapes that do not go together.
fn apart(columns: &[&Column]) -> Refusal {
    let mut arrays: Vec<&Column> = columns.iter().copied().filter(|column| !column.shape.is_empty()).collect();
    // One that stands in for another is named once.
    arrays.sort_by_key(|column| columns.iter().position(|other| other.name == column.name));
    arrays.dedup_by_key(|column| column.name);
    let (names, shapes): (Vec<_>, Vec<_>) = arrays.iter().map(|column| (column.name, shown_shape(&column.shape))).unzip();
    let said = format!("arrays of shape {} given, allowed shapes that numpy broadcasts together", shapes.join(", "));
    Refusal::new(Code::WrongType, &names.join(", "), said)
}
