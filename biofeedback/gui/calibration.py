"""The calibration page: guides from the empty rig to a calibration that is kept.

The order of the loads and when a point may be taken are the guide's; the figures
are the report's. This page shows both and asks.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import Signal

from biofeedback.conditioning.calibration_guide import CalibrationGuide, step_words
from biofeedback.conditioning.known_load import KnownLoad
from biofeedback.conditioning.profile import Side
from biofeedback.conditioning.recalibration import recalibrated
from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.calibration_view import CalibrationView
from biofeedback.gui.keys import bind
from biofeedback.gui.language import filled, shown
from biofeedback.measures.calibration_report import Asked, CalibrationReport, report
from biofeedback.measures.calibration_words import figure_lines
from biofeedback.phrase import phrase
from biofeedback.session import Link, Refused

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from biofeedback.conditioning.profile import Calibration, RigProfile
    from biofeedback.session import Update

SHOW_EVERY_FRAMES = 10
"""Figures change six times a second; faster cannot be read."""


class KeptCalibration(Protocol):
    """The part of a kept record that the page shows."""

    @property
    def number(self) -> int:
        """Number of the record for its cell."""

    @property
    def calibration(self) -> Calibration:
        """Ready for a profile."""


class CalibrationStore(Protocol):
    """Where calibrations are kept; the logbook's `calibrations`."""

    def add(
        self,
        report: CalibrationReport,
        *,
        serial_number: str,
        channel: int,
        label: str = "",
        on_date: str = "",
        adc: str = "",
        gain: int | None = None,
    ) -> KeptCalibration:
        """Keeps one."""


