"""Deciding the remedy of every mounting point without timber: what the frame can do, or another place of the hole.

A hole is moved where nothing else helps, and on a standing frame where the sheet that draws it takes fewer minutes than the
timber that is then not cut. Only places are offered at which a bond can have its pin-hole bricks.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from core.bond.palette import StockError, palette_of
from core.bond.result import Bond
from core.bond.shape import PanelShape, shape_of
from core.bond.solving import bond_shape, fewest_parts
from core.frame.blocking import blocks_for
from core.frame.doubling import DOUBLE
from core.frame.misses import Backed, Move, back
from core.frame.moving import MOST_PLACES, Drilled, Wish, after, chosen_moves, drilled, usual_way
from core.frame.places import Hole, Place, hole_of, mount_at, places, with_holes
from core.frame.points import Holding, Point, holding, nearest_gap, point_of
from core.setout.framing import BLOCKING
from core.setout.result import Mount, SetOut, Timber

_WIDE_PITCHES = 16
_NEVER_MORE = ("straight joint", "poor bearing", "loose", "left out")
"""Faults that a moved hole must not add to a panel's bond."""
_MOST_ROUNDS = 8
"""So often a decision is made anew at most because timber that was counted on finds no room."""


@dataclass(frozen=True, slots=True)
class MovedHole:
    """A hole of one panel: where its design has it, and where it goes."""

    was: Mount
    to: Mount


@dataclass(frozen=True)
class Remedies:
    """The remedy of every point without timber: by wall what is cut for them, by mark which holes of a panel move."""

    walls: tuple[Backed, ...]
    moved: Mapping[str, tuple[MovedHole, ...]]


def decided(setout: SetOut) -> Remedies:
    """Decide for every point of the room."""
    return _Deciding(setout).remedies()


@dataclass(frozen=True, slots=True)
class _Bare:
    """A point without timber on its panel."""

    point: Point
    hole: Hole


