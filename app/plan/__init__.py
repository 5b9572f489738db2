"""The plan: the room from above, to pick walls and to sketch its outline."""

from app.plan.view import PlanView

__all__ = ["PlanView"]
