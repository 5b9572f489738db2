"""Parts for designs without bonding them: enough bricks for a panel's area, so that take-off and buying can be tested alone."""

from collections import Counter

from core.setout.result import Panel, SetOut


def guessed_parts(setout: SetOut) -> dict[str, Counter[str]]:
    """About one 2x4 brick every four pitches of each course, pin-hole bricks and plugs at the mounts, tiles on top."""
    return {design: _parts(panel) for design, panel in {panel.design: panel for panel in setout.panels}.items()}


def _parts(panel: Panel) -> Counter[str]:
    width = sum(face.right - face.left for face in panel.faces)
    courses = (panel.faces[0].top - panel.faces[0].bottom) // 3
    mounts = sum(len(face.mounts) for face in panel.faces)
    fours, rest = divmod(width, 4)
    return Counter(
        {
            "brick 2x4": courses * fours,
            **({f"brick 2x{rest}": courses} if rest else {}),
            "pin-hole brick 1x2": 2 * mounts,
            "plate 2x4": fours,
            "tile 2x2": max(0, width // 2 - 2),
            "locating plate 2x2": 2,
            "plug": mounts,
        }
    )
