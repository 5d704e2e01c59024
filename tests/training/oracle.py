"""The hold rules once more, plain and slow, to compare the program with.

Nothing here is shared with the program. All arithmetic is exact (fractions), the
whole signal is known from the start, and each question is put to the finished
list of pieces: no state is carried, nothing is told early, nothing is undone.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

END_AFTER = Fraction(1, 4)


@dataclass(frozen=True)
class Rules:
    """What is asked for, in exact numbers; `upper` None is an open band."""

    hold: Fraction
    grace: Fraction
    clock: str
    band_on: str
    reps: int
    balance: Fraction | None
    balance_required: bool
    ceiling: Fraction | None


@dataclass(frozen=True)
class Sample:
    time: Fraction
    force: tuple[Fraction, ...]
    good: bool
    lost_before: bool
    band: tuple[Fraction, Fraction | None]


@dataclass(frozen=True)
class State:
    started: bool
    fallen: bool
    position: str
    balanced: bool
    over: bool


@dataclass(frozen=True)
class Piece:
    """A stretch of time in which nothing changes; a pause has no state."""

    start: Fraction
    end: Fraction
    heard: Fraction
    state: State | None

    @property
    def length(self) -> Fraction:
        return Fraction(0) if self.state is None else self.end - self.start


@dataclass
class Answer:
    outcome: str
    start: Fraction
    entry: Fraction | None
    hold_end: Fraction
    end: Fraction
    told: Fraction
    times: dict[str, Fraction]
    lapses: list[tuple[Fraction, Fraction]]
    gaps: int
    bands: list[tuple[Fraction, tuple[Fraction, Fraction | None]]]
    completed: Fraction | None = None


@dataclass
class Verdict:
    reps: list[Answer] = field(default_factory=list)
    ceilings: list[Fraction] = field(default_factory=list)


def _judged(force: tuple[Fraction, ...], band_on: str) -> list[Fraction]:
    if band_on == "each side":
        return list(force)
    return [_effort(force, band_on)]


def _effort(force: tuple[Fraction, ...], band_on: str) -> Fraction:
    if band_on == "left":
        return force[0]
    if band_on == "right":
        return force[1]
    return sum(force, Fraction(0))


def _onset(band: tuple[Fraction, Fraction | None]) -> Fraction:
    return max(Fraction(5), band[0] / 10)


def _state(
    force: tuple[Fraction, ...], band: tuple[Fraction, Fraction | None], rules: Rules
) -> State:
    lower, upper = band
    judged = _judged(force, rules.band_on)
    effort = _effort(force, rules.band_on)
    position = "inside"
    if any(upper is not None and one > upper for one in judged):
        position = "above"
    if any(one < lower for one in judged):
        position = "below"
    balanced = True
    if rules.balance is not None and len(force) == 2:
        left, right = force
        # Share of the left within so many points of 50 %, made free of division.
        balanced = abs(left - right) * 50 <= rules.balance * (left + right)
    return State(
        started=effort > _onset(band),
        fallen=effort < _onset(band) / 2,
        position=position,
        balanced=balanced,
        over=rules.ceiling is not None and any(one > rules.ceiling for one in judged),
    )


def _levels(
    a: tuple[Fraction, ...],
    b: tuple[Fraction, ...],
    band: tuple[Fraction, Fraction | None],
    rules: Rules,
) -> list[tuple[Fraction, Fraction]]:
    """(height at the start, height at the end) over each level there is."""
    head, tail = _effort(a, rules.band_on), _effort(b, rules.band_on)
    onset = _onset(band)
    found = [(head - onset, tail - onset), (head - onset / 2, tail - onset / 2)]
    for level in (*band, rules.ceiling):
        if level is not None:
            found += [
                (x - level, y - level)
                for x, y in zip(
                    _judged(a, rules.band_on), _judged(b, rules.band_on), strict=True
                )
            ]
    if rules.balance is not None and len(a) == 2:
        share = rules.balance / 50
        for sign in (1, -1):
            found.append(
                (
                    sign * (a[0] - a[1]) - share * (a[0] + a[1]),
                    sign * (b[0] - b[1]) - share * (b[0] + b[1]),
                )
            )
    return found


def _pieces(samples: Sequence[Sample], rules: Rules) -> list[Piece]:
    good = [index for index, sample in enumerate(samples) if sample.good]
    pieces: list[Piece] = []
    heard = Fraction(0)
    for i, j in pairwise(good):
        a, b = samples[i], samples[j]
        if j > i + 1 or b.lost_before:
            pieces.append(Piece(a.time, b.time, heard, None))
            continue
        shares = {Fraction(0), Fraction(1)}
        for head, tail in _levels(a.force, b.force, a.band, rules):
            if head != tail and 0 < head / (head - tail) < 1:
                shares.add(head / (head - tail))
        length = b.time - a.time
        for low, high in pairwise(sorted(shares)):
            middle = (low + high) / 2
            force = tuple(
                x + (y - x) * middle for x, y in zip(a.force, b.force, strict=True)
            )
            state = _state(force, a.band, rules)
            pieces.append(
                Piece(a.time + low * length, a.time + high * length, heard, state)
            )
            heard += (high - low) * length
    return pieces


def _counts(state: State, rules: Rules) -> bool:
    return state.position == "inside" and (state.balanced or not rules.balance_required)


def _fall(
    pieces: list[Piece], first: int
) -> tuple[int | None, Fraction | None, Fraction]:
    """Where the rep from piece `first` ends: index and time of the fall, told."""
    run: int | None = None
    length = Fraction(0)
    for index in range(first, len(pieces)):
        state = pieces[index].state
        if state is None:
            continue
        if not state.fallen:
            run, length = None, Fraction(0)
            continue
        if run is None:
            run = index
        length += pieces[index].length
        if length >= END_AFTER:
            told = pieces[index].end - (length - END_AFTER)
            return run, pieces[run].start, told
    return None, None, Fraction(0)


def _excursions(
    pieces: list[Piece], first: int, last: int, rules: Rules
) -> list[tuple[Fraction, Fraction, Fraction, Fraction | None]]:
    """After the entry: left, heard then, heard length, and when it came back."""
    found: list[tuple[Fraction, Fraction, Fraction, Fraction | None]] = []
    away: tuple[Fraction, Fraction] | None = None
    length = Fraction(0)
    for piece in pieces[first:last]:
        if piece.state is None:
            continue
        if _counts(piece.state, rules):
            if away is not None:
                found.append((*away, length, piece.start))
            away = None
        else:
            if away is None:
                away, length = (piece.start, piece.heard), Fraction(0)
            length += piece.length
    if away is not None:
        found.append((*away, length, None))
    return found


def _completion(
    pieces: list[Piece],
    first: int,
    last: int,
    resets: list[Fraction],
    rules: Rules,
) -> Fraction | None:
    """When the clock reaches the hold; `resets` is where it goes back to zero."""
    clock = Fraction(0)
    for piece in pieces[first:last]:
        if piece.state is None:
            continue
        if rules.clock == "unbroken" and piece.start in resets:
            clock = Fraction(0)
        if rules.clock == "running" or _counts(piece.state, rules):
            if clock + piece.length >= rules.hold:
                return piece.start + rules.hold - clock
            clock += piece.length
    return None


def _rep(pieces: list[Piece], first: int, now: Fraction, rules: Rules) -> Answer:
    run, fell, told = _fall(pieces, first)
    last = len(pieces) if run is None else run
    window_end = now if fell is None else fell
    entered = [
        index
        for index in range(first, last)
        if (state := pieces[index].state) is not None and _counts(state, rules)
    ]
    entry = pieces[entered[0]].start if entered else None
    excursions = _excursions(pieces, entered[0], last, rules) if entered else []
    completed = None
    if entered:
        # A lapse sets the clock to zero; the clock next moves at the return.
        resets = [
            back
            for _, _, length, back in excursions
            if length > rules.grace and back is not None
        ]
        completed = _completion(pieces, entered[0], last, resets, rules)
    hold_end = window_end if completed is None else completed
    names = ("below", "inside", "above", "unbalanced", "paused")
    times = dict.fromkeys(names, Fraction(0))
    gaps, heard_at_end = 0, Fraction(0)
    for piece in pieces[first:]:
        length = min(piece.end, hold_end) - piece.start
        if length <= 0:
            break
        if piece.state is None:
            gaps += 1
            times["paused"] += length
            continue
        heard_at_end = piece.heard + length
        name = piece.state.position
        if name == "inside" and not _counts(piece.state, rules):
            name = "unbalanced"
        times[name] += length
    lapses = [
        (left, hold_end if back is None else min(back, hold_end))
        for left, heard, length, back in excursions
        if length > rules.grace and heard + rules.grace < heard_at_end
    ]
    outcome = "complete"
    if completed is None:
        outcome = "stopped" if fell is None else "short"
    return Answer(
        outcome=outcome,
        start=pieces[first].start,
        entry=entry,
        hold_end=hold_end,
        end=window_end,
        told=now if fell is None else told,
        times=times,
        lapses=lapses,
        gaps=gaps,
        bands=[],
        completed=completed,
    )


def _bands(samples: Sequence[Sample], answer: Answer) -> None:
    """The band at the start, and each that came before the end of the hold."""
    good = [sample for sample in samples if sample.good]
    before = [sample for sample in good if sample.time <= answer.start]
    answer.bands = [(answer.start, before[-1].band)]
    for a, b in pairwise(good):
        if answer.start < b.time < answer.hold_end and a.band != b.band:
            answer.bands.append((b.time, b.band))


def judge(samples: Sequence[Sample], rules: Rules) -> Verdict:
    """All reps of a set that is stopped after the last sample."""
    verdict = Verdict()
    pieces = _pieces(samples, rules)
    heard = [piece for piece in pieces if piece.state is not None]
    was_over = False
    for piece in heard:
        over = piece.state is not None and piece.state.over
        if over and not was_over:
            verdict.ceilings.append(piece.start)
        was_over = over
    good = [sample.time for sample in samples if sample.good]
    free_from: Fraction | None = None
    for index, piece in enumerate(pieces):
        if len(verdict.reps) == rules.reps:
            break
        if piece.state is None or not piece.state.started:
            continue
        if free_from is not None and piece.start < free_from:
            continue
        answer = _rep(pieces, index, good[-1], rules)
        _bands(samples, answer)
        verdict.reps.append(answer)
        free_from = answer.told
    return verdict
