//! Refusals in words, byte by byte: what the language's own formatting shows, and what C gets without it.

use crate::error::{Amount, Code, Error};
use crate::write::{Sink, integer, trimmed};

/// A given or allowed value with its unit.
pub fn amount(sink: &mut impl Sink, amount: Amount) -> Result<(), Error> {
    let (millionths, unit) = match amount {
        Amount::Unstated => return sink.put(b"?"),
        Amount::Count(n) => return integer(sink, n),
        Amount::Length(nm) => (nm, " mm"),
        Amount::Angle(millionths) => (millionths, " deg"),
        Amount::Speed(millionths) => (millionths, " mm/s"),
        Amount::Acceleration(millionths) => (millionths, " mm/s^2"),
        Amount::Seconds(millionths) => (millionths, " s"),
        Amount::Minutes(millionths) => (millionths, " min"),
        Amount::Number(millionths) => (millionths, ""),
    };
    trimmed(sink, millionths, 6)?;
    sink.put(unit.as_bytes())
}

/// Which parameter, what was given, what is allowed, and what it means where that does not say it.
pub fn refusal(sink: &mut impl Sink, code: Code, parameter: &str, [given, least, most]: [Amount; 3]) -> Result<(), Error> {
    sink.put(parameter.as_bytes())?;
    if given != Amount::Unstated {
        sink.put(b": ")?;
        amount(sink, given)?;
        sink.put(b" given")?;
    }
    if least != Amount::Unstated {
        sink.put(b", allowed ")?;
        amount(sink, least)?;
        sink.put(b" to ")?;
        amount(sink, most)?;
    }
    let said = matches!(code, Code::OutOfRange | Code::FingersDoNotFit) && least != Amount::Unstated;
    if !said {
        sink.put(b": ")?;
        sink.put(code.c_text().to_bytes())?;
    }
    Ok(())
}
