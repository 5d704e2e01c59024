"""The commands on a sealed logbook: how each is opened, and what each tells."""

from __future__ import annotations

import getpass
import io
import json
import os
import pty
import re
import select
import shutil
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from session.kept_logbook import NAMES, fill

from biofeedback.cli import main
from biofeedback.cli.passphrase import VARIABLE
from biofeedback.logbook import recordings
from biofeedback.logbook.sealed import key_file, keyring, reading

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NAME = NAMES["DEMO-3"]
PASSPHRASE = "tree lamp orbité stone"  # noqa: S105  of tests alone
OTHER = "quite another four words"
REPORT = ["report", "DEMO-3", "--name"]


class Kept:
    """A logbook in a folder, and how a command is told of it."""

    def __init__(self, folder: Path) -> None:
        self.logbook, self.recordings = fill(folder)
        self.keys = folder / "logbook.keys.json"
        self.passphrase = folder / "passphrase"
        self.passphrase.write_text(f"{PASSPHRASE}\n", encoding="utf-8")
        self.places = [
            "--logbook", str(self.logbook), "--recordings", str(self.recordings),
        ]  # fmt: skip
        self.opens = ["--passphrase-file", str(self.passphrase)]

    def files(self) -> list[Path]:
        return sorted(self.recordings.iterdir())


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Kept]:
    monkeypatch.setattr(key_file, "SCRYPT_N", 2**14)
    monkeypatch.delenv(VARIABLE, raising=False)
    (tmp_path / "kept").mkdir(mode=0o700)
    yield Kept(tmp_path / "kept")
    keyring.forget()


def sealed(kept: Kept, capsys: pytest.CaptureFixture[str]) -> str:
    """Seals, and gives the recovery code that was shown."""
    assert main(["seal", "--yes", *kept.places, *kept.opens]) == 0
    told = capsys.readouterr().out
    code = re.search(r"Recovery code:  ([0-9A-Z-]{34})\n", told)
    assert code is not None, told
    return code[1]


def name_in_logbook(kept: Kept) -> str:
    with closing(sqlite3.connect(kept.logbook)) as raw:
        query = "SELECT name FROM athletes WHERE code = 'DEMO-3'"
        (name,) = raw.execute(query).fetchone()
    return str(name)


def test_seal_and_unseal(kept: Kept, capsys: pytest.CaptureFixture[str]) -> None:
    sealed(kept, capsys)
    assert name_in_logbook(kept).startswith("sealed:1:")
    assert all(map(reading.is_sealed, kept.files()))
    assert main(["seal", "--json", *kept.places, *kept.opens]) == 0
    again = json.loads(capsys.readouterr().out)
    assert again == {
        "values": 0, "recordings": 0, "before": 3, "in_use": 0, "problems": [],
        "clear": [],
    }  # fmt: skip
    assert main(["unseal", *kept.places, *kept.opens]) == 0
    assert "3 recordings" in capsys.readouterr().out
    assert name_in_logbook(kept) == NAME
    assert not any(map(reading.is_sealed, kept.files()))
    # Opened, it asks for nothing; sealed again, it has the passphrase it had.
    assert main(["export", str(kept.logbook.parent / "out"), *kept.places]) == 0
    assert main(["seal", *kept.places, *kept.opens]) == 0
    assert "Recovery code" not in capsys.readouterr().out
    assert all(map(reading.is_sealed, kept.files()))


