"""Every panel's kind, mark, price and screws, worked out again from its outline, and the sums over the room."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from core.room import wall_letter
from core.setout.result import Mount, Panel, SetOut
from tests.reference.price import DesignKey, Terms, design_key, exact, in_kit, kind, terms
from tests.reference.reading import RowReading, is_connected, parts_by_wall, read_pieces
from tests.reference.strip import Piece, RowCells
from tests.reference.timber import Landing, MountRuleReader, Point

NEAR_MINUTES = 1e-6


@dataclass(frozen=True)
class Read:
    """A panel with the piece its outline encloses."""

    panel: Panel
    cells: RowCells
    piece: Piece
    key: DesignKey
    terms: Terms
    points: tuple[Point, ...]


def read_panels(setout: SetOut, readings: list[RowReading]) -> list[Read]:
    """All panels that hold any cell."""
    found = []
    for reading in readings:
        mounts = MountRuleReader(reading.cells)
        for panel, piece in read_pieces(reading):
            cells = reading.cells
            priced = terms(cells, piece, setout.room.rates)
            found.append(Read(panel, cells, piece, design_key(cells, piece), priced, tuple(mounts.points(piece))))
    return found


def audit_panels(setout: SetOut, reads: list[Read]) -> Iterator[str]:
    """Everything wrong with single panels."""
    if len(reads) != len(setout.panels):
        yield f"{len(setout.panels) - len(reads)} panels hold no cell"
    landing = Landing(setout.room, setout.walls, setout.timber)
    for read in reads:
        faults = [*_shape_faults(setout, read), *_mount_faults(setout, read, landing)]
        yield from (f"{read.panel.mark}: {fault}" for fault in faults)


def _shape_faults(setout: SetOut, read: Read) -> Iterator[str]:
    panel, piece, kit = read.panel, read.piece, setout.room.kit
    if not is_connected(piece):
        yield "falls apart"
    if panel.kind != kind(read.cells, piece):
        yield f"is called {panel.kind}, its outline makes it {kind(read.cells, piece)}"
    minutes = float(read.terms.build + read.terms.handling)
    if abs(panel.minutes - minutes) > NEAR_MINUTES:
        yield f"{panel.minutes} minutes, its outline makes it {minutes}"
    if len(panel.faces) != len(parts_by_wall(piece)):
        yield f"has {len(panel.faces)} faces, its cells make {len(parts_by_wall(piece))} on its walls"
    if piece.wraps:
        yield from _wrap_faults(setout, panel)
    elif piece.right - piece.left > kit.full_width:
        yield "is wider than the full panel"
    letters = {wall_letter(face.wall) for face in panel.faces}
    match = re.fullmatch(r"([A-Z]+)-(\d+)-(\d{2,})", panel.mark)
    if match is None or match[1] not in letters or int(match[2]) != panel.row + 1:
        yield "its mark does not name its wall, row and place"


def _wrap_faults(setout: SetOut, panel: Panel) -> Iterator[str]:
    first, last = panel.faces[0].wall, panel.faces[-1].wall
    on_first = [face for face in panel.faces if face.wall == first]
    on_last = [face for face in panel.faces if face.wall == last]
    pitches = setout.walls[first].pitches
    if (first + 1) % len(setout.walls) != last or len(on_first) + len(on_last) != len(panel.faces):
        yield f"its faces lie on walls {[face.wall for face in panel.faces]}"
    if any(face.right != pitches for face in on_first) or any(face.left != 0 for face in on_last):
        yield "a face does not reach the corner"
    legs = [pitches - min(face.left for face in on_first), max(face.right for face in on_last)]
    if max(legs) > setout.room.kit.full_width:
        yield "a leg is longer than the full width"


def _mount_faults(setout: SetOut, read: Read, landing: Landing) -> Iterator[str]:
    mounts = [mount for face in read.panel.faces for mount in face.mounts]
    if any(mount.wall != face.wall for face in read.panel.faces for mount in face.mounts):
        yield "a mounting point stands on the wrong face"
    wanted = Counter(_grid_point(read.cells, point) for point in read.points)
    found = Counter((mount.wall, mount.x_pitches, mount.z_half_plates) for mount in mounts)
    if wanted != found:
        yield f"mounting points {sorted(found)}, the rule puts them at {sorted(wanted)}"
    for mount in mounts:
        if not _stands_in_piece(setout, read, mount):
            yield f"the pin-hole brick at {mount.x_pitches}, {mount.z_half_plates} is not all inside"
        if (mount.lands_on is not None) != _has_timber(setout, landing, mount):
            yield f"{mount}, but the listed timber says otherwise"


def _grid_point(cells: RowCells, point: Point) -> tuple[int, int, int]:
    line, layer = point
    wall = cells.strip.wall_at(line)
    x = cells.strip.line(line) - cells.strip.starts[cells.strip.walls.index(wall)]
    built = cells.layers[layer]
    return wall, x, 2 * cells.row.z_plates + built.bottom + built.top


def _stands_in_piece(setout: SetOut, read: Read, mount: Mount) -> bool:
    high = setout.room.kit.plates_per_course
    layer, rest = divmod(mount.z_half_plates - 2 * read.cells.row.z_plates - high, 2 * high)
    if rest or not 0 <= layer < read.cells.row.courses:
        return False
    strip = read.cells.strip
    line = strip.starts[strip.walls.index(mount.wall)] + mount.x_pitches
    turns = (0, strip.length) if strip.closed else (0,)
    return any(left < line + turn < right for left, right in read.piece.runs_of(layer) for turn in turns)


def _has_timber(setout: SetOut, landing: Landing, mount: Mount) -> bool:
    room = setout.room
    if room.frame(mount.wall).mode == "to_build":
        return True
    x_mm = setout.walls[mount.wall].start_mm + mount.x_pitches * room.kit.pitch_mm
    return landing.lands(mount.wall, x_mm, mount.z_half_plates / 2 * room.kit.plate_mm)


def audit_sums(setout: SetOut, reads: list[Read]) -> Iterator[str]:
    """Everything wrong with designs, tally and the room's minutes."""
    yield from _design_faults(setout, reads)
    strange = {read.key for read in reads if not in_kit(read.cells, read.piece)}
    tally, rates = setout.tally, setout.room.rates
    counts = Counter(panel.kind for panel in setout.panels)
    if tally.panels != len(setout.panels) or {k: n for k, n in tally.by_kind.items() if n} != dict(counts):
        yield f"tally {tally} of panels {dict(counts)}"
    if tally.designs_not_in_kit != len(strange):
        yield f"tally names {tally.designs_not_in_kit} designs not in the kit, the outlines make {len(strange)}"
    landing = Landing(setout.room, setout.walls, setout.timber)
    unbacked = sum(landing.wants_blocking(read.cells, point) for read in reads for point in read.points)
    wanted = {
        "build": sum((read.terms.build for read in reads), Fraction(0)),
        "handling": sum((read.terms.handling for read in reads), Fraction(0)),
        "setup": exact(rates.setup) * len(strange),
        "sliver": sum((read.terms.sliver for read in reads), Fraction(0)),
        "weak": sum((read.terms.weak for read in reads), Fraction(0)),
        "blocking": exact(rates.blocking) * unbacked,
    }
    for term, minutes in wanted.items():
        if abs(getattr(setout.minutes, term) - float(minutes)) > NEAR_MINUTES:
            yield f"minutes.{term} is {getattr(setout.minutes, term)}, the outlines make it {float(minutes)}"


def _design_faults(setout: SetOut, reads: list[Read]) -> Iterator[str]:
    names: dict[str, set[DesignKey]] = {}
    keys: dict[DesignKey, set[str]] = {}
    for read in reads:
        names.setdefault(read.panel.design, set()).add(read.key)
        keys.setdefault(read.key, set()).add(read.panel.design)
    yield from (f"design {name} stands for {len(found)} different outlines" for name, found in names.items() if len(found) > 1)
    yield from (f"one outline is built to designs {sorted(found)}" for found in keys.values() if len(found) > 1)
    counts = Counter(read.panel.design for read in reads)
    listed = {design.name: design for design in setout.designs}
    if len(listed) != len(setout.designs) or {name: d.count for name, d in listed.items()} != dict(counts):
        yield "the list of designs does not count the panels"
    for read in reads:
        design = listed.get(read.panel.design)
        if design and (design.kind, design.in_kit) != (read.panel.kind, in_kit(read.cells, read.piece)):
            yield f"{read.panel.mark}: its design is listed as {design}"
