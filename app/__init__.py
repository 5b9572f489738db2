"""The window, the painter backend and the command line: everything that needs Qt or talks to a person."""
