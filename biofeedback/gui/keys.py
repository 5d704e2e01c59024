"""Keys: how they are bound, and how people write them.

A key works in the whole window, on any page and wherever the focus is. It never
repeats by itself: a key that is held down must not start or mark twice.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut

from biofeedback.gui.keymap import OTHER_BOARD, OTHER_FOLDER, PAIN_BACK

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QPushButton, QWidget

    from biofeedback.gui.desk import Desk


def native(key: str) -> str:
    """A key as this system writes it."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)


def bind(window: QWidget, key: str, pressed: Callable[[], None]) -> QShortcut:
    """Calls `pressed` for a key, as long as `window` is not hidden."""
    # Not Qt's own shortcut of a button: that one is dead while it is hidden.
    shortcut = QShortcut(QKeySequence(key), window)
    shortcut.setContext(Qt.ShortcutContext.WindowShortcut)
    shortcut.setAutoRepeat(False)
    shortcut.activated.connect(pressed)
    return shortcut


def show_key(button: QPushButton, key: str, tip: str) -> None:
    """Puts what a button does, and its key, into its tip."""
    button.setToolTip(f"{tip} ({native(key)})")


def actions_of(desk: Desk) -> tuple[tuple[QPushButton, str, str], ...]:
    """Each action's button, its key and what it does."""
    tr, band, zero, pages = desk.tr, desk.form.band, desk.health, desk.pages
    levels = tuple(
        (button, key, words.format(level=button.text()))
        for row, words in (
            (desk.pain, tr("Mark pain {level} of 10")),
            (desk.effort, tr("Mark the effort of the last set, {level} of 10")),
        )
        for button, key in row.keys()  # noqa: SIM118  no mapping
    )
    return (
        (desk.start, "F5", tr("Start the set")),
        (desk.stop, "Esc", tr("Stop: ends the set at once; nothing is lost")),
        (band.up, "PgUp", tr("Move the band up")),
        (band.down, "PgDown", tr("Move the band down")),
        (band.wider, "Ctrl+PgUp", tr("Make the band wider")),
        (band.narrower, "Ctrl+PgDown", tr("Make the band narrower")),
        (zero.zero_empty, "F7", tr("Take zero of the empty rig")),
        (zero.zero_limb, "F8", tr("Take zero with the limb resting")),
        *levels,
        (desk.pain.back, PAIN_BACK, tr("Take back the last mark of pain")),
        (pages.athletes, "Alt+A", tr("Athletes: who is here, and who there is")),
        (pages.today, "Alt+D", tr("Today: pain, and the sets that come of it")),
        (pages.test, "Alt+M", tr("Maximal test: find the 100 %")),
        (pages.plan, "Alt+P", tr("Plan: stages, and what leads to the next")),
        (pages.tasks, "Alt+T", tr("Tasks: the set-ups forces are compared in")),
        (
            pages.group,
            "Ctrl+G",
            tr("Group: isometric against eccentric of many athletes"),
        ),
        (pages.visit, "Alt+V", tr("Visit: what was done today, and next time")),
        (
            pages.progress,
            "Ctrl+F2",
            tr("Progress: tests, training and pain over months"),
        ),
        (
            pages.reliability,
            "Ctrl+L",
            tr("Reliability: how far tests may be trusted"),
        ),
        (
            pages.data,
            "Ctrl+Shift+B",
            tr("Data: back up, erase an athlete, see who did what"),
        ),
        (pages.review, "F2", tr("Look at saved reps")),
        (zero.check, "F12", tr("Check the rig: rate, noise, drift, each cell")),
        (desk.foot.health, "Alt+I", tr("The signal: all that is known of it")),
        (desk.foot.more, "Alt+Y", tr("All messages, each as a whole")),
        (
            desk.foot.board.use,
            OTHER_BOARD,
            tr("Use the other board that is on the port"),
        ),
        (zero.filter, "Alt+F", tr("Filter: which smoothing, by recordings")),
        (desk.calibrate, "F6", tr("Calibrate with known masses or forces")),
        (
            desk.foot.elsewhere,
            OTHER_FOLDER,
            tr("Record to another folder, where the disk fails"),
        ),
        (desk.cautions, "Alt+W", tr("Stop rules and cautions")),
        (desk.sheet, "F1", tr("All keys, marks and words")),
        (desk.preferences, "Ctrl+P", tr("Preferences: type, sound, monitors, keys")),
        (desk.theme, "F3", tr("Change between day and night")),
        (desk.screen_full, "F11", tr("Full screen, and back")),
    )


