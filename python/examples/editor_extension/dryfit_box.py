#!/usr/bin/env python3
"""The selected rectangle becomes the parts of a box with finger joints, as paths that the cutter's centre follows.

An effect of a vector editor, on its package inkex. What a box is, libdryfit knows; here are only the document's units and places.
"""

import ctypes
import os
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import inkex
from dryfit_c import Library, Refused

MM_PER_PX = 25.4 / 96


def places() -> list[Path]:
    """Where the library may be installed, the first choice first."""
    named = os.environ.get("DRYFIT_PREFIX")
    usual = [Path(__file__).resolve().parent / "dryfit", Path.home() / ".local", Path("/usr/local"), Path("/usr")]
    return [Path(named)] if named else usual


def library() -> Any:
    """libdryfit and its header, from where ffi/install put them."""
    for place in places():
        if (place / "lib" / "libdryfit.so.0").is_file() and (place / "include" / "dryfit.h").is_file():
            try:
                return Library(place)
            except (ImportError, OSError) as error:
                raise inkex.AbortExtension(f"libdryfit cannot be used: {error}") from None
    looked = "\n".join(f"    {place}/lib/libdryfit.so.0" for place in places())
    raise inkex.AbortExtension(f"libdryfit is not installed. Looked for:\n{looked}\nInstall it with ffi/install, or name its folder in DRYFIT_PREFIX.")


def unit_in_mm(svg: Any) -> float:
    """How long the document's unit is: as SVG has it, a viewBox fits into the page whole unless told otherwise."""
    width, height = (0.0 if "%" in (svg.get(name) or "%") else svg.to_dimensionless(svg.get(name)) for name in ("width", "height"))
    _, _, across, down = svg.get_viewbox()
    ratios = [size / units for size, units in ((width, across), (height, down)) if size and units] or [1.0]
    aspect = svg.get("preserveAspectRatio", "")
    if "none" in aspect and abs(ratios[0] - ratios[-1]) > 1e-6 * ratios[0]:
        raise inkex.AbortExtension("The document is stretched: its viewBox is scaled differently along x and y.")
    return (max(ratios) if "slice" in aspect else min(ratios)) * MM_PER_PX


def upright(rectangle: Any) -> tuple[float, float, float, float]:
    """Left, top, width and height of a rectangle in the document's unit, all transforms done."""
    way = rectangle.composed_transform()
    if any(ancestor.tag_name == "svg" for ancestor in list(rectangle.iterancestors())[:-1]):
        raise inkex.AbortExtension("The rectangle lies in a drawing within the drawing, which has a scale of its own.")
    leaning = max(min(abs(way.a), abs(way.b)), min(abs(way.c), abs(way.d)))
    if leaning > 1e-6 * max(map(abs, (way.a, way.b, way.c, way.d))):
        raise inkex.AbortExtension("The rectangle is rotated or skewed: its sides must run along those of the page.")
    corners = [way.apply_to_point((x, y)) for x in (rectangle.left, rectangle.right) for y in (rectangle.top, rectangle.bottom)]
    left, top = min(x for x, _ in corners), min(y for _, y in corners)
    return left, top, max(x for x, _ in corners) - left, max(y for _, y in corners) - top


class Box(inkex.EffectExtension):
    """The parts in a group of their own: one step to undo."""

    def add_arguments(self, pars: Any) -> None:
        pars.add_argument("--face", choices=["base", "front"], default="base")
        for name, usual in (("other", 60.0), ("thickness", 3.0), ("finger_width", 0.0), ("kerf", 0.0), ("gap", 5.0)):
            pars.add_argument(f"--{name}", type=float, default=usual)
        pars.add_argument("--closed", type=inkex.Boolean, default=True)
        pars.add_argument("--keep", type=inkex.Boolean, default=True)

    def effect(self) -> None:
        rectangle = self.rectangle()
        unit = unit_in_mm(self.svg)
        left, top, width, height = (size * unit for size in upright(rectangle))
        try:
            self.put(Parts(library(), self.options, width, height, unit), rectangle, left, top, width)
        except Refused as refusal:
            raise inkex.AbortExtension(f"This box cannot be made.\n{refusal}") from None

    def rectangle(self) -> Any:
        selected = list(self.svg.selection)
        if len(selected) != 1:
            given = f"{len(selected)} objects are selected" if selected else "Nothing is selected"
            raise inkex.AbortExtension(f"{given}: select one rectangle, whose size is the outside of the box.")
        if not isinstance(selected[0], inkex.Rectangle):
            raise inkex.AbortExtension(f"What is selected is no rectangle but a {selected[0].tag_name}: select one rectangle, made with the tool for rectangles.")
        return selected[0]

    def put(self, parts: "Parts", rectangle: Any, left: float, top: float, width: float) -> None:
        """Adds the parts where the rectangle is, or beside it if that is kept."""
        group = inkex.Group.new(parts.words)
        # Whatever holds the rectangle may scale it: the parts stay as long as they are.
        group.transform = -rectangle.getparent().composed_transform()
        style = {"fill": "none", "stroke": "#000000", "stroke-width": f"{0.1 / parts.unit:.6g}"}
        for name, data in parts.paths(left + (width + parts.gap if self.options.keep else 0), top):
            path = inkex.PathElement(d=data, style=str(inkex.Style(style)))
            path.label = name
            group.append(path)
        # Only now, since a refusal leaves the document as it was.
        rectangle.addnext(group)
        group.set_random_id("cut-outer")
        for path in group:
            path.set_random_id(path.label)
        if not self.options.keep:
            rectangle.delete()


