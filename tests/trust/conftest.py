"""The window and its answers, and folders that go wrong."""

import os
import resource
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.app.conftest import _one_application, answers, document, dressed, room, window

__all__ = ["_one_application", "answers", "document", "dressed", "room", "window"]

SMALL_DISK_BYTES = 256 * 1024


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of its own with room for a few files; only root may have one."""
    folder = tmp_path / "disk"
    folder.mkdir()
    if not _mounted("-t", "tmpfs", "-o", f"size={SMALL_DISK_BYTES}", "tmpfs", str(folder)):
        pytest.skip("only root can mount a disk of its own")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


@pytest.fixture
def limit_file_size() -> Iterator[None]:
    """No file of more than 100 bytes can be written by this process: where no disk can be filled, as bad as a full one."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, before[1]))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, before)


def make_read_only(folder: Path) -> None:
    """The folder takes nothing any more until the test ends."""
    if os.geteuid() != 0:
        folder.chmod(0o555)
    elif not _mounted("-o", "remount,ro", str(folder)):
        pytest.skip("no folder can be made read-only for root here")


def _mounted(*arguments: str) -> bool:
    try:
        return os.geteuid() == 0 and subprocess.run(["mount", *arguments], capture_output=True).returncode == 0
    except FileNotFoundError:
        return False
