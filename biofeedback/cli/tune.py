"""`biofeedback tune`: recordings replayed through candidate filters.

The answer goes to standard output, progress and what was left out to standard error.
"""

from __future__ import annotations

import json
import sys
from argparse import ArgumentTypeError
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from biofeedback.cli import import_table, interrupts, tune_apply
from biofeedback.cli.bar import Bar
from biofeedback.cli.replay import band
from biofeedback.errors import FieldError, FileError, UserError
from biofeedback.phrase import phrase
from biofeedback.tuning import bench
from biofeedback.tuning.bench import Done
from biofeedback.tuning.candidates import candidates
from biofeedback.tuning.choice import Rule, front, recommend
from biofeedback.tuning.cost import cost_us
from biofeedback.tuning.given import gathered
from biofeedback.tuning.material import RATE_LEAST_HZ
from biofeedback.tuning.record import figures_of
from biofeedback.tuning.shown import REFERENCE_HZ
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Iterator, Sequence

    from biofeedback.tuning.choice import Recommendation, Score

RULE_BYTES_MAX = 10_000
NAME_WIDE = 45
"""Letters: the longest name of a candidate."""


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "recordings",
        nargs="+",
        type=Path,
        metavar="RECORDING",
        help="recordings, tables of forces, or folders of both; every second one is "
        "kept for checking the choice",
    )
    import_table.add_choice(parser, columns_needed=False)
    parser.add_argument(
        "--rule",
        type=Path,
        metavar="FILE",
        help="JSON with age_most_ms and overshoot_most_n, either may be left out "
        "(default: age under 60 ms)",
    )
    parser.add_argument(
        "--band", type=band, metavar="LO:HI", help="judge by this band, in newtons"
    )
    parser.add_argument(
        "--mains", type=float, choices=(50.0, 60.0), default=50.0, help="Hz of a notch"
    )
    parser.add_argument(
        "--reference",
        type=_cutoff,
        default=REFERENCE_HZ,
        metavar="HZ",
        help=f"cut-off of the zero-phase reference (default: {REFERENCE_HZ:g})",
    )
    parser.add_argument(
        "--plot",
        type=Path,
        metavar="FILE.png",
        help="a picture of age against noise; never over a file that is there",
    )
    parser.add_argument("--json", action="store_true", help="all figures")
    tune_apply.add_arguments(parser)


def run(options: Namespace) -> int:
    """Measures, recommends and tells."""
    rule = _rule(options.rule) if options.rule else Rule()
    tune_apply.check(options)
    with TemporaryDirectory(prefix="biofeedback-tune-") as folder:
        rate_hz, done, whole = _done(options, Path(folder))
    for each in done:
        if each.why:
            words = f"{each.path}: left out: {each.why.rstrip('.')}."
            print(f"biofeedback tune: {words}", file=sys.stderr)
    used = [each for each in done if each.figures]
    if not used:
        raise UserError(phrase("None of these recordings can be used."))
    chosen_on = list(bench.scores(used[::2]).values())
    found = recommend(chosen_on, bench.scores(used[1::2]), rule)
    every = sorted(bench.scores(used).values(), key=lambda each: each.age_s)
    if options.plot:
        _draw(options.plot, every, found, rule)
    if options.json:
        print(json.dumps(_as_json(every, done, found, rule, rate_hz), allow_nan=False))
    else:
        print("\n".join(_as_text(every, used, found, rate_hz)))
    if options.apply and found.chosen is not None:
        paths = [each.path for each in used]
        told = tune_apply.apply(
            options, paths, found.chosen, rule=rule, rate_hz=rate_hz
        )
        print(told, file=sys.stderr)
    return 0 if whole and found.chosen is not None else 1


def _done(options: Namespace, folder: Path) -> tuple[float, list[Done], bool]:
    """The sample rate, what came of each file in their order, and whether all serve."""
    given = gathered(
        options.recordings,
        table=import_table.choice(options),
        look_for_forces=options.columns is None,
        made_in=folder,
    )
    usable = [each.recording for each in given if not each.why]
    rate_hz = bench.first_rate_hz(usable)
    asked = bench.Asked(
        # Where none has a rate of use, each is gone through for the reason.
        candidates(rate_hz=rate_hz, mains_hz=options.mains) if rate_hz else (),
        rate_hz or RATE_LEAST_HZ,
        options.band,
        options.reference,
    )
    with Bar("recordings") as bar, interrupts.held() as interrupt:

        def tell(done: int, total: int) -> None:
            bar.tell(done, total)
            interrupt.let_go()

        measured = iter(bench.sweep(usable, asked, progress=tell))
    done = [
        Done(each.path, why=each.why)
        if each.why
        else replace(next(measured), path=each.path)
        for each in given
    ]
    whole = not any(
        each.why and not file.other for file, each in zip(given, done, strict=True)
    )
    return asked.rate_hz, done, whole


