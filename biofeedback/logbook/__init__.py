"""The logbook: what is kept of people, sessions, sets and reps, and of the raw signal.

The recording of a set is the truth for what happened; rows about reps are
derived from it. Only this package knows the database and the files' layout.
"""
