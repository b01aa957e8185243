"""Documents with a rectangle of 110 x 85 mm, in every way that a document can say how long its unit is."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Document:
    """The attributes of the drawing, how many units a millimetre has, what is around the rectangle."""

    head: str
    per_mm: float
    around: str = ""
    more: str = ""

    def text(self, x: float = 20, y: float = 15) -> str:
        """A rectangle at a place in mm; what is around it has its own coordinates, which `more` undoes."""
        sizes = {"x": x, "y": y, "width": 110, "height": 85}
        rectangle = " ".join(f'{name}="{size * self.per_mm!r}"' for name, size in sizes.items())
        return f'<svg xmlns="http://www.w3.org/2000/svg" {self.head}><g id="layer" {self.around}><rect id="r" {rectangle} {self.more}/></g><circle id="c" r="3"/></svg>'


DOCUMENTS = {
    "mm": Document('width="300mm" height="200mm" viewBox="0 0 300 200"', 1),
    "inch": Document('width="12in" height="8in" viewBox="0 0 12 8"', 1 / 25.4),
    "px": Document('width="1200" height="800"', 96 / 25.4),
    "scaled": Document('width="300mm" height="200mm" viewBox="0 0 900 600"', 3),
    "moved": Document('width="30cm" height="200mm" viewBox="-50 -40 300 200"', 1),
    "in a scaled layer": Document('width="300mm" height="200mm" viewBox="0 0 600 400"', 1, 'transform="translate(7 3) scale(2)"'),
    "turned by a quarter twice": Document('width="300mm" height="200mm" viewBox="0 0 300 200"', 1, 'transform="rotate(90)"', 'transform="rotate(-90)"'),
    "flat page": Document('width="600mm" height="100mm" viewBox="0 0 300 200"', 2),
}
