"""Why panels and figures are as they are: the words hold the very numbers that set-out counted."""

import re
from pathlib import Path

import pytest

from core import edits
from core.files import load_room
from core.reasons import blocking_words, designs_words, hours_words, move_words, opening_words, panels_words, pin_words
from core.reasons.cuts import cuts_of
from core.reasons.panel import charge_words, kind_words, minutes_words
from core.room import Room
from core.setout import solve
from core.setout.result import Panel, SetOut
from tests.generate import SMALL_KIT, seeded_room


@pytest.fixture(scope="module")
def room() -> Room:
    """The demo room with its window a little off the joints, so that two panels are shaped by it."""
    demo = load_room(Path(__file__).resolve().parents[2] / "assets" / "demo.room.json")
    return edits.move_opening(demo, "window", left_mm=1080.0, sill_mm=870.0)


@pytest.fixture(scope="module")
def setout(room: Room) -> SetOut:
    return solve(room)


@pytest.fixture(scope="module")
def others() -> list[SetOut]:
    """Generated rooms with standing frames and openings in awkward places."""
    return [solve(seeded_room(seed, kit=SMALL_KIT, standing=True, most_openings=6)) for seed in range(12)]


def named(setout: SetOut, kind: str) -> list[Panel]:
    return [panel for panel in setout.panels if panel.kind == kind]


def minutes_in(words: str) -> float:
    """The minutes that the formula in the words comes to."""
    found = re.fullmatch(
        r"([\d.]+) min: build ([\d.]+) × ([\d.]+) of a full panel(?: × ([\d.]+) for its kind)?, handling ([\d.]+)", words
    )
    assert found is not None, words
    return float(found[2]) * float(found[3]) * float(found[4] or 1) + float(found[5])


def test_every_panels_formula_comes_to_its_minutes(setout: SetOut, others: list[SetOut]) -> None:
    for one in (setout, *others):
        for panel in one.panels:
            assert minutes_in(minutes_words(one, panel)) == pytest.approx(panel.minutes, abs=0.16)


@pytest.mark.parametrize(("sort", "term"), [("as a sliver", "sliver"), ("as weak", "weak"), ("without timber", "blocking")])
def test_the_charges_of_all_panels_add_up_to_the_rooms(setout: SetOut, others: list[SetOut], sort: str, term: str) -> None:
    charged = []
    for one in (setout, *others):
        lines = [line for panel in one.panels for line in charge_words(one, panel) if sort in line]
        charged.append(sum(float(line.split()[1]) for line in lines))
        assert charged[-1] == pytest.approx(getattr(one.minutes, term))
    assert any(charged)


def test_a_shaped_panel_names_the_opening_and_the_edges_that_cut_it(setout: SetOut) -> None:
    words = {kind_words(setout, panel) for panel in named(setout, "shaped") if panel.faces[0].wall == 1}
    assert words == {
        "shaped: the right edge and the sill of window cut into it",
        "shaped: the right edge and the head of window cut into it",
    }
    (outlet,) = [panel for panel in named(setout, "shaped") if panel.faces[0].wall == 0]
    assert kind_words(setout, outlet) == "shaped: outlet-1 is cut out of it"


def test_every_shaped_panel_is_cut_by_an_opening(setout: SetOut, others: list[SetOut]) -> None:
    for one in (setout, *others):
        for panel in one.panels:
            if panel.kind in ("shaped", "shaped-corner"):
                assert cuts_of(one, panel)
            elif panel.kind == "full":
                assert not cuts_of(one, panel)


def test_a_closer_says_why_no_kit_panel_stands_there(setout: SetOut) -> None:
    words = [kind_words(setout, panel) for panel in named(setout, "closer")]
    assert any(line == "closer: it ends under window" for line in words)
    assert any(
        re.match(r"closer: 20 pitches wide; kit panels are 19 and 38, and its run of 58 pitches is no sum of them", w)
        for w in words
    )
    assert not any("not one of the kit's sizes" in line for line in words)


def test_the_move_that_is_told_leaves_the_panel_whole(room: Room, setout: SetOut) -> None:
    """The demo's window stands 4 mm too far right: what is told is done, and solved in full nothing is shaped by it any more."""
    panel = next(panel for panel in named(setout, "shaped") if panel.faces[0].wall == 1)
    assert move_words(setout, panel) == "window moved 4 mm to the left leaves it whole, by a quick set-out"
    after = solve(edits.move_opening(room, "window", left_mm=1076.0))
    assert not [other for other in named(after, "shaped") if other.faces[0].wall == 1]


def test_whole_panels_are_told_no_move(setout: SetOut) -> None:
    assert move_words(setout, named(setout, "full")[0]) == ""


def test_an_opening_names_the_panels_that_are_not_whole_because_of_it(setout: SetOut) -> None:
    cut, ended = opening_words(setout, setout.room.opening("window"))
    assert {panel.mark for panel in named(setout, "shaped") if panel.faces[0].wall == 1} == set(
        cut.removeprefix("cuts into ").split(", ")
    )
    assert "end under or over it" in ended


def test_a_pinned_panel_says_so(setout: SetOut) -> None:
    panel = named(setout, "full")[0]
    pinned = solve(edits.add_pins(setout.room, edits.pins_for(setout, panel)))
    assert pin_words(pinned, next(p for p in pinned.panels if p.mark == panel.mark)) == ("pinned here by hand",)
    assert pin_words(setout, panel) == ()


def test_the_terms_of_the_hours_add_up_to_the_total(setout: SetOut) -> None:
    lines = hours_words(setout, is_full=True).splitlines()
    terms = [float(found[1]) for line in lines[:6] if (found := re.match(r"(?:\+ )?[a-z -]+ (\d+)", line))]
    assert len(terms) == 6
    assert sum(terms) == pytest.approx(setout.minutes.total, abs=3)
    assert lines[6] == f"= {setout.minutes.total:.0f} min"
    assert f"at least {setout.minutes.bound:.0f} min" in lines[7]
    assert "Sketched" in hours_words(setout, is_full=False)


def test_the_figures_words_end_in_the_figures(setout: SetOut) -> None:
    own = setout.tally.designs_not_in_kit
    assert panels_words(setout).endswith(f"= {setout.tally.panels}.")
    assert f"= {own}.\n" in designs_words(setout)
    assert designs_words(setout).endswith(f"= {setout.minutes.setup:g} min.")
    assert f"= {setout.minutes.blocking:g} min." in blocking_words(setout)
