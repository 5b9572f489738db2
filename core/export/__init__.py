"""Files for other programs, written from the drawing model."""
