"""How a panel holds together, counted again: on the audit's own reading of the plan, and as flows and cuts of a graph."""

from itertools import pairwise
from pathlib import Path

import networkx as nx
import pytest

from core.bond import bonds_for
from core.bond.bonds import first_panels
from core.bond.findings import bond_checks
from core.bond.result import Bond, Laid, Layer
from core.bond.solving import bond_shape
from core.bond.strength import joined_parts, owners_of, strength_of
from core.files import load_room
from core.setout import solve
from core.whole_job import WholeJob
from tests.core.bond.rooms import room, shape, ten_feet, usual_palette
from tests.reference.bond_audit import Audit

ROOMS = Path(__file__).resolve().parents[2] / "reference" / "rooms"
ODD_ROOMS = ("closing-row-at-the-foot", "kit-panel-over-opening", "corner-in-two-parts", "dear-setup")
every_room = pytest.mark.parametrize("name", ["demo", *ODD_ROOMS])
Node = tuple[int, int]


def _audits(name: str, demo_room_path: Path) -> list[Audit]:
    setout = solve(load_room(demo_room_path if name == "demo" else ROOMS / f"{name}.room.json"))
    bonds = bonds_for(setout)
    return [Audit(setout, panel, bonds[design]) for design, panel in first_panels(setout).items()]


def _graph(audit: Audit) -> "nx.Graph[Node]":
    """Parts by layer and place, joined by as many knobs as plan cells they share with the layer below."""
    graph: nx.Graph[Node] = nx.Graph()
    names = {placed.number: (n, k) for n, layer in enumerate(audit.layers) for k, placed in enumerate(layer)}
    graph.add_nodes_from(names.values())
    for lower, upper in pairwise(audit.at):
        for cell in lower.keys() & upper.keys():
            one, other = names[lower[cell].number], names[upper[cell].number]
            knobs = graph.edges[one, other]["knobs"] if graph.has_edge(one, other) else 0
            graph.add_edge(one, other, knobs=knobs + 1)
    return graph


@every_room
def test_joined_parts_pieces_levels_and_parts_on_few_knobs_are_those_of_the_graph(name: str, demo_room_path: Path) -> None:
    for audit in _audits(name, demo_room_path):
        graph, strength = _graph(audit), strength_of(audit.bond)
        assert sorted(map(sorted, joined_parts(audit.bond, owners_of(audit.bond)))) == sorted(map(sorted, graph.edges))
        assert strength.bodies == nx.number_connected_components(graph)
        cuts = [nx.cut_size(graph, {node for node in graph if node[0] < n}, weight="knobs") for n in range(1, len(audit.layers))]
        assert [(bed.layer, bed.knobs) for bed in strength.beds] == [
            (n, cut) for n, cut in enumerate(cuts, start=1) if cut == min(cuts)
        ]
        held = dict(graph.degree(weight="knobs"))
        assert strength.held_by_few == {node: knobs for node, knobs in held.items() if knobs < 2}
        below = {node for node in graph if any(other[0] < node[0] for other in graph[node])}
        assert strength.hanging == sum(node[0] > 0 and node not in below for node in graph)


@every_room
def test_the_weakest_joint_lets_least_flow_across(name: str, demo_room_path: Path) -> None:
    """Across a joint flows what parts that reach over it can pass on, each at most its knobs on either side."""
    for audit in _audits(name, demo_room_path):
        graph, found = _graph(audit), {}
        for n in range(len(audit.layers)):
            for leg in range(audit.reading.legs):
                for x in audit.joints(n, leg):
                    found[n, leg, x] = _flow(audit, graph, n, leg, x)
        least = min(found.values(), default=0)
        laps = {(lap.layer, lap.leg, lap.at): lap.knobs for lap in strength_of(audit.bond).laps}
        assert laps == {place: flow for place, flow in found.items() if flow == least}


def _flow(audit: Audit, graph: "nx.Graph[Node]", n: int, leg: int, x: int) -> int:
    halves = [[audit.reading.plan(leg, pitch, d) for d in range(audit.reading.depth)] for pitch in (x - 1, x)]
    stands = n > 0 and all(any(cell in audit.at[n - 1] for cell in half) for half in halves)
    across = n - 1 if stands else n + 1
    numbers = {placed.number: (n, k) for k, placed in enumerate(audit.layers[n])}
    sides = [{numbers[audit.at[n][cell].number] for cell in half if cell in audit.at[n]} for half in halves]
    pipes: nx.DiGraph[Node | str] = nx.DiGraph()
    pipes.add_nodes_from(("left", "right"))
    for parts, ends in zip(sides, (("left", None), (None, "right")), strict=True):
        for part in parts:
            for other in graph[part]:
                if other[0] == across:
                    begin, end = ends[0] or other, ends[1] or other
                    knobs = pipes.edges[begin, end]["capacity"] if pipes.has_edge(begin, end) else 0
                    pipes.add_edge(begin, end, capacity=knobs + graph.edges[part, other]["knobs"])
    return int(nx.maximum_flow_value(pipes, "left", "right"))


@every_room
def test_stretches_are_the_pitches_with_nothing_below(name: str, demo_room_path: Path) -> None:
    for audit in _audits(name, demo_room_path):
        r, bare = audit.reading, set()
        for n in range(1, len(audit.layers)):
            for leg in range(r.legs):
                for x in _pitches(audit, leg):
                    cells = [r.plan(leg, x, d) for d in range(r.depth)]
                    if any(cell in audit.at[n] for cell in cells) and not any(cell in audit.at[n - 1] for cell in cells):
                        bare.add((n, leg, x))
        told = [(one.layer, one.leg, x) for one in strength_of(audit.bond).stretches for x in range(one.begin, one.end)]
        assert len(told) == len(set(told))
        assert set(told) == bare
        runs = {(n, leg, x) for n, leg, x in bare if (n, leg, x - 1) not in bare}
        assert len(strength_of(audit.bond).stretches) == len(runs)


