"""The scheme on show as Qt wants it: a palette for what the style draws itself, and a style sheet for the rest."""

from PySide6.QtGui import QColor, QPalette

from app import theme
from app.assets import asset


def palette() -> QPalette:
    """The scheme's colours by Qt's roles."""
    roles, shown = QPalette.ColorRole, theme.shown
    made = QPalette()
    for role, colour in (
        (roles.Window, shown.bench),
        (roles.WindowText, shown.ink),
        (roles.Base, shown.field),
        (roles.AlternateBase, shown.card),
        (roles.Text, shown.ink),
        (roles.Button, shown.card),
        (roles.ButtonText, shown.ink),
        (roles.BrightText, shown.ink),
        (roles.ToolTipBase, shown.card),
        (roles.ToolTipText, shown.ink),
        (roles.Link, shown.accent),
        (roles.LinkVisited, shown.accent),
        (roles.Highlight, shown.accent),
        (roles.HighlightedText, shown.on_accent),
        (roles.PlaceholderText, shown.quiet_ink),
        (roles.Light, QColor(shown.card).lighter(120).name()),
        (roles.Midlight, shown.card),
        (roles.Mid, shown.edge),
        (roles.Dark, shown.edge),
        (roles.Shadow, QColor(shown.edge).darker(160).name()),
    ):
        made.setColor(role, QColor(colour))
    for role in (roles.ButtonText, roles.Text, roles.WindowText):
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(shown.quiet_ink))
    return made


def stylesheet() -> str:
    """The window's look as a Qt style sheet."""
    shown, px = theme.shown, theme.px
    error = shown.level_inks["error"]
    return f"""
    QMainWindow, QDialog, QMessageBox {{ background: {shown.bench}; }}
    QWidget {{ color: {shown.ink}; font-size: {px(theme.TEXT_PX)}px; }}
    QMenuBar {{ background: {shown.bench}; padding: 2px 6px; }}
    QMenuBar::item:selected, QMenu::item:selected {{ background: {shown.accent}; color: {shown.on_accent}; }}
    QMenu {{ background: {shown.card}; border: 1px solid {shown.edge}; }}
    QMenu::item {{ padding: 5px 26px; }}
    QMenu::item:disabled {{ color: {shown.quiet_ink}; }}
    QMenu::separator {{ height: 1px; background: {shown.edge}; margin: 3px 8px; }}
    QStatusBar {{ background: {shown.bench}; color: {shown.quiet_ink}; }}
    QFrame#board {{ background: {shown.board}; border: none; }}
    QFrame#board QLabel {{ color: {shown.chalk}; background: transparent; }}
    QFrame#strip, QWidget#bench {{ background: {shown.bench}; }}
    QFrame#card {{ background: {shown.card}; border: 1px solid {shown.edge}; border-radius: 3px; }}
    QLabel#heading {{ font-size: {px(theme.HEADING_PX)}px; font-weight: 700; color: {shown.ink}; }}
    QLabel#quiet {{ font-size: {px(theme.SMALL_PX)}px; color: {shown.quiet_ink}; }}
    QLabel#fault {{ font-size: {px(theme.SMALL_PX)}px; color: {error}; }}
    QLineEdit {{ background: {shown.field}; border: 1px solid {shown.field_edge}; border-radius: 2px; padding: 2px 6px;
        selection-background-color: {shown.accent}; selection-color: {shown.on_accent}; }}
    QLineEdit:focus {{ border: 2px solid {shown.accent}; padding: 1px 5px; }}
    QLineEdit[wrong="true"] {{ border: 2px solid {error}; padding: 1px 5px; }}
    QPushButton, QToolButton {{ background: {shown.card}; border: 1px solid {shown.field_edge}; border-radius: 2px;
        padding: 5px 12px; }}
    QPushButton:hover, QToolButton:hover {{ background: {shown.accent_wash}; }}
    QPushButton:focus, QToolButton:focus {{ border: 2px solid {shown.accent}; padding: 4px 11px; }}
    QToolButton:checked {{ background: {shown.accent}; color: {shown.on_accent}; font-weight: 700; }}
    QPushButton:disabled, QToolButton:disabled {{ color: {shown.quiet_ink}; background: {shown.bench}; }}
    QFileDialog QToolButton, QFileDialog QToolButton:focus {{ padding: 2px; }}
    QPrintPreviewDialog QToolButton, QPrintPreviewDialog QToolButton:focus {{ padding: 2px; }}
    QProgressBar {{ background: {shown.field}; border: 1px solid {shown.field_edge}; border-radius: 2px; color: {shown.ink};
        text-align: center; }}
    QProgressBar::chunk {{ background: {shown.accent_wash}; }}
    QListView {{ background: {shown.card}; border: none; outline: none; }}
    QScrollArea#middle, QScrollArea#middle > QWidget > QWidget#inspector {{ background: {shown.bench}; }}
    QSplitter::handle {{ background: {shown.bench}; }}
    QScrollBar:vertical {{ background: {shown.bench}; width: 12px; margin: 0; }}
    QScrollBar:horizontal {{ background: {shown.bench}; height: 12px; margin: 0; }}
    QScrollBar::handle {{ background: {shown.field_edge}; border-radius: 4px; margin: 2px; min-height: 28px; min-width: 28px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: {shown.bench}; }}
    {_controls()}
    QToolTip {{ background: {shown.card}; color: {shown.ink}; border: 1px solid {shown.field_edge}; padding: 3px; }}
    """