class CalibrationPage(CalibrationView):
    """Guides through a calibration.

    Signals:
        live_wanted: back to the live page.
        profile_wanted: a `RigProfile` with the calibration that was kept.
    """

    live_wanted = Signal()
    profile_wanted = Signal(object)

    def __init__(
        self, store: CalibrationStore | None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._store = store
        self._profile: RigProfile | None = None
        self._guide: CalibrationGuide | None = None
        self._report: CalibrationReport | None = None
        self._gravity_words = ""
        self._frames = 0
        self._in_set = False
        self._connect()
        self._show_guide()

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        self.begin.clicked.connect(self._begin)
        self.take_point.clicked.connect(self._take_point)
        self.take_back.clicked.connect(self._take_back)
        self.save.clicked.connect(self._save)
        for button, key, tip in (
            (self.begin, "Ctrl+B", self.tr("Begin, or end without keeping")),
            (self.save, "Ctrl+S", self.tr("Keep this calibration and use it")),
            (self.take_point, "F9", self.tr("Take this point now")),
            (self.take_back, "F10", self.tr("Take the last point back")),
        ):
            button.setToolTip(f"{tip} ({key})")
            # Qt passes over it while its page is hidden: unseen, nothing is taken.
            bind(self, key, button.click)

    def enter(self) -> None:
        """The page is shown: its keys work at once."""
        (self.take_point if self._guide else self.begin).setFocus()

    def hold(self, *, under_way: bool) -> None:
        """Nothing is begun or taken here while a set is under way."""
        self._in_set = under_way

    # The signal.

    def take(self, update: Update) -> None:
        """What came since the last frame."""
        self.meet(update.profile)
        for event in update.events:
            if isinstance(event, Refused) and event.command == "change profile":
                self.say(
                    filled(
                        self.tr("It is kept, and not in use yet: {why}"),
                        why=event.message,
                    )
                )
        if self._guide is not None:
            for block in update.blocks:
                self._guide.push(block)
            if update.health.link is not Link.LIVE:
                self._guide.lose(
                    update.health.message or phrase("No samples are coming.")
                )
        if self._frames % SHOW_EVERY_FRAMES == 0:
            self._show_still()
        self._frames += 1

    def meet(self, profile: RigProfile) -> None:
        """Another rig ends what was begun on the one before."""
        before, self._profile = self._profile, profile
        if before == profile:
            return
        self.form.show_cells(profile)
        self.heading.setText(self.tr("Calibrate {name}").format(name=profile.name))
        if (
            self._guide is not None
            and before is not None
            and (
                (before.serial_number, before.rate_hz, before.gain)
                != (profile.serial_number, profile.rate_hz, profile.gain)
                or len(before.channels) != len(profile.channels)
            )
        ):
            self._end()
            self.say(
                self.tr("Another board, or another rate or gain: please begin again.")
            )

    # The guide.

    @property
    def guide(self) -> CalibrationGuide | None:
        """The calibration under way, or None."""
        return self._guide

    def _begin(self) -> None:
        if self._in_set:
            self.say(self.tr("A set is under way. Stop it first."))
            return
        if self._guide is not None:
            self._end()
            self.say(self.tr("Ended; nothing was kept."))
            return
        plan = self.form.plan()
        if plan is None or self._profile is None:
            self.say(
                self.tr("Not begun: a field needs another value, or no rig is on.")
            )
            return
        try:
            self._guide = CalibrationGuide(plan, self._profile)
        except FieldError as error:
            self.say(str(error))
            return
        gravity = self.form.gravity()
        self._gravity_words = "" if plan.reference or not gravity else gravity.words
        self.say(self.tr("Wait until it is still, then take the point."))
        self._show_guide()
        self.take_point.setFocus()

    def _end(self) -> None:
        self._guide = None
        self._show_guide()

    def _take_point(self) -> None:
        guide = self._guide
        if guide is None or self._in_set:
            return
        load = None
        if guide.plan.reference and guide.step and guide.step.load.force_n != 0:
            force_n = self.reference.number()
            if force_n is None or math.isnan(force_n):
                return
            tolerance = self.form.tolerance_pct() or 0.0
            load = KnownLoad(
                force_n,
                abs(force_n) * tolerance / 100,
                words=phrase("±{tolerance:g} %", tolerance=tolerance),
            )
        refused = guide.take(load)
        if refused:
            self.say(refused)
            return
        taken = guide.readings[-1]
        self.say(
            self.tr("Taken: {load}, {counts} counts.").format(
                load=shown(taken.load.shown), counts=f"{taken.counts:.0f}"
            )
        )
        self._show_guide()

    def _take_back(self) -> None:
        back = self._guide.take_back() if self._guide else None
        if back is not None:
            self.say(self.tr("Taken back: {load}.").format(load=shown(back.load.shown)))
            self._show_guide()

    # What is shown.

    def _show_still(self) -> None:
        guide = self._guide
        self.still.show_stillness(guide.stillness if guide else None)

    def _show_guide(self) -> None:
        """Everything that depends on the points so far."""
        guide = self._guide
        readings = guide.readings if guide else ()
        self.form.lock(locked=guide is not None)
        self.begin.setText(
            self.tr("End without keeping") if guide else self.tr("Begin")
        )
        self.next.setText(self._next_words())
        step = guide.step if guide else None
        reference = guide is not None and guide.plan.reference
        self.reference.setVisible(reference)
        self.reference.line.setEnabled(step is not None and step.load.force_n != 0)
        if reference and step is not None:
            self.reference.set_number(step.load.force_n, digits=3)
        self.take_point.setEnabled(step is not None)
        self.take_back.setEnabled(bool(readings))
        self.show_points(readings)
        self._work_out()
        self._show_still()

    def _next_words(self) -> str:
        guide = self._guide
        if guide is None:
            return self.tr("Set the cell and the loads, then begin.")
        if guide.step is None:
            return self.tr("All points are taken. Look at the figures, then keep it.")
        words = step_words(
            guide.step,
            cell=self._cell_words(guide.plan.channel),
            runs=guide.plan.runs,
            reference=guide.plan.reference,
        )
        return f"{len(guide.readings) + 1}/{guide.count}  {shown(words)}"

    def _cell_words(self, channel: int) -> str:
        if self._profile is None or channel >= len(self._profile.channels):
            return phrase("cell")
        known = self._profile.channels[channel]
        if known.side is Side.SINGLE:
            return phrase("cell")
        return phrase("{name} cell", name=known.words)

    def _work_out(self) -> None:
        """Fit and figures of the points so far."""
        guide = self._guide
        self._report = None
        if guide is not None and guide.readings:
            self._report = report(guide.readings, self._asked(guide))
        found = self._report
        self.plot.show_fit(found.fit if found else None)
        self.words.setPlainText(self._figures(found, done=not guide or not guide.step))
        self.save.setEnabled(found is not None and found.outcome.conversion is not None)

    def _figures(self, found: CalibrationReport | None, *, done: bool) -> str:
        """Findings and figures; the first points are no reason to complain yet."""
        if found is None:
            return ""
        if found.fit is None and not done:
            return self.tr("Figures come once three loads have been read.")
        # The plot is drawn beside it.
        return "\n".join(map(shown, figure_lines(found)))

    def _asked(self, guide: CalibrationGuide) -> Asked:
        if self._profile is None:
            return Asked()
        names = [channel.words for channel in self._profile.channels]
        loaded = names.pop(guide.plan.channel)
        return Asked(gravity_words=self._gravity_words, names=(loaded, *names))

    # Keeping.

    def _save(self) -> None:
        guide, found, profile = self._guide, self._report, self._profile
        if guide is None or found is None or profile is None:
            return
        if self._store is None:
            self.say(self.tr("There is no logbook to keep it in."))
            return
        self.label.complain("")
        channel = guide.plan.channel
        try:
            kept = self._store.add(
                found,
                serial_number=profile.serial_number,
                channel=channel,
                label=self.label.text,
                adc=profile.adc,
                gain=profile.gain,
            )
        except FieldError as error:
            (self.label.complain if error.field == "label" else self.say)(str(error))
            return
        except BiofeedbackError as error:
            self.say(str(error))
            return
        calibrations: list[Calibration | None] = [None] * len(profile.channels)
        calibrations[channel] = kept.calibration
        self._end()
        self.label.set_text("")
        self.say(
            self.tr(
                "Kept as no. {number} of this cell, “{label}”, and in use from now on."
            ).format(number=kept.number, label=kept.calibration.label)
        )
        self.profile_wanted.emit(recalibrated(profile, calibrations))