def _pitches(audit: Audit, leg: int) -> set[int]:
    """A leg's pitches; the corner's square is told of with the left leg."""
    mine, square = {x for own in audit.reading.own for x in own[leg]}, audit.reading.square(leg)
    return mine - square if leg else mine | square


def _wall(*courses: tuple[int, ...], thickness: int = 2) -> Bond:
    """Courses of bricks from the left end; a negative number leaves so many pitches open."""
    layers = []
    for n, lengths in enumerate(courses):
        at, laid = 0, []
        for length in lengths:
            laid += [Laid(f"brick {thickness}x{length}", 0, at, length)] if length > 0 else []
            at += abs(length)
        layers.append(Layer("course", 3 * n, 3, tuple(laid)))
    return Bond("wall", (sum(map(abs, courses[0])),), tuple(layers), 0, (), 0, depth=thickness)


def test_half_a_brick_of_lap_is_four_knobs() -> None:
    """Two bricks and one across them: two pitches of two knobs on either side."""
    (lap,) = strength_of(_wall((4, 4), (2, 4, 2), (4, 4))).laps[:1]
    assert (lap.layer, lap.at, lap.knobs) == (0, 4, 4)


def test_a_short_brick_at_the_end_holds_by_its_own_length() -> None:
    """The joint below is two pitches away, yet the end brick of one pitch has two knobs only."""
    strength = strength_of(_wall((3, 5), (1, 4, 3)))
    assert [(lap.layer, lap.at, lap.knobs) for lap in strength.laps] == [(1, 1, 2)]


def test_over_an_opening_a_joint_is_lapped_by_the_course_above() -> None:
    strength = strength_of(_wall((4, -4, 4), (5, 2, 5), (12,)))
    assert [(lap.layer, lap.at, lap.knobs) for lap in strength.laps] == [(1, 5, 4), (1, 7, 4)]
    assert [(one.layer, one.begin, one.end) for one in strength.stretches] == [(1, 4, 8)]


def test_of_stretches_as_long_the_lowest_is_named() -> None:
    strength = strength_of(_wall((4, -4, 4, -4, 4), (20,), (4, -4, 4, -4, 4), (20,)))
    longest = strength.unsupported
    assert longest is not None
    assert [one.layer for one in strength.stretches] == [1, 1, 3, 3]
    assert (longest.layer, longest.begin, longest.end) == (1, 4, 8)


def test_joints_in_line_are_lapped_by_nothing() -> None:
    strength = strength_of(_wall((4, 4), (4, 4)))
    assert (strength.bodies, [lap.knobs for lap in strength.laps]) == (2, [0, 0])


def test_a_sound_room_has_no_finding() -> None:
    setout = ten_feet()
    bonds = bonds_for(setout)
    assert bond_checks({name: (bond, ["A-1-01"]) for name, bond in bonds.items()}) == ()


def test_a_strip_of_one_course_under_an_opening_is_in_pieces_until_it_has_two() -> None:
    whole, jambs = ((0, 20),), ((0, 4), (16, 20))
    strip, two = (
        bond_shape(shape(*courses, jambs, jambs, whole, whole), usual_palette()) for courses in ((whole,), (whole, whole))
    )
    (check,) = bond_checks({"shaped": (strip, ["A-1-02", "B-1-02"])})
    assert (check.level, check.code, check.where) == ("warning", "in-pieces", "panel A-1-02")
    assert "shaped (2 panels) falls into" in check.text
    assert bond_checks({"shaped": (two, ["A-1-02"])}) == ()


def test_a_single_course_is_in_pieces() -> None:
    (check,) = bond_checks({"strip": (_wall((4, 4, 2)), ["A-1-01"])})
    assert "single course of 3 pieces" in check.text


def test_a_part_on_a_single_knob_can_turn() -> None:
    """In a lining one pitch thick a brick of one pitch has one knob."""
    (check,) = bond_checks({"thin": (_wall((4, 3), (2, 4, 1), thickness=1), ["A-1-01"])})
    assert (check.code, "brick 1x1 in layer 2" in check.text) == ("one-knob", True)
    assert bond_checks({"thin": (_wall((4, 3), (2, 5), thickness=1), ["A-1-01"])}) == ()


def test_all_above_a_single_knob_can_turn() -> None:
    """A neck one pitch wide and thick, with sound courses above and below it."""
    neck = _wall((4,), (4,), (-1, 1, -2), (4,), (4,), thickness=1)
    (check,) = bond_checks({"neck": (neck, ["A-1-01"])})
    assert (check.code, "all above layer 2 from the bottom" in check.text) == ("one-knob", True)


def test_the_whole_job_warns_once_for_all_panels_of_a_weak_design() -> None:
    job = WholeJob(solve(load_room(ROOMS / "closing-row-at-the-foot.room.json")))
    warned = {check.where.removeprefix("panel ") for check in job.checks if check.code == "in-pieces"}
    first = {design: panel.mark for design, panel in first_panels(job.setout).items()}
    loose = {first[name] for name, bond in job.bonds.items() if any(fault.kind == "loose" for fault in bond.faults)}
    assert warned == loose != set()


def test_a_room_without_openings_is_not_warned_of() -> None:
    assert not {check.code for check in WholeJob(solve(room())).checks} & {"in-pieces", "one-knob"}
