"""The way of drawing: corner after corner on the paper."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout

from app.plan.miss import MissPanel
from app.plan.sketch_hand import SketchHand
from app.plan.sketch_view import SketchView
from app.plan.ways import Way
from core.edits.sketch import Sketch, clockwise
from core.errors import CoursewrightError
from core.language import marked, tr
from core.room import Point, Units
from core.units import reason

STEPS = (
    marked("<p><b>1</b>&nbsp; Click the first corner.</p>"),
    marked("<p><b>2</b>&nbsp; Point along the wall, type its length as on the tape, press Enter. Or click where it ends.</p>"),
    marked("<p><b>3</b>&nbsp; Go round. Click the first corner, or press Enter, to close the room.</p>"),
    marked("<p>Without a mouse: arrow keys say which way the next wall goes.</p>"),
    marked("<p>Backspace takes the last corner back. Escape gives the sketch up.<br>Shift draws at 45°, Alt at any angle.</p>"),
)


class DrawWay(Way):
    """Corner after corner on the paper."""

    name = marked("Draw")
    paper: SketchView

    def __init__(self, units: Units, behind: Sequence[Point]) -> None:
        super().__init__()
        self._units: Units = units
        self.hand = SketchHand(units)
        self.paper = SketchView(units, self.hand, behind)
        self.miss = MissPanel(units)
        self._steps = steps = QLabel("".join(tr(step) for step in STEPS))
        steps.setWordWrap(True)
        steps.setTextFormat(Qt.TextFormat.RichText)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(steps)
        layout.addWidget(self.miss)
        layout.addStretch(1)
        self.hand.changed.connect(self._follow)
        self.miss.chosen.connect(self._share)

    def begin(self) -> None:
        self.paper.setFocus()

    def corners(self) -> tuple[Point, ...]:
        return self.hand.sketch.corners_mm() if self.hand.walked is None else clockwise(self.miss.corners())

    def notice(self) -> str:
        return self.hand.notice

    def hint(self) -> str:
        sketch = self.hand.sketch
        if self.hand.walked is not None:
            return tr("Choose how to share out what is missing")
        if sketch.is_closed:
            return tr("Closed. Enter takes these walls, Backspace opens them again")
        if not sketch.points_mm:
            return tr("Click the first corner, or press Enter")
        if len(sketch.points_mm) < 3:
            return tr("Point along the wall, type its length, press Enter")
        return tr("Next wall, or Enter alone to close the room")

    def _follow(self) -> None:
        self.miss.take(self.hand.walked or ())
        self._steps.setHidden(self.hand.walked is not None)
        self.changed.emit()

    def _share(self) -> None:
        """A choice closes the sketch; taking back opens it again at the corners as typed."""
        try:
            shared = self.miss.corners()
            self.hand.use(Sketch(shared).closed())
        except CoursewrightError as error:
            self.hand.tell(reason(error, self._units))
        self.paper.setFocus()
