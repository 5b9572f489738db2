"""Which parts a bond may be made of: the stocked ones as deep as the panel, by length."""

from dataclasses import dataclass
from typing import Literal

from core.bond.result import LayerKind
from core.errors import CoursewrightError
from core.kit import Kit
from core.language import marked, tr
from core.parts import Part, PartKind, stocked

FillKind = Literal["brick", "plate", "tile"]
FILLS: dict[LayerKind, FillKind] = {"course": "brick", "plate": "plate", "cap": "tile"}
"""What each kind of layer is filled with."""
PIN_LENGTH = 2
"""A pin-hole brick's hole is on the pitch line in its middle."""


class StockError(CoursewrightError):
    """A stock that the panels cannot be bonded from."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A part as bonds see it: its name and its length in pitches."""

    name: str
    length: int


@dataclass(frozen=True, slots=True)
class Palette:
    """The pieces a bond may use, each kind shortest first; one piece per length. ``depth`` is the panel's thickness."""

    depth: int
    brick: tuple[Piece, ...]
    plate: tuple[Piece, ...]
    tile: tuple[Piece, ...]
    pin: Piece | None
    locating: Piece | None

    def pieces(self, kind: FillKind) -> tuple[Piece, ...]:
        """The pieces that fill a layer."""
        found: dict[FillKind, tuple[Piece, ...]] = {"brick": self.brick, "plate": self.plate, "tile": self.tile}
        return found[kind]

    def name(self, kind: FillKind, length: int) -> str:
        """The piece of that length."""
        return next(piece.name for piece in self.pieces(kind) if piece.length == length)

    def without(self, name: str) -> "Palette":
        """The palette less one filling piece."""
        kept = {kind: tuple(p for p in self.pieces(kind) if p.name != name) for kind in FILLS.values()}
        return Palette(self.depth, kept["brick"], kept["plate"], kept["tile"], self.pin, self.locating)


def palette_of(parts: tuple[Part, ...], kit: Kit) -> Palette:
    """The pieces among the stocked parts that a panel of the kit's thickness can use."""
    depth = kit.thickness_pitches

    def pieces(kind: PartKind, deep: int) -> tuple[Piece, ...]:
        by_length: dict[int, Piece] = {}
        for part in stocked(parts, kind):
            if part.depth_pitches == deep:
                by_length.setdefault(part.length_pitches, Piece(part.name, part.length_pitches))
        return tuple(by_length[length] for length in sorted(by_length))

    pins = [piece for piece in pieces("pin-hole brick", 1) if piece.length == PIN_LENGTH]
    locating = pieces("locating plate", depth)
    return Palette(
        depth,
        pieces("brick", depth),
        pieces("plate", depth),
        pieces("tile", depth),
        pins[0] if pins else None,
        locating[0] if locating else None,
    )


def missing_piece(what: str, deep: int, length: int | None = None) -> StockError:
    """The error for a kind of part that is not stocked at all."""
    return StockError(tr(_NO_DEPTH if length is None else _NO_SIZE, part=tr(what), deep=deep, length=length))


_NO_DEPTH = marked(
    "parts: no {part} {deep} pitches deep is stocked, and panels cannot be bonded without one; set is_stocked on one or add it"
)
_NO_SIZE = marked(
    "parts: no {part} {length} pitches long and {deep} deep is stocked, and panels cannot be bonded without one; "
    "set is_stocked on one or add it"
)
