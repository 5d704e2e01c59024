"""A day on a real logbook: references, proposals, newtons, and what is kept of them."""

from __future__ import annotations

import contextlib
import sqlite3
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import TYPE_CHECKING, Any

import pytest

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.rows import NewSet
from biofeedback.logbook.session_notes import PAIN
from biofeedback.session.day_facts import Background
from biofeedback.session.set_of_day import PlanPlace, SetOfDay
from biofeedback.session.today import PAIN_RULE, STALE_DAYS, DayView, Today
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.day import DayReport, PainRule, Why
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.planned import (
    PlannedPrescription,
    ReferenceRule,
    SideOrder,
)
from biofeedback.training.prescription import BandOn
from biofeedback.training.reference import Caution, Definition, Origin
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

HERE = timezone(timedelta(hours=10))
NOON = datetime(2026, 3, 30, 12, 0, tzinfo=HERE)
TASK = Task("Knee extension", setup=Setup(Joint.KNEE, "extension", 60.0), key=new_key())
RANGE = Intensity.in_range(60, 80, tolerance=5, tolerance_of=ToleranceOf.CENTRE)
PLANNED = PlannedPrescription(
    TASK, RANGE, 45.0, reps=5, rest_s=120, side_order=SideOrder.LEFT_FIRST, key="k-1"
)
PLACE = PlanPlace(new_key(), 1, "Tendon plan, stage 2")
WELL = DayReport(1, 1, 1)


class Clinic:
    """An athlete, a logbook, and a clock that is set by hand."""

    def __init__(self, book: Logbook) -> None:
        self.book = book
        self.now = NOON
        self.athlete_id = book.add_athlete("A-1")
        self.background = Background(injured=Sides.LEFT, plan=PLACE, planned=(PLANNED,))
        self.today = Today(
            book, background=lambda _athlete: self.background, clock=lambda: self.now
        )

    def plan(self, *planned: PlannedPrescription, **more: Any) -> None:
        self.background = replace(self.background, planned=planned, **more)

    def test(
        self,
        force_n: float,
        sides: Sides,
        *,
        ago: timedelta = timedelta(days=3),
        **more: Any,
    ) -> None:
        self.book.maxima.add(
            NewMaximalTest(
                self.athlete_id,
                more.pop("task", TASK).on_side(sides),
                (self.now - ago).astimezone(UTC),
                Definition.BEST_1_S_MEAN,
                force_n,
                3,
                peak_n=1.05 * force_n,
                one_s_n=force_n,
                **more,
            )
        )

    def view(self, report: DayReport | None = WELL, **more: Any) -> DayView:
        return self.today.for_athlete("A-1", report=report, **more)

    def sets(self, report: DayReport | None = WELL) -> tuple[SetOfDay, ...]:
        return self.view(report).sets

    def train(self, chosen: SetOfDay) -> None:
        """A rep of the set is saved, as the recorder does it."""
        asked = chosen.asked()
        set_id = self.book.begin_set(
            NewSet(
                session_id=self.book.begin_session(self.athlete_id),
                prescription=asked.to_json(),
                profile={},
                recording=f"{new_key()}.force",
                started_utc=(self.now + timedelta(minutes=2)).astimezone(UTC),
                plan=chosen.context.get("plan", {}),  # type: ignore[arg-type]  # an object
            )
        )
        rep = {"number": 1, "outcome": "complete", "start_s": 1.0, "end_s": 50.0}
        self.book.add_rep(set_id, {**rep, "lapses": 0})


@pytest.fixture
def clinic(tmp_path: Path) -> Iterator[Clinic]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        yield Clinic(book)


# ------------------------------------------------------- newtons and references


def test_two_sides_with_different_references_have_their_own_newtons(
    clinic: Clinic,
) -> None:
    """60 to 80 % ± 5 % of the centre: centres from 60/0.95 to 80/1.05 %."""
    clinic.test(241.7, Sides.LEFT)
    clinic.test(198.3, Sides.RIGHT)
    left, right = clinic.sets()
    assert (left.sides, right.sides) == (Sides.LEFT, Sides.RIGHT)
    for one, reference_n, words in (
        (left, 241.7, "145 to 160.3 N"),
        (right, 198.3, "119 to 131.5 N"),
    ):
        band = one.asked().band
        assert band.lower_n == pytest.approx(0.60 * reference_n)
        assert band.upper_n == pytest.approx(0.60 / 0.95 * 1.05 * reference_n)
        assert one.band_words == (
            f"63.2 % ± 5 % of the centre (± 3.2 points of the reference) = {words}"
        )
        high = one.at(1.0).asked().band
        assert high.upper_n == pytest.approx(0.80 * reference_n)
        assert high.lower_n == pytest.approx(0.80 / 1.05 * 0.95 * reference_n)
        asked = one.asked()
        assert asked.task.sides is one.sides
        assert asked.reference is not None
        assert asked.reference.force_n == reference_n
    assert left.asked().band_on is BandOn.LEFT
    assert right.asked().band_on is BandOn.RIGHT


