"""A real-time feedback display for a load-cell rig.

Nothing is imported here, so that `python3 -m biofeedback.bootstrap` runs on a
machine on which nothing is installed yet.
"""

__version__ = "0.1.0"
