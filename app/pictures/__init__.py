"""Pictures for the pages in ``docs``, taken of the program itself, so that they can be taken anew whenever it changes."""
