"""`biofeedback window`: open the window on a rig. Also what no command does."""

from __future__ import annotations

import ctypes
import os
import sys
from argparse import ArgumentTypeError
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import log_file, passphrase, places
from biofeedback.cli.loading import loading
from biofeedback.cli.values import seconds
from biofeedback.conditioning.profile import NEAR_RATED_PCT
from biofeedback.errors import UserError
from biofeedback.logbook import folders
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.filter_log import FILE_NAME as FILTERS
from biofeedback.logbook.filter_log import FilterLog
from biofeedback.phrase import Phrase, phrase
from biofeedback.rig.calibration_watch import (
    AGE_DAYS,
    ZERO_WALK_PCT,
    CalibrationLimits,
)
from biofeedback.rig.nominal import NO_BOARD
from biofeedback.rig.serial_source import BAUD, SerialSource, ports
from biofeedback.session import Session
from biofeedback.session.clock_words import behind_words
from biofeedback.session.office import Office
from biofeedback.session.opening import last_prescription
from biofeedback.session.preferences import PreferenceFile
from biofeedback.session.recovery import recover
from biofeedback.session.unlocking import unlocking

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Callable

    from biofeedback.gui.app import Opening
    from biofeedback.rig.source import Source
    from biofeedback.session.preferences import Preferences
    from biofeedback.training.prescription import Prescription


BY_OPTION = phrase("with --port")
A_PICTURE = phrase("For a picture of the window add: --snapshot window.png")


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "--port",
        metavar="PORT",
        help="name of the port, or a URL such as socket://host:port "
        "(default: the only USB port there is)",
    )
    parser.add_argument(
        "--baud", type=int, default=BAUD, help=f"bits per second (default: {BAUD})"
    )
    parser.add_argument(
        "--athlete",
        metavar="CODE",
        default="guest",
        help="code of the athlete, never a name (default: guest)",
    )
    add_view_arguments(parser)
    places.add_arguments(parser)


def add_view_arguments(parser: ArgumentParser) -> None:
    """How the window looks, the picture of it, and when it warns."""
    parser.add_argument("--night", action="store_true", help="light ink on dark")
    parser.add_argument("--full-screen", action="store_true")
    parser.add_argument(
        "--size",
        type=size,
        default=(1280, 720),
        metavar="WxH",
        help="size of the window (default: 1280x720)",
    )
    parser.add_argument(
        "--snapshot",
        type=Path,
        metavar="FILE.png",
        help="no window: run a set off screen for some seconds and save a picture",
    )
    parser.add_argument(
        "--seconds",
        type=seconds,
        default=8.0,
        metavar="S",
        help="how long before the picture is taken (default: 8)",
    )
    parser.add_argument(
        "--calibration-age",
        type=above_zero,
        default=AGE_DAYS,
        metavar="DAYS",
        help=f"warn of a calibration that is older (default: {AGE_DAYS:g})",
    )
    parser.add_argument(
        "--zero-walk",
        type=above_zero,
        default=ZERO_WALK_PCT,
        metavar="PCT",
        help="warn of a zero that has walked by more, in %% of the rated load "
        f"(default: {ZERO_WALK_PCT:g})",
    )
    parser.add_argument(
        "--near-rated",
        type=above_zero,
        default=NEAR_RATED_PCT,
        metavar="PCT",
        help="warn of a cell at this share of its rated load "
        f"(default: {NEAR_RATED_PCT:g})",
    )
    parser.add_argument(
        "--uncertainty",
        type=above_zero,
        metavar="N",
        help="one standard uncertainty (k = 1) of a force in newtons, in place of the "
        "calibrations'; by it each rep tells the time surely inside the band too",
    )


def run(options: Namespace) -> int:
    """Opens the window on a serial port."""
    require_screen(options)
    source = SerialSource(options.port or only_port(), baud=options.baud)
    return open_window(
        source, options, athlete_code=options.athlete, base=folders.data_folder()
    )


