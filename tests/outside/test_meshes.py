"""Solids as trimesh has them: closed, right way out, as large as they must be, where manifold3d puts them; and again after a file."""

import dryfit as df
import numpy as np
import pytest
import solids as kernel
import trimesh
from dryfit import solids

STOCK = df.Stock(thickness=6, sheet=(700, 500))


def polygon_area(loops):
    """Of outlines made of straight edges: chords stand in place of arcs."""
    return sum(float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2 for x, y in (loop.T for loop in loops))


def holds(mesh, loops, thickness):
    assert mesh.is_watertight and mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(polygon_area(loops) * thickness, rel=1e-12)


def test_panels_of_many_assemblies(boxes, free_assemblies):
    seen = 0
    for name, *_, made in [*boxes[::4], *free_assemblies[::4]]:
        meshes = {board: solids.mesh(panel) for board, panel in made.panels.items()}
        for board, panel in made.panels.items():
            holds(meshes[board], panel.loops, panel.thickness)
            assert meshes[board].volume == pytest.approx(panel.area * panel.thickness, rel=1e-12), name
            seen += 1
        placed = kernel.panel_solids(made.panels)
        for board, solid in placed.items():
            assert meshes[board].bounds.ravel() == pytest.approx(np.array(solid.bounding_box()) / 1e6, abs=1e-9), (name, board)
    assert seen > 500


def rack():
    """Round holes, a turned rib, boards of two thicknesses."""
    made = df.Assembly(stock=STOCK)
    made.add("long", normal="y", at=(0, 97, 0), size=(300, 120))
    made.add("rib", normal="x", at=(97, 0, 0), size=(200, 120), turn=30)
    made.add("end", normal="x", at=(260, 0, 0), size=(200, 90), stock=df.Stock(thickness=4, sheet=(700, 500)))
    made.hole("long", at=(200, 80), diameter=30)
    made.hole("end", at=(40, 40), size=(40, 20))
    return made


def test_parts_are_what_comes_off_the_cutter():
    made = df.box(outside=(200, 150, 90), stock=STOCK)
    parts = made.cut(cutter=df.Cutter.bit(diameter=3), fit=df.Fit(cheek=0.1), relief=df.Relief(radius=2))
    for part in parts.values():
        mesh = solids.mesh(part)
        holds(mesh, part.finished_loops, 6)
        assert mesh.volume == pytest.approx(part.area * 6, rel=1e-4)
        assert mesh.metadata["name"] == part.name


# What touches shares flat solids of no volume, which have no middle.
@pytest.mark.filterwarnings("ignore:invalid value encountered in divide")
@pytest.mark.parametrize("explode", [0, 35])
def test_a_scene_has_a_node_for_each_board(explode):
    made = rack()
    scene = solids.scene(made, explode=explode)
    assert sorted(scene.graph.nodes_geometry) == sorted(made.panels)
    assert scene.units == "mm"
    assert scene.volume == pytest.approx(sum(polygon_area(panel.loops) * panel.thickness for panel in made.panels.values()), rel=1e-12)
    placed = {name: mesh.apply_transform(scene.graph[name][0]) for name, mesh in ((name, solids.mesh(panel)) for name, panel in made.panels.items())}
    pairs = [(p, q) for p in placed for q in placed if p < q]
    for p, q in pairs:
        shared = trimesh.boolean.intersection([placed[p], placed[q]], engine="manifold")
        assert shared.is_empty or abs(shared.volume) < 1e-6, (p, q)
        # Pulled apart, no two boxes around upright boards overlap; put together, they do.
    upright = [(placed[p].bounds, placed[q].bounds) for p, q in pairs if "rib" not in (p, q)]
    overlap = [(np.minimum(a[1], b[1]) > np.maximum(a[0], b[0]) + 1e-9).all() for a, b in upright]
    assert overlap == [explode == 0]


def test_the_whole_of_a_box_is_its_shell():
    made = df.box(outside=(200, 150, 90), stock=STOCK)
    whole = trimesh.boolean.union(solids.scene(made).dump(), engine="manifold")
    assert whole.volume == pytest.approx(200 * 150 * 90 - 188 * 138 * 78, rel=1e-12)


def test_a_scene_of_parts():
    made = df.box(outside=(200, 150, 90), stock=STOCK)
    parts = made.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(cheek=0.1))
    scene = solids.scene(made, parts=parts, explode="2 cm")
    assert scene.volume == pytest.approx(sum(part.area for part in parts.values()) * 6, rel=1e-12)
    assert scene.volume < solids.scene(made).volume


