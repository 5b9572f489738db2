"""Standing timber through edits of the plan: frames cut where a wall is parted, joined where two become one, shortened with it.

Studs are kept where they were measured. Where an edit leaves a doubt the frame claims less timber, never more: a screw that is
said to find none is looked into, one that is said to find some is not.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from core.edits.revise import revise, tidy_mm
from core.room import FrameToBuild, MeasuredFrame, RegularFrame
from core.setout.timber import regular_centres

AnyFrame = FrameToBuild | RegularFrame | MeasuredFrame

_SLACK_MM = 1e-3
"""Corners are kept to a tenth of a micrometre, so a slanting wall's length is off by as little."""


@dataclass(frozen=True, slots=True)
class FramedLength:
    """A frame with the length of the wall it stands on."""

    frame: AnyFrame
    length_mm: float


def cut_frame(frame: AnyFrame, at_mm: float) -> tuple[AnyFrame, AnyFrame]:
    """The frames left and right of a cut, each measured from its own left corner; a stud the cut goes through is in neither."""
    if isinstance(frame, RegularFrame):
        passed = max(0, math.ceil((at_mm - frame.first_centre_mm - _SLACK_MM) / frame.spacing_mm))
        first = frame.first_centre_mm + passed * frame.spacing_mm - at_mm
        return frame, revise(frame, first_centre_mm=tidy_mm(max(0.0, first)))
    if isinstance(frame, MeasuredFrame):
        whole = at_mm + frame.stud_mm / 2 - _SLACK_MM
        right = tuple(tidy_mm(centre - at_mm) for centre in frame.centres_mm if centre >= whole)
        return shortened_frame(frame, at_mm), revise(frame, centres_mm=right)
    return frame, frame


def join_frames(left: FramedLength, right: FramedLength, shift_mm: float) -> AnyFrame:
    """The frame of two walls made one, the right one's left corner ``shift_mm`` along it.

    Frames to build stay so, and regular ones whose studs keep step stay regular. Anything else becomes a measured frame of
    every stud known on either side. Either keeps the rails both sides have.
    """
    one, other = left.frame, right.frame
    if isinstance(one, FrameToBuild) and isinstance(other, FrameToBuild):
        return one
    rails = tuple(height for height in rails_of(one) if height in rails_of(other))
    if isinstance(one, RegularFrame) and isinstance(other, RegularFrame) and _keep_step(one, other, shift_mm):
        return revise(one, rails_mm=rails)
    stud_mm = min(one.stud_mm, other.stud_mm)
    known = sorted([*_centres(left), *(tidy_mm(centre + shift_mm) for centre in _centres(right))])
    return MeasuredFrame(mode="measured", centres_mm=_apart(known, stud_mm), rails_mm=rails, stud_mm=stud_mm)


def rails_of(frame: AnyFrame) -> tuple[float, ...]:
    """The heights of a standing frame's rails; none while it is still to be built."""
    return () if isinstance(frame, FrameToBuild) else frame.rails_mm


def shortened_frame(frame: AnyFrame, length_mm: float) -> AnyFrame:
    """The frame without measured studs past the end of a wall that long, or nearer to it than half their width."""
    if not isinstance(frame, MeasuredFrame):
        return frame
    last = length_mm - frame.stud_mm / 2 + _SLACK_MM
    return revise(frame, centres_mm=tuple(centre for centre in frame.centres_mm if centre <= last))


def _keep_step(left: RegularFrame, right: RegularFrame, shift_mm: float) -> bool:
    """Whether the right studs stand where the left ones, carried on, would."""
    off = (right.first_centre_mm + shift_mm - left.first_centre_mm) % left.spacing_mm
    same = (left.spacing_mm, left.stud_mm) == (right.spacing_mm, right.stud_mm)
    return same and min(off, left.spacing_mm - off) <= _SLACK_MM


def _centres(framed: FramedLength) -> tuple[float, ...]:
    frame = framed.frame
    if isinstance(frame, MeasuredFrame):
        return frame.centres_mm
    if isinstance(frame, RegularFrame):
        return regular_centres(frame.first_centre_mm, frame.spacing_mm, framed.length_mm, frame.stud_mm)
    return ()


def _apart(centres_mm: Iterable[float], stud_mm: float) -> tuple[float, ...]:
    """Rising centres without those that would stand in the one before."""
    kept: list[float] = []
    for centre in centres_mm:
        if centre >= 0 and (not kept or centre - kept[-1] >= stud_mm):
            kept.append(centre)
    return tuple(kept)