def open_window(
    source: Source,
    options: Namespace,
    *,
    athlete_code: str,
    base: Path,
    athlete_name: str = "",
    prepare: Callable[[Logbook, Path], Prescription] | None = None,
) -> int:
    """Puts session, library and window together and runs them.

    Args:
        prepare: is given logbook and folder of the recordings before anything else,
            and says what the desk is filled with where the athlete follows no plan.
            Start is pressed then, as for the demo; None fills the desk with the
            athlete's last prescription and waits.
    """
    log_file.start(folders.make_private(base))
    recordings = places.recordings_folder(options, base=base)
    place = options.logbook or folders.default_logbook(base)
    kept = PreferenceFile(base)
    preferences, told = kept.read()
    if not _unlocked(place, options, preferences):
        return 0
    with Logbook.open(place) as logbook:
        asked = (
            prepare(logbook, recordings)
            if prepare
            else last_prescription(logbook, athlete_code)
        )
        notice = " ".join(
            filter(None, (_recover(recordings, logbook), _clock(logbook)))
        )
        session = Session(
            source,
            logbook=logbook,
            recordings=recordings,
            athlete_code=athlete_code,
            athlete_name=athlete_name,
            profile=replace(
                NO_BOARD,
                near_rated_pct=options.near_rated,
                uncertainty_n=options.uncertainty,
            ),
            calibration_limits=CalibrationLimits(
                age_days=options.calibration_age, zero_walk_pct=options.zero_walk
            ),
            filters=FilterLog(base / FILTERS),
        )
        office = Office.of(logbook, recordings, session)
        code = _show(
            session,
            office,
            options,
            kept,
            preferences=preferences,
            asked=asked,
            notice=f"{notice} {told}".strip(),
            begins=prepare is not None,
        )
    if session.not_kept:
        raise UserError(session.not_kept)
    return code


def _unlocked(place: str | Path, options: Namespace, preferences: Preferences) -> bool:
    """Whether the logbook may be opened; a page asks where it is sealed.

    No page where a passphrase was given, or where there is no window.

    Raises:
        UserError: it cannot be opened at all; the page has told it too.
    """
    waits = unlocking(place)
    given = passphrase.given(options.passphrase_file)
    if waits is None or given is not None or options.snapshot is not None:
        return True
    from biofeedback.gui import app  # noqa: PLC0415  a fault above needs no Qt
    from biofeedback.gui.theme import DAY, NIGHT  # noqa: PLC0415  as above

    night = options.night or preferences.night
    opened = app.unlock(waits, preferences, NIGHT if night else DAY)
    if waits.fault is not None:
        raise waits.fault
    return opened


def _show(
    session: Session,
    office: Office,
    options: Namespace,
    kept: PreferenceFile,
    *,
    preferences: Preferences,
    asked: Prescription,
    notice: str,
    begins: bool,
) -> int:
    # Qt is loaded only now: a fault above is told without waiting for it.
    with loading():
        from biofeedback.gui import app  # noqa: PLC0415

    opening = replace(
        _opening(options, asked, preferences),
        notice=notice,
        keep=kept.write,
        begins=begins,
    )
    session.start()
    try:
        if options.snapshot is None:
            return app.run(session, office, opening)
        drawn = app.snapshot(
            session,
            office,
            opening,
            path=options.snapshot,
            seconds=options.seconds,
        )
        print(f"The picture is in {options.snapshot}.")
        if not drawn:
            place = getattr(options, "port", None) or "the rig"
            print(
                f"No force came from {place}: the picture is of the window without it. "
                "Check cable and port.",
                file=sys.stderr,
            )
        return 0
    finally:
        _close(session)


def _close(session: Session) -> None:
    """Closes a session that the window may have closed already."""
    try:
        session.close()
    except RuntimeError as error:  # the window has told it; the log has more
        raise UserError(
            phrase("The program could not let go of the rig."),
            phrase("Pull its cable before the program is started again."),
        ) from error


