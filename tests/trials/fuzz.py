"""Bytes that look for new ways through what reads them, led by coverage.

    python tests/trials/fuzz.py [--seconds 150] [TARGET ...]

`atheris` is no dependency and is asked for here alone. A venv of its own:

    python -m venv FOLDER && FOLDER/bin/pip install atheris -e .
    FOLDER/bin/python tests/trials/fuzz.py

Each target runs in a process of its own, so that one that falls leaves the others.
What must hold for any bytes:

* *decoder*: nothing is raised, at most one frame is held, the frames do not depend on
  how the bytes are cut, and what a frame says can be sent and says the same again.
* *lines*: nothing is raised but a fault of the rig in words; counts keep to 24 bits and
  frames to the limits of the wire.
* *plan*, *points*: a fault in words that names the file; what a plan file gives can be
  written and read again, and is the same.
"""

# ruff: noqa: PLC0415  what is looked into is imported while it is looked into
from __future__ import annotations

import argparse
import contextlib
import copy
import importlib
import importlib.util
import json
import re
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

if TYPE_CHECKING:
    from collections.abc import Callable

TARGETS = ("decoder", "lines", "plan", "points")
SECONDS = 150
INPUT_MOST = 8192
SLOW_S = 2
"""An input that takes longer is a fault."""
MISSING = (
    "Not run: atheris is not installed here. It is asked for by hand; the head of "
    "this file says how."
)
WORDS = (
    *("null", "true", "-1", "1e999", "NaN", "Infinity", "0", "[]", "{}", "1e-320"),
    *(",,", ";", "mass_kg", "force_n", "counts", "channel", "resolution", "\\x00"),
)
"""What numbers and tables trip over."""
_NEWEST = re.compile(r"#(\d+)\s.*?cov: (\d+) ft: (\d+)")


@dataclass(frozen=True, slots=True)
class Found:
    """What came of one target."""

    target: str
    executions: int
    edges: int
    features: int
    faults: str


# ------------------------------------------------------------------ what is tried


def decoder() -> Callable[[bytes], None]:
    """The decoder of frames."""
    from biofeedback.wire.codec import encode
    from biofeedback.wire.decoder import Decoder
    from biofeedback.wire.frames import Damage
    from biofeedback.wire.limits import ENCODED_MAX

    def told(pieces: list[bytes]) -> list[object]:
        made = Decoder()
        found: list[object] = []
        for piece in pieces:
            for one in made.push(piece):
                if isinstance(one, Damage):
                    found.append(one)
                    continue
                whole = encode(one)
                found.append(whole)
                (again,) = Decoder().push(whole)
                assert not isinstance(again, Damage)
                assert encode(again) == whole
            assert made.held_bytes <= ENCODED_MAX
        return found

    def one(data: bytes) -> None:
        cut = data[0] if data else 0
        whole = told([data])
        assert told([data[:cut], data[cut:]]) == whole
        assert told([data[i : i + 7] for i in range(0, len(data), 7)]) == whole
        # Each piece with a check sum that is right gets past the first door.
        for frame in _with_check_sum(data):
            told([frame])

    return one


def _with_check_sum(data: bytes) -> list[bytes]:
    """The bytes as a frame whose check sum is right."""
    import zlib

    from biofeedback.wire import cobs

    inner = data[:4000]
    crc = zlib.crc32(inner).to_bytes(4, "little")
    return [cobs.encode(inner + crc) + b"\0"]


def lines() -> Callable[[bytes], None]:
    """The lines of plain boards."""
    from biofeedback.errors import RigError
    from biofeedback.wire.codec import encode
    from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN
    from biofeedback.wire.text_lines import TextLines

    def one(data: bytes) -> None:
        stamped = {0: None, 1: True, 2: False}[data[0] % 3] if data else None
        made = TextLines(time_column=stamped)
        with contextlib.suppress(RigError):
            for at in range(0, len(data), 400):
                for frame in made.push(data[at : at + 400], at / 4000):
                    assert frame.counts.max(initial=0) <= COUNTS_MAX
                    assert frame.counts.min(initial=0) >= COUNTS_MIN
                    encode(frame)
            if made.ready:
                encode(made.identity())
            str(made.found)

    return one


def _in_file(name: str, read: Callable[[Path], object]) -> Callable[[bytes], None]:
    from biofeedback.errors import FileError

    folder = Path(tempfile.mkdtemp())

    def one(data: bytes) -> None:
        path = folder / name
        path.write_bytes(data)
        try:
            read(path)
        except FileError as error:
            if name not in str(error):
                raise AssertionError(f"names no file: {error}") from error

    return one