def test_labels_and_copies_are_the_boards_still():
    made = rack()
    tool = df.Cutter.beam(kerf=0.2)
    plain, labelled = made.cut(cutter=tool), made.cut(cutter=tool, label="left of the door")
    other = df.prism(sides=6, outside=60, height=50, stock=STOCK).cut(cutter=tool)
    wanted = solids.scene(made, parts=plain)
    for parts in (labelled, labelled + plain + labelled, other + labelled):
        scene = solids.scene(made, parts=parts)
        assert sorted(scene.geometry) == sorted(made.panels)
        assert scene.volume == wanted.volume and np.array_equal(scene.bounds, wanted.bounds)


# Single-precision numbers in the files.
@pytest.mark.parametrize(("ending", "unit", "nodes"), [(".stl", 1, False), (".3mf", 1, True), (".glb", 1e-3, True), (".gltf", 1e-3, True)])
def test_files_read_back(ending, unit, nodes, tmp_path):
    made = rack()
    scene = solids.scene(made, explode=30)
    path = tmp_path / f"rack{ending}"
    solids.save(scene, path)
    assert [file.name for file in tmp_path.iterdir()] == [path.name]
    back = trimesh.load_scene(path)
    bounds = scene.bounds.copy()
    if unit != 1:
        # Metres, and y up: z is what y was, forwards.
        bounds = np.array([[bounds[0][0], bounds[0][2], -bounds[1][1]], [bounds[1][0], bounds[1][2], -bounds[0][1]]]) * unit
    assert back.bounds.ravel() == pytest.approx(bounds.ravel(), abs=1e-3 * unit)
    whole = back.to_mesh()
    assert whole.is_watertight and whole.volume == pytest.approx(scene.volume * unit**3, rel=1e-6)
    for name in made.panels if nodes else ():
        place, geometry = back.graph[name]
        mesh = back.geometry[geometry].copy().apply_transform(place)
        assert mesh.is_watertight and mesh.volume == pytest.approx(scene.geometry[name].volume * unit**3, rel=1e-6)


def test_one_board_alone_is_a_file_too(tmp_path):
    plate = df.Parts.rectangles([(60, 40)], thickness=3)["1"]
    solids.save(solids.mesh(plate), tmp_path / "plate.STL")
    assert trimesh.load_mesh(tmp_path / "plate.STL").volume == pytest.approx(7200)


def test_what_is_refused(tmp_path):
    made = df.box(outside=(200, 150, 90), stock=STOCK)
    with pytest.raises(df.WrongType, match=r"^board: 3 given, allowed a Panel or a Part$"):
        solids.mesh(3)
    with pytest.raises(df.MissingKey, match=r'^thickness: missing in the part "1", allowed a part that was made for a board of one thickness$'):
        solids.mesh(df.Parts.rectangles([(60, 40)])["1"])
    with pytest.raises(df.WrongType, match=r"^assembly: .* given, allowed an Assembly$"):
        solids.scene(made.panels)
    for explode, error in ((-1, df.OutOfRange), (float("nan"), df.NotFinite), ("far", df.NotALength), ([], df.WrongType)):
        with pytest.raises(error, match="^explode: "):
            solids.scene(made, explode=explode)
    with pytest.raises(df.NoSuchBoard, match=r'^parts: none of the board "front" given, allowed .* gave: "1"$'):
        solids.scene(made, parts=df.Parts.rectangles([(60, 40)]))
    lower = df.box(outside=(200, 150, 80), stock=STOCK)
    both = made.cut(cutter=df.Cutter.beam(kerf=0.2), label="a") + lower.cut(cutter=df.Cutter.beam(kerf=0.2), label="b")
    with pytest.raises(df.NameTaken, match=r'^parts: several of the board "front" given, "a front", "b front", allowed the parts of one assembly$'):
        solids.scene(made, parts=both)
    with pytest.raises(df.WrongType, match=r"^parts: 3 given, allowed Parts$"):
        solids.scene(made, parts=3)
    with pytest.raises(df.OutOfRange, match=r'^path: ".*case.obj" given, allowed a name that ends in ".stl", ".3mf", ".glb", ".gltf"$'):
        solids.save(solids.scene(made), "case.obj")
    with pytest.raises(df.WrongType, match="^what: "):
        solids.save(made, tmp_path / "case.stl")


def test_locked_boards_can_be_looked_at_but_not_pulled_apart():
    made = df.Assembly(stock=STOCK)
    made.add("tall", normal="x", at=(50, 0, 0), size=(100, 120))
    made.add("wide", normal="y", at=(0, 50, 20), size=(100, 80))
    made.joint("tall", "wide", df.Halves())
    assert sorted(solids.scene(made).geometry) == ["tall", "wide"]
    with pytest.raises(df.Locked):
        solids.scene(made, explode=10)
