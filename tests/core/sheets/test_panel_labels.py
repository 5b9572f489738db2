"""Labels bear the marks of all panels, to a person and to a camera."""

import pytest
import zxingcpp
from PIL import Image
from PySide6.QtGui import QImage, QPainter

from app.painter import paint_sheet
from core.drawing import Rings, Sheet, Text, item_box
from core.sheets.labels import LABEL_HEIGHT_MM, LABEL_WIDTH_MM, MODULE_MM, QUIET_MODULES, code_mm, label
from tests.core.sheets.bench import NAMES, setout, sheets

DOTS_PER_MM = 8
QR = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
every_room = pytest.mark.parametrize("name", NAMES)


def _labels(name: str) -> list[Sheet]:
    return [sheet for sheet in sheets(name) if sheet.code.startswith("labels-")]


def _photographed(sheet: Sheet) -> Image.Image:
    """The sheet as a picture of some 200 dots per inch, as a telephone would see it."""
    size = round(sheet.paper.width_mm * DOTS_PER_MM), round(sheet.paper.height_mm * DOTS_PER_MM)
    picture = QImage(*size, QImage.Format.Format_Grayscale8)
    picture.fill(0xFFFFFFFF)
    painter = QPainter(picture)
    painter.scale(DOTS_PER_MM, DOTS_PER_MM)
    paint_sheet(painter, sheet)
    painter.end()
    return Image.frombytes("L", size, bytes(picture.constBits()), "raw", "L", picture.bytesPerLine())


@pytest.mark.usefixtures("qapp")
@every_room
def test_codes_on_a_sheet_are_read_as_the_marks_written_beside_them(name: str) -> None:
    """Read with a decoder that shares nothing with the encoder (ISO/IEC 18004)."""
    marks = {panel.mark for panel in setout(name).panels}
    for sheet in (_labels(name)[0], _labels(name)[-1]):
        written = [item.text for item in sheet.items if isinstance(item, Text) and item.text in marks]
        read = [code.text for code in zxingcpp.read_barcodes(_photographed(sheet), formats=QR)]
        assert sorted(read) == sorted(written)


@every_room
def test_every_panel_has_one_label(name: str) -> None:
    marks = [panel.mark for panel in setout(name).panels]
    written = [item.text for sheet in _labels(name) for item in sheet.items if isinstance(item, Text)]
    assert [text for text in written if text in set(marks)] == marks


@every_room
def test_nothing_on_a_label_runs_over_its_edge_or_into_its_code(name: str) -> None:
    for panel in setout(name).panels:
        items = label(panel)
        boxes = [item_box(item) for item in items]
        assert all(b.left >= 0 and b.right <= LABEL_WIDTH_MM and b.top >= 0 and b.bottom <= LABEL_HEIGHT_MM for b in boxes)
        texts = [item_box(item) for item in items if isinstance(item, Text)]
        assert all(text.right <= LABEL_WIDTH_MM - code_mm(panel.mark) for text in texts)
        assert not any(one.overlaps(other, 0.01) for n, one in enumerate(texts) for other in texts[n + 1 :])


def test_a_label_says_design_and_place() -> None:
    panel = next(panel for panel in setout("demo").panels if panel.design == "full")
    words = {item.text for item in label(panel) if isinstance(item, Text)}
    assert {panel.mark, "full", f"wall {panel.mark[0]}, row {panel.row + 1}", "up"} <= words


def test_a_label_names_its_whole_design() -> None:
    """A cut name could mean another design: outside corners differ in their last numbers."""
    for panel in setout("den").panels:
        assert f" {panel.design} " in " ".join(item.text for item in label(panel) if isinstance(item, Text))


def test_a_code_is_one_area_however_many_squares_are_dark() -> None:
    """A pack has hundreds of labels: square by square they took longer than all other sheets."""
    (code,) = [item for item in label(setout("demo").panels[0]) if isinstance(item, Rings)]
    dark = sum(
        (max(x for x, _ in ring) - min(x for x, _ in ring)) * (max(y for _, y in ring) - min(y for _, y in ring))
        for ring in code.rings
    )
    assert len(code.rings) > 50
    assert 0.3 < dark / (code_mm(setout("demo").panels[0].mark) - 2 * QUIET_MODULES * MODULE_MM) ** 2 < 0.7
