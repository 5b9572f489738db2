"""The guide's walk through one whole job, done from outside.

The program runs as a process of its own on a virtual screen; all that is done to it are mouse and keyboard events.
"""
