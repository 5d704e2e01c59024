"""Runs a command of the program and ends it with its first live frame on the screen.

`start_time.py` starts this in place of `biofeedback`; what is added to the program's
own work is one wrapped method. Prints the monotonic time at the end of that paint.
"""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

from biofeedback import cli
from biofeedback.cli.loading import loading

if TYPE_CHECKING:
    from PySide6.QtCore import QEvent


def main() -> None:
    with loading():  # as the command itself has it imported
        from biofeedback.cli import window as command  # noqa: PLC0415

    show = command._show

    def watched(*args: object, **kwargs: object) -> int:
        from PySide6.QtCore import QEvent as Event  # noqa: PLC0415

        from biofeedback.gui.window import Window  # noqa: PLC0415

        painted = Window.event

        def event(self: Window, event: QEvent) -> bool:
            done = painted(self, event)
            if (
                event.type() is Event.Type.UpdateRequest
                and self.drawn_age_s is not None
                and self.windowHandle().isExposed()  # before it, nothing is painted
            ):
                print(time.monotonic_ns(), flush=True)
                self.close_at_once()
            return done

        Window.event = event  # type: ignore[method-assign]
        return show(*args, **kwargs)  # type: ignore[arg-type]

    command._show = watched
    sys.exit(cli.main(sys.argv[1:]))


if __name__ == "__main__":
    main()
