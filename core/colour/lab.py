"""How far apart two colours look: CIE 1976 L*a*b* (CIELAB) under D50 and the plain distance in it, ISO/CIE 11664-4.

sRGB is taken to D50 by the linear Bradford method, as ICC profiles and CSS Color 4 (section 10) do. Distances between brick
colours are far beyond the few units for which finer formulae are made.
"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_TO_XYZ_D50 = np.array(
    [
        [0.4360747, 0.3850649, 0.1430804],
        [0.2225045, 0.7168786, 0.0606169],
        [0.0139322, 0.0971045, 0.7141733],
    ]
)
_WHITE = _TO_XYZ_D50.sum(axis=1)
_KAPPA, _EPSILON = 24389 / 27, 216 / 24389
_CURVE_BEGINS = 0.04045


def linear(srgb: Floats) -> Floats:
    """sRGB from 0 to 1 as light, IEC 61966-2-1; any shape."""
    found: Floats = np.where(srgb <= _CURVE_BEGINS, srgb / 12.92, ((np.maximum(srgb, 0.0) + 0.055) / 1.055) ** 2.4)
    return found


def lab(light: Floats) -> Floats:
    """L*, a* and b* of linear sRGB, shape (..., 3)."""
    xyz = light @ _TO_XYZ_D50.T / _WHITE
    root: Floats = np.where(xyz > _EPSILON, np.cbrt(xyz), (_KAPPA * xyz + 16) / 116)
    x, y, z = root[..., 0], root[..., 1], root[..., 2]
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1)


def light_of(srgb: str) -> Floats:
    """The linear light of a colour written ``#rrggbb``, shape (3,)."""
    return linear(np.frombuffer(bytes.fromhex(srgb[1:]), dtype=np.uint8) / 255)


def distances(one: Floats, others: Floats) -> Floats:
    """The CIE 1976 colour difference between every L*a*b* of ``one``, shape (n, 3), and of ``others`` (m, 3): shape (n, m)."""
    apart = one[:, None, :] - others[None, :, :]
    found: Floats = np.sqrt((apart**2).sum(axis=-1))
    return found