class _Deciding:
    def __init__(self, setout: SetOut) -> None:
        self._setout = setout
        self._rates, self._edge = setout.room.rates, setout.room.kit.mounts.edge_mm
        walls = range(setout.room.wall_count)
        self._members = [[t for t in setout.timber if t.wall == wall] for wall in walls]
        self._areas: list[list[tuple[Holding, str]]] = [
            [(area, t.member) for t in self._members[wall] if (area := holding(t, self._edge))] for wall in walls
        ]
        self._pieces: list[tuple[Timber, ...]] = [() for _ in walls]
        self._openings = [[o for o in setout.room.openings if o.wall == wall] for wall in walls]
        self._panels = {panel.mark: panel for panel in setout.panels}
        self._shapes: dict[str, PanelShape] = {}
        self._points: list[list[Point]] = [[] for _ in walls]
        self._mounts: dict[Point, Mount] = {}
        self._marked: dict[str, list[Point]] = {}
        self._bare_of: dict[str, list[_Bare]] = {}
        for panel in setout.panels:
            for mount in (mount for face in panel.faces for mount in face.mounts):
                point = point_of(setout, panel.mark, mount)
                self._points[mount.wall].append(point)
                if not point.is_held:
                    self._mounts[point] = mount
                    self._marked.setdefault(panel.mark, []).append(point)
        self._gaps = [
            {p: nearest_gap(self._members[wall], p.x_mm, p.z_mm, self._edge) for p in self._points[wall] if not p.is_held}
            for wall in walls
        ]
        self._helpless: set[Point] = set()
        self._unheld: set[tuple[Point, Hole]] = set()
        """Places that were to get timber and did not."""
        self._barred: dict[Drilled, bool] = {}
        self._offers: dict[Point, tuple[Place, ...]] = {}

    def remedies(self) -> Remedies:
        moves: dict[Point, tuple[Place, Move]] = {}
        walls = self._back(moves)
        pieces = frozenset(
            miss.point
            for number, backed in enumerate(walls)
            if self._setout.room.frame(number).mode != "to_build"
            for miss in backed.misses
            if miss.remedy in ("blocking", "doubling")
        )
        for _ in range(_MOST_ROUNDS):
            self._learn(walls, moves)
            found = self._chosen(pieces)
            if found == moves:
                break
            moves = found
            walls = self._back(moves)
        if failed := self._failed(walls, moves):
            moves = {point: move for point, move in moves.items() if point not in failed}
            walls = self._back(moves)
        return Remedies(walls, self._moved(moves))

    def _back(self, moves: Mapping[Point, tuple[Place, Move]]) -> tuple[Backed, ...]:
        return tuple(
            back(
                self._setout,
                points,
                self._members[wall],
                self._gaps[wall],
                {point: moves[point][1] for point in points if point in moves},
            )
            for wall, points in enumerate(self._points)
        )

    def _learn(self, walls: tuple[Backed, ...], moves: Mapping[Point, tuple[Place, Move]]) -> None:
        """Keep in mind which points found no help, and which places none after all, and what stands in the way of blocking."""
        self._pieces = [backed.doubling for backed in walls]
        for point in self._failed(walls, moves):
            self._unheld.add((point, moves[point][0].hole))
            self._offers.pop(point, None)
        for point in {miss.point for backed in walls for miss in backed.misses if miss.remedy == "none"} - moves.keys():
            if point not in self._helpless:
                self._helpless.add(point)
                self._offers.pop(point, None)

    def _failed(self, walls: tuple[Backed, ...], moves: Mapping[Point, tuple[Place, Move]]) -> set[Point]:
        """The moved points whose timber is not there after all: no room for blocking, or another doubling piece."""
        lost = {miss.point for backed in walls for miss in backed.misses if miss.remedy == "none"}
        lost |= {
            point
            for point, (_, move) in moves.items()
            if move.to.lands_on == DOUBLE and not _on_piece(walls[point.wall].doubling, move.to, self._edge)
        }
        return lost & moves.keys()

    def _chosen(self, pieces: frozenset[Point]) -> dict[Point, tuple[Place, Move]]:
        """Where holes move, in bonds that can be laid as well as their designs'."""
        wanted = self._helpless | pieces
        bare = {mark: self._bare(mark) for mark in dict.fromkeys(p.mark for p in self._mounts if p in wanted)}
        wishes = [wish for mark, mine in bare.items() if (wish := self._wish(mark, mine, pieces))]
        while True:
            barred = {sheet for sheet, is_barred in self._barred.items() if is_barred}
            chosen = chosen_moves(wishes, setup=self._rates.setup, piece=self._rates.blocking, barred=barred)
            sheets = {drilled(self._shapes[mark], after(self._shapes[mark], its.items())) for mark, its in chosen.items()}
            unknown = sheets - self._barred.keys()
            self._barred |= {sheet: not self._can_build(*sheet) for sheet in unknown}
            if not any(self._barred[sheet] for sheet in unknown):
                break
        return {
            one.point: (place, self._move(one.point, place))
            for mark, its in chosen.items()
            for one in bare[mark]
            if (place := its.get(one.hole))
        }

    def _bare(self, mark: str) -> list[_Bare]:
        if mark not in self._bare_of:
            panel = self._panels[mark]
            shape = self._shapes[mark] = shape_of(self._setout, panel)
            self._bare_of[mark] = [_Bare(p, hole_of(panel, shape, self._mounts[p])) for p in self._marked[mark]]
        return self._bare_of[mark]

    def _wish(self, mark: str, bare: list[_Bare], pieces: frozenset[Point]) -> Wish | None:
        must, may = (
            tuple((one.hole, offers) for one in bare if one.point in wanted and (offers := self._places(one)))
            for wanted in (self._helpless, pieces - self._helpless)
        )
        return Wish(mark, self._shapes[mark], must, may) if must or may else None

    def _places(self, one: _Bare) -> tuple[Place, ...]:
        """Where timber holds the hole; for one that nothing else helps and no timber holds, where some that is cut can."""
        if one.point not in self._offers:
            every = places(self._shapes[one.point.mark], one.hole, self._setout.room.kit)
            found = tuple(islice((place for place in every if self._is_behind(one.point, place)), MOST_PLACES))
            if not found and one.point in self._helpless:
                found = tuple(islice((place for place in every if self._can_hold(one.point, place)), MOST_PLACES))
            self._offers[one.point] = found
        return self._offers[one.point]

    def _mount(self, mark: str, place: Place, lands_on: str | None) -> Mount:
        return mount_at(self._panels[mark], self._shapes[mark], place.hole, lands_on)

    def _at(self, point: Point, place: Place) -> Point:
        return point_of(self._setout, point.mark, self._mount(point.mark, place, None))

    def _is_behind(self, point: Point, place: Place) -> bool:
        return self._behind(self._at(point, place)) is not None

    def _behind(self, at: Point) -> str | None:
        """The member of the frame behind a place."""
        return next((name for area, name in self._areas[at.wall] if area.holds(at.x_mm, at.z_mm)), None)

    def _can_hold(self, point: Point, place: Place) -> bool:
        """Whether a doubling piece holds the hole, or blocking can."""
        if (point, place.hole) in self._unheld:
            return False
        stud, at = self._setout.room.frame(point.wall).stud_mm, self._at(point, place)
        if _on_piece(self._pieces[point.wall], at, self._edge):
            return True
        stood = (*self._members[point.wall], *self._pieces[point.wall])
        return bool(blocks_for([at], stood, stud, self._edge, self._openings[point.wall])[0])

    def _move(self, point: Point, place: Place) -> Move:
        at = self._at(point, place)
        behind = self._behind(at) or (DOUBLE if _on_piece(self._pieces[at.wall], at, self._edge) else None)
        # Whether it is timber that stands or is designed: only where the frame stands is blocking more work.
        cut_in = BLOCKING if self._setout.room.frame(point.wall).mode == "to_build" else None
        mount = self._mount(point.mark, place, behind or cut_in)
        return Move(point_of(self._setout, point.mark, mount), place.words, needs_block=behind is None)

    def _can_build(self, base: PanelShape, holes: frozenset[Hole]) -> bool:
        """Whether a panel with these holes can be bonded as well as with its own; if neither can be bonded, nothing is worse."""
        palette = palette_of(self._setout.room.parts, self._setout.room.kit)
        moved = with_holes(base, holes)
        try:
            fewest_parts(base, palette)
        except StockError:
            return True
        try:
            fewest_parts(moved, palette)
        except StockError:
            return False
        is_plain = base.corner is None and len({layer.runs for layer in base.layers}) == 1
        if is_plain and base.legs[0] >= _WIDE_PITCHES:
            # Without cut-outs every part bears well, and with so much room joints need not stand in line.
            return True
        was, now = (_faults(bond_shape(usual_way(one), palette)) for one in (base, moved))
        return now <= was

    def _moved(self, moves: Mapping[Point, tuple[Place, Move]]) -> dict[str, tuple[MovedHole, ...]]:
        found: dict[str, list[MovedHole]] = {}
        for point, (place, move) in moves.items():
            found.setdefault(point.mark, []).append(
                MovedHole(self._mounts[point], self._mount(point.mark, place, move.to.lands_on))
            )
        return {panel.mark: tuple(found[panel.mark]) for panel in self._setout.panels if panel.mark in found}


def _faults(bond: Bond) -> Counter[str]:
    return Counter(fault.kind for fault in bond.faults if fault.kind in _NEVER_MORE)


def _on_piece(pieces: Sequence[Timber], at: Point, edge_mm: float) -> bool:
    """Whether one of the doubling pieces holds a screw there, with its distance from all the piece's edges."""
    return any(
        piece.left_mm + edge_mm <= at.x_mm + 1e-6
        and at.x_mm - 1e-6 <= piece.left_mm + piece.width_mm - edge_mm
        and piece.bottom_mm + edge_mm <= at.z_mm <= piece.bottom_mm + piece.height_mm - edge_mm
        for piece in pieces
    )
