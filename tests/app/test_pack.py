"""The pack on disk: true to scale in the PDF, text that can be searched, files whole or not there."""

import csv
import os
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path as FilePath
from xml.etree import ElementTree

import ezdxf
import pytest
from openpyxl import load_workbook
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream
from PySide6.QtGui import QFontMetricsF

from app.fonts import drawing_font
from app.pack import write_pack
from core.crew import standing
from core.drawing import Path, Text
from core.drawing.lettering import CAP_HEIGHT, text_width_mm
from core.errors import SaveError
from core.files import load_room
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from core.sheets import sheets_for
from core.sheets.view import faces_on
from core.whole_job import WholeJob
from tests.core.handmade import handmade

ROOT = FilePath(__file__).resolve().parents[2]
pytestmark = pytest.mark.usefixtures("qapp")
MARK = re.compile(r"\b[A-Z]-\d+-\d\d\b")
MM_PER_POINT = 25.4 / 72

Segment = tuple[tuple[float, float], tuple[float, float]]


@cache
def _demo() -> SetOut:
    return solve(load_room(ROOT / "assets" / "demo.room.json"))


@pytest.fixture(scope="module")
def demo_pack(tmp_path_factory: pytest.TempPathFactory) -> FilePath:
    folder = tmp_path_factory.mktemp("pack")
    write_pack(_demo(), folder)
    return folder


def _known_wall() -> SetOut:
    room = Room(name="Known", corners_mm=((0.0, 0.0), (0.0, 3000.0), (2000.0, 3000.0), (2000.0, 0.0)), clad_height_mm=1900.0)
    return handmade(room)


def _segments(page: PageObject, reader: PdfReader) -> Iterator[Segment]:
    """Straight lines of a page in millimetres from its top left corner, read from the content stream."""
    here, stack, at = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], (0.0, 0.0)
    height = float(page.mediabox.height)

    def placed(x: float, y: float) -> tuple[float, float]:
        a, b, c, d, e, f = here
        return (a * x + c * y + e) * MM_PER_POINT, (height - (b * x + d * y + f)) * MM_PER_POINT

    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        numbers = [float(value) for value in operands] if operator in (b"cm", b"m", b"l") else []
        if operator == b"q":
            stack.append(here)
        elif operator == b"Q":
            here = stack.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = numbers
            p, q, r, s, t, u = here
            here = (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)
        elif operator == b"m":
            at = placed(*numbers)
        elif operator == b"l":
            end = placed(*numbers)
            yield at, end
            at = end


def test_wall_of_known_length_is_true_to_scale_in_primitives_and_pdf(tmp_path: FilePath) -> None:
    setout = _known_wall()
    number, sheet = next((i, sheet) for i, sheet in enumerate(sheets_for(setout)) if sheet.code == "elevation-A")
    assert "SCALE 1:10" in {item.text for item in sheet.items if isinstance(item, Text)}
    floors = [
        item for item in sheet.items if isinstance(item, Path) and item.pen and item.pen.width_mm == 0.7 and len(item.points) == 2
    ]
    (start, end) = next(item.points for item in floors)
    assert end[0] - start[0] == pytest.approx(300.0, abs=1e-6)
    write_pack(setout, tmp_path)
    reader = PdfReader(tmp_path / "pack.pdf")
    drawn = [
        (a, b) for a, b in _segments(reader.pages[number], reader) if abs(a[0] - start[0]) < 0.05 and abs(a[1] - start[1]) < 0.05
    ]
    assert any(abs(b[0] - a[0] - 300.0) < 0.05 and abs(b[1] - a[1]) < 0.001 for a, b in drawn)


def test_every_panel_edge_in_the_pdf_is_within_a_twentieth_of_a_millimetre(demo_pack: FilePath) -> None:
    reader = PdfReader(demo_pack / "pack.pdf")
    for number, sheet in enumerate(sheets_for(_demo())):
        if not sheet.code.startswith("elevation"):
            continue
        found = {(round(x * 20), round(y * 20)) for line in _segments(reader.pages[number], reader) for x, y in line}
        near = {(x + i, y + j) for x, y in found for i in (-1, 0, 1) for j in (-1, 0, 1)}
        outlines = [item for item in sheet.items if isinstance(item, Path) and item.closed and item.pen]
        assert all((round(x * 20), round(y * 20)) in near for item in outlines for x, y in item.points)


