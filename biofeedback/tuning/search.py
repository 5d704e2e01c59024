"""A whole search: which candidates, measured on which recordings, and what is best."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.logbook.recording_format import SUFFIX
from biofeedback.phrase import phrase, sentences
from biofeedback.tuning import bench
from biofeedback.tuning.candidates import candidates
from biofeedback.tuning.choice import Rule, front, recommend
from biofeedback.tuning.cost import cost_us
from biofeedback.tuning.record import keys_of
from biofeedback.tuning.shown import REFERENCE_HZ

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
    from pathlib import Path

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.training.band import Band
    from biofeedback.tuning.bench import Done
    from biofeedback.tuning.choice import Recommendation, Score


PATTERN = f"*{SUFFIX}"
"""Names of recordings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is searched.

    Attributes:
        paths: recordings; every second one that can be used checks the choice.
        present: the filter in use, measured beside the grid; None for the grid alone.
        band: in place of the recordings' own, or None.
    """

    paths: tuple[Path, ...]
    rule: Rule
    mains_hz: float = 50.0
    present: FilterChoice | None = None
    band: Band | None = None
    reference_hz: float = REFERENCE_HZ


@dataclass(frozen=True, slots=True)
class Found:
    """What came of a search.

    Attributes:
        rate_hz: of the recordings.
        used: recordings that were measured; `left_out` the others, with the reason.
        scores: of all candidates over all recordings, the youngest first.
        front: those of them that no other beats in both age and noise.
        costs_us: of each candidate, a sample.
        keys: what tells the recordings used; see `record`.
    """

    wanted: Wanted
    rate_hz: float
    used: tuple[Done, ...]
    left_out: tuple[Done, ...]
    scores: tuple[Score, ...]
    front: tuple[Score, ...]
    recommendation: Recommendation
    costs_us: Mapping[FilterChoice, float]
    keys: tuple[str, ...]

    def score_of(self, choice: FilterChoice | None) -> Score | None:
        """The score of a candidate; None where it was not measured."""
        return next((one for one in self.scores if one.choice == choice), None)


def files_in(given: Iterable[Path]) -> Iterator[Path]:
    """Recordings, and those in folders that are given."""
    for path in given:
        if path.is_dir():
            yield from sorted(path.glob(PATTERN))
        else:
            yield path


def search(
    wanted: Wanted,
    progress: Callable[[int, int], None] | None = None,
    *,
    processes: int | None = None,
) -> Found:
    """Measures, and recommends.

    Args:
        wanted: what is searched.
        progress: told how many of how many recordings are done. What it raises stops
            the search.
        processes: as many as there are cores where None.

    Raises:
        UserError: none of the recordings can be used; says why.
    """
    paths = list(wanted.paths)
    rate_hz = bench.first_rate_hz(paths)
    if rate_hz is None:
        raise UserError(
            phrase("None of these recordings can be used."),
            phrase("Choose recordings of sets, at 40 samples a second or more."),
        )
    grid = candidates(rate_hz=rate_hz, mains_hz=wanted.mains_hz)
    if wanted.present is not None:
        grid = tuple(dict.fromkeys((*grid, wanted.present)))
    asked = bench.Asked(grid, rate_hz, wanted.band, wanted.reference_hz)
    done = bench.sweep(paths, asked, progress=progress, processes=processes)
    used = tuple(each for each in done if each.figures)
    if not used:
        why = next((each.why for each in done if each.why), "")
        raise UserError(sentences(phrase("None of these recordings can be used."), why))
    return _found(wanted, rate_hz, done, used)


def _found(
    wanted: Wanted, rate_hz: float, done: Sequence[Done], used: tuple[Done, ...]
) -> Found:
    every = sorted(bench.scores(used).values(), key=lambda each: each.age_s)
    chosen_on = list(bench.scores(used[::2]).values())
    return Found(
        wanted=wanted,
        rate_hz=rate_hz,
        used=used,
        left_out=tuple(each for each in done if not each.figures),
        scores=tuple(every),
        front=tuple(front(every)),
        recommendation=recommend(chosen_on, bench.scores(used[1::2]), wanted.rule),
        costs_us={each.choice: cost_us(each.choice, rate_hz=rate_hz) for each in every},
        keys=keys_of(each.path for each in used),
    )
