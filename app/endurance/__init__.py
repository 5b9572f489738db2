"""Tries to break the program: kills it while it saves, feeds it damaged files, odd rooms and long random work.

Needs a checkout: rooms are generated and set-outs audited by what ``tests`` holds.
"""
