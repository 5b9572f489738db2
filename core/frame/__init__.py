"""The timber frame behind the panels and the screws into it."""
