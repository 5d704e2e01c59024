"""Figures and documents out of the logbook; no window is needed.

One drawing code serves the page on the screen, the paper and the picture for a
message. Rules: of Qt only QtCore and QtGui, which paint without a window; nothing
here works out a number of the domain; no text is cut, covered or left without its unit.
"""
