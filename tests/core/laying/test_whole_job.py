"""What the job takes is what its panels are really laid of: plain, as a mosaic, and laid from the stock."""

from collections import Counter
from functools import cache

import pytest

from core.bond.result import Bond
from core.crew.plan import crew_plan
from core.crew.work import jobs
from core.drawing import Text
from core.edits.progress import mark_panels
from core.export.setout_json import setout_document
from core.laying import bond_from_stock, own_work, work_of_cut_panels
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from core.sheets.buying_kits import kitting_sheets
from core.sheets.buying_lists import title
from core.takeoff import Count, Material
from core.whole_job import WholeJob
from tests.core.colour.pictures import coloured, ramp
from tests.core.laying.stocked import square, takes, to_build, with_boxes
from tests.core.laying.test_from_stock import AMPLE

CASES = ("plain", "one colour", "mosaic", "stock", "stock and mosaic", "half built mosaic")


def _room(case: str) -> Room:
    picture = ramp(60, 40, wall=0, left_mm=300.0, width_mm=900.0, height_mm=304.0, way="dithered")
    if "mosaic" in case:
        return coloured(square(), picture, rest="sand")
    return coloured(square(), rest="sand") if case == "one colour" else square()


@cache
def job_of(case: str) -> WholeJob:
    setout = solve(_room(case))
    if case.startswith("half built"):
        setout = solve(mark_panels(setout, to_build(setout)[:7], "built", {}))
    if "stock" not in case:
        return WholeJob(setout)
    short = takes(setout)["brick 2x4"] - 400
    setout = _boxes(setout, short)
    return WholeJob(setout, bond_from_stock(setout))


def _boxes(setout: SetOut, short: int) -> SetOut:
    colours = [colour.name for colour in setout.room.colouring.colours]
    if setout.room.colouring.is_plain:
        return with_boxes(setout, AMPLE | {"brick 2x4": short})
    for colour in colours:
        setout = with_boxes(setout, AMPLE, colour)
    return with_boxes(setout, {"brick 2x4": 600}, "sand")


def laid_bond(job: WholeJob, mark: str, design: str) -> Bond:
    """The bond a panel is really laid to, found without what counts it."""
    if mark in job.finishes:
        return job.finishes[mark].bond
    if job.stock is not None and mark in job.stock.bonds:
        return job.stock.bonds[mark]
    return job.bonds[design]


def names_only(count: Count) -> Counter[str]:
    found: Counter[str] = Counter()
    for item, number in count.items():
        found[item.name] += number
    return +found


def _is_hardware(item: Material) -> bool:
    return "screw" in item.name or item.name.startswith("packer")


@pytest.mark.parametrize("case", CASES)
def test_panels_ring_and_timber_sum_to_the_rooms_take_off(case: str) -> None:
    takeoff = job_of(case).takeoff
    total: Count = Counter()
    for count in (*takeoff.per_panel.values(), *takeoff.ring.by_wall().values(), takeoff.timber):
        total.update(count)
    assert total == takeoff.room


@pytest.mark.parametrize("case", CASES)
def test_every_panel_takes_what_its_own_bond_is_laid_of(case: str) -> None:
    job = job_of(case)
    for panel in job.setout.panels:
        bond = laid_bond(job, panel.mark, panel.design)
        assert names_only(job.takeoff.laid[panel.mark]) == +bond.parts, panel.mark
        without = Counter({item: n for item, n in job.takeoff.per_panel[panel.mark].items() if not _is_hardware(item)})
        assert without == job.takeoff.laid[panel.mark]


@pytest.mark.parametrize("case", CASES)
def test_the_kits_of_all_benches_sum_to_the_take_off_of_the_panels_to_build(case: str) -> None:
    job = job_of(case)
    kits: Count = Counter()
    for one in job.kits:
        kits.update(one.parts)
    wanted: Count = Counter()
    for mark in to_build(job.setout):
        wanted.update(job.takeoff.laid[mark])
    assert kits == wanted
    if "built" not in case:
        assert kits == Counter({item: n for item, n in job.takeoff.panels.items() if not _is_hardware(item)})


def test_the_cases_are_what_they_say() -> None:
    assert not job_of("plain").own
    assert not job_of("one colour").own
    assert any(finish.is_cut for finish in job_of("mosaic").finishes.values())
    for case in ("stock", "stock and mosaic"):
        stock = job_of(case).stock
        assert stock is not None
        assert stock.swapped, case
        assert stock.shortage is None, case


