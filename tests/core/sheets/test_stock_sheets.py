"""Sheets for panels laid from the stock: a helper builds what the stock allows, and no sheet is taken for another."""

from functools import cache

from core.drawing import Sheet, Text, item_box
from core.edits.progress import mark_panels
from core.laying import FromStock, bond_from_stock
from core.setout import solve
from core.sheets import sheets_for
from core.whole_job import WholeJob
from tests.core.laying.stocked import square, takes, to_build, with_boxes
from tests.core.laying.test_from_stock import AMPLE


@cache
def stock(pins: int = 900) -> FromStock:
    """The small room with 2x4 bricks short by four hundred."""
    setout = solve(square())
    return bond_from_stock(
        with_boxes(setout, AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 400, "pin-hole brick 1x2": pins})
    )


@cache
def sheets(pins: int = 900) -> tuple[Sheet, ...]:
    found = stock(pins)
    return sheets_for(found.setout, job=WholeJob(found.setout, found))


def _texts(pins: int, prefix: str) -> dict[str, str]:
    return {
        sheet.code: " ".join(item.text for item in sheet.items if isinstance(item, Text))
        for sheet in sheets(pins)
        if sheet.code.startswith(prefix)
    }


def _of(pins: int, name: str) -> str:
    code = f"panel-{name.replace(',', '').replace(' ', '-')}"
    return " ".join(
        text for found, text in _texts(pins, "panel-").items() if found == code or found.removeprefix(code)[:1] == "-"
    )


def test_every_bond_has_a_sheet_that_says_how_many_to_build_of_it() -> None:
    assert stock().swapped
    for group in stock().groups:
        text = _of(900, group.name)
        assert f"build {len(group.marks)}" in text
        assert f"Where it goes: {len(group.marks)} panel" in text


def test_a_sheet_whose_design_has_another_bond_says_so_and_for_which_panels() -> None:
    designs = [group.design for group in stock().groups]
    shared = [group for group in stock().groups if designs.count(group.design) > 1 or not group.is_usual]
    assert shared
    for group in shared:
        text = _of(900, group.name)
        assert "Laid from the stock, ONLY for" in text
        assert f"This is {group.name}, for the panels named below and no others." in text


def test_labels_and_schedule_name_the_bond() -> None:
    for prefix in ("panels-", "kitting"):
        text = " ".join(_texts(900, prefix).values())
        for group in stock().groups:
            assert group.name in text, (prefix, group.name)
    on_labels = [
        item.text for sheet in sheets() if sheet.code.startswith("labels-") for item in sheet.items if isinstance(item, Text)
    ]
    for group in stock().groups:
        letter = group.name.partition(", ")[2]
        assert not letter or on_labels.count(letter) >= len(group.marks)


def test_panels_for_which_the_stock_does_not_do_are_named_with_what_runs_out() -> None:
    found = stock(40)
    assert found.shortage is not None
    text = " ".join(_texts(40, "panel-").values())
    assert "the stock does not do for these" in text.lower()
    assert found.shortage.text in text
    designs = {panel.mark: panel.design for panel in found.setout.panels}
    for design in {designs[mark] for mark in found.beyond}:
        assert f"panel-{design.replace(' ', '-')}" in " ".join(_texts(40, "panel-"))


def test_the_cover_says_what_the_stock_does_for() -> None:
    for pins in (900, 40):
        text = " ".join(_texts(pins, "cover").values())
        assert stock(pins).verdict.split(". ")[0].rstrip(".") in text


def test_without_the_stock_no_sheet_speaks_of_it() -> None:
    setout = stock().setout
    words = " ".join(item.text for sheet in sheets_for(setout) for item in sheet.items if isinstance(item, Text))
    assert "from the stock" not in words
    assert ", bond " not in words


def test_nothing_leaves_the_frame_and_no_two_words_overlap() -> None:
    for sheet in sheets():
        if not sheet.code.startswith("panel-"):
            continue
        boxes = [item_box(item) for item in sheet.items if isinstance(item, Text)]
        assert all(sheet.paper.frame.holds(item_box(item), 1e-6) for item in sheet.items), sheet.code
        assert not [1 for n, box in enumerate(boxes) for other in boxes[n + 1 :] if box.overlaps(other, 0.01)], sheet.code


def test_what_is_built_already_is_on_no_sheet_to_build_by() -> None:
    setout = stock().setout
    built = to_build(setout)[:5]
    found = bond_from_stock(solve(mark_panels(setout, built, "built", {})))
    drafts = sheets_for(found.setout, job=WholeJob(found.setout, found))
    text = [item.text for sheet in drafts if sheet.code.startswith("panel-") for item in sheet.items if isinstance(item, Text)]
    builds = [int(words.removeprefix("build ")) for words in text if words.startswith("build ") and words[6:].isdigit()]
    pages = [sheet.code for sheet in drafts if sheet.code.startswith("panel-")]
    assert len(pages) == len(builds)
    firsts = {f"panel-{group.name.replace(',', '').replace(' ', '-')}": len(group.marks) for group in found.groups}
    assert sum(builds[pages.index(code)] for code in firsts) == len(found.bonds) == len(to_build(setout)) - 5
