use super::*;

#[test]
fn versions_agree() {
    let package = env!("CARGO_PKG_VERSION");
    assert_eq!(DRYFIT_VERSION.to_str(), Ok(package));
    assert_eq!(format!("{DRYFIT_VERSION_MAJOR}.{DRYFIT_VERSION_MINOR}.{DRYFIT_VERSION_PATCH}"), package);
    assert_eq!(dryfit_abi_version(), DRYFIT_ABI_VERSION);
    // A static text that ends with a zero.
    assert_eq!(unsafe { CStr::from_ptr(dryfit_version()) }, DRYFIT_VERSION);
}