def test_elevation_pages_bear_exactly_their_walls_marks_as_text(demo_pack: FilePath) -> None:
    reader = PdfReader(demo_pack / "pack.pdf")
    sheets = sheets_for(_demo())
    assert len(reader.pages) == len(sheets)
    for wall in range(4):
        number = next(i for i, sheet in enumerate(sheets) if sheet.code == f"elevation-{'ABCD'[wall]}")
        found = MARK.findall(reader.pages[number].extract_text())
        assert sorted(found) == sorted(panel.mark for panel, _ in faces_on(_demo(), wall))


def test_pages_have_the_size_of_their_paper(demo_pack: FilePath) -> None:
    for page, sheet in zip(PdfReader(demo_pack / "pack.pdf").pages, sheets_for(_demo()), strict=True):
        size = float(page.mediabox.width) * MM_PER_POINT, float(page.mediabox.height) * MM_PER_POINT
        assert size == pytest.approx((sheet.paper.width_mm, sheet.paper.height_mm), abs=0.2)


def test_pdf_names_the_room_and_brings_the_packaged_font(demo_pack: FilePath) -> None:
    reader = PdfReader(demo_pack / "pack.pdf")
    assert reader.metadata is not None
    assert "Potting shed studio" in (reader.metadata.title or "")
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in reader.pages
        for font in page["/Resources"]["/Font"].values()  # type: ignore[index]
    }
    assert fonts
    assert all("NotoSans" in font for font in fonts)


@pytest.mark.slow
def test_pdf_text_keeps_signs_and_letters_apart(demo_pack: FilePath) -> None:
    words = " ".join(page.extract_text() for page in PdfReader(demo_pack / "pack.pdf").pages)
    words = " ".join(words.split())
    assert "304 × 304" in words
    assert "Identification number" in words


def test_plan_and_every_elevation_are_svg_files_with_text(demo_pack: FilePath) -> None:
    names = {path.name for path in demo_pack.iterdir()}
    assert {"plan.svg", *(f"elevation-{letter}.svg" for letter in "ABCD")} == {name for name in names if name.endswith(".svg")}
    for wall, letter in enumerate("ABCD"):
        root = ElementTree.parse(demo_pack / f"elevation-{letter}.svg").getroot()
        texts = {element.text for element in root.iter("{http://www.w3.org/2000/svg}text")}
        assert {panel.mark for panel, _ in faces_on(_demo(), wall)} <= texts


def test_every_wall_is_a_drawing_and_every_table_a_file(demo_pack: FilePath) -> None:
    names = {path.name for path in demo_pack.iterdir() if path.suffix not in (".svg", ".pdf")}
    tables = {"panels.csv", "take-off.csv", "take-off-panels.csv", "orders.csv", "kitting.csv", "workbook.xlsx"}
    assert names == {*tables, *(f"elevation-{letter}.dxf" for letter in "ABCD")}
    for letter in "ABCD":
        texts = {text.dxf.text for text in ezdxf.readfile(demo_pack / f"elevation-{letter}.dxf").modelspace().query("TEXT")}
        assert {panel.mark for panel, _ in faces_on(_demo(), "ABCD".index(letter))} <= texts


def test_files_tell_one_and_the_same_story(demo_pack: FilePath) -> None:
    """Bricks of the take-off, of the kits for what is still to build, and of the workbook come from one job."""
    job = WholeJob(_demo())
    takeoff = {line["item"]: int(line["room"]) for line in _lines(demo_pack / "take-off.csv") if line["unit"] == "piece"}
    assert takeoff == {item.name: count for item, count in job.takeoff.room.items() if item.unit == "piece" and count}
    kits: Counter[str] = Counter()
    for line in _lines(demo_pack / "kitting.csv"):
        kits[line["item"]] += int(line["count"])
    to_build = [panel for panel in job.hung.setout.panels if standing(_demo()).by_mark[panel.mark] == "to build"]
    assert kits == sum((Counter(job.parts[panel.design]) for panel in to_build), Counter())
    book = load_workbook(demo_pack / "workbook.xlsx")
    assert [row[0] for row in book["Panels"].iter_rows(min_row=2, values_only=True)][:-1] == [p.mark for p in _demo().panels]


def _lines(path: FilePath) -> list[dict[str, str]]:
    return list(csv.DictReader(path.read_text().splitlines()))


def test_listed_widths_are_the_fonts_own() -> None:
    metrics = QFontMetricsF(drawing_font(1000))
    assert metrics.capHeight() == pytest.approx(1000 * CAP_HEIGHT, abs=1)
    texts = {item.text for sheet in sheets_for(_demo()) for item in sheet.items if isinstance(item, Text)}
    for text in texts:
        assert text_width_mm(text, 2.5) == pytest.approx(metrics.horizontalAdvance(text) / 1000 / CAP_HEIGHT * 2.5, abs=0.1)


