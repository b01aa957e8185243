use super::*;
use std::collections::BTreeSet;
use std::string::ToString;

#[test]
fn every_code_has_one_number_one_name_and_a_sentence() {
    let numbers: BTreeSet<i32> = Code::ALL.iter().map(|c| c.number()).collect();
    let names: BTreeSet<&str> = Code::ALL.iter().map(|c| c.name()).collect();
    assert_eq!(numbers.len(), Code::ALL.len());
    assert_eq!(names.len(), Code::ALL.len());
    for &code in Code::ALL {
        assert_eq!(Code::from_number(code.number()), Some(code));
        assert!(code.text().len() > 10 && !code.text().ends_with('.'), "{code:?}");
        assert!(Error::bare(code, "thing").to_string().starts_with("thing"));
    }
    assert_eq!(Code::from_number(0), None, "0 is success");
}

#[test]
fn an_error_stays_small() {
    // Layout is part of the bargain with firmware: a code, a static name, three tagged numbers.
    assert!(size_of::<Error>() <= 72, "{}", size_of::<Error>());
    assert!(size_of::<Result<crate::Nm, Error>>() <= 72);
}

#[test]
fn a_message_names_parameter_value_and_range() {
    let error = crate::bounds::KERF.check(-1).unwrap_err();
    assert_eq!(error.to_string(), "kerf: -0.000001 mm given, allowed 0 mm to 20 mm");
}