def plan() -> Callable[[bytes], None]:
    """Plans as files."""
    from biofeedback.logbook import plan_file

    def read(path: Path) -> None:
        found = plan_file.load(path)
        again = path.with_name("again.json")
        plan_file.save(found, again)
        assert plan_file.load(again) == found

    return _in_file("plan.json", read)


def points() -> Callable[[bytes], None]:
    """Tables of calibration points."""
    from biofeedback.conditioning.gravity import Gravity
    from biofeedback.logbook import calibration_table

    gravity = Gravity.standard()
    return _in_file(
        "points.csv", lambda path: calibration_table.read_points(path, gravity=gravity)
    )


def seeds(target: str) -> list[bytes]:
    """Sound content that is changed."""
    kept = Path(__file__).resolve().parents[2] / "recordings"
    if target == "decoder":
        from wire.frame_examples import EXAMPLES

        from biofeedback.wire.codec import encode

        return [encode(frame) for frame in EXAMPLES.values()]
    if target == "lines":
        rows = [f"{84000 + 37 * n % 91},{-9000 - 53 * n % 77}" for n in range(60)]
        stamped = [f"{12.5 * n:.1f}\t{n % 9 - 4}.25" for n in range(60)]
        return ["\n".join(["42", *one, ""]).encode() for one in (rows, stamped)]
    if target == "plan":
        whole = json.loads((kept / "plan-v1.json").read_bytes())
        short = copy.deepcopy(whole)
        del short["plan"]["stages"][1:]
        tight = (",", ":")
        return [json.dumps(one, separators=tight).encode() for one in (whole, short)]
    from trials.bad_files import POINTS

    return [POINTS.encode(), b"force_n;counts\n0,0;12\n49,03;120512\n"]


# ------------------------------------------------------------------------- the runs


def fuzz(target: str, folder: str, seconds: int) -> None:
    """In a process of its own: does not come back."""
    atheris: Any = importlib.import_module("atheris")
    with atheris.instrument_imports(include=["biofeedback"]):
        one = {"decoder": decoder, "lines": lines, "plan": plan, "points": points}[
            target
        ]()
    words = Path(folder) / "words"
    words.write_text("".join(f'"{one}"\n' for one in WORDS))
    arguments = [
        sys.argv[0],
        f"-dict={words}",
        folder,
        f"-max_total_time={seconds}",
        f"-max_len={INPUT_MOST}",
        f"-timeout={SLOW_S}",
        "-rss_limit_mb=1024",
        f"-artifact_prefix={folder}/",
    ]
    atheris.Setup(arguments, one)
    atheris.Fuzz()


def run(target: str, seconds: int) -> Found:
    """One target, and what its process told."""
    with tempfile.TemporaryDirectory() as folder:
        for number, content in enumerate(seeds(target)):
            (Path(folder) / f"seed-{number}").write_bytes(content)
        done = subprocess.run(
            [
                sys.executable, __file__, "--in-process", folder,
                "--seconds", str(seconds), target,
            ],
            capture_output=True,
            check=False,
        )  # fmt: skip
        told = done.stderr.decode(errors="replace") + done.stdout.decode(
            errors="replace"
        )
        crashed = [*Path(folder).glob("crash-*"), *Path(folder).glob("timeout-*")]
        crashed += list(Path(folder).glob("oom-*"))
        faults = "".join(f"{repr(one.read_bytes())[:2000]}\n" for one in crashed)
        if done.returncode or crashed:
            faults += told[-3000:]
    steps = _NEWEST.findall(told)
    executions, edges, features = steps[-1] if steps else ("0", "0", "0")
    return Found(target, int(executions), int(edges), int(features), faults)


def main() -> int:
    """Runs the targets and prints the figures."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("targets", nargs="*", metavar="TARGET", default=TARGETS)
    parser.add_argument("--seconds", type=int, default=SECONDS)
    parser.add_argument("--in-process", metavar="FOLDER", help=argparse.SUPPRESS)
    options = parser.parse_args()
    if importlib.util.find_spec("atheris") is None:
        print(MISSING)
        return 0
    if options.in_process:
        fuzz(options.targets[0], options.in_process, options.seconds)
    found = [run(target, options.seconds) for target in options.targets]
    for one in found:
        print(
            f"{one.target}: {one.executions} executions, {one.edges} edges, "
            f"{one.features} features; {'a fault' if one.faults else 'no fault'}"
        )
        if one.faults:
            print(one.faults)
    return 1 if any(one.faults for one in found) else 0


if __name__ == "__main__":
    sys.exit(main())
