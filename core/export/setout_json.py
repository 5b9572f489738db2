"""The set-out as JSON: an interface for other programs, kept stable. All lengths in millimetres, all times in crew minutes."""

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any

from core.bond import bond_for, bonds_for
from core.bond.mass import mass_g
from core.bond.result import Bond, Laid
from core.bond.strength import strength_of
from core.files import room_document
from core.frame import Hung, Variant, as_hung
from core.frame.misses import Miss
from core.frame.points import Point, point_of
from core.frame.remedies import backed_walls
from core.language import ENGLISH, in_english, spoken
from core.setout import solve
from core.setout.metric import PointMm, mount_mm, ring_mm, z_mm
from core.setout.result import CrewMinutes, Face, Panel, SetOut

_DECIMALS = 4
Remedies = Mapping[Point, Miss]


def setout_json(setout: SetOut) -> str:
    """The document as text, one panel, design, check and so on per line; in English, whatever language is spoken."""
    if spoken() != ENGLISH:
        with in_english():
            # What the checks say was written when the room was set out; the panels come out the same.
            return setout_json(solve(setout.room))
    fields = []
    for key, value in setout_document(setout).items():
        if isinstance(value, list) and value:
            items = ",\n".join(f"  {json.dumps(item, ensure_ascii=False)}" for item in value)
            fields.append(f'"{key}": [\n{items}]')
        else:
            fields.append(f'"{key}": {json.dumps(value, ensure_ascii=False)}')
    return "{" + ",\n ".join(fields) + "}\n"


def setout_document(setout: SetOut) -> dict[str, Any]:
    """The set-out as JSON values, keys in a fixed order, numbers to a ten-thousandth.

    Outlines and cut-outs lie on the shell's frame-side line in wall-local millimetres: x from the wall's left frame corner,
    z from the floor, not closed. A design's ``courses`` are its layers from the bottom up, the plate and the cap course
    last, in pitches along the leg they lie on; its ``bricks`` count the parts in them by name, and ``tally.bricks`` those of all
    panels. A panel cut at its colours has ``bricks``, ``courses`` and ``strength`` of its own, as it hangs. Plugs are no part of
    a course, but of ``mass_kg``. Panels, designs and their counts are as solved; which panels have moved holes, and how those are
    laid, say ``variants``. Raises StockError where the stocked parts cannot fill a design.
    """
    bonds = bonds_for(setout)
    hung = as_hung(setout)
    variants = {one.name: bond_for(hung.setout, one.name) for one in hung.variants}
    own = _own(hung.setout, {**bonds, **variants})
    laid = {mark: variants[one.name] for mark, one in hung.by_mark.items()} | own
    usual = Counter(panel.design for panel in setout.panels if panel.mark not in laid)
    remedies = {miss.point: miss for backed in backed_walls(setout) for miss in backed.misses}
    return {
        "room": room_document(setout.room),
        "rows": _rows(setout),
        "walls": _walls(setout),
        "panels": [_panel(setout, panel, hung, own.get(panel.mark), remedies) for panel in setout.panels],
        "designs": _designs(setout, bonds),
        "variants": [_variant(setout, one, variants[one.name]) for one in hung.variants],
        "tally": {
            "panels": setout.tally.panels,
            "by_kind": dict(sorted(setout.tally.by_kind.items())),
            "designs_not_in_kit": setout.tally.designs_not_in_kit,
            "bricks": sum(laid_parts(bond).total() for bond in laid.values())
            + sum(count * laid_parts(bonds[design]).total() for design, count in usual.items()),
        },
        "minutes": _minutes(setout.minutes),
        "checks": [
            {"level": check.level, "code": check.code, "where": check.where, "text": check.text} for check in setout.checks
        ],
    }


def _rows(setout: SetOut) -> list[dict[str, Any]]:
    kit = setout.room.kit
    return [
        {"z_mm": z_mm(kit, row.z_plates), "height_mm": z_mm(kit, row.height_plates), "courses": row.courses}
        for row in setout.rows
    ]


def _walls(setout: SetOut) -> list[dict[str, Any]]:
    return [
        {
            "wall": wall.wall,
            "length_mm": _rounded(wall.length_mm),
            "pitches": wall.pitches,
            "start_mm": _rounded(wall.start_mm),
            "packing_mm": _rounded(wall.packing_mm),
        }
        for wall in setout.walls
    ]


def _own(setout: SetOut, bonds: Mapping[str, Bond]) -> dict[str, Bond]:
    """The bonds of panels cut at their colours, by mark; none where the job has one colour."""
    if setout.room.colouring.is_plain:
        return {}
    # Other programs wait for a set-out without colours, and it has no use for what colours bring along.
    from core.colour import colours_of

    return {mark: finish.bond for mark, finish in colours_of(setout, bonds).items() if finish.is_cut}