def test_unseal_does_not_say_all_is_clear_where_it_is_not(
    kept: Kept, capsys: pytest.CaptureFixture[str]
) -> None:
    sealed(kept, capsys)
    with kept.files()[0].open("r+b") as file:
        file.seek(kept.files()[0].stat().st_size // 2)
        file.write(bytes(4))
    assert main(["unseal", *kept.places, *kept.opens]) == 1
    told = capsys.readouterr()
    assert "Not all is in the clear" in told.out
    assert kept.files()[0].name in told.err
    assert main(["unseal", "--json", *kept.places, *kept.opens]) == 1
    assert len(json.loads(capsys.readouterr().out)["problems"]) == 1
    assert reading.is_sealed(kept.files()[0])


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize(
    "command",
    [
        [*REPORT, "--output", "OUT.pdf", "--logbook", "BOOK"],
        ["export", "OUT", "--names", "--format", "csv", "PLACES"],
        ["export", "OUT", "--format", "csv", "--files", "FILE"],
        ["replay", "FILE", "--json"],
        ["tune", "FOLDER", "--json"],
        ["rebuild", "PLACES"],
        ["erase", "DEMO-3", "--yes", "PLACES"],
        ["unseal", "PLACES"],
        ["seal", "PLACES"],
    ],
    ids=lambda command: " ".join(command[:3]),
)
def test_each_command_that_reads_what_is_sealed_asks(
    kept: Kept, capsys: pytest.CaptureFixture[str], tmp_path: Path, command: list[str]
) -> None:
    sealed(kept, capsys)
    words = {
        "OUT.pdf": [str(tmp_path / "out.pdf")],
        "OUT": [str(tmp_path / "out")],
        "BOOK": [str(kept.logbook)],
        "PLACES": kept.places,
        "FILE": [str(kept.files()[0])],
        "FOLDER": [str(kept.recordings)],
    }
    whole = [word for each in command for word in words.get(each, [each])]
    before = kept.logbook.read_bytes()
    assert main(whole) == 1
    told = capsys.readouterr()
    assert "--passphrase-file" in told.err + told.out
    assert "Traceback" not in told.err
    assert kept.logbook.read_bytes() == before
    # An export goes on after a file that cannot be read, and has said so.
    shutil.rmtree(tmp_path / "out", ignore_errors=True)
    assert main([*whole, *kept.opens]) == 0, capsys.readouterr().err


def test_what_needs_no_name_asks_for_nothing(
    kept: Kept, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    sealed(kept, capsys)
    backup = str(tmp_path / "backup")
    assert main(["backup", backup, *kept.places]) == 0
    assert "sealed by the passphrase of today" in capsys.readouterr().out
    assert main(["audit", "--logbook", str(kept.logbook)]) == 0
    assert "sealed" in capsys.readouterr().out
    assert main(["restore", backup, *kept.places]) == 0
    assert "passphrase is that of the day" in capsys.readouterr().out
    key_file.read(kept.keys).opened(PASSPHRASE)
    assert main(["unseal", *kept.places, *kept.opens]) == 0
    assert main(["backup", backup, *kept.places]) == 0
    assert "is not encrypted" in capsys.readouterr().out


def test_what_was_put_back_is_told_by_the_clock_of_this_place(
    kept: Kept, capsys: pytest.CaptureFixture[str], tmp_path: Path, utc_day: str
) -> None:
    backup = str(tmp_path / "backup")
    assert main(["backup", backup, *kept.places]) == 0
    capsys.readouterr()
    assert main(["restore", backup, *kept.places]) == 0
    told = capsys.readouterr().out.splitlines()[0]
    here = datetime.now(tz=UTC).astimezone().date().isoformat()
    assert f"as of {here} " in told
    assert utc_day not in told


def test_the_environment_may_hold_it(
    kept: Kept, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    sealed(kept, capsys)
    monkeypatch.setenv(VARIABLE, PASSPHRASE)
    assert main(["replay", str(kept.files()[0])]) == 0
    monkeypatch.setenv(VARIABLE, "not the right one")
    assert main(["replay", str(kept.files()[0])]) == 1
    assert "not the passphrase" in capsys.readouterr().err


@pytest.mark.parametrize("raw", [None, b"", b"\xff\xfe\xfd"])
def test_a_file_without_a_passphrase_is_told(
    kept: Kept, capsys: pytest.CaptureFixture[str], raw: bytes | None
) -> None:
    sealed(kept, capsys)
    kept.passphrase.unlink()
    if raw is not None:
        kept.passphrase.write_bytes(raw)
    assert main(["replay", str(kept.files()[0]), *kept.opens]) == 1
    assert str(kept.passphrase) in capsys.readouterr().err


def test_change_the_passphrase(
    kept: Kept, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    sealed(kept, capsys)
    before = [path.read_bytes() for path in kept.files()]
    new = tmp_path / "new"
    new.write_text(OTHER)
    change = ["seal", "--change-passphrase", "--new-passphrase-file", str(new)]
    assert main([*change, *kept.places, *kept.opens]) == 0
    assert [path.read_bytes() for path in kept.files()] == before
    assert main(["replay", str(kept.files()[0]), *kept.opens]) == 1
    opens = ["--passphrase-file", str(new)]
    assert main(["replay", str(kept.files()[0]), *opens]) == 0
    new.write_text("too short")
    assert main([*change, *kept.places, *opens]) == 1


def test_a_lost_passphrase_is_replaced_by_the_recovery_code(
    kept: Kept, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code = sealed(kept, capsys)
    new, written = tmp_path / "new", tmp_path / "code"
    new.write_text(OTHER)
    recover = [
        "seal", "--recover", "--recovery-code-file", str(written),
        "--new-passphrase-file", str(new), *kept.places,
    ]  # fmt: skip
    written.write_text("0123-4567-89AB-CDEF-GHJK-MNPQ-RSNP")  # a code, and not this one
    assert main(recover) == 1
    assert "not the recovery code" in capsys.readouterr().err
    written.write_text(code.lower())
    assert main(recover) == 0
    file = str(kept.files()[0])
    assert main(["replay", file, "--passphrase-file", str(new)]) == 0


def test_another_recovery_code(kept: Kept, capsys: pytest.CaptureFixture[str]) -> None:
    code = sealed(kept, capsys)
    assert (
        main(["seal", "--new-recovery-code", "--yes", *kept.places, *kept.opens]) == 0
    )
    told = capsys.readouterr().out
    new = re.search(r"[0-9A-Z]{4}(-[0-9A-Z]{4}){6}", told)
    assert new is not None
    assert new[0] != code
    key_file.read(kept.keys).recovered(new[0])


def test_a_recovery_code_that_was_not_written_down_seals_nothing(
    kept: Kept, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builtins.input", lambda _prompt: "????")
    assert main(["seal", *kept.places, *kept.opens]) == 1
    assert "nothing was changed" in capsys.readouterr().err
    assert not kept.keys.exists()
    assert name_in_logbook(kept) == NAME


def test_without_a_terminal_the_first_sealing_says_what_it_wants(
    kept: Kept, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(""))
    assert main(["seal", "--yes", *kept.places]) == 1
    told = capsys.readouterr().err
    assert "This logbook is sealed" not in told
    assert "--new-passphrase-file FILE" in told
    assert not kept.keys.exists()
    assert main(["seal", "--recover", *kept.places]) == 1
    assert "is not sealed" in capsys.readouterr().err
    new = ["--new-passphrase-file", str(kept.passphrase)]
    assert main(["seal", "--yes", *new, *kept.places]) == 0
    assert all(map(reading.is_sealed, kept.files()))
    assert main(["seal", "--recover", *new, *kept.places]) == 1
    assert "--recovery-code-file FILE" in capsys.readouterr().err
    assert main(["unseal", *kept.places, *kept.opens]) == 0
    assert name_in_logbook(kept) == NAME


def test_a_weak_passphrase_seals_nothing(
    kept: Kept, capsys: pytest.CaptureFixture[str]
) -> None:
    kept.passphrase.write_text("short")
    assert main(["seal", "--yes", *kept.places, *kept.opens]) == 1
    assert "four words" in capsys.readouterr().err
    assert not kept.keys.exists()


def test_a_key_file_that_is_gone_is_not_made_anew(
    kept: Kept, capsys: pytest.CaptureFixture[str]
) -> None:
    sealed(kept, capsys)
    kept.keys.unlink()
    for command in (
        ["seal", "--yes"], ["seal", "--change-passphrase"], ["unseal"], ["rebuild"],
        ["erase", "DEMO-3", "--yes"],
    ):  # fmt: skip
        assert main([*command, *kept.places, *kept.opens]) == 1
        assert "key" in capsys.readouterr().err
        assert not kept.keys.exists()


def test_what_is_not_sealed_is_told(
    kept: Kept, capsys: pytest.CaptureFixture[str]
) -> None:
    for command in (["unseal"], ["seal", "--recover"], ["seal", "--change-passphrase"]):
        assert main([*command, *kept.places]) == 1
        assert "is not sealed" in capsys.readouterr().err


def test_a_logbook_on_a_server_is_left_to_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["seal", "--logbook", "postgresql://localhost/x"]) == 1
    assert "database server" in capsys.readouterr().err


# ---------------------------------------------------------------- on a terminal


class Terminal:
    """A command on a pseudo-terminal: what it asks, and what is typed."""

    def __init__(self, words: list[str]) -> None:
        self._ours, theirs = pty.openpty()
        code = (
            "from biofeedback.logbook.sealed import key_file\n"
            "key_file.SCRYPT_N = 2**14\n"
            "import sys\nfrom biofeedback.cli import main\nsys.exit(main(sys.argv[1:]))"
        )
        self._child = subprocess.Popen(  # noqa: S603  our own program
            [sys.executable, "-c", code, *words],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            start_new_session=True,
        )
        os.close(theirs)
        self.shown = ""

    def wait_for(self, words: str) -> None:
        until = time.monotonic() + 30
        while words not in self.shown:
            if time.monotonic() > until:
                self._child.kill()
                self._child.wait()
                pytest.fail(self.shown)
            if select.select([self._ours], [], [], 1)[0]:
                self.shown += os.read(self._ours, 4096).decode("utf-8", "replace")

    def type(self, line: str) -> None:
        self.shown = ""
        os.write(self._ours, f"{line}\n".encode())

    def end(self) -> int:
        code = self._child.wait(30)
        try:
            while select.select([self._ours], [], [], 0)[0]:
                self.shown += os.read(self._ours, 4096).decode("utf-8", "replace")
        except OSError:  # the other end is closed: all was read
            pass
        os.close(self._ours)
        return code


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals")
def test_asked_on_a_terminal_and_never_shown(kept: Kept) -> None:
    terminal = Terminal(["seal", *kept.places])
    terminal.wait_for("New passphrase: ")
    terminal.type(PASSPHRASE)
    terminal.wait_for("Once more: ")
    assert PASSPHRASE not in terminal.shown
    terminal.type(PASSPHRASE)
    terminal.wait_for("last four characters to go on: ")
    code = re.search(r"[0-9A-Z]{4}(-[0-9A-Z]{4}){6}", terminal.shown)
    assert code is not None
    terminal.type(code[0][-4:].lower())
    assert terminal.end() == 0, terminal.shown

    file = str(kept.files()[0])
    terminal = Terminal(["replay", file])
    terminal.wait_for("Passphrase for")
    terminal.type("something else")
    terminal.wait_for("This is not the passphrase.")
    terminal.wait_for("Passphrase for")
    terminal.type(PASSPHRASE)
    assert terminal.end() == 0, terminal.shown
    assert "complete" in terminal.shown

    terminal = Terminal(["replay", file])
    for _ in range(3):
        terminal.wait_for("Passphrase for")
        terminal.type("something else")
    assert terminal.end() == 1
    assert "seal --recover" in terminal.shown


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals")
def test_two_that_differ_seal_nothing(kept: Kept) -> None:
    terminal = Terminal(["seal", *kept.places])
    terminal.wait_for("New passphrase: ")
    terminal.type(PASSPHRASE)
    terminal.wait_for("Once more: ")
    terminal.type(PASSPHRASE + "x")
    assert terminal.end() == 1
    assert "nothing was changed" in terminal.shown
    assert not kept.keys.exists()


def test_no_passphrase_stands_in_a_fault(
    kept: Kept, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    sealed(kept, capsys)
    secret = "a wrong and secret one"  # noqa: S105  a word to be looked for
    monkeypatch.setattr(getpass, "getpass", lambda *_a, **_k: secret)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    assert main(["replay", str(kept.files()[0])]) == 1
    told = capsys.readouterr()
    assert secret not in told.err + told.out
    with pytest.raises(Exception) as fault:  # noqa: PT011  whatever it is
        recordings.read(kept.files()[0])
    assert secret not in repr(fault.value)
