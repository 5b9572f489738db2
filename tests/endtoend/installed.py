"""Run by an installed Coursewright from outside the checkout: opens the window without a screen and looks for what it needs.

``python installed.py CHECKOUT`` exits with status 0 and says where it was imported from.
"""

import os
import sys
from pathlib import Path

os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PySide6.QtWidgets import QApplication

import app
from app.appearance import SCHEME
from app.main import dress, open_window, state_folder
from core import __file__ as core_file

if __name__ == "__main__":
    checkout = Path(sys.argv[1]).resolve()
    for module in (app.__file__, core_file):
        assert module is not None
        assert not Path(module).resolve().is_relative_to(checkout), f"{module} is the checkout's"
    application = QApplication([])
    dress(application)
    assert not application.windowIcon().isNull()
    window = open_window(None, state_folder())
    window.show()
    for scheme in ("light", "dark"):
        window.appearance.choose_scheme(scheme)
        assert not window.grab().isNull()
    for place in range(window.leaves.count()):
        window.leaves.setCurrentIndex(place)
        application.processEvents()
    assert window.guide is not None, f"the first start shows no first steps ({SCHEME})"
    sys.stdout.write(f"window of {len(window.document.setout.panels)} panels from {Path(app.__file__ or '').parent}\n")
    sys.stdout.flush()
    os._exit(0)
