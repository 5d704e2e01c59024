"""`python -m biofeedback`: the same as the command `biofeedback`."""

import sys

from biofeedback.cli import main

if __name__ == "__main__":
    sys.exit(main())