def test_progress_rises_to_its_total_with_a_label_each(tmp_path: FilePath) -> None:
    calls: list[tuple[int, int, str]] = []

    def progress(done: int, total: int, label: str) -> bool:
        calls.append((done, total, label))
        return True

    write_pack(_known_wall(), tmp_path, progress)
    shares = [done / total for done, total, _ in calls]
    assert shares == sorted(shares)
    assert shares[0] == 0 <= shares[-1] < 1
    assert all(label for _, _, label in calls)
    said = {label for _, _, label in calls}
    assert {f"writing {path.name}" for path in tmp_path.iterdir()} <= {*said, "writing pack.pdf"}
    assert {sheet.title for sheet in sheets_for(_known_wall())} <= said


@pytest.mark.parametrize("stop_at", [0, 30, 75, 98])
def test_cancelling_leaves_what_was_there(tmp_path: FilePath, stop_at: int) -> None:
    (tmp_path / "pack.pdf").write_bytes(b"the pack of last week")
    assert write_pack(_known_wall(), tmp_path, lambda done, _total, _label: done < stop_at) == []
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("pack.pdf", b"the pack of last week")]


def test_a_file_in_the_folders_place_is_a_clear_error(tmp_path: FilePath) -> None:
    blocked = tmp_path / "taken"
    blocked.write_text("mine")
    with pytest.raises(SaveError, match=r"taken: this folder cannot be made .*choose another"):
        write_pack(_known_wall(), blocked)
    assert blocked.read_text() == "mine"


def test_a_folder_in_a_files_place_is_a_clear_error(tmp_path: FilePath) -> None:
    (tmp_path / "plan.svg").mkdir()
    with pytest.raises(SaveError, match=r"plan\.svg: cannot be written"):
        write_pack(_known_wall(), tmp_path)
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".")]


def test_the_panels_are_replaced_with_the_sheets_or_not_at_all(tmp_path: FilePath) -> None:
    (tmp_path / "panels.csv").mkdir()
    (tmp_path / "pack.pdf").write_bytes(b"the pack of last week")
    with pytest.raises(SaveError, match=r"panels\.csv: cannot be written"):
        write_pack(_known_wall(), tmp_path)
    assert {path.name for path in tmp_path.iterdir()} == {"panels.csv", "pack.pdf"}
    assert (tmp_path / "pack.pdf").read_bytes() == b"the pack of last week"


def test_a_disk_that_fills_up_midway_leaves_the_pack_of_before(tmp_path: FilePath, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "pack.pdf").write_bytes(b"the pack of last week")
    written: list[int] = []

    def fail_at_the_third(_descriptor: int) -> None:
        written.append(1)
        if len(written) == 3:
            raise OSError(28, os.strerror(28))

    monkeypatch.setattr(os, "fsync", fail_at_the_third)
    with pytest.raises(SaveError, match=r"elevation-A\.svg: cannot be written \(no space left on device\); nothing was changed"):
        write_pack(_known_wall(), tmp_path)
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("pack.pdf", b"the pack of last week")]


@pytest.mark.slow
def test_writing_again_gives_the_same_svg(tmp_path: FilePath) -> None:
    first, second = (write_pack(_known_wall(), tmp_path / name) for name in ("one", "two"))
    for one, other in zip(first, second, strict=True):
        if one.suffix == ".svg":
            assert one.read_bytes() == other.read_bytes()


@pytest.mark.slow
def test_a_pack_needs_neither_screen_nor_application(tmp_path: FilePath) -> None:
    room = ROOT / "assets" / "demo.room.json"
    code = (
        "import sys; from pathlib import Path; from app.pack import write_pack; from core.files import load_room; "
        "from core.setout import solve; print(len(write_pack(solve(load_room(Path(sys.argv[1]))), Path(sys.argv[2]))))"
    )
    bare = {key: value for key, value in os.environ.items() if key not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
    done = subprocess.run(
        [sys.executable, "-c", code, str(room), str(tmp_path)], cwd=ROOT, env=bare, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == f"{len(list(tmp_path.iterdir()))}"
    assert {"pack.pdf", "workbook.xlsx"} <= {path.name for path in tmp_path.iterdir()}


def test_the_pack_has_a_bookmark_for_every_sheet(demo_pack: FilePath) -> None:
    reader = PdfReader(demo_pack / "pack.pdf")
    top = [entry for entry in reader.outline if not isinstance(entry, list)]
    titles = [entry.title for entry in top]
    assert titles[0] == "Cover"
    assert "Elevation of wall B" in titles
    assert len(titles) == len(set(titles))
    begins = [reader.get_destination_page_number(entry) for entry in top]
    assert begins == sorted(begins)
