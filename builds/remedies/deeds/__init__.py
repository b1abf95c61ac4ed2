"""Deeds: one kind of thing that can be done to a garage is one class in one file.

One more kind is a file here, entered in `kinds.py`, with its test in `tests/builds/remedies/deeds/`:
its fields (they are its code), its words, who may do it, doing it, and its change for the planner.
Only where it changes the planner's problem as no other kind does, that change is a class of its own
in `builds/remedies/engine/changes/`. Stored trials hold the codes, so those stay as they are.
"""
