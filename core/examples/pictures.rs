//! Writes the pictures of a closed 110 x 85 x 60 mm box with one divider into a folder: its sheet, its panels and the exploded view.

use std::path::Path;
use std::{env, fs};

use dryfit_core::{BoxSpec, Item, LayoutSpec, Nm, Stock, explode, exploded, order, panel_svg, sheet_svg};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = env::args().nth(1).ok_or("a folder is needed")?;
    let folder = Path::new(&folder);
    let thickness = Nm::from_mm(2.5)?;
    let mm = |v: f64| Nm::from_mm(v);
    let mut spec = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], thickness);
    spec.dividers = [1, 0];
    let panels = spec.assembly()?.panels()?;
    let shapes: Vec<_> = panels.iter().map(|panel| panel.shape().clone()).collect();
    let parts: Vec<_> = panels.iter().zip(&shapes).map(|(panel, shape)| Item::new(panel.name(), shape)).collect();
    let stock = Stock::new(thickness, [mm(350.0)?, mm(250.0)?], mm(8.0)?, mm(1.0)?)?;
    for (number, sheet) in LayoutSpec::default().lay_out(&parts, &[stock], &mut |_| true)?.sheets.iter().enumerate() {
        fs::write(folder.join(format!("sheet-{}.svg", number + 1)), sheet_svg(sheet, &parts, "Box with one divider")?)?;
    }
    for Item { name, path, .. } in &parts {
        fs::write(folder.join(format!("{name}.svg")), panel_svg(path, name))?;
    }
    let boards: Vec<_> = panels.iter().map(|panel| panel.board().clone()).collect();
    let slabs: Vec<_> = boards.iter().zip(&shapes).collect();
    fs::write(folder.join("exploded.svg"), exploded(&slabs, &explode(&order(&panels)?, &boards, mm(35.0)?)))?;
    fs::write(folder.join("together.svg"), exploded(&slabs, &[]))?;
    Ok(())
}
