"""What is laid from the stock on hand, to read and as JSON: what fits, which sizes are swapped, what runs out where."""

import json
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from core.export.schedule import table_text
from core.export.setout_json import courses_document, laid_parts, strength_document
from core.language import marked, tr, trc, trn
from core.laying import FromStock, StockBond, StockLine
from core.purchase import Colour

UNCOUNTED = marked("not counted")


def stock_text(found: FromStock) -> str:
    """The whole answer: the parts, the panels with bonds of their own, and in the last line whether the stock does."""
    lines = [_part_cells(line) for line in found.lines]
    heads = (tr("part"), tr("on hand"), tr("as designed"), tr("laid so"), trc("in the boxes", "left"))
    title = tr("{room}: bonded from the stock on hand", room=found.setout.room.name)
    blocks = [title, table_text(tr("Parts, in pieces"), heads, lines)]
    if found.uncounted:
        parts = ", ".join(map(tr, found.uncounted))
        blocks.append(tr("Never counted, so taken to be enough: {parts}", parts=parts))
    if swapped := [group for group in found.groups if not group.is_usual]:
        blocks.append("\n".join([tr("Laid otherwise than their design"), *(f"  {swap_text(found, group)}" for group in swapped)]))
    if found.coloured:
        blocks.append(tr("Panels of several colours keep the bond of their colours: {panels}", panels=len(found.coloured)))
    return "\n\n".join([*blocks, found.verdict]) + "\n"


def swap_text(found: FromStock, group: StockBond) -> str:
    """One bond that is not its design's: for which panels, and what takes the place of what."""
    panels = trn("{n} panel", "{n} panels", len(group.marks))
    return f"{group.name}, {panels} ({mark_list(group.marks)}): {difference_text(found, group)}"


def mark_list(marks: Sequence[str]) -> str:
    """Marks with wall and row named once: ``A-1-02 03 04``."""
    return ", ".join(
        f"{front}-{' '.join(mark.rpartition('-')[2] for mark in group)}"
        for front, group in groupby(marks, key=lambda mark: mark.rpartition("-")[0])
    )


def difference_text(found: FromStock, group: StockBond) -> str:
    """How one panel's parts differ from its design's: ``12 brick 2x3 more, 9 brick 2x4 fewer``."""
    usual, own = found.usual[group.design].parts, group.bond.parts
    changes = {part: own[part] - usual[part] for part in sorted({*usual, *own}) if own[part] != usual[part]}
    more = [tr("{count} {part} more", count=n, part=tr(part)) for part, n in changes.items() if n > 0]
    fewer = [tr("{count} {part} fewer", count=-n, part=tr(part)) for part, n in changes.items() if n < 0]
    return ", ".join([*more, *fewer]) or tr("the same parts, laid otherwise")


def _part_cells(line: StockLine) -> tuple[str, ...]:
    def shown(number: int | None) -> str:
        return tr(UNCOUNTED) if number is None else str(number)

    name = f"{tr(line.part)}, {tr(line.colour)}" if line.colour else tr(line.part)
    return name, shown(line.on_hand), str(line.usual), str(line.laid), "" if line.left is None else str(line.left)


def stock_json(found: FromStock) -> str:
    """The same as one JSON object; keys are stable, ``docs/json.md`` says what they hold."""
    return json.dumps(stock_document(found), ensure_ascii=False, indent=1) + "\n"


def stock_document(found: FromStock) -> dict[str, Any]:
    """The answer as JSON values."""
    short = found.shortage
    return {
        "room": found.setout.room.name,
        "is_enough": short is None,
        "shortage": None
        if short is None
        else {"part": short.part, "colour": short.colour, "mark": short.mark, "design": short.design, "missing": short.missing},
        "panels": {"to_build": len(found.to_build), "laid": len(found.bonds), "otherwise": len(found.swapped)},
        "beyond": list(found.beyond),
        "coloured": [mark for mark in found.to_build if mark in found.coloured],
        "uncounted": list(found.uncounted),
        "parts": [_part(line) for line in found.lines],
        "bonds": list(_bonds(found)),
    }


def _part(line: StockLine) -> dict[str, str | int | Colour | None]:
    return {
        "part": line.part,
        "colour": line.colour,
        "on_hand": line.on_hand,
        "as_designed": line.usual,
        "laid": line.laid,
        "left": line.left,
    }


def _bonds(found: FromStock) -> Iterator[dict[str, Any]]:
    for group in found.groups:
        yield {
            "bond": group.name,
            "design": group.design,
            "is_designs_own": group.is_usual,
            "marks": list(group.marks),
            "short_laps": sum(fault.kind == "short lap" for fault in group.bond.faults),
            "bricks": dict(sorted(laid_parts(group.bond).items())),
            "courses": courses_document(group.bond),
            "strength": strength_document(group.bond),
        }
