"""The bench view: one panel on a screen at the workbench, course by course."""
