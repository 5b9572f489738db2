"""The cautions: complete, and the same wherever they are read."""

from pathlib import Path

import pytest

from core.cautions import CAUTIONS

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(
    "needed",
    [
        "Fire: not assessed",
        "flush with its face. Power off",
        "licensed electrician",
        "every cable and pipe",
        "ways out",
        "heaters, flues",
        "Lifting:",
        "a qualified person judges the frame",
        "every load",
        "Measure the room again",
        "local codes and licensed practice decide",
    ],
)
def test_nothing_that_can_hurt_is_left_out(needed: str) -> None:
    assert any(needed in caution for caution in CAUTIONS)


def test_nothing_is_said_to_comply() -> None:
    assert "compl" not in " ".join(CAUTIONS)


def test_the_readme_carries_every_caution() -> None:
    section = (ROOT / "README.md").read_text().partition("## Cautions")[2].partition("\n## ")[0]
    listed = [" ".join(item.replace("**", "").split()) for item in section.split("\n* ")[1:]]
    assert listed == list(CAUTIONS)
