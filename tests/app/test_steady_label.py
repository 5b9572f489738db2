"""Labels of the board: they take the room their text needs, and leave the layout alone while figures change."""

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLabel, QWidget
from pytestqt.qtbot import QtBot

from app.steady_label import SteadyLabel


class LayoutRequests(QObject):
    """Counts how often a widget is asked to be laid out."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self.count = 0
        widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        self.count += event.type() == QEvent.Type.LayoutRequest
        return False


@pytest.fixture
def holder(qtbot: QtBot) -> QWidget:
    widget = QWidget()
    widget.setStyleSheet("font-size: 40px")
    QHBoxLayout(widget)
    qtbot.addWidget(widget)
    widget.show()
    return widget


def placed(holder: QWidget, label: QLabel) -> LayoutRequests:
    layout = holder.layout()
    assert layout is not None
    layout.addWidget(label)
    label.setText("268")
    QApplication.processEvents()
    return LayoutRequests(holder)


def test_another_figure_leaves_the_layout_alone(holder: QWidget) -> None:
    label = SteadyLabel()
    requests = placed(holder, label)
    label.setText("269")
    QApplication.processEvents()
    assert label.text() == "269"
    assert requests.count == 0


def test_a_longer_or_shorter_number_takes_the_room_it_needs(holder: QWidget) -> None:
    label = SteadyLabel()
    requests = placed(holder, label)
    usual = label.width()
    label.setText("1268")
    QApplication.processEvents()
    assert requests.count
    assert label.width() > usual
    label.setText("26")
    QApplication.processEvents()
    assert label.width() < usual


def test_larger_letters_take_more_room(holder: QWidget) -> None:
    label = SteadyLabel()
    placed(holder, label)
    usual = label.size()
    holder.setStyleSheet("font-size: 60px")
    QApplication.processEvents()
    assert label.width() > usual.width()
    assert label.height() > usual.height()


def test_it_takes_as_much_room_as_any_label(holder: QWidget) -> None:
    label, usual = SteadyLabel(), QLabel("268")
    placed(holder, label)
    placed(holder, usual)
    assert label.size() == usual.sizeHint()


def test_a_text_that_there_is_room_for_leaves_the_layout_alone(holder: QWidget) -> None:
    label = SteadyLabel(["▼ −10", "▲ +10"])
    requests = placed(holder, label)
    for text in ("▲ +10", "▼ −7", "", "▼ −10"):
        label.setText(text)
        QApplication.processEvents()
        assert label.width() >= label.fontMetrics().horizontalAdvance(text)
    assert requests.count == 0
