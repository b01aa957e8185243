//! What a file of each format must look like, as its readers see it.

/// Nothing that a controller could stumble over.
pub fn printable(bytes: &[u8]) {
    assert!(bytes.iter().all(|byte| (b' '..=b'~').contains(byte) || *byte == b'\n'), "not printable ASCII: {:?}", text(bytes));
}

/// Each call of the callback has brought whole lines.
pub fn whole_lines(bytes: &[u8], ends: &[usize]) {
    for end in ends {
        assert_eq!(bytes.get(end - 1), Some(&b'\n'), "half a line: {:?}", text(&bytes[end.saturating_sub(40)..*end]));
    }
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// No way with the tool down: `G0` along x or y only after the tool was lifted.
pub fn safe(bytes: &[u8]) {
    let text = text(bytes);
    let mut down = false;
    for line in text.lines().filter(|line| !line.starts_with('(')) {
        match line.split(' ').next() {
            Some("M5") => down = down && text.contains(" Z"),
            Some("M3" | "M4") if !text.contains(" Z") => down = true,
            Some("G0") if line.contains(" Z") => down = false,
            Some("G0") => assert!(!down, "{line:?} with the tool down in\n{text}"),
            Some("G1") if line.contains(" Z") => down = true,
            Some("G1" | "G2" | "G3") => assert!(down, "{line:?} with the tool up in\n{text}"),
            _ => {}
        }
    }
}

pub fn gcode(text: &str) {
    assert!(text.ends_with("\nG0 X0 Y0\nM2\n"), "not ended: {text}");
    for line in text.lines() {
        assert!(line.len() <= 256, "a line of {} letters", line.len());
        if let Some(inside) = line.strip_prefix('(') {
            let inside = inside.strip_suffix(')').unwrap_or_else(|| panic!("an open comment: {line:?}"));
            assert!(!inside.contains(['(', ')']), "comment in comment: {line:?}");
            continue;
        }
        for word in line.split(' ') {
            let (letter, number) = word.split_at(1);
            assert!("GMXYZIJFSP".contains(letter), "{line:?}");
            decimal(number, line);
        }
    }
}

/// Digits, perhaps a sign before and a point among them.
fn decimal(number: &str, line: &str) {
    let digits = number.strip_prefix('-').unwrap_or(number);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
    let good = [whole, part].iter().all(|digits| !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit()));
    assert!(good, "{number:?} is no number in {line:?}");
}

pub fn hpgl(text: &str) {
    assert!(text.is_ascii() && text.ends_with("PU0,0;\nSP0;\n"), "not ended: {text}");
    let mut down = false;
    for line in text.lines() {
        assert!(line.ends_with(';'), "{line:?}");
        if line.starts_with("CO ") {
            continue;
        }
        for word in line.split_terminator(';') {
            let (name, numbers) = word.split_at(2);
            assert!(["IN", "SP", "PU", "PD"].contains(&name), "{line:?}");
            let numbers: Vec<i64> = numbers.split_terminator(',').map(|number| number.parse().expect("a whole number")).collect();
            assert!(name == "SP" || numbers.len().is_multiple_of(2), "{line:?}");
            assert!(!(down && name == "SP"), "a pen is taken while one is down");
            down = name == "PD" || (down && name != "PU");
        }
    }
}

/// Tags nest, text is escaped, and there is no control character.
pub fn svg(text: &str) {
    let allowed = |letter: char| letter >= ' ' && !('\u{7f}'..='\u{9f}').contains(&letter) && !['\u{fffe}', '\u{ffff}'].contains(&letter);
    assert!(text.chars().all(|letter| allowed(letter) || letter == '\n' || letter == '\t'), "a control character: {text:?}");
    let mut open = Vec::new();
    let mut rest = text;
    while let Some((before, tag)) = rest.split_once('<') {
        assert!(!before.contains('>') || before.contains("]]"), "a bare >: {before:?}");
        entities(before);
        if let Some(comment) = tag.strip_prefix("!--") {
            let (inside, after) = comment.split_once("-->").expect("an open comment");
            assert!(!inside.contains("--"), "-- in a comment");
            rest = after;
            continue;
        }
        let (inside, after) = tag.split_once('>').expect("an open tag");
        rest = after;
        assert!(inside.matches('"').count().is_multiple_of(2), "<{inside}>");
        let name = inside.split([' ', '\n', '/']).next().unwrap_or("");
        if let Some(closed) = inside.strip_prefix('/') {
            assert_eq!(open.pop(), Some(closed), "tags do not nest");
        } else if !inside.ends_with('/') {
            open.push(name);
        }
        if let Some((_, data)) = inside.split_once(" d=\"") {
            path(data.split('"').next().unwrap_or(""));
        }
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "{open:?} left open, {rest:?} behind the end");
}

fn entities(text: &str) {
    for part in text.split('&').skip(1) {
        assert!(["lt;", "gt;", "amp;", "quot;", "apos;", "#"].iter().any(|name| part.starts_with(name)), "a bare &: {text:?}");
    }
}

/// Path data: letters with as many numbers as they take, from an `M` on.
pub fn path(text: &str) {
    if text.is_empty() {
        return;
    }
    assert!(text.starts_with('M'), "{text:?}");
    let starts: Vec<usize> = text.match_indices(|letter: char| letter.is_ascii_alphabetic()).map(|found| found.0).collect();
    let ends = starts.iter().skip(1).copied().chain([text.len()]);
    for (start, end) in starts.iter().zip(ends) {
        let numbers: Vec<&str> = text[start + 1..end].split_whitespace().collect();
        let expected = match text.as_bytes()[*start] {
            b'M' | b'L' => 2,
            b'H' | b'V' => 1,
            b'A' => 7,
            b'Z' => 0,
            other => panic!("{:?} in path data", other as char),
        };
        assert_eq!(numbers.len(), expected, "{:?}", &text[*start..end]);
        numbers.iter().for_each(|number| decimal(number, text));
    }
}

/// Pairs of lines, a number and a value; vertices only inside polylines.
pub fn dxf(text: &str) {
    let lines: Vec<&str> = text.strip_suffix("\r\n").expect("the last line ends").split("\r\n").collect();
    assert!(lines.len().is_multiple_of(2), "{} lines", lines.len());
    let mut inside = false;
    for pair in lines.chunks(2) {
        let (number, value) = (pair[0], pair[1]);
        let number: u32 = number.parse().unwrap_or_else(|_| panic!("{number:?} is no group"));
        assert!(number <= 255 || number == 999, "group {number}");
        assert!(value.is_ascii() && value.len() <= 255 && !value.contains(['\r', '\n', '\0']), "{value:?}");
        if number == 0 {
            assert!(value != "VERTEX" || inside, "a vertex outside of a line");
            assert!(!inside || ["VERTEX", "SEQEND"].contains(&value), "{value} inside of a line");
            inside = (inside || value == "POLYLINE") && value != "SEQEND";
        }
        if [10, 20, 11, 21, 40, 42].contains(&number) {
            decimal(value, value);
        }
    }
    assert_eq!(lines[lines.len() - 2..], ["0", "EOF"], "not ended");
}
