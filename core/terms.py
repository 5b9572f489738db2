"""Values of the model that people read as well: put through ``core.language.tr`` where they are shown, and nowhere else.

What a room file, a key or a comparison holds stays English in every language. Names that a person gave themselves are shown as
they are: no catalogue has them.
"""

from core.language import marked

STATES = (marked("to build"), marked("built"), marked("checked"), marked("hung"), marked("taken out"))

KINDS = (
    marked("full"),
    marked("half-height"),
    marked("half-width"),
    marked("quarter"),
    marked("corner"),
    marked("closer"),
    marked("shaped"),
    marked("shaped-corner"),
)
"""Kinds of panels, as lists write them."""

COUNTED_IN = (marked("piece"),)

PARTS = (
    marked("brick"),
    marked("pin-hole brick"),
    marked("plate"),
    marked("tile"),
    marked("locating plate"),
    marked("plug"),
    marked("floor plate"),
    marked("hardware"),
    marked("timber"),
)
"""Kinds of parts and the groups of a take-off."""

PART_NAMES = (
    marked("brick 2x1"),
    marked("brick 2x2"),
    marked("brick 2x3"),
    marked("brick 2x4"),
    marked("brick 2x6"),
    marked("brick 2x8"),
    marked("pin-hole brick 1x2"),
    marked("plate 2x1"),
    marked("plate 2x2"),
    marked("plate 2x3"),
    marked("plate 2x4"),
    marked("plate 2x6"),
    marked("plate 2x8"),
    marked("tile 2x1"),
    marked("tile 2x2"),
    marked("tile 2x3"),
    marked("tile 2x4"),
    marked("locating plate 2x2"),
    marked("floor plate 2x8"),
    marked("panel screw"),
)
"""Parts of the kit as it comes, and what else a take-off counts under a name of its own."""

COLOURS = (
    marked("white"),
    marked("chalk"),
    marked("sand"),
    marked("honey"),
    marked("terracotta"),
    marked("brick red"),
    marked("plum"),
    marked("azure"),
    marked("dusk blue"),
    marked("moss"),
    marked("fir"),
    marked("umber"),
    marked("slate"),
    marked("black"),
)

MEMBERS = (
    marked("stud"),
    marked("king stud"),
    marked("trimmer"),
    marked("cripple"),
    marked("corner post"),
    marked("sole plate"),
    marked("top plate"),
    marked("header"),
    marked("sill"),
    marked("rail"),
    marked("blocking"),
    marked("doubling piece"),
)

SCREWS = (
    marked("#2 flat-head wood screw"),
    marked("#4 flat-head wood screw"),
    marked("#5 flat-head wood screw"),
    marked("#6 flat-head wood screw"),
    marked("#8 flat-head wood screw"),
    marked("#10 flat-head wood screw"),
    marked("3.0 mm pan-head chipboard screw"),
    marked("3.5 mm countersunk chipboard screw"),
    marked("M3 countersunk machine screw"),
    marked("M3 pan-head machine screw"),
    marked("M3 cheese-head machine screw"),
    marked("M3.5 cheese-head machine screw"),
)
SCREW_SOURCES = (
    marked(
        "ASME B18.6.1-type flat-head table, largest sharp and least head; shank 0.060 + 0.013 n in; "
        "height and lengths from memory"
    ),
    marked("head about twice the diameter, from memory (DIN 7505); makers differ, so measure before buying"),
    marked("ISO 1207, head height from memory"),
)
SCREW_KINDS = (marked("wood"), marked("machine"), marked("flat"), marked("countersunk"))

OPENINGS = (marked("door"), marked("window"), marked("outlet"), marked("switch"), marked("niche"))
EDGES = (marked("left edge"), marked("right edge"), marked("sill"), marked("head"))
JOINTS = (marked("in line"), marked("staggered"))

SNAP_LINES = (
    marked("panel joint"),
    marked("stud"),
    marked("wall end"),
    marked("row joint"),
    marked("floor"),
    marked("pitch"),
    marked("course"),
)

RULES = (marked("room"), marked("wall"), marked("band"), marked("panel"), marked("picture"))
"""Kinds of rules for colours."""

LEVELS = (marked("error"), marked("warning"), marked("note"))
BOND_FAULTS = (marked("straight joint"), marked("short lap"), marked("poor bearing"), marked("loose"), marked("left out"))
READINGS = (marked("not measured"), marked("bilinear between readings"), marked("nearest reading"))
REMEDIES = (marked("pilot hole"), marked("doubling"), marked("blocking"), marked("move"), marked("none"))
COUPLINGS = (marked("good"), marked("fair"), marked("poor"))
DUTIES = (marked("build"), marked("hang"), marked("both"))
MAKES = (marked("plain"), marked("shaped"), marked("corner"), marked("shaped corner"))
WORK = (marked("build"), marked("handling"), marked("setup"))
PROOFS = (marked("proven"), marked("best found"))

SHAPES = (
    marked("Rectangle"),
    marked("L"),
    marked("T"),
    marked("U"),
    marked("Alcove"),
    marked("Bay"),
    marked("width"),
    marked("depth"),
    marked("corner width"),
    marked("corner depth"),
    marked("stem width"),
    marked("bar depth"),
    marked("left arm"),
    marked("right arm"),
    marked("court depth"),
    marked("alcove width"),
    marked("alcove depth"),
    marked("alcove from left"),
    marked("bay width"),
    marked("bay depth"),
)
"""Ready shapes of rooms and their sizes."""

JSON_FAULTS = (
    marked("Expecting value"),
    marked("Expecting property name enclosed in double quotes"),
    marked("Expecting ',' delimiter"),
    marked("Expecting ':' delimiter"),
    marked("Extra data"),
    marked("Unterminated string starting at"),
    marked("Invalid control character at"),
    marked("Invalid \\escape"),
    marked("Invalid \\uXXXX escape"),
    marked("Illegal trailing comma before end of object"),
    marked("Illegal trailing comma before end of array"),
)
"""What Python's reader of JSON finds wrong."""

OUTLINE_FAULTS = (marked("Self-intersection"), marked("Ring Self-intersection"), marked("Too few points in geometry component"))
"""What shapely finds wrong with an outline."""
