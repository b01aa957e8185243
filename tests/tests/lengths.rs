//! Texts read as lengths, held against `vectors/lengths.json`.

use dryfit_core::Nm;
use dryfit_tests::cases;

#[test]
fn texts_read_as_the_oracle_reads_them() {
    let mut wrong = Vec::new();
    let mut refused = 0;
    for case in cases("lengths") {
        let wanted = (!case.refused()).then(|| case.int("nm"));
        let read = Nm::parse(case.text("text")).map(Nm::nm).ok();
        refused += usize::from(wanted.is_none());
        if read != wanted {
            wrong.push((case.text("text").to_string(), read, wanted));
        }
    }
    assert!(wrong.is_empty(), "text, read, wanted: {wrong:#?}");
    assert!(refused > 0, "no refused text among the cases");
}
