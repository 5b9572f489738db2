"""First steps: a course of six bricks over the elevation; each is laid when the person has done what it says."""

from app.first_steps.guide import Guide, is_wanted

__all__ = ["Guide", "is_wanted"]
