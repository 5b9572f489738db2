"""The timber frame behind the panels and the screws into it."""

from core.frame.plan import FramePlan, WallFrame, plan_of

__all__ = ["FramePlan", "WallFrame", "plan_of"]