def _opening(
    options: Namespace, asked: Prescription, preferences: Preferences
) -> Opening:
    from biofeedback.gui.app import Opening  # noqa: PLC0415  as above
    from biofeedback.gui.theme import DAY, NIGHT  # noqa: PLC0415

    return Opening(
        prescription=asked,
        theme=NIGHT if options.night or preferences.night else DAY,
        preferences=preferences,
        full_screen=options.full_screen,
        size=options.size,
    )


def _recover(recordings: Path, logbook: Logbook) -> str:
    """Enters what was cut off; says so on the terminal, and for the desk.

    A recording that cannot be used is told on the terminal alone: nobody at the
    desk can do anything about it with an athlete waiting.
    """
    told = []
    for found in recover(recordings, logbook):
        if found.problem:
            print(f"Left as it is: {found.problem}", file=sys.stderr)
            continue
        reps = "1 rep" if found.reps == 1 else f"{found.reps} reps"
        told.append(f"A set had been cut off. In the logbook now: {reps} of it.")
        print(f"{found.path.name}: {told[-1]}", file=sys.stderr)
    if len(told) > 1:
        return f"{len(told)} sets had been cut off; their reps are in the logbook."
    return "".join(told)


def _clock(logbook: Logbook) -> str:
    """What is wrong with this computer's clock, on the terminal and for the desk."""
    words = behind_words(logbook)
    if words:
        print(words, file=sys.stderr)
    return words


def only_port(how: Phrase = BY_OPTION) -> str:
    """The one USB port there is.

    Args:
        how: a port is named to this command.

    Raises:
        UserError: there is none, or more than one.
    """
    likely = [port.device for port in ports() if port.hint.startswith("USB")]
    if len(likely) == 1:
        return likely[0]
    if not likely:
        raise UserError(
            phrase("No rig is plugged in."),
            phrase(
                "Plug it in, name its port {how}, or see the "
                "program without a rig: biofeedback demo",
                how=how,
            ),
        )
    raise UserError(
        phrase("There is more than one USB port: {listed}.", listed=", ".join(likely)),
        phrase("Name the rig's {how}.", how=how),
    )


def require_screen(options: Namespace) -> None:
    """A window needs a screen; a snapshot does not.

    Raises:
        UserError: there is no screen, or it does not answer.
    """
    if options.snapshot is not None or sys.platform != "linux":
        return
    names = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    if not any(os.environ.get(name) for name in names):
        raise UserError(
            phrase("This machine has no screen to open a window on."), A_PICTURE
        )
    usual = "wayland" if os.environ.get("WAYLAND_DISPLAY") else "xcb"
    platform = os.environ.get("QT_QPA_PLATFORM") or usual
    if platform == "xcb" and not _x_answers():
        raise UserError(
            phrase(
                "The display {name} does not answer, or lets nobody in.",
                name=os.environ.get("DISPLAY", ""),
            ),
            A_PICTURE,
        )


def _x_answers() -> bool:
    """Whether DISPLAY can be reached. Qt ends the program where it cannot."""
    try:
        xcb = ctypes.CDLL("libxcb.so.1")
    except OSError:
        return True  # nobody can tell
    xcb.xcb_connect.restype = ctypes.c_void_p
    line = ctypes.c_void_p(xcb.xcb_connect(None, None))
    answers = not xcb.xcb_connection_has_error(line)
    xcb.xcb_disconnect(line)
    return answers


def above_zero(text: str) -> float:
    """A number above 0."""
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value <= 1e6:
        raise ArgumentTypeError(f"“{text}” must be a number above 0")
    return value


def size(text: str) -> tuple[int, int]:
    """A size as WxH in pixels."""
    width, _, height = text.lower().partition("x")
    if width.isdecimal() and height.isdecimal():
        pixels = (int(width), int(height))
        if 640 <= pixels[0] <= 7680 and 480 <= pixels[1] <= 4320:
            return pixels
    raise ArgumentTypeError(
        f"“{text}” is no size; write pixels as WxH, such as 1280x720"
    )