@pytest.mark.parametrize("case", CASES)
def test_kits_name_the_sheet_that_each_panel_is_built_by(case: str) -> None:
    job = job_of(case)
    for one in job.kits:
        for panel, sheet in zip(one.panels, one.sheets, strict=True):
            assert sheet == (job.own[panel.mark].name if panel.mark in job.own else job.sheet_names.get(panel.mark, panel.design))


@pytest.mark.parametrize("case", ["mosaic", "stock"])
def test_panels_with_more_parts_take_as_many_times_longer_and_one_set_up_a_sheet(case: str) -> None:
    job = job_of(case)
    rates = job.setout.room.rates
    plain = {one.mark: one for one in jobs(job.setout)}
    mine = {one.mark: one for one in jobs(job.setout, own=own_work(job.own, job.bonds))}
    minutes = {panel.mark: panel.minutes - rates.handling for panel in job.setout.panels}
    parts = {panel.mark: sum(laid_bond(job, panel.mark, panel.design).parts.values()) for panel in job.setout.panels}
    usual = {panel.mark: sum(job.bonds[panel.design].parts.values()) for panel in job.setout.panels}
    set_ups = {mark: mine[mark].build - minutes[mark] * parts[mark] / usual[mark] for mark in mine}
    assert all(min(abs(extra), abs(extra - rates.setup)) < 1e-6 for extra in set_ups.values())
    own_sheets = {one.name for one in job.own.values()}
    assert sum(extra > 1 for mark, extra in set_ups.items() if mark in job.own) == len(own_sheets)
    assert {mark: one.hang for mark, one in mine.items()} == {mark: one.hang for mark, one in plain.items()}
    assert job.crew.minutes == pytest.approx(sum(one.build + one.hang for one in mine.values()))


def test_a_job_without_colours_takes_as_long_as_its_designs() -> None:
    setout = job_of("plain").setout
    assert work_of_cut_panels(setout) == {}
    assert job_of("plain").crew.minutes == crew_plan(setout).minutes
    assert work_of_cut_panels(job_of("mosaic").setout) == own_work(job_of("mosaic").own, job_of("mosaic").bonds)


def test_from_the_stock_nothing_that_is_laid_must_be_bought() -> None:
    """Boxes that were short for the designs do for the bonds laid from them; spares apart."""
    job = job_of("stock")
    parts = {part.name for part in job.setout.room.parts if part.kind not in ("plate", "floor plate")}
    lines = {item.name: line for item, line in job.purchasing.lines.items() if item.name in parts}
    assert all(line.on_hand >= line.needed for line in lines.values())
    plain = WholeJob(job.setout)
    assert plain.purchasing.lines[Material("brick 2x4")].on_hand < plain.purchasing.lines[Material("brick 2x4")].needed


@pytest.mark.parametrize("case", ["mosaic", "stock"])
def test_kitting_sheets_show_every_part_of_every_kit_in_full(case: str) -> None:
    """A part whose colour is cut short cannot be counted out."""
    job = job_of(case)
    words = [item.text for draft in kitting_sheets(job.setout, job.kits) for item in draft.items if isinstance(item, Text)]
    assert not [text for text in words if text.endswith("…") and not text.startswith("Kit ")]
    shown = Counter(words)
    names = {title(item, "mm") for one in job.kits for item in one.parts}
    assert names <= set(shown)
    assert all(panel.mark in " ".join(words) for one in job.kits for panel in one.panels)


def test_the_set_out_as_json_counts_the_bricks_that_are_laid() -> None:
    for case in ("plain", "mosaic"):
        job = job_of(case)
        found = setout_document(job.setout)
        laid = sum(n for count in job.takeoff.laid.values() for item, n in count.items() if item.name != "plug")
        assert found["tally"]["bricks"] == laid
        own = {panel["mark"]: panel["courses"] for panel in found["panels"] if "courses" in panel}
        assert set(own) == {mark for mark, finish in job.finishes.items() if finish.is_cut}
        for mark, courses in own.items():
            assert sum(map(len, courses)) == sum(len(layer.laid) for layer in job.finishes[mark].bond.layers)
