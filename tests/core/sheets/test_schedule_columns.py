"""The panel schedule names every panel's sheet in full, whatever else has to go for it."""

import pytest

from core.drawing import Text
from core.sheets.draft import Draft
from core.sheets.schedule import schedule
from tests.core.sheets.bench import setout

LONG = ", colours as A-5-04"


def _texts(drafts: list[Draft], code: str) -> list[str]:
    return [item.text for draft in drafts if draft.code.startswith(code) for item in draft.items if isinstance(item, Text)]


@pytest.mark.parametrize("name", ["demo", "den"])
@pytest.mark.parametrize("more", ["", LONG])
def test_no_name_is_cut_short(name: str, more: str) -> None:
    names = {panel.mark: panel.design + more for panel in setout(name).panels}
    texts = _texts(schedule(setout(name), {}, names), "panels-")
    assert set(names.values()) <= set(texts)


def test_the_kind_makes_room_and_the_boxes_to_tick_stay() -> None:
    names = {panel.mark: panel.design + LONG for panel in setout("demo").panels}
    for drafts, has_kind in ((schedule(setout("demo"), {}), True), (schedule(setout("demo"), {}, names), False)):
        texts = _texts(drafts, "panels-1")
        assert ("kind" in texts) == has_kind
        assert "hung" in texts


def test_points_without_timber_are_counted_in_brackets_under_a_head_that_says_so() -> None:
    """Bare is what a design without its cap is called, so it can mean nothing else."""
    texts = _texts(schedule(setout("demo"), {}), "panels-")
    assert "(no timber)" in texts
    assert "4 (2)" in texts
    assert not [text for text in texts if text.endswith("bare)")]
