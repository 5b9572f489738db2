"""The frame behind the panels: everything to build, cut, pack and drive, and the panels as they are hung on it."""

from core.frame.hung import Hung, Variant, as_hung
from core.frame.plan import FramePlan, WallFrame, checks_to_heed, plan_of, takes_timber

__all__ = ["FramePlan", "Hung", "Variant", "WallFrame", "as_hung", "checks_to_heed", "plan_of", "takes_timber"]
