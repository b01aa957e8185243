use super::*;

fn read(text: *const c_char) -> Option<&'static str> {
    // Every text of this library is static and ends with a zero byte.
    (!text.is_null()).then(|| unsafe { CStr::from_ptr(text) }.to_str().unwrap_or("not UTF-8"))
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

#[test]
fn versions_agree() {
    assert_eq!(read(dryfit_version()), Some(env!("CARGO_PKG_VERSION")));
    assert_eq!(dryfit_abi_version(), 0);
}
