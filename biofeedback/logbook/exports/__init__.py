"""Exports: tables, EDF+ and BIDS out of the logbook and its recordings.

The writers here are given arrays and plain facts; which sets and what happened in
them is put together by `biofeedback.session.export`. Athletes are codes throughout.
Names, and the free text in which one could stand, are written only when asked for.
"""
