"""Settings every test shares: no screen, no warnings, and nothing written outside a temporary folder."""

import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
_home = tempfile.TemporaryDirectory(prefix="coursewright-tests-")
for _variable in ("XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"):
    os.environ[_variable] = _home.name
# Tests compare texts, their own processes' too; those of other languages ask for theirs.
os.environ["LANGUAGE"] = "en"

# Two busy cores make single examples slow now and then; no test asserts a time.
settings.register_profile("coursewright", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("coursewright")

ROOT = Path(__file__).resolve().parent.parent


def _has_real_windows() -> bool:
    return os.environ["QT_QPA_PLATFORM"] == "xcb"


def pytest_xvfb_disable() -> bool:
    """Starts the virtual screen only for the run that wants real windows."""
    return not _has_real_windows()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if _has_real_windows():
        return
    for item in items:
        if item.get_closest_marker("xvfb"):
            item.add_marker(pytest.mark.skip(reason="needs a real window: QT_QPA_PLATFORM=xcb pytest -m xvfb"))


def pytest_unconfigure() -> None:
    _home.cleanup()


@pytest.fixture
def demo_room_path() -> Path:
    """The demo room as it is shipped."""
    return ROOT / "assets" / "demo.room.json"


@pytest.fixture
def rooms() -> Path:
    """The folder of room files that tests share."""
    return ROOT / "tests" / "rooms"
