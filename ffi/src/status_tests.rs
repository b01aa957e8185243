use super::*;

fn read(text: *const c_char) -> Option<&'static str> {
    // Every text of this library is static and ends with a zero byte.
    (!text.is_null()).then(|| unsafe { CStr::from_ptr(text) }.to_str().unwrap())
}

/// The same number says the same in C and in Rust.
#[test]
fn one_error_table() {
    for &code in Code::ALL {
        assert_eq!(read(dryfit_status_name(code.number())), Some(code.name()));
        assert_eq!(read(dryfit_status_text(code.number())), Some(code.text()));
    }
    assert_eq!(read(dryfit_status_name(0)), Some("ok"));
    for number in [-1, 1, 100, 999, i32::MIN, i32::MAX] {
        assert_eq!(read(dryfit_status_name(number)), None);
        assert_eq!(read(dryfit_status_text(number)), None);
    }
}

/// Each code has its constant, and no constant is left over: what the header shows is read from the source.
#[test]
fn every_code_has_a_constant() {
    let source = include_str!("status.rs");
    let lines = source.lines().filter_map(|line| line.strip_prefix("pub const DRYFIT_")?.strip_suffix(';'));
    let constants: Vec<(&str, i32)> =
        lines.map(|line| line.split_once(": dryfit_status = ").unwrap()).map(|(name, n)| (name, n.parse().unwrap())).collect();
    let mut expected = vec![("OK".to_owned(), 0)];
    for code in Code::ALL {
        let mut name = String::new();
        for letter in format!("{code:?}").chars() {
            if letter.is_uppercase() && !name.is_empty() {
                name.push('_');
            }
            name.extend(letter.to_uppercase());
        }
        expected.push((name, code.number()));
    }
    assert_eq!(constants, expected.iter().map(|(name, n)| (name.as_str(), *n)).collect::<Vec<_>>());
}
