"""Fields of the room file as people read them: the words in their names, in the reader's language."""

from collections.abc import Mapping
from functools import lru_cache

from core.language import spoken, trc

_UNIT = "_mm"


def field_words(name: str) -> str:
    """The words of a field's name (``clad_height_mm``) without the millimetres; those of an unknown field as they are."""
    words = name.removesuffix(_UNIT).replace("_", " ")
    return _in(spoken()).get(words, words)


def field_heading(name: str) -> str:
    """The words of a field's name with its unit."""
    return f"{field_words(name)} mm" if name.endswith(_UNIT) else field_words(name)


@lru_cache(maxsize=4)
def _in(_language: str) -> Mapping[str, str]:
    """Every field in the language spoken now."""
    return {
        "pitch": trc("field", "pitch"),
        "plate": trc("field", "plate"),
        "plates per course": trc("field", "plates per course"),
        "thickness pitches": trc("field", "thickness pitches"),
        "full courses": trc("field", "full courses"),
        "half courses": trc("field", "half courses"),
        "least closing courses": trc("field", "least closing courses"),
        "widths pitches": trc("field", "widths pitches"),
        "legs pitches": trc("field", "legs pitches"),
        "least width pitches": trc("field", "least width pitches"),
        "fit": trc("field", "fit"),
        "head gap": trc("field", "head gap"),
        "mounts": trc("field", "mounts"),
        "inset pitches": trc("field", "inset pitches"),
        "course": trc("field", "course"),
        "clear pitches": trc("field", "clear pitches"),
        "edge": trc("field", "edge"),
        "build full panel": trc("field", "build full panel"),
        "plain factor": trc("field", "plain factor"),
        "shaped factor": trc("field", "shaped factor"),
        "corner factor": trc("field", "corner factor"),
        "shaped corner factor": trc("field", "shaped corner factor"),
        "handling": trc("field", "handling"),
        "setup": trc("field", "setup"),
        "sliver": trc("field", "sliver"),
        "weak": trc("field", "weak"),
        "blocking": trc("field", "blocking"),
        "name": trc("field", "name"),
        "kind": trc("field", "kind"),
        "length pitches": trc("field", "length pitches"),
        "depth pitches": trc("field", "depth pitches"),
        "mass g": trc("field", "mass g"),
        "is stocked": trc("field", "is stocked"),
        "pack": trc("field", "pack"),
        "price": trc("field", "price"),
        "sizes": trc("field", "sizes"),
        "thickness": trc("field", "thickness"),
        "depth": trc("field", "depth"),
        "kg per m": trc("field", "kg per m"),
        "frame size": trc("field", "frame size"),
        "header plies": trc("field", "header plies"),
        "stock": trc("field", "stock"),
        "kerf": trc("field", "kerf"),
        "least offcut": trc("field", "least offcut"),
        "specific gravity": trc("field", "specific gravity"),
        "screws": trc("field", "screws"),
        "thread": trc("field", "thread"),
        "head": trc("field", "head"),
        "shank": trc("field", "shank"),
        "head least": trc("field", "head least"),
        "head most": trc("field", "head most"),
        "head height": trc("field", "head height"),
        "lengths": trc("field", "lengths"),
        "source": trc("field", "source"),
        "screw": trc("field", "screw"),
        "bore": trc("field", "bore"),
        "hole": trc("field", "hole"),
        "counterbore": trc("field", "counterbore"),
        "counterbore depth": trc("field", "counterbore depth"),
        "least lip": trc("field", "least lip"),
        "yield mpa": trc("field", "yield mpa"),
        "safety": trc("field", "safety"),
        "cable clear": trc("field", "cable clear"),
        "lateral kpa": trc("field", "lateral kpa"),
        "faces": trc("field", "faces"),
        "wall": trc("field", "wall"),
        "readings": trc("field", "readings"),
        "x": trc("field", "x"),
        "z": trc("field", "z"),
        "panel tolerance": trc("field", "panel tolerance"),
        "trim lap": trc("field", "trim lap"),
        "opening loss": trc("field", "opening loss"),
        "width": trc("field", "width"),
        "height": trc("field", "height"),
        "further gang": trc("field", "further gang"),
        "colours": trc("field", "colours"),
        "code": trc("field", "code"),
        "srgb": trc("field", "srgb"),
        "rest": trc("field", "rest"),
        "rules": trc("field", "rules"),
        "colour": trc("field", "colour"),
        "from": trc("field", "from"),
        "to": trc("field", "to"),
        "walls": trc("field", "walls"),
        "bottom plates": trc("field", "bottom plates"),
        "left pitches": trc("field", "left pitches"),
        "layers": trc("field", "layers"),
        "left": trc("field", "left"),
        "bottom": trc("field", "bottom"),
        "way": trc("field", "way"),
        "columns": trc("field", "columns"),
        "lines": trc("field", "lines"),
        "sill": trc("field", "sill"),
        "stud": trc("field", "stud"),
        "spacing": trc("field", "spacing"),
        "first centre": trc("field", "first centre"),
        "centres": trc("field", "centres"),
        "rails": trc("field", "rails"),
        "corners": trc("field", "corners"),
        "clad height": trc("field", "clad height"),
        "frame height": trc("field", "frame height"),
    }
