"""Conditioning: counts to clean newtons.

despike, calibration, zero, low pass and notch, in that order. All causal, state
carried from block to block, and the answer does not depend on how the stream is
cut. Live, replay and tuning run this one implementation.
"""
