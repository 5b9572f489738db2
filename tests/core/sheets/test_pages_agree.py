"""What one page of the pack says, another page says alike."""

from collections.abc import Sequence

import pytest

from core.drawing import Sheet, Text
from core.frame import plan_of
from core.frame.screws import ScrewVerdict
from core.sheets.frame_hardware import as_sold
from tests.core.sheets.bench import setout, sheets


def _said(found: Sequence[Sheet], code: str) -> str:
    texts = [item.text for sheet in found if sheet.code.startswith(code) for item in sheet.items if isinstance(item, Text)]
    return " ".join(texts)


def _chosen(name: str) -> list[tuple[ScrewVerdict, list[float]]]:
    walls = [wall.screws for wall in plan_of(setout(name)).walls if wall.screws]
    return [(screws.chosen, sorted(screws.lengths)) for screws in walls if screws.chosen]


@pytest.mark.parametrize("name", ["demo", "den"])
def test_a_screw_is_bought_by_the_length_the_hardware_sheet_gives(name: str) -> None:
    """A metric screw is sold by millimetres wherever the room is measured in inches."""
    found = _chosen(name)
    assert found
    for _, lengths in found:
        for length in lengths:
            assert f"× {as_sold(length)}" in _said(sheets(name), "hardware")
            assert as_sold(length) in _said(sheets(name), "take-off")


@pytest.mark.parametrize("name", ["demo", "den"])
def test_what_is_to_be_minded_about_a_screw_stands_where_it_is_bought(name: str) -> None:
    """Plugs are on the list; a head that stands proud takes none."""
    warnings = {warning for one, _ in _chosen(name) for warning in one.warnings}
    assert warnings
    for warning in warnings:
        assert warning in _said(sheets(name), "take-off")


def test_a_metric_screw_stays_metric_and_an_inch_screw_in_inches() -> None:
    assert as_sold(40.0) == "40\N{NO-BREAK SPACE}mm"
    assert as_sold(38.1) == '1 1/2"'
