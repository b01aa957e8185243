//! Strips with known optima, as in `tests/data/packing`: read, and refused where a file is not what it says.

/// A strip and what fills it up to the optimum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strip {
    pub name: String,
    pub width: i64,
    pub optimum: i64,
    pub sizes: Vec<[i64; 2]>,
}

/// All strips of a folder of `tests/data/packing`, by name.
pub fn strips(folder: &str) -> Vec<Strip> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/data/packing").join(folder);
    let mut files: Vec<_> = std::fs::read_dir(&folder).expect("the folder is there").map(|file| file.expect("it can be read").path()).collect();
    files.sort();
    let read = |file: &std::path::PathBuf| {
        let text = std::fs::read_to_string(file).expect("the file can be read");
        read_strip(&text).unwrap_or_else(|problem| panic!("{}: {problem}", file.display()))
    };
    files.iter().map(read).collect()
}

/// A strip from the text of its file, or what is wrong with it.
pub fn read_strip(text: &str) -> Result<Strip, String> {
    let head = text.lines().next().unwrap_or_default();
    let words: Vec<&str> = head.split_whitespace().collect();
    let ["#", name, "strip", "width", width, "known", "optimal", "height", optimum, "items", items, "total", "area", area] = words[..] else {
        return Err(format!("line 1: not the head of a strip: \"{head}\""));
    };
    let [width, optimum, items, area] = [width, optimum, items, area].map(|word| number(word, 1));
    let (width, optimum, items, area) = (width?, optimum?, items?, area?);
    let mut sizes = Vec::new();
    for (index, line) in text.lines().enumerate().skip(1) {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') || line == "width,height" {
            continue;
        }
        let at = index + 1;
        let [w, h] = line.split(',').collect::<Vec<_>>()[..] else { return Err(format!("line {at}: not two numbers: \"{line}\"")) };
        let size = [number(w, at)?, number(h, at)?];
        if size[0].min(size[1]) > width {
            return Err(format!("line {at}: {w} x {h} is wider than the strip of {width}"));
        }
        sizes.push(size);
    }
    if sizes.len() as i64 != items {
        return Err(format!("{} items, not {items} as the head says", sizes.len()));
    }
    let sum: i64 = sizes.iter().map(|[w, h]| w * h).sum();
    if sum != area || area > width * optimum {
        return Err(format!("total area {sum}, not {area} as the head says, or more than {width} x {optimum}"));
    }
    Ok(Strip { name: name.to_string(), width, optimum, sizes })
}

/// A whole number from 1 to a million.
fn number(word: &str, line: usize) -> Result<i64, String> {
    let number = word.trim().parse::<i64>().map_err(|_| format!("line {line}: not a whole number: \"{word}\""))?;
    if (1..=1_000_000).contains(&number) { Ok(number) } else { Err(format!("line {line}: {number} is not from 1 to 1000000")) }
}