def test_a_place_outside_the_range_is_its_end(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    left, _ = clinic.sets()
    assert left.at(-3).asked() == left.at(0).asked()
    assert left.at(7).asked() == left.at(1).asked()


def test_on_a_rig_with_one_cell_it_serves_either_side(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    left, _ = clinic.view(single_cell=True).sets
    assert left.asked().band_on is BandOn.TOTAL
    assert left.asked().task.sides is Sides.LEFT


def test_a_side_without_a_test_says_so_and_offers_others(clinic: Clinic) -> None:
    clinic.test(240, Sides.RIGHT)
    left, right = clinic.sets()
    assert right.problem == ""
    assert (
        left.problem
        == "No test of the left side is known. Choose another, or type one."
    )
    (other,) = left.choice.others
    assert other.reference.origin is Origin.OTHER_SIDE
    chosen = left.with_reference(other)
    assert chosen.problem == ""
    assert chosen.asked().reference == other.reference
    clinic.today.use(clinic.view(), chosen)
    (kept,) = clinic.book.days.choices(clinic.athlete_id)
    assert kept.proposed["reference"] is None
    assert kept.accepted["reference"] == other.reference.to_json()


def test_nothing_known_is_said_and_nothing_is_offered(clinic: Clinic) -> None:
    left, _ = clinic.sets()
    assert left.problem == "No test of the left side is known. Test, or type one."
    assert (left.cautions, left.endurance, left.endurance_words) == ((), None, "")
    assert left.band_words.startswith("63.2 %")
    with pytest.raises(UserError, match="No test"):
        clinic.today.use(clinic.view(), left)
    assert clinic.book.days.choices(clinic.athlete_id) == ()


def test_cautions_are_those_of_today(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT, ago=timedelta(days=20), pain=4, practice=True)
    left, _ = clinic.sets()
    assert left.reference is not None
    assert left.reference.cautions == (
        Caution.STALE,
        Caution.PRACTICE,
        Caution.PAINFUL,
    )
    assert len(left.cautions) == 3
    assert left.reference_words == (
        "240 N, own side's best, best 1 s mean, 2026-03-10, 20 days old"
    )
    clinic.today.set_stale_after_days(28)
    assert Caution.STALE.value not in str(clinic.sets()[0].cautions)
    assert len(clinic.sets()[0].cautions) == 2


def test_a_test_belongs_to_the_day_of_the_place(clinic: Clinic) -> None:
    """00:30 here is still yesterday in UTC."""
    clinic.test(240, Sides.LEFT, ago=timedelta(hours=11.5))
    left, _ = clinic.sets()
    assert left.reference is not None
    assert left.reference.age_days == 0


def test_the_isometric_peak_is_the_least_for_the_lowering(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    clinic.plan(
        PlannedPrescription(
            Task("Slow lowering", TaskKind.LOWERING, key=new_key()),
            Intensity.at_least(100),
            5.0,
            side_order=SideOrder.LEFT,
            reference=ReferenceRule(
                Origin.OTHER_TASK, Definition.PEAK, other_task="Knee extension"
            ),
        )
    )
    (lowering,) = clinic.sets()
    assert lowering.asked().band.lower_n == pytest.approx(252)
    assert lowering.band_words == "at least 100 % = at least 252 N"
    assert "Knee extension" in lowering.reference_words
    assert lowering.endurance is None  # the times are of holds


def test_body_mass_is_used_with_its_date(clinic: Clinic) -> None:
    rule = ReferenceRule(Origin.BODY_MASS, body_mass_factor=0.5)
    clinic.plan(
        replace(PLANNED, reference=rule, side_order=SideOrder.LEFT),
        body_mass=BodyMass(80, "2026-03-01"),
    )
    (left,) = clinic.sets()
    assert left.asked().band.lower_n == pytest.approx(0.6 * 0.5 * 80 * 9.80665)
    assert left.reference_words == (
        "392.3 N, multiple of body mass (0.5 × the weight of 80 kg), 2026-03-01, "
        "29 days old"
    )
    assert left.endurance is None


def test_a_value_from_before_the_injury_is_typed_in_with_its_date(
    clinic: Clinic,
) -> None:
    rule = ReferenceRule(Origin.BEFORE_INJURY)
    clinic.plan(replace(PLANNED, reference=rule, side_order=SideOrder.LEFT))
    (left,) = clinic.sets()
    assert left.problem.startswith("No value from before the injury")
    clinic.today.state_force(
        "A-1",
        TASK.on_side(Sides.LEFT),
        310,
        origin=Origin.BEFORE_INJURY,
        on_date="2025-05-01",
        definition=Definition.PEAK,
    )
    (left,) = clinic.sets()
    assert left.reference_words == (
        "310 N, before the injury, peak, 2025-05-01, 333 days old"
    )
    assert left.cautions == ()
    for wrong in ("2026-03-31", "last spring"):
        with pytest.raises(FieldError, match=r"stated\.date"):
            clinic.today.state_force(
                "A-1", TASK, 300, origin=Origin.TYPED, on_date=wrong
            )


def test_an_injured_side_that_is_not_known_is_told(clinic: Clinic) -> None:
    clinic.plan(replace(PLANNED, side_order=SideOrder.INJURED_FIRST), injured=None)
    view = clinic.view()
    assert view.sets == ()
    assert "no one injured side" in view.problems[0]
    assert view.problems[0].startswith("Knee extension: ")


def test_the_logbook_knows_injured_side_and_body_mass(clinic: Clinic) -> None:
    people, athlete_id = clinic.book.people, clinic.athlete_id
    people.change(athlete_id, AthleteDetails("A-1", injured=Sides.RIGHT))
    for kg, day in ((70, "2026-01-01"), (80, "2026-03-29"), (90, "2026-03-31")):
        people.add_mass(athlete_id, BodyMass(kg, day))
    planned = replace(
        PLANNED,
        reference=ReferenceRule(Origin.BODY_MASS, body_mass_factor=1.0),
        side_order=SideOrder.INJURED_LAST,
    )
    today = Today(clinic.book, clock=lambda: clinic.now)
    first, second = today.for_athlete("A-1", free=(planned,)).sets
    assert (first.sides, second.sides) == (Sides.LEFT, Sides.RIGHT)
    assert first.reference is not None
    # The mass of tomorrow is not of today.
    assert first.reference.reference.force_n == pytest.approx(80 * 9.80665)


def test_the_isometric_pair_of_a_lowering_is_offered(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    lowering = Task("Slow lowering", TaskKind.LOWERING, key=new_key(), pair=TASK.key)
    clinic.plan(
        PlannedPrescription(
            lowering, Intensity.at_least(100), 5.0, side_order=SideOrder.LEFT
        )
    )
    (left,) = clinic.sets()
    assert left.problem.startswith("No test of the left side")
    (pair,) = left.choice.others
    assert (pair.reference.origin, pair.note) == (Origin.OTHER_TASK, "Knee extension")


def test_a_free_set_needs_no_plan(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    clinic.background = Background()
    view = clinic.view(free=(PLANNED,))
    left, _ = view.sets
    asked, context = clinic.today.use(view, left)
    assert context == {}
    assert asked == left.asked()
    (kept,) = clinic.book.days.choices(clinic.athlete_id)
    assert (kept.plan_id, kept.planned_key, kept.task_id) == ("", "", TASK.key)


# --------------------------------------------------------- proposal and decision


def test_before_pain_was_asked_nothing_is_proposed_nor_used(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view(None)
    assert view.report is None
    assert view.sets[0].proposal is None
    assert view.sets[0].reason_words(view.rule) == ""
    with pytest.raises(UserError, match="Pain now"):
        clinic.today.use(view, view.sets[0])


def test_from_the_low_end_one_step_a_visit(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    places = []
    for _ in range(6):
        view = clinic.view()
        left = view.sets[0]
        places.append(left.place)
        asked, context = clinic.today.use(view, left)
        assert asked == left.asked()
        assert context == {"plan": {"id": PLACE.id, "stage": 1, "key": "k-1"}}
        clinic.train(left)
        clinic.now += timedelta(hours=1)
        again = clinic.view()  # later on the same day nothing has moved on
        assert again.sets[0].place == left.place
        clinic.now += timedelta(days=2, hours=-1)
    assert places == [0.0, 0.25, 0.5, 0.75, 1.0, 1.0]
    worse = clinic.sets(DayReport(1, 3, 1))
    assert (worse[0].place, worse[0].proposal and worse[0].proposal.why) == (
        0.0,
        Why.SOME_PAIN,
    )


def test_what_was_not_carried_out_is_no_last_time(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view()
    clinic.today.use(view, view.sets[0].at(0.75))
    clinic.now += timedelta(days=2)
    proposal = clinic.sets()[0].proposal
    assert proposal is not None
    assert proposal.why is Why.FIRST_TIME


def test_a_place_in_another_range_is_no_last_time(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view()
    clinic.today.use(view, view.sets[0].at(0.75))
    clinic.train(view.sets[0])
    clinic.now += timedelta(days=2)
    assert clinic.sets()[0].place == 1.0
    clinic.plan(replace(PLANNED, intensity=replace(RANGE, upper=100.0)))
    proposal = clinic.sets()[0].proposal
    assert proposal is not None
    assert proposal.why is Why.FIRST_TIME


def test_proposed_and_accepted_are_both_kept(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view(DayReport(4, 2, 1, 6.5, 3))
    changed = view.sets[0].at(0.6)
    clinic.today.use(view, changed)
    (kept,) = clinic.book.days.choices(clinic.athlete_id)
    assert kept.report.report == view.report
    assert kept.proposed["place"] == 0.0
    assert kept.proposed["why"] == Why.SOME_PAIN.value
    assert kept.proposed["rule"] == PainRule().to_json()
    assert kept.accepted["place"] == 0.6
    assert kept.accepted["band"] == changed.asked().band.to_json()
    assert kept.accepted["against_advice"] is False
    assert (kept.plan_id, kept.planned_key) == (PLACE.id, "k-1")


def test_one_report_serves_all_sets_until_it_changes(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    clinic.test(200, Sides.RIGHT)
    view = clinic.view()
    for one in view.sets:
        clinic.today.use(view, one)
    assert len(clinic.book.days.reports(clinic.athlete_id)) == 1
    assert clinic.view(None).report == WELL  # asked again on the same day
    later = clinic.view(DayReport(2, 1, 1))
    clinic.today.use(later, later.sets[0])
    assert len(clinic.book.days.reports(clinic.athlete_id)) == 2
    clinic.now += timedelta(hours=12)
    assert clinic.view(None).report is None  # the next day


def test_above_the_cut_it_advises_and_does_not_start_by_itself(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view(DayReport(2, 7, 1))
    left = view.sets[0]
    assert left.advise_stop
    assert left.proposal is not None
    assert left.proposal.place is None
    with pytest.raises(UserError, match="treating clinician"):
        clinic.today.use(view, left)
    assert clinic.book.days.choices(clinic.athlete_id) == ()
    asked, _ = clinic.today.use(view, left, against_advice=True)
    assert asked.band == left.at(0.0).asked().band  # the low end, if it must be
    (kept,) = clinic.book.days.choices(clinic.athlete_id)
    assert kept.accepted["against_advice"] is True
    assert kept.proposed["place"] is None


def reports(clinic: Clinic) -> list[int]:
    """Pain now of the reports that count, newest first."""
    found = clinic.book.days.reports(clinic.athlete_id)
    return [row.report.pain_now for row in found]


def test_answers_above_the_cut_are_kept_though_no_set_is_taken(clinic: Clinic) -> None:
    today = clinic.today
    today.answer("A-1", DayReport(3))
    assert reports(clinic) == []  # it is kept with the first decision on it
    today.answer("A-1", DayReport(7))
    assert "7 of 10" in today.advice("A-1")
    assert reports(clinic) == [7]
    today.answer("A-1", DayReport(2))  # what was kept is not left to mislead
    assert reports(clinic) == [2, 7]
    assert today.advice("A-1") == ""


def test_answers_that_were_kept_can_go_back_to_not_asked(
    clinic: Clinic, tmp_path: Path
) -> None:
    visit_id = clinic.book.begin_session(clinic.athlete_id)
    first, later = (
        Today(clinic.book, visit_id=lambda: visit_id, clock=lambda: clinic.now)
        for _ in range(2)
    )
    first.answer("A-1", DayReport(8, 2))
    assert later.for_athlete("A-1").report == DayReport(8, 2)
    clinic.now += timedelta(seconds=1)
    first.answer("A-1", None)
    for today in (first, later):  # and after the program was begun anew
        assert today.for_athlete("A-1").report is None
        assert today.advice("A-1") == ""
    assert reports(clinic) == []
    clinic.now += timedelta(seconds=1)
    later.answer("A-1", DayReport(6))
    assert reports(clinic) == [6]
    with contextlib.closing(sqlite3.connect(tmp_path / "logbook.db")) as reader:
        rows = reader.execute("SELECT pain_now FROM day_reports ORDER BY reported_utc")
        assert [level for (level,) in rows] == [8, 6]  # nothing is deleted


def test_the_last_visit_is_told_for_the_question_about_the_morning(
    clinic: Clinic,
) -> None:
    clinic.test(240, Sides.LEFT)
    assert clinic.view().last_visit is None
    clinic.train(clinic.sets()[0])
    assert clinic.view().last_visit is None  # that was today
    clinic.now += timedelta(days=2)
    assert clinic.view().last_visit == NOON.date()


# ----------------------------------------------------------------- what is set


def test_the_cuts_can_be_changed_and_count_at_once(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    assert not clinic.sets(DayReport(4))[0].advise_stop
    clinic.today.set_pain_rule(PainRule(1, 3, 0.1))
    assert clinic.today.pain_rule() == PainRule(1, 3, 0.1)
    assert clinic.sets(DayReport(4))[0].advise_stop


@pytest.mark.expects_log("the pain rule that was set is not used")
def test_a_rule_that_means_nothing_is_not_used(clinic: Clinic) -> None:
    clinic.book.settings.put(PAIN_RULE, {"low": 9, "high": 3, "step": 0.25})
    assert clinic.today.pain_rule() == PainRule()


@pytest.mark.parametrize("days", [0, -1, "soon", True, 99999])
def test_days_that_mean_nothing_are_not_used(clinic: Clinic, days: object) -> None:
    clinic.book.settings.put(STALE_DAYS, days)
    assert clinic.today.stale_after_days() == 14
    with pytest.raises(FieldError):
        clinic.today.set_stale_after_days(0)


def test_nobody_of_this_code_is_told(clinic: Clinic) -> None:
    with pytest.raises(FieldError, match="no athlete"):
        clinic.today.for_athlete("nobody")


# -------------------------------------------------------------------- endurance


def test_the_note_on_endurance_follows_the_place(clinic: Clinic) -> None:
    """45 s at the knee: up to 63.9 % is held for as long on average."""
    clinic.test(240, Sides.LEFT)
    left = clinic.sets()[0]
    assert left.endurance is not None
    assert left.endurance.intensity_pct == pytest.approx(60 / 0.95, abs=1e-4)
    assert "is hard" in left.endurance_words
    high = left.at(1.0)
    assert high.endurance_words.startswith(
        "45 s is longer than most people hold 76.2 % at the knee; expect"
    )
    clinic.today.use(clinic.view(), high)  # it never keeps anybody from starting


def test_the_words_of_a_set(clinic: Clinic) -> None:
    left, right = clinic.sets()
    assert left.title == "Knee extension, left"
    assert left.dose_words == "1 set of 5 × 45 s, 120 s rest; range 60 to 80 %"
    assert left.key != right.key


# -------------------------------------------------------- pain that was told since


def test_pain_told_after_a_kept_answer_is_known_after_a_restart(
    tmp_path: Path,
) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        athlete_id = book.add_athlete("A-1")
        visit = book.begin_session(athlete_id)
        for level, ago_s in ((8, 30), (4, 10), (3, 5)):
            at = NOON - timedelta(seconds=ago_s)
            book.session_notes.add(
                visit, PAIN, {"level": level}, at_utc=at.astimezone(UTC)
            )
        answered = NOON - timedelta(seconds=20)
        book.days.report(athlete_id, DayReport(2), at_utc=answered.astimezone(UTC))
        view = Today(book, clock=lambda: NOON).for_athlete("A-1")
    assert view.told == 3, "the newest, and what was told before the answer is known"
    assert view.report == DayReport(2)
    assert view.judged == DayReport(3)


def test_less_pain_than_was_answered_is_told_and_proposes_no_more(
    tmp_path: Path,
) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        athlete_id = book.add_athlete("A-1")
        before = NOON - timedelta(seconds=20)
        book.days.report(athlete_id, DayReport(6), at_utc=before.astimezone(UTC))
        visit = book.begin_session(athlete_id)
        at = NOON - timedelta(seconds=5)
        book.session_notes.add(visit, PAIN, {"level": 1}, at_utc=at.astimezone(UTC))
        view = Today(book, clock=lambda: NOON).for_athlete("A-1")
    assert view.told == 1
    assert "Pain 6 of 10" in view.advice
