"""Signal health and zero: how far the shown force can be trusted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.gui.health_line import lost_words
from biofeedback.gui.language import localised, said, shown
from biofeedback.gui.live_session import newtons_are_nominal, newtons_are_simulated
from biofeedback.phrase import marked, numbered
from biofeedback.session import Link
from biofeedback.session.local_time import day_and_time
from biofeedback.training.counting import counted

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.session import Health

_LINKS = {
    Link.OPENING: marked("opening"),
    Link.LIVE: marked("live"),
    Link.STALE: marked("stale: what comes is not the force of now"),
    Link.SILENT: marked("silent: no samples come"),
    Link.OTHER: marked("another board: nothing is read"),
    Link.LOST: marked("lost"),
    Link.ENDED: marked("ended"),
}


class HealthBox(QWidget):
    """Calibrated or not, the signal, the zero, and all keys that concern the rig."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._folded = False
        self._doubts = False, False  # simulated, and nominal newtons
        self.source = QLabel()
        self.nominal = QLabel(self.tr("Not calibrated: the newtons are nominal."))
        self.nominal.setObjectName("look")
        self.nominal.hide()
        self.simulated = QLabel(self.tr("Simulated rig: its newtons are made up."))
        self.simulated.setObjectName("look")
        self.simulated.hide()
        self.rate = QLabel()
        self.age = QLabel()
        self.recording = QLabel()
        self.zero = QLabel()
        self.zero_empty = QPushButton(self.tr("empty rig"))
        self.zero_empty.setAccessibleName(self.tr("Zero: empty rig"))
        self.zero_limb = QPushButton(self.tr("limb resting"))
        self.zero_limb.setAccessibleName(self.tr("Zero: limb resting"))
        self.check = QPushButton(self.tr("Check"))
        self.calibrate = QPushButton(self.tr("Calibrate"))
        self.filter = QPushButton(self.tr("Filter"))
        self.age.setToolTip(
            self.tr(
                "Time since the newest sample was read, plus half a frame until it "
                "is drawn;\nthe live filter's delay comes on top."
            )
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        signal = QHBoxLayout()
        signal.setSpacing(5)
        signal.addWidget(self.rate, 1)
        signal.addWidget(self.recording)
        for label in (self.source, self.rate, self.age, self.zero):
            label.setWordWrap(True)
        for label in (self.simulated, self.nominal):
            label.setWordWrap(True)
            layout.addWidget(label)
        layout.addWidget(self.source)
        layout.addLayout(signal)
        layout.addWidget(self.age)
        layout.addWidget(self.zero)
        keys = QHBoxLayout()
        keys.setSpacing(2)
        keys.addWidget(QLabel(self.tr("Zero")))
        for button in (
            self.zero_empty,
            self.zero_limb,
            self.check,
            self.calibrate,
            self.filter,
        ):
            button.setObjectName("page")
            keys.addWidget(button)
        layout.addLayout(keys)

    def fold(self, *, folded: bool, more: bool = False, lacking_px: int = 0) -> None:
        """Without what the line at the foot of the desk says as well.

        Args:
            more: without the age of what is drawn, too.
            lacking_px: by how much it is too high with all; it leaves out source, age
                and doubts, in turn, as far as it must.
        """
        self.source.setHidden(folded or lacking_px > 0)
        lacking_px -= self._line_px(self.source)
        self.age.setHidden((folded and more) or lacking_px > 0)
        self._folded = folded or lacking_px > self._line_px(self.age)
        self._show_doubts()

    def _line_px(self, label: QLabel) -> int:
        return label.heightForWidth(max(1, self.width()))

    @property
    def folded_px(self) -> int:
        """How much higher it would be with all that is left out."""
        simulated, nominal = self._doubts
        wanted = (
            (self.source, True),
            (self.age, True),
            (self.simulated, simulated),
            (self.nominal, nominal),
        )
        out = (one for one, wants in wanted if wants and one.isHidden())
        return sum(map(self._line_px, out))

    def _show_doubts(self) -> None:
        simulated, nominal = self._doubts
        self.simulated.setVisible(simulated and not self._folded)
        self.nominal.setVisible(nominal and not self._folded)

    def show_health(
        self,
        health: Health,
        profile: RigProfile | None,
        *,
        drawn_age_s: float | None,
        dropped_blocks: int,
    ) -> None:
        """What is known of the signal now.

        Args:
            drawn_age_s: age of the newest sample when it is seen; None while no
                fresh sample is drawn.
            dropped_blocks: left out of the picture so far because it was late.
        """
        tr = self.tr
        self._doubts = (
            newtons_are_simulated(health, profile),
            newtons_are_nominal(health, profile),
        )
        self._show_doubts()
        found = f" ({shown(health.found)})" if health.found else ""
        link = said(_LINKS[health.link])
        if health.link is Link.LIVE and drawn_age_s is None:
            link = tr("no fresh sample")
        self.source.setText(f"{shown(health.source)}{found}: {link}")
        rate = localised(f"{health.rate_hz:.1f} Hz") if health.rate_hz > 0 else "– Hz"
        parts = [rate, *lost_words(health)]
        if health.damaged:
            parts.append(shown(counted(health.damaged, "damaged frame")))
        if dropped_blocks:
            parts.append(
                shown(
                    numbered(
                        dropped_blocks, "1 block not drawn", "{count} blocks not drawn"
                    )
                )
            )
        if health.saturated:
            parts.append(tr("at the end of its range"))
        self.rate.setText(", ".join(parts))
        self.age.setText(self._age_in_words(drawn_age_s, health.filter_delay_s))
        self.recording.setText(
            tr("Recording: yes") if health.recording else tr("Recording: no")
        )
        self.zero.setText(self._zero_in_words(profile))

    def _age_in_words(self, drawn_age_s: float | None, filter_delay_s: float) -> str:
        tr = self.tr
        filter_ms = round(1000 * filter_delay_s)
        delay = tr("filter {ms} ms").format(ms=filter_ms)
        if drawn_age_s is None:
            return f"{tr('No sample is drawn as live')}, {delay}"
        drawn_ms = round(1000 * drawn_age_s)
        age = tr("Drawn sample {ms} ms old").format(ms=drawn_ms)
        return f"{age}, {delay}: {drawn_ms + filter_ms} ms"

    def _zero_in_words(self, profile: RigProfile | None) -> str:
        if profile is None or profile.zero.kind is ZeroKind.NONE:
            return self.tr("Zero: not taken yet")
        zero = profile.zero
        between = "; " if "," in localised("0.0") else ", "
        offsets = between.join(localised(f"{offset:.1f}") for offset in zero.offsets_n)
        taken = day_and_time(zero.taken_utc)
        at = f", {taken}" if taken else ""
        kind = shown(zero.kind.value)
        return self.tr("Zero: {kind}{at} ({offsets} N)").format(
            kind=kind, at=at, offsets=offsets
        )