def _panel(setout: SetOut, panel: Panel, hung: Hung, own: Bond | None, remedies: Remedies) -> dict[str, Any]:
    variant = hung.by_mark.get(panel.mark)
    fields = {
        "mark": panel.mark,
        "design": panel.design,
        "variant": variant.name if variant else None,
        "kind": panel.kind,
        "row": panel.row,
        "minutes": _rounded(panel.minutes),
        "faces": [_face(setout, panel.mark, face, remedies) for face in panel.faces],
    }
    if own is not None:
        fields |= _recipe(own)
    return fields


def _recipe(bond: Bond) -> dict[str, Any]:
    return {
        "bricks": dict(sorted(laid_parts(bond).items())),
        "courses": courses_document(bond),
        "strength": strength_document(bond),
    }


def _face(setout: SetOut, mark: str, face: Face, remedies: Remedies) -> dict[str, Any]:
    mounts = []
    for mount in face.mounts:
        x, z = mount_mm(setout, mount)
        miss = remedies.get(point_of(setout, mark, mount))
        to = miss.to if miss else None
        remedy = {
            "remedy": miss.remedy if miss else None,
            "remedy_text": miss.words if miss else None,
            "moved_to": to and {"x_mm": _rounded(to.x_mm), "z_mm": _rounded(to.z_mm), "lands_on": to.lands_on},
        }
        mounts.append({"x_mm": _rounded(x), "z_mm": _rounded(z), "lands_on": mount.lands_on, **remedy})
    return {
        "wall": face.wall,
        "outline_mm": _points(ring_mm(setout, face.wall, face.outline)),
        "holes_mm": [_points(ring_mm(setout, face.wall, hole)) for hole in face.holes],
        "mounts": mounts,
    }


def _designs(setout: SetOut, bonds: Mapping[str, Bond]) -> list[dict[str, Any]]:
    return [
        {"design": one.name, "kind": one.kind, "count": one.count, "in_kit": one.in_kit, **_bonded(setout, bonds[one.name])}
        for one in setout.designs
    ]


def _variant(setout: SetOut, variant: Variant, bond: Bond) -> dict[str, Any]:
    """Panels of one design that have some of its holes elsewhere, laid as the first of them hangs."""
    return {"variant": variant.name, "design": variant.design, "marks": list(variant.marks), **_bonded(setout, bond)}


def _bonded(setout: SetOut, bond: Bond) -> dict[str, Any]:
    return {
        "bricks": dict(sorted(laid_parts(bond).items())),
        "courses": courses_document(bond),
        "mass_kg": _rounded(mass_g(bond, setout.room.parts) / 1000),
        "parts": {"laid": sum(bond.parts.values()), "fewest": bond.fewest},
        "strength": strength_document(bond),
    }


def _laid(bond: Bond, laid: Laid) -> dict[str, Any]:
    """A part in its place. ``leg`` is given for corner panels, ``side`` for parts that do not go through the thickness."""
    fields: dict[str, Any] = {"at": laid.at, "length": laid.length, "type": laid.part}
    if len(bond.legs) > 1:
        fields["leg"] = laid.leg
    if laid.side is not None:
        fields["side"] = laid.side
    return fields


def courses_document(bond: Bond) -> list[list[dict[str, Any]]]:
    """A bond's layers from the bottom up, each a list of parts from the left."""
    return [[_laid(bond, laid) for laid in layer.laid] for layer in bond.layers]


def strength_document(bond: Bond) -> dict[str, Any]:
    """A bond's strength by counting knobs; ``course`` is a place in its ``courses``, from 0. No load is judged."""
    strength = strength_of(bond)
    lap, bed, bare = strength.weakest_lap, strength.weakest_bed, strength.unsupported
    return {
        "bodies": strength.bodies,
        "weakest_lap": lap and {**_place(bond, lap.layer, lap.leg, lap.at), "knobs": lap.knobs, "alike": len(strength.laps)},
        "weakest_bed": bed and {"course": bed.layer, "knobs": bed.knobs, "alike": len(strength.beds)},
        "unsupported": bare and {**_place(bond, bare.layer, bare.leg, bare.begin), "length": bare.pitches},
        "hanging": strength.hanging,
        "held_by_few": [
            {**_place(bond, layer, laid.leg, laid.at), "type": laid.part, "knobs": knobs}
            for (layer, number), knobs in strength.held_by_few.items()
            for laid in [bond.layers[layer].laid[number]]
        ],
    }


def _place(bond: Bond, layer: int, leg: int, at: int) -> dict[str, int]:
    return {"course": layer, "at": at} | ({"leg": leg} if len(bond.legs) > 1 else {})


def laid_parts(bond: Bond) -> Counter[str]:
    """How many of each part lie in a bond's layers."""
    return sum((layer.parts for layer in bond.layers), Counter())


def _minutes(minutes: CrewMinutes) -> dict[str, float]:
    names = ("build", "handling", "setup", "sliver", "weak", "blocking", "total", "bound")
    return {name: _rounded(getattr(minutes, name)) for name in names}


def _points(ring: Iterable[PointMm]) -> list[list[float]]:
    return [[_rounded(x), _rounded(z)] for x, z in ring]


def _rounded(number: float) -> float:
    # Adding zero turns -0.0 into 0.0.
    return round(float(number), _DECIMALS) + 0.0
