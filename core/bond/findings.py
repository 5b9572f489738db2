"""What a person should know of bonds before panels are built: those in pieces, and those that can turn about a single knob.

Nothing else is a finding: how much a knob bears is not known, so no count of knobs above one can be called too few.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from core.bond.result import Bond
from core.bond.strength import Place, Strength, strength_of
from core.language import tr, trn
from core.setout.result import Check

Laid = Mapping[str, tuple[Bond, Sequence[str]]]
"""Bonds by what they are called, with the marks of the panels laid so."""

_MOST_NAMED = 3


def bond_checks(bonds: Laid) -> tuple[Check, ...]:
    """A warning for every bond that is not one piece, or that one knob holds somewhere, at the first panel laid so."""
    return tuple(check for name, (bond, marks) in bonds.items() if marks for check in _about(name, bond, marks))


def _about(name: str, bond: Bond, marks: Sequence[str]) -> Iterator[Check]:
    strength, where = strength_of(bond), f"panel {marks[0]}"
    panels = trn("{n} panel", "{n} panels", len(marks))
    loose = [place for place, knobs in strength.held_by_few.items() if not knobs]
    turning = [place for place, knobs in strength.held_by_few.items() if knobs]
    if not strength.is_one_body:
        yield Check("warning", "in-pieces", where, _in_pieces(name, panels, bond, strength, loose))
    if turning or (strength.weakest_bed and strength.weakest_bed.knobs == 1):
        what = _named(bond, turning) or tr("all above layer {layer} from the bottom", layer=_layer(strength))
        text = tr(
            "{design} ({panels}): a single knob holds {what}, so it can turn; glue it, or move or resize the opening",
            design=name,
            panels=panels,
            what=what,
        )
        yield Check("warning", "one-knob", where, text)


def _in_pieces(name: str, panels: str, bond: Bond, strength: Strength, loose: Sequence[Place]) -> str:
    if len(bond.layers) == 1:
        return tr(
            "{design} ({panels}) is a single course of {pieces} pieces that nothing joins; glue them, or choose other rows",
            design=name,
            panels=panels,
            pieces=strength.bodies,
        )
    if loose:
        return tr(
            "{design} ({panels}) falls into {pieces} pieces: no knob holds {parts}; glue them, or move or resize the opening",
            design=name,
            panels=panels,
            pieces=strength.bodies,
            parts=_named(bond, loose),
        )
    return tr(
        "{design} ({panels}) falls into {pieces} pieces that no knob joins; move or resize the opening, or hang them piece by "
        "piece",
        design=name,
        panels=panels,
        pieces=strength.bodies,
    )


def _layer(strength: Strength) -> int:
    """The layer under the weakest level, from 1."""
    return strength.weakest_bed.layer if strength.weakest_bed else 0


def _named(bond: Bond, places: Iterable[Place]) -> str:
    """Parts and the layers they lie in, from 1."""
    laid = [(n, bond.layers[n].laid[k]) for n, k in places]
    said = [tr("{part} in layer {layer} from the bottom", part=one.part, layer=n + 1) for n, one in laid[:_MOST_NAMED]]
    if len(laid) > _MOST_NAMED:
        said.append(tr("{more} more", more=len(laid) - _MOST_NAMED))
    return ", ".join(said)
