"""What a person must know before they build from a plan: one list for sheets, window and README."""

from core.language import marked

CAUTIONS = (
    marked(
        "Planning aid only: local codes and licensed practice decide, always. Measure the room again before you cut or order."
    ),
    marked(
        "Fire: not assessed. Brick plastic burns, drips and smokes. The lining of a room people use must "
        "meet the local fire code: ask the fire authority before you buy, never line an escape route on "
        "the strength of a plan, and keep every fire-resisting board that stands behind the lining."
    ),
    marked(
        "Electricity: outlet and switch boxes in a lining that burns must come out flush with its face. "
        "Power off and proven dead; the work is for a licensed electrician."
    ),
    marked(
        "Hidden services: a screw can find what the wall hides. Find every cable and pipe before you "
        "drive one, and keep screws clear of them."
    ),
    marked("Escape: doors and windows that are ways out open fully and stay clear, during the work and after it."),
    marked("Heat: keep the lining away from heaters, flues, cookers and lamps that run hot."),
    marked(
        "Lifting: panels are heavy in numbers and sharp at the edges. Lift in pairs, carry boxes you can "
        "manage, work from a proper platform, never alone on a ladder, and do not stand under a panel "
        "that is not screwed."
    ),
    marked(
        "Frame and loads: a qualified person judges the frame, its fixings, the wall behind, and every "
        "load on them, the lining and what is hung on it included."
    ),
)
"""Each begins with what it is about, up to a colon; put through ``tr`` where it is shown."""
