"""The one border between grid and millimetres: everything shown, printed or exported passes through here."""

from core.kit import Kit
from core.setout.result import Face, Mount, Ring, SetOut

PointMm = tuple[float, float]


def x_mm(setout: SetOut, wall: int, pitches: int) -> float:
    """Wall-local millimetres of a pitch line, from the wall's left frame corner."""
    return round(setout.walls[wall].start_mm + pitches * setout.room.kit.pitch_mm, 4)


def z_mm(kit: Kit, plates: float) -> float:
    """Height above the floor of a plate line."""
    return round(plates * kit.plate_mm, 4)


def ring_mm(setout: SetOut, wall: int, ring: Ring) -> list[PointMm]:
    """A ring of grid points in wall-local millimetres, shape (n, 2)."""
    return [(x_mm(setout, wall, x), z_mm(setout.room.kit, z)) for x, z in ring]


def mount_mm(setout: SetOut, mount: Mount) -> PointMm:
    """A mounting point's screw centre in wall-local millimetres."""
    return x_mm(setout, mount.wall, mount.x_pitches), z_mm(setout.room.kit, mount.z_half_plates / 2)


def face_box_mm(setout: SetOut, face: Face) -> tuple[float, float, float, float]:
    """A face's bounding box in wall-local millimetres: left, bottom, right, top."""
    kit = setout.room.kit
    return (
        x_mm(setout, face.wall, face.left),
        z_mm(kit, face.bottom),
        x_mm(setout, face.wall, face.right),
        z_mm(kit, face.top),
    )


def outer_mm(setout: SetOut, wall: int) -> tuple[float, float]:
    """The shell's left and right end on a wall, in wall-local millimetres."""
    return x_mm(setout, wall, 0), x_mm(setout, wall, setout.walls[wall].pitches)
