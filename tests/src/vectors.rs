//! Vector files, read where the oracle wrote them.

use std::path::Path;

use serde_json::Value;

/// One case of a vector file; a missing or mistyped key stops the test with the case's text.
#[derive(Clone, Debug)]
pub struct Case(pub Value);

/// All cases of `tests/vectors/<file>.json`.
///
/// # Panics
/// If the file is missing, is not a JSON array, or holds no case: a test over nothing would pass.
pub fn cases(file: &str) -> Vec<Case> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("vectors").join(format!("{file}.json"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let Ok(Value::Array(cases)) = serde_json::from_str(&text) else { panic!("{file}.json is no JSON array") };
    assert!(!cases.is_empty(), "{file}.json has no cases");
    cases.into_iter().map(Case).collect()
}

impl Case {
    /// The value of a key.
    pub fn get(&self, key: &str) -> &Value {
        self.0.get(key).unwrap_or_else(|| panic!("no {key:?} in {}", self.0))
    }

    /// The value of a key, if it is there and not null.
    pub fn find(&self, key: &str) -> Option<&Value> {
        self.0.get(key).filter(|value| !value.is_null())
    }

    /// A whole number.
    pub fn int(&self, key: &str) -> i64 {
        self.get(key).as_i64().unwrap_or_else(|| panic!("{key:?} is no whole number in {}", self.0))
    }

    /// A text.
    pub fn text(&self, key: &str) -> &str {
        self.get(key).as_str().unwrap_or_else(|| panic!("{key:?} is no text in {}", self.0))
    }

    /// A list of cases of their own.
    pub fn list(&self, key: &str) -> Vec<Case> {
        let list = self.get(key).as_array().unwrap_or_else(|| panic!("{key:?} is no list in {}", self.0));
        list.iter().cloned().map(Case).collect()
    }

    /// A list of whole numbers.
    pub fn ints(&self, key: &str) -> Vec<i64> {
        self.list(key).iter().map(|item| item.0.as_i64().unwrap_or_else(|| panic!("{key:?} holds {}", item.0))).collect()
    }

    /// Whether the oracle refused this case.
    pub fn refused(&self) -> bool {
        self.find("error").is_some()
    }
}
