"""Where heights count from: the first row stands on the starter ring, so the set-out's zero lies one plate above the floor."""

from core.language import tr
from core.setout.result import SetOut


def ring_mm(setout: SetOut) -> float:
    """How far above the floor the set-out's heights begin: a floor plate, where the first row stands on the ring."""
    stands = bool(setout.rows) and setout.rows[0].z_plates == 0
    return setout.room.kit.plate_mm if stands else 0.0


def datum_words(setout: SetOut) -> str:
    """A sentence for whoever measures up; nothing where heights count from the floor itself."""
    ring = ring_mm(setout)
    return tr("Heights count from the top of the starter ring, {ring:g} mm above the floor.", ring=ring) if ring else ""