def _controls() -> str:
    """Ticks, choices and counters. The style's own edges are shades of the window's colour, too faint to see in the dark."""
    shown, px = theme.shown, theme.px
    tick, up, down = (
        asset(f"look/{name}-{'dark' if shown.is_dark else 'light'}.svg").as_posix() for name in ("tick", "up", "down")
    )
    side, dot = px(14), px(4)
    hollow = side + 2 - 2 * dot
    return f"""
    QCheckBox::indicator, QListView::indicator {{ width: {side}px; height: {side}px; border: 1px solid {shown.field_edge};
        border-radius: 2px; background: {shown.field}; }}
    QCheckBox::indicator:checked, QListView::indicator:checked {{ background: {shown.accent}; border-color: {shown.accent};
        image: url("{tick}"); }}
    QCheckBox::indicator:focus {{ width: {side - 2}px; height: {side - 2}px; border: 2px solid {shown.accent}; }}
    QRadioButton::indicator {{ width: {side}px; height: {side}px; border: 1px solid {shown.field_edge};
        border-radius: {side // 2 + 1}px; background: {shown.field}; }}
    QRadioButton::indicator:checked {{ width: {hollow}px; height: {hollow}px; border: {dot}px solid {shown.accent}; }}
    QComboBox, QAbstractSpinBox {{ background: {shown.field}; border: 1px solid {shown.field_edge}; border-radius: 2px;
        padding: 2px 6px; selection-background-color: {shown.accent}; selection-color: {shown.on_accent}; }}
    QComboBox {{ padding-left: 4px; padding-right: 0; }}
    QComboBox:focus, QAbstractSpinBox:focus {{ border: 2px solid {shown.accent}; padding: 1px 5px; }}
    QComboBox:focus {{ padding-left: 3px; padding-right: 0; }}
    QComboBox:disabled, QAbstractSpinBox:disabled {{ color: {shown.quiet_ink}; background: {shown.bench}; }}
    QComboBox QAbstractItemView {{ background: {shown.card}; color: {shown.ink}; border: 1px solid {shown.field_edge};
        selection-background-color: {shown.accent}; selection-color: {shown.on_accent}; }}
    QComboBox::drop-down {{ border: none; width: {px(15)}px; }}
    QComboBox::down-arrow {{ image: url("{down}"); width: {px(10)}px; height: {px(10)}px; }}
    QAbstractSpinBox::up-button, QAbstractSpinBox::down-button {{ border: none; width: {px(18)}px; }}
    QAbstractSpinBox::up-arrow {{ image: url("{up}"); width: {px(9)}px; height: {px(9)}px; }}
    QAbstractSpinBox::down-arrow {{ image: url("{down}"); width: {px(9)}px; height: {px(9)}px; }}
    """
