"""How well a panel holds together, in plain words: by counting knobs, without saying what a knob bears."""

from collections.abc import Iterable, Iterator

from core.bond.result import Bond
from core.bond.strength import Place, Strength, Stretch, strength_of
from core.kit import Kit
from core.language import tr, trn
from core.sheets.flow import Line, gap, paragraph
from core.sheets.panel_legs import leg_name, leg_spans
from core.sheets.panel_patterns import layers_words
from core.units import metric_size

_MOST_NAMED = 3
"""Parts that are named one by one where few knobs hold them."""


def strength_lines(bond: Bond, kit: Kit, width_mm: float) -> list[Line]:
    """The strength report of a bond as one paragraph, as short as it can be: sheets are full."""
    return [gap(1.0), *paragraph(strength_text(bond, kit), width_mm)]


def strength_text(bond: Bond, kit: Kit) -> str:
    """The whole strength report, with what it is by."""
    return " ".join((tr("Strength, in knobs (loads not judged)."), *strength_words(bond, kit)))


def strength_words(bond: Bond, kit: Kit) -> tuple[str, ...]:
    """The strength report, a sentence each: pieces, weakest joint, weakest level, what nothing is below, what few knobs hold."""
    strength = strength_of(bond)
    found = [_pieces(strength), _weakest_joint(bond, strength), _weakest_level(bond, strength)]
    if strength.unsupported is None and not strength.held_by_few:
        return (*found, tr("No part is over a cut-out or has fewer than two knobs."))
    return (*found, _longest_stretch(bond, kit, strength), *_held_by_few(bond, strength))


def stretch_words(bond: Bond, kit: Kit, number: int) -> list[str]:
    """What of a layer has nothing below, a line for each length."""
    lengths = dict.fromkeys(_long(kit, stretch) for stretch in strength_of(bond).stretches if stretch.layer == number)
    return [tr("{length} with nothing below: hold it until the next course is on", length=length) for length in lengths]


def _pieces(strength: Strength) -> str:
    if strength.is_one_body:
        return tr("One piece.")
    return tr("Not one piece: {pieces} pieces that no knob joins.", pieces=strength.bodies)


def _weakest_joint(bond: Bond, strength: Strength) -> str:
    weakest = strength.weakest_lap
    if weakest is None:
        return tr("No joint in any course.")
    knobs, place = _knobs(weakest.knobs), _at(bond, weakest.layer, weakest.leg, weakest.at)
    if len(strength.laps) == 1:
        return tr("Weakest joint: {knobs}, {place}.", knobs=knobs, place=place)
    return tr("Weakest joint: {knobs}, {place}; {more} more like it.", knobs=knobs, place=place, more=len(strength.laps) - 1)


def _weakest_level(bond: Bond, strength: Strength) -> str:
    weakest = strength.weakest_bed
    if weakest is None:
        return tr("A single course.")
    knobs = _knobs(weakest.knobs)
    if len(strength.beds) == len(bond.layers) - 1:
        return tr("Every level: {knobs}.", knobs=knobs)
    lower, upper = (layers_words(bond, [number]) for number in (weakest.layer - 1, weakest.layer))
    return tr("Weakest level: {knobs} between {lower} and {upper}.", knobs=knobs, lower=lower, upper=upper)


def _longest_stretch(bond: Bond, kit: Kit, strength: Strength) -> str:
    longest = strength.unsupported
    if longest is None:
        return tr("No part is over a cut-out.")
    place = _at(bond, longest.layer, longest.leg, longest.begin)
    return tr("Longest stretch with nothing below: {length}, {place}.", length=_long(kit, longest), place=place)


def _held_by_few(bond: Bond, strength: Strength) -> Iterator[str]:
    few = strength.held_by_few
    if not few:
        yield tr("Every part is held by two knobs or more.")
    if loose := [place for place, knobs in few.items() if not knobs]:
        yield tr("Held by no knob, glue or tape it: {parts}.", parts=_named(bond, loose))
    if turning := [place for place, knobs in few.items() if knobs]:
        yield tr("Held by one knob, it can turn: {parts}.", parts=_named(bond, turning))


def _named(bond: Bond, places: Iterable[Place]) -> str:
    laid = [(n, bond.layers[n].laid[k]) for n, k in places]
    said = [f"{one.part}, {_at(bond, n, one.leg, one.at)}" for n, one in laid[:_MOST_NAMED]]
    if len(laid) > _MOST_NAMED:
        said.append(tr("{more} more", more=len(laid) - _MOST_NAMED))
    return "; ".join(said)


def _at(bond: Bond, layer: int, leg: int, line: int) -> str:
    """A place as a helper counts it: the course, and so many knobs from the left of the leg."""
    return f"{layers_words(bond, [layer])} {_after(bond, leg, line)}"


def _after(bond: Bond, leg: int, line: int) -> str:
    counted = trn("after {n} knob", "after {n} knobs", leg_spans(bond)[leg].knobs(line))
    return f"{counted}, {leg_name(bond, leg)}" if bond.corner else counted


def _knobs(number: int) -> str:
    return trn("{n} knob", "{n} knobs", number)


def _long(kit: Kit, stretch: Stretch) -> str:
    return f"{_knobs(stretch.pitches)} ({metric_size(stretch.pitches * kit.pitch_mm)})"
