"""Who builds what, when, and what is done."""
