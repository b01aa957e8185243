//! Sheets cut up into convex pieces without waste, as in `tests/data/packing/terashima_optimal`: read, and refused where a file is not what it says.

/// Sheets of one size, each with its pieces where they lie.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Jigsaw {
    pub name: String,
    pub width: i64,
    pub height: i64,
    pub sheets: Vec<Vec<Vec<[i64; 2]>>>,
}

/// All of `tests/data/packing/terashima_optimal`, by name.
pub fn jigsaws() -> Vec<Jigsaw> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/data/packing/terashima_optimal");
    let mut files: Vec<_> = std::fs::read_dir(&folder).expect("the folder is there").map(|file| file.expect("it can be read").path()).collect();
    files.sort();
    let read = |file: &std::path::PathBuf| {
        let text = std::fs::read_to_string(file).expect("the file can be read");
        let name = file.file_stem().unwrap_or_default().to_string_lossy();
        read_jigsaw(&name, &text).unwrap_or_else(|problem| panic!("{}: {problem}", file.display()))
    };
    files.iter().map(read).collect()
}

/// The sheets from the text of a file, or what is wrong with it.
pub fn read_jigsaw(name: &str, text: &str) -> Result<Jigsaw, String> {
    let mut words = text.split_whitespace().enumerate();
    let mut next = |what: &str, least: i64, most: i64| -> Result<i64, String> {
        let (place, word) = words.next().ok_or_else(|| format!("the file ends before {what}"))?;
        let number = word.parse::<i64>().map_err(|_| format!("number {}: {what} is \"{word}\", not a whole number", place + 1))?;
        if (least..=most).contains(&number) {
            Ok(number)
        } else {
            Err(format!("number {}: {what} is {number}, not from {least} to {most}", place + 1))
        }
    };
    let sheets = next("the number of sheets", 1, 1000)?;
    let counts = (0..sheets).map(|_| next("a number of pieces", 1, 1000)).collect::<Result<Vec<_>, _>>()?;
    let (width, height) = (next("the width", 1, 100_000)?, next("the height", 1, 100_000)?);
    let mut all = Vec::new();
    for (sheet, count) in (1..).zip(counts) {
        let mut pieces: Vec<Vec<[i64; 2]>> = Vec::new();
        for piece in 1..=count {
            let corners = next("a number of corners", 3, 100)?;
            let corner = |next: &mut dyn FnMut(&str, i64, i64) -> Result<i64, String>| Ok::<_, String>([next("x", 0, width)?, next("y", 0, height)?]);
            let corners = (0..corners).map(|_| corner(&mut next)).collect::<Result<Vec<_>, _>>()?;
            let around = |shift: usize| corners.iter().copied().cycle().skip(shift);
            let turns_right = around(0).zip(around(1)).zip(around(2)).take(corners.len()).find(|((a, b), c)| doubled(&[*a, *b, *c]) < 0);
            if let Some(((_, at), _)) = turns_right {
                return Err(format!("sheet {sheet}, piece {piece}: not convex at ({}, {}), or clockwise", at[0], at[1]));
            }
            pieces.push(corners);
        }
        let area: i64 = pieces.iter().map(|piece| doubled(piece)).sum();
        if area != 2 * width * height {
            return Err(format!("sheet {sheet}: the pieces have twice the area {area}, the sheet {}", 2 * width * height));
        }
        all.push(pieces);
    }
    match words.next() {
        Some((place, word)) => Err(format!("number {}: \"{word}\" is one too many", place + 1)),
        None => Ok(Jigsaw { name: name.to_string(), width, height, sheets: all }),
    }
}

/// Twice the area, by the shoelace formula.
fn doubled(corners: &[[i64; 2]]) -> i64 {
    let next = corners.iter().skip(1).chain(corners.first());
    corners.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum()
}