def _draw(
    path: Path, every: Sequence[Score], found: Recommendation, rule: Rule
) -> None:
    from biofeedback.report.lag_noise_picture import (  # noqa: PLC0415  loads Qt
        lag_noise_picture,
    )

    image = lag_noise_picture(every, found.chosen, rule)
    if path.exists():
        raise FileError(
            path, phrase("is there already."), next_step=phrase("Give another name.")
        )
    if not image.save(str(path), "PNG"):  # type: ignore[call-overload]  # a text is taken too
        raise FileError(path, phrase("the picture cannot be written."))


def _cutoff(text: str) -> float:
    try:
        cutoff_hz = float(text)
    except ValueError:
        cutoff_hz = 0.0
    if not 1.0 <= cutoff_hz <= 15.0:
        raise ArgumentTypeError(f"“{text}” must be 1 to 15 Hz")
    return cutoff_hz


def _rule(path: Path) -> Rule:
    """Reads a rule.

    Raises:
        FileError: names the file and the field.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(RULE_BYTES_MAX + 1)
    except OSError as error:
        raise FileError(
            path, phrase("cannot be read: {strerror}.", strerror=error.strerror)
        ) from error
    try:
        return _of_fields(Fields.of_json(raw, "rule", most_bytes=RULE_BYTES_MAX))
    except FieldError as error:
        raise FileError(path, error.words) from error


def _of_fields(fields: Fields) -> Rule:
    unknown = fields.values.keys() - {"age_most_ms", "overshoot_most_n"}
    if unknown:
        raise FieldError(fields.path(min(unknown)), phrase("is not known."))
    age_ms = fields.number_or_none("age_most_ms", least=1, most=1000)
    overshoot_n = fields.number_or_none("overshoot_most_n", least=0, most=1e5)
    age_s = Rule().age_most_s if age_ms is None else age_ms / 1000
    return Rule(age_s, overshoot_n)


def _as_text(
    every: Sequence[Score],
    used: Sequence[Done],
    found: Recommendation,
    rate_hz: float,
) -> Iterator[str]:
    yield f"{len(used)} recordings at {rate_hz:g} samples a second."
    yield (
        "Age: delay or lag in ramps, a sample and half a frame. Noise: what it adds in "
        "holds to what is shown of the zero-phase force."
    )
    yield (
        f"{'':<{NAME_WIDE}} {'age':>5} {'delay':>5} {'lag':>5} {'lag':>5} {'noise':>7} "
        f"{'noise':>6} {'over':>6} {'spikes':>7} {'false':>6} {'missed':>6} "
        f"{'inside':>7} {'cost':>6}"
    )
    yield (
        f"{'on the front, from the youngest':<{NAME_WIDE}} {'ms':>5} {'ms':>5} "
        f"{'ramp':>5} {'hold':>5} {'N rms':>7} {'% band':>6} {'N':>6} {'seen':>7} "
        f"{'/min':>6} {'/min':>6} {'s':>7} {'µs':>6}"
    )
    for each in front(every):
        yield _line(each, rate_hz)
    yield found.reason


def _line(score: Score, rate_hz: float) -> str:
    pct = "–" if score.noise_pct is None else f"{score.noise_pct:.2f}"
    return (
        f"{score.name:<{NAME_WIDE}} {_ms(score.age_s):>5} {_ms(score.delay_s):>5} "
        f"{_ms(score.lag_ramp_s):>5} {_ms(score.lag_hold_s):>5} "
        f"{score.noise_n:7.3f} {pct:>6} {score.overshoot_n:6.2f} "
        f"{f'{score.spikes_passed}/{score.spikes}':>7} "
        f"{score.false_exits_per_min:6.1f} {score.missed_exits_per_min:6.1f} "
        f"{score.inside_change_s:+7.2f} {cost_us(score.choice, rate_hz=rate_hz):6.2f}"
    )


def _ms(seconds: float | None) -> str:
    return "–" if seconds is None else f"{1000 * seconds:.0f}"


def _as_json(
    every: Sequence[Score],
    done: Sequence[Done],
    found: Recommendation,
    rule: Rule,
    rate_hz: float,
) -> dict[str, object]:
    on_front = {each.choice for each in front(every)}
    refused = {choice: why for each in done for choice, why in each.refused}
    return {
        "rate_hz": rate_hz,
        "recordings": [str(each.path) for each in done if each.figures],
        "left_out": [
            {"recording": str(each.path), "why": each.why} for each in done if each.why
        ],
        "rule": rule.words,
        "chosen": None if found.chosen is None else _score(found.chosen),
        "checked": None if found.checked is None else _score(found.checked),
        "reason": found.reason,
        "candidates": [
            {
                **_score(each),
                "on_front": each.choice in on_front,
                "cost_us_per_sample": cost_us(each.choice, rate_hz=rate_hz),
            }
            for each in every
        ],
        "refused": [
            {"filter": choice.to_json(), "why": why} for choice, why in refused.items()
        ],
    }


def _score(score: Score) -> dict[str, object]:
    return {
        "name": score.name,
        "filter": score.choice.to_json(),
        **figures_of(score),
    }
