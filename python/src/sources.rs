//! How a job came to be: what pickle makes its parts again from.

use dryfit_core::Nm;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList, PyTuple};

use crate::assembly::Assembly;
use crate::door;
use crate::parts::Parts;
use crate::recipe::{self, Recipe};
use crate::record::Named;

/// Where parts come from: what pickle makes them again from.
#[derive(Clone, Debug)]
pub(crate) enum Source {
    /// An assembly, and what `cut` was told.
    Cut { recipe: Recipe, named: Named },
    /// Rectangles, from boards of a thickness or any, with their names in the core.
    Plain { sizes: Vec<[Nm; 2]>, thickness: Option<Nm>, names: Vec<String> },
    /// The last two jobs before it, joined.
    Join,
}

/// Recipes, and the steps that name them by number, as Python keeps them.
pub(crate) type Told<'py> = (Vec<Bound<'py, PyTuple>>, Bound<'py, PyList>);

/// The sources in plain values. Copies of one piece are cut from one recipe, which is kept once.
pub(crate) fn told<'py>(py: Python<'py>, sources: &[Source]) -> PyResult<Told<'py>> {
    let mut recipes: Vec<&Recipe> = Vec::new();
    let steps = PyList::empty(py);
    for source in sources {
        match source {
            Source::Cut { recipe, named } => {
                let known = recipes.iter().position(|known| known.is(recipe));
                let index = known.unwrap_or_else(|| {
                    recipes.push(recipe);
                    recipes.len() - 1
                });
                steps.append((index, named.to_python(py)?))?;
            }
            Source::Plain { sizes, thickness, names } => {
                let sizes: Vec<(f64, f64)> = sizes.iter().map(|[width, height]| (width.mm(), height.mm())).collect();
                steps.append((sizes, (thickness.map(Nm::mm), names)))?;
            }
            Source::Join => steps.append((py.None(), py.None()))?,
        }
    }
    let recipes = recipes.into_iter().map(|recipe| recipe.to_python(py)).collect::<PyResult<Vec<_>>>()?;
    Ok((recipes, steps))
}

/// The job of such steps; names are those that it would get by itself.
pub(crate) fn made<'py>(py: Python<'py>, recipes: &[Bound<'py, PyTuple>], steps: &Bound<'py, PyAny>) -> PyResult<Parts> {
    let assemblies = recipes.iter().map(|calls| recipe::again(py, calls)).collect::<PyResult<Vec<_>>>()?;
    let mut made: Vec<Parts> = Vec::new();
    for (what, how) in steps.extract::<Vec<(Bound<'py, PyAny>, Bound<'py, PyAny>)>>()? {
        let parts = if how.is_none() {
            let (b, a) = (made.pop(), made.pop());
            let (a, b) = a.zip(b).ok_or_else(|| door::wrong(steps, "sources", "two jobs before they are joined"))?;
            a.joined(py, &b)
        } else if let Ok(named) = how.cast::<PyDict>() {
            let cut: &Bound<'py, Assembly> =
                assemblies.get(what.extract::<usize>()?).ok_or_else(|| door::wrong(&what, "sources", "a number of a recipe"))?;
            cut.call_method("cut", (), Some(named))?.cast_into::<Parts>()?.get().clone()
        } else {
            let (thickness, names): (Bound<'py, PyAny>, Bound<'py, PyAny>) = how.extract()?;
            Parts::rectangles(&what, Some(&thickness), Some(&names))?
        };
        made.push(parts);
    }
    match made.as_slice() {
        [only] => Ok(only.clone()),
        _ => Err(door::wrong(steps, "sources", "one job in the end").into()),
    }
}
