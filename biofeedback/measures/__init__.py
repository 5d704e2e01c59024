"""Measures: numbers out of force.

Pure, and taken from calibrated, zeroed, unfiltered force unless a measure says
otherwise: the live filter is for eyes and for the live rules.
"""