def fixed_keys(desk: Desk) -> tuple[tuple[str, str], ...]:
    """Keys that always do the same, and what; of several in one row the first."""
    tr = desk.tr
    return (
        ("F4", tr("Write a note; Enter keeps it")),
        ("Ctrl+M", tr("Sound on and off")),
        ("Ctrl+Up", tr("Sound louder; with the down key softer")),
        ("Ctrl+F11", tr("Athlete's screen to the other monitor, and back")),
        ("Ctrl+F", tr("Fold the desk away, and back")),
        ("Ctrl+Return", tr("Athletes: choose. Today: take to the desk")),
        ("Ctrl+Shift+Return", tr("Today: take to the desk against advice")),
        ("Ctrl+T", tr("Today: take the whole day, set by set")),
        ("Ctrl+N", tr("Athletes, tasks, plan: a new one")),
        ("Ctrl+E", tr("Visit, progress: save a report")),
        ("Ctrl+R", tr("Athletes, tasks, plan: the form as it was saved")),
        ("Ctrl+D", tr("Athletes, tasks, plan: archive, or put back")),
        ("Ctrl+Shift+D", tr("Athletes, tasks, plan: put back what went last")),
        ("Ctrl+B", tr("Calibration: begin, or end without keeping")),
        ("Ctrl+S", tr("Keep: calibration, test, athlete, task, plan")),
        ("F9", tr("Calibration: take this point. Check, test: begin, or end")),
        ("F9", tr("Review: isometric against eccentric, and back")),
        (native("Ctrl++"), tr("Review: zoom in; with − out, with Home all of the rep")),
        (native("Alt+Left"), tr("Review: what was before; with the right key after")),
        (native("Ctrl+Space"), tr("Review: the next marker")),
        (
            native("Ctrl+Left"),
            tr("Review: marker 10 ms earlier, right later; with Shift 100 ms"),
        ),
        (native("Ctrl+Backspace"), tr("Review: marker to where the rules found it")),
        (native("Ctrl+Z"), tr("Review: take back the last move of a marker")),
        ("F10", tr("Calibration: take back. Check: leave this press out")),
        ("F9", tr("Data: back up now, or stop")),
        ("F9", tr("Filter: search, or stop")),
        ("F10", tr("Filter: the next view")),
        (native("Ctrl++"), tr("Filter: less of a recording, closer; with − more")),
        ("A", tr("Filter: the row becomes A, or A is played; B likewise")),
        ("X", tr("Filter, blind: X is played; Y likewise")),
        ("1", tr("Filter, blind: X is better; 2: Y is; 3: no difference")),
    )


def not_given(desk: Desk) -> dict[str, str]:
    """Keys that no other action can have, and what they do."""
    louder = dict(fixed_keys(desk))["Ctrl+Up"]
    return {**dict(fixed_keys(desk)), "Ctrl+Down": louder}


def sheet_rows(
    desk: Desk, key_of: Callable[[str], str] = lambda usual: usual
) -> tuple[tuple[str, str], ...]:
    """All keys and what they do, for the sheet of keys and words.

    Args:
        key_of: the key in use in place of a usual one.
    """
    levels = {*desk.pain.buttons, *desk.effort.buttons}
    tr, fixed = desk.tr, fixed_keys(desk)
    fixed_rows = [(native(key), what) for key, what in fixed]
    return (
        *(
            (native(key_of(key)), tip)
            for button, key, tip in desk.actions_and_keys()
            if button not in levels
        ),
        *fixed_rows[:5],
        (f"{native('Ctrl+0')} … 9", tr("Mark pain 0 to 9 of 10")),
        (native("Ctrl+Shift+0"), tr("Mark pain 10 of 10")),
        (f"{native('Alt+0')} … 9", tr("Effort of the last set, 0 to 9 of 10")),
        (native("Alt+Shift+0"), tr("Effort of the last set, 10 of 10")),
        (native(key_of("Esc")), tr("On another page: back to live")),
        *fixed_rows[5:],
    )
