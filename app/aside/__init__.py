"""Work that takes longer than a frame: a step at a time while nothing else goes on, or in a process of its own."""
