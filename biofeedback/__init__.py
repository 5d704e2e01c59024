"""A real-time feedback display for a load-cell rig.

Nothing but the standard library is imported here, so that `python3 -m
biofeedback.bootstrap` runs on a machine on which nothing is installed yet.
"""

import os

# What is solved here is small. Threads of OpenBLAS wait for more by spinning, a tenth
# of a second long, on a core that reading or painting needs. Before numpy is loaded.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

__version__ = "0.1.0"