class Parts:
    """A box as libdryfit has it, and its parts as path data."""

    def __init__(self, c: Any, options: Any, width: float, height: float, unit: float) -> None:
        self.c, self.unit, self.gap = c, unit, options.gap
        other = self.length("other", options.other)
        wide, high = self.length("width of the rectangle", width), self.length("height of the rectangle", height)
        self.outside = (wide, high, other) if options.face == "base" else (wide, other, high)
        self.box = c.dryfit_flat_box(outside=self.outside, top=c.DRYFIT_TOP_CLOSED if options.closed else c.DRYFIT_TOP_OPEN)
        self.box.thickness, self.box.kerf = self.length("thickness", options.thickness), self.length("kerf", options.kerf)
        self.box.fingers.width = self.length("finger_width", options.finger_width)
        if not options.gap >= 0:
            raise Refused(c.DRYFIT_OUT_OF_RANGE, f"gap: {options.gap:g} mm given, allowed 0 mm to 10000 mm", "gap")
        x, y, z = (f"{size / c.DRYFIT_MM:.6f}".rstrip("0").rstrip(".") for size in self.outside)
        self.words = f"Box {x} x {y} x {z} mm, board {options.thickness:g} mm, kerf {options.kerf:g} mm"

    def length(self, name: str, mm: float) -> int:
        """Whole nanometres, or the library's refusal with the name that the dialogue has."""
        out = self.c.dryfit_nm()
        try:
            self.c.call("dryfit_length_from_mm", mm, ctypes.byref(out))
        except Refused as refusal:
            raise Refused(refusal.status, str(refusal).replace("length", name, 1), name) from None
        return int(out.value)

    def paths(self, left: float, top: float) -> Iterator[tuple[str, str]]:
        """Name and path data of each part, in rows of two from a place in mm, y down: front and back, left and right, base and top."""
        c = self.c
        x, y, z = self.outside
        # Each path lies half the kerf outside its part, so that much more is between two.
        gap = self.length("gap", self.gap + self.box.kerf / c.DRYFIT_MM)
        below = self.length("top", top)
        for first, (wide, high) in ((c.DRYFIT_FACE_FRONT, (x, z)), (c.DRYFIT_FACE_LEFT, (y, z)), (c.DRYFIT_FACE_BASE, (x, y))):
            for column in range(1 if first == c.DRYFIT_FACE_BASE and self.box.top == c.DRYFIT_TOP_OPEN else 2):
                # The library's y points up: a part's lowest corner lies below its top.
                self.box.at.x = self.length("left", left) + column * (wide + gap)
                self.box.at.y = -below - high
                yield c.dryfit_face_name(first + column).decode(), self.data(first + column)
            below += high + gap

    def data(self, face: int) -> str:
        """The way around a part as path data in the document's unit."""
        c = self.c
        unit = Fraction(self.unit * c.DRYFIT_MM).limit_denominator(1_000_000)
        written: list[bytes] = []
        file = c.dryfit_file()
        here = ctypes.byref(file)
        with c.callback("dryfit_write", lambda address, size: written.append(ctypes.string_at(address, size))) as write:
            c.call("dryfit_path_begin", here, unit.numerator, unit.denominator, None, write, None)
            c.call("dryfit_panel_moves", ctypes.byref(self.box), face, ctypes.cast(c.dryfit_path_cut, c.dryfit_each_move), here)
            c.call("dryfit_path_close", here)
            c.call("dryfit_path_end", here)
        return b"".join(written).decode()


if __name__ == "__main__":
    Box().run()
