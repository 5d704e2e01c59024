"""Makes the pictures in this folder: the real window on the simulated rig.

    python tests/screenshots/make.py [FOLDER]

The athlete is invented and the same each time. The session is stepped, not
waited for, so a minute of holds takes a few seconds. No screen is needed.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
import time
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # before Qt is imported
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))  # as the tests do

from PySide6.QtCore import QCoreApplication, QEvent
from report import invented
from screenshots.states import make_states

from biofeedback.gui import filter_page, review  # noqa: F401  these open at once then
from biofeedback.gui.app import application
from biofeedback.gui.order_box import Act
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.filter_log import FilterLog
from biofeedback.session import Session, demo, demo_content
from biofeedback.session.office import Office
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.band import Band
from biofeedback.training.feedback import Cue
from biofeedback.training.lowering import lowering_prescription
from biofeedback.training.prescription import BandOn, ClockRule
from biofeedback.training.reference import Origin
from biofeedback.training.task import Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from biofeedback.training.prescription import Prescription

STEP_US = 12_500
"""One sample at 80 Hz for each frame."""
WAIT_MOST_S = 120.0
SMALL, LARGE = (1280, 720), (1920, 1080)
TODAY = datetime.now(tz=UTC).date()
ASKED = replace(
    demo.PRESCRIPTION,
    hold_s=8.0,
    reps=4,
    rest_s=4.0,
    ceiling_n=130.0,
    reference=replace(demo.REFERENCE, date=TODAY.isoformat()),  # not an old one
)


RECORDINGS = Path(os.path.relpath(Path(__file__).parents[2] / "recordings"))
"""As it is told on the page: from where this was started."""
PLAYED_S = 6.0


class Scene:
    """A window on a stepped session."""

    def __init__(self, folder: Path, logbook: Logbook, asked: Prescription) -> None:
        self.device_ns = 0
        self._channels = 1 if asked.band_on is BandOn.TOTAL and asked is ONE else 2
        self.session = Session(
            demo.source(seed=11, channels=self._channels, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code=demo.ATHLETE_CODE,
            athlete_name=demo.ATHLETE_NAME,
            filters=FilterLog(folder.parent / "filters.jsonl"),
        )
        self.window = Window(
            self.session,
            Office.of(logbook, folder, self.session),
            prescription=asked,
        )
        self.silent = False

    def frame(self) -> None:
        if self.silent:
            time.sleep(STEP_US / 1e6)  # with no sample, only the clock goes on
        else:
            self.session.step()
        self.window.frame()
        QCoreApplication.processEvents()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            self.frame()
            if reached():
                return
        message = "the scene that was waited for did not come"
        raise RuntimeError(message)

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.frame()

    def cue(self, cue: Cue) -> None:
        self.until(lambda: self.window.screen_part.shown_cue is cue)

    def save(
        self,
        path: Path,
        size: tuple[int, int] = SMALL,
        theme: Theme = DAY,
        *,
        frames: int = 20,  # the desk's figures are renewed each 15 frames
    ) -> None:
        self.window.resize(*size)
        self.window.set_theme(theme)
        for _ in range(frames):
            self.frame()
        self.window.grab().save(str(path))
        sys.stdout.write(f"{path}\n")


ONE = replace(ASKED, reference=None, clock=ClockRule.RUNNING, ceiling_n=None)
"""For a rig with a single channel, and without percentages."""


LOWERING = lowering_prescription(
    Task("Slow calf lowering", TaskKind.LOWERING, pair="Seated calf"),
    floor_n=100.0,
    tempo_s=5.0,
    rest_s=5.0,
)
STALE = replace(
    demo.REFERENCE,
    origin=Origin.OWN_SIDE,
    practice=True,
    date=(TODAY - timedelta(days=40)).isoformat(),
)


@contextmanager
def scene(
    asked: Prescription, *, filled: bool = False, months: bool = False
) -> Iterator[Scene]:
    """A window; with `filled` on the logbook of the demo, with `months` on one of
    months.
    """
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with Logbook.open(folder / "logbook.db") as logbook:
            if filled:
                now = datetime.now(tz=UTC)
                demo_content.fill(logbook, folder / "recordings", now=now)
                found = demo_content.prescription(logbook)
                if asked is not LOWERING:
                    asked = replace(asked, task=found.task, reference=found.reference)
            if months:
                invented.fill(logbook)
            made = Scene(folder / "recordings", logbook, asked)
            made.window.show()
            made.until(lambda: made.window.drawn_age_s is not None)
            try:
                yield made
            finally:
                made.window.close()
                made.window.deleteLater()
                QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def make(folder: Path) -> None:
    """Saves all pictures into `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    make_live(folder)
    make_pages(folder)
    make_states(folder)


def make_pages(folder: Path) -> None:
    """The pages beside the live one."""
    make_day(folder)
    make_order(folder)
    make_test(folder)
    make_lowering(folder)
    make_progress(folder)
    make_group(folder)
    make_data(folder)
    make_filter(folder)


def make_filter(folder: Path) -> None:
    """The filter bench on the recordings of the project, in its three views."""
    with scene(ASKED) as bench:
        page = bench.window.mounted.filter
        bench.window.pages.press(bench.window.desk.health.filter)
        page.setup.choose([RECORDINGS])
        page.setup.run.click()
        while page.setup.searching or page.look.loading:
            bench.frame()
        bench.save(folder / "filter.png")
        page.show_view(1)
        bench.save(folder / "filter-recording.png")
        page.show_view(2)
        page.play.blind.setChecked(True)
        page.play.first.click()
        begun_s = time.monotonic()
        while time.monotonic() - begun_s < PLAYED_S:  # it plays in real time
            bench.frame()
        bench.save(folder / "filter-by-eye.png")
        page.play.end()
        page.show_view(0)
        page.give.by.set_text("N. Engineer")
        page.give.apply.click()
        bench.save(folder / "filter-confirm-night.png", SMALL, NIGHT)
        bench.save(folder / "filter-1080.png", LARGE)
        page.show_view(1)
        bench.save(folder / "filter-recording-1080.png", LARGE)


def make_progress(folder: Path) -> None:
    """Months of an invented athlete."""
    with scene(ASKED, months=True) as months:
        months.window.desk.pages.progress.click()
        page = months.window.mounted.progress
        page.period.box.setCurrentIndex(2)
        page.enter(invented.CODE)
        months.save(folder / "progress.png")
        page.subjects.setCurrentRow(page.subjects.count() - 1)
        months.save(folder / "progress-weeks-night.png", LARGE, NIGHT)
        months.window.desk.pages.reliability.click()
        tables = Path(__file__).parents[1] / "vectors"
        months.window.mounted.reliability.take_file(tables / "weir_2005_a.csv")
        months.save(folder / "reliability.png")
        months.save(folder / "reliability-night.png", LARGE, NIGHT)


def make_group(folder: Path) -> None:
    """An invented table of a group."""
    table = folder / "invented_pairs.csv"
    rows = [(360 + 9 * at, 375 + 7 * at + (at * 37) % 41 - 20) for at in range(21)]
    lines = [f"INV-{at % 19},{iso},{ecc}" for at, (iso, ecc) in enumerate(rows)]
    table.write_text("\n".join(["athlete,isometric_n,eccentric_n", *lines]))
    with scene(ASKED) as group:
        group.window.desk.pages.group.click()
        group.window.mounted.group.open(table)
        group.save(folder / "group.png")
        group.save(folder / "group-night.png", LARGE, NIGHT)
    table.unlink()


def make_data(folder: Path) -> None:
    """A backup, and an athlete before and after being erased."""
    disk = Path(tempfile.gettempdir()) / "disk of the practice"  # it is in the picture
    with scene(ASKED, filled=True) as kept:
        disk.mkdir()
        desk, page = kept.window.desk, kept.window.mounted.data
        if page is None:
            message = "there is no page of data"
            raise RuntimeError(message)
        desk.pages.data.click()
        kept.until(lambda: not page.backup.looking)
        kept.save(folder / "data-before.png")
        page.backup.take_folder(disk)
        kept.until(lambda: not page.backup.looking)
        page.backup.run.click()
        kept.until(lambda: not page.awaited.busy)
        kept.save(folder / "data.png")
        kept.save(folder / "data-night.png", LARGE, NIGHT)
        page.erase.code.set_text("DEMO-6")
        page.erase.look.click()
        kept.until(lambda: not page.awaited.busy)
        kept.save(folder / "data-erase-night.png", SMALL, NIGHT)
        kept.save(folder / "data-erase-1080.png", LARGE)
        page.erase.again.line.setText("DEMO-6")
        page.erase.show_state()
        page.erase.erase.click()
        kept.until(lambda: not page.awaited.busy)
        kept.save(folder / "data-erased.png")
    shutil.rmtree(disk)


def make_day(folder: Path) -> None:
    """Who is here, today, and a start that something speaks against."""
    with scene(ASKED, filled=True) as day:
        desk, mounted = day.window.desk, day.window.mounted
        bar = desk.pages
        bar.athletes.click()
        if mounted.roster is not None:
            mounted.roster.list.setCurrentRow(1)
        day.save(folder / "athletes.png")
        day.save(folder / "athletes-night.png", LARGE, NIGHT)
        bar.athletes.click()
        bar.tasks.click()
        if mounted.tasks is not None:
            mounted.tasks.list.setCurrentRow(1)
        day.save(folder / "tasks.png")
        bar.tasks.click()
        bar.today.click()
        mounted.today.now.buttons[1].click()  # taken back
        day.save(folder / "today-before.png")
        mounted.today.now.buttons[2].click()
        day.save(folder / "today.png")
        day.save(folder / "today-night.png", LARGE, NIGHT)
        bar.today.click()
        bar.plan.click()
        day.save(folder / "plan.png")
        day.save(folder / "plan-night.png", LARGE, NIGHT)
        bar.plan.click()
        desk.form.take_reference(STALE)
        desk.start.click()
        day.save(folder / "asks-again.png")
        time.sleep(SEEN_S)  # the window goes by the real clock
        desk.start.click()
        day.cue(Cue.STAY)
        desk.stop.click()
        day.run(0.5)
        day.save(folder / "effort.png")
        desk.sheet.click()
        day.save(folder / "keys.png")
        desk.sheet.click()


def make_order(folder: Path) -> None:
    """The whole day at the desk, what was done of it, and the cautions."""
    with scene(ASKED, filled=True) as day:
        desk, mounted = day.window.desk, day.window.mounted
        bar, control = desk.pages, day.window.order.control
        bar.today.click()
        mounted.today.now.buttons[2].click()
        mounted.today.whole.click()
        day.run(0.5)
        day.save(folder / "order-before.png")
        desk.start.click()
        if not desk.in_set:
            day.run(0.2)
        if not desk.in_set:  # its reference may be old
            time.sleep(SEEN_S)  # the window goes by the real clock
            desk.start.click()
        day.cue(Cue.STAY)
        day.run(2.0)
        day.save(folder / "order.png")
        day.save(folder / "order-night.png", LARGE, NIGHT)
        control.act(Act.CUT_SHORT)
        day.until(lambda: not desk.in_set)
        day.save(folder / "order-rest.png")
        bar.visit.click()
        day.save(folder / "visit.png")
        bar.visit.click()
        desk.cautions.click()
        day.save(folder / "cautions.png")
        desk.cautions.click()


def make_test(folder: Path) -> None:
    """A maximal test before, while it is under way, and after."""
    with scene(ASKED, filled=True) as test:
        desk, page = test.window.desk, test.window.mounted.test
        desk.pages.test.click()
        page.setup.choose(test.window.visit.asked.task)
        test.save(folder / "test-before.png")
        page.begin.click()
        test.until(lambda: page.test is not None and len(page.test.trials) == 1)
        test.run(2.0)
        test.save(folder / "test-under-way.png")
        test.save(folder / "test-under-way-night.png", LARGE, NIGHT)
        test.until(lambda: page.test is not None and len(page.test.trials) == 4)
        desk.stop.click()
        test.run(0.5)
        desk.pages.test.click()
        test.save(folder / "test.png")


def make_lowering(folder: Path) -> None:
    """A lowering and the check of its day."""
    with scene(LOWERING, filled=True) as lowering:
        desk, page = lowering.window.desk, lowering.window.review
        desk.form.floor.button.click()
        lowering.save(folder / "floor.png")
        desk.form.fill(LOWERING)
        desk.start.click()
        if lowering.window.visit.asks_again:
            time.sleep(SEEN_S)  # the window goes by the real clock
            desk.start.click()
        lowering.until(lambda: not desk.lowering.isHidden())
        lowering.run(1.0)
        lowering.save(folder / "lowering.png")
        desk.stop.click()
        lowering.run(0.5)
        desk.pages.review.click()
        page.check_day.click()
        lowering.save(folder / "against.png")


def make_review(both: Scene, folder: Path) -> None:
    """A rep whose entry was moved by hand, zoomed into and smoothed; a void one."""
    page = both.window.review
    page.bar.by.line.setText("KL")
    page.bar.marker.setCurrentIndex(1)
    page.bar.move_wanted.emit("entry", 0.4)
    page.measure_table.selectRow(9)
    both.save(folder / "review-by-hand.png")
    both.save(folder / "review-by-hand-night.png", LARGE, NIGHT)
    page.bar.closer.click()
    page.bar.smooth.click()
    both.save(folder / "review-zoomed.png")
    page.bar.smooth.click()
    page.bar.reason.line.setText("strap slipped")
    page.bar.void.click()
    both.save(folder / "review-void.png")


def make_live(folder: Path) -> None:
    """The live page, review and check."""
    with scene(ASKED) as both:
        both.run(0.5)
        both.save(folder / "before.png")
        both.window.desk.start.click()
        both.cue(Cue.STAY)
        both.run(4.5)
        both.save(folder / "hold.png")
        both.save(folder / "hold-night.png", LARGE, NIGHT)
        both.window.comfort.page.still.click()
        both.save(folder / "hold-still.png")
        both.window.comfort.page.still.click()
        both.cue(Cue.REST)
        both.run(1.2)
        both.save(folder / "rest.png")
        both.cue(Cue.STAY)
        both.run(2.5)
        both.window.desk.form.band.set_band(
            Band(45, 70), reference_n=demo.REFERENCE.force_n
        )
        both.window.desk.form.band.changed.emit()
        both.cue(Cue.LESS)
        both.save(folder / "nudged.png", frames=2)
        both.window.desk.stop.click()
        both.run(0.5)
        both.window.desk.pages.review.click()
        both.save(folder / "review.png")
        make_review(both, folder)
        both.window.desk.pages.review.click()
        both.window.desk.health.check.click()
        both.window.health.presses.setChecked(False)
        both.window.health.begin.click()
        both.until(lambda: not both.window.health.checking)
        both.save(folder / "health.png")
    with scene(replace(ASKED, band_on=BandOn.EACH_SIDE, band=Band(30, 48))) as sides:
        sides.window.desk.start.click()
        sides.cue(Cue.STAY)
        sides.run(4.0)
        sides.save(folder / "each-side.png", SMALL, NIGHT)
    with scene(ONE) as one:
        one.window.desk.start.click()
        one.cue(Cue.STAY)
        one.run(4.0)
        one.save(folder / "one-channel.png")
        one.silent = True
        one.cue(Cue.NO_SIGNAL)
        one.save(folder / "no-signal.png")


if __name__ == "__main__":
    application()
    make(Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parent))
