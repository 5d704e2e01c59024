"""The set-up, tried with small programs in place of `apt-get` and `sudo`."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from biofeedback import bootstrap
from biofeedback.bootstrap import FONT, Need, SetupError

ROOT = Path(bootstrap.__file__).resolve().parent.parent
ABSENT = Need("libabsent.so.9", ("libabsent9t64", "libabsent9"), "this test")
linux_only = pytest.mark.skipif(sys.platform != "linux", reason="apt is on Linux only")


class Machine:
    """A folder of programs that is all the `PATH` there is."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder = folder
        self.calls = folder / "calls.txt"
        self.calls.touch()
        monkeypatch.setenv("PATH", str(folder))
        self.has("env", 'exec /usr/bin/env PATH="$PATH" "$@"')

    def has(self, name: str, script: str) -> None:
        program = self.folder / name
        program.write_text(f"#!/bin/sh\n{script}\n", encoding="ascii")
        program.chmod(0o755)

    def has_apt(self, *, knows: str, exit_code: int = 0) -> None:
        log = f'echo "apt-get $*" >> {self.calls}\n'
        self.has("apt-get", f"{log}exit {exit_code}")
        self.has("apt-cache", f'[ "$2" = {knows} ] && echo "Package: $2" || exit 100')


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    return Machine(tmp_path, monkeypatch)


@pytest.fixture
def as_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 0)


@pytest.fixture
def as_user(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000)


def test_imports_nothing_that_a_bare_python_lacks() -> None:
    tree = ast.parse(Path(bootstrap.__file__).read_text(encoding="utf-8"))
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        if isinstance(node, ast.ImportFrom):
            names.add(str(node.module).split(".")[0])
    assert names <= set(sys.stdlib_module_names)


def test_help_runs_without_any_installed_package_and_shows_examples() -> None:
    command = [sys.executable, "-S", "-m", "biofeedback.bootstrap", "--help"]
    done = subprocess.run(  # noqa: S603  our own words
        command, cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0
    assert "demo --snapshot window.png" in done.stdout


def test_all_that_it_says_comes_out_on_any_console() -> None:
    assert Path(bootstrap.__file__).read_bytes().isascii()


def test_options_behind_the_command_are_handed_on() -> None:
    options = bootstrap._parser().parse_args(["demo", "--snapshot", "a.png", "--help"])
    assert options.rest == ["--snapshot", "a.png", "--help"]


@pytest.mark.parametrize("version", [(3, 11), (3, 12), (3, 14), (4, 0)])
def test_new_enough_python_is_taken(version: tuple[int, int]) -> None:
    bootstrap.check_python(version)


@pytest.mark.parametrize("version", [(3, 10), (3, 9), (2, 7)])
def test_old_python_is_refused_in_words(version: tuple[int, int]) -> None:
    with pytest.raises(SetupError, match=r"3\.11 or newer is needed"):
        bootstrap.check_python(version)


@linux_only
def test_old_python_is_told_of_a_newer_one_beside_it(machine: Machine) -> None:
    machine.has("python3.12", "")
    with pytest.raises(SetupError, match=r"run `python3\.12 -m biofeedback"):
        bootstrap.check_python((3, 10))


def test_folder_without_project_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SetupError, match="no clone of the project"):
        bootstrap.check_clone(tmp_path)


# The operating system


def test_tests_need_a_virtual_display_and_the_demo_does_not() -> None:
    demo = {need.what for need in bootstrap.needs_of("demo", with_venv=False)}
    test = {need.what for need in bootstrap.needs_of("test", with_venv=False)}
    assert test - demo == {"Xvfb", "xauth", "xrandr", "pdftotext"}
    assert {"libEGL.so.1", "libxcb-cursor.so.0", FONT} <= demo


@linux_only
def test_libraries_and_programs_are_looked_for(machine: Machine) -> None:
    assert bootstrap.is_there(Need("libc.so.6", (), ""))
    assert not bootstrap.is_there(ABSENT)
    assert not bootstrap.is_there(Need("xauth", (), ""))
    machine.has("xauth", "")
    assert bootstrap.is_there(Need("xauth", (), ""))


@linux_only
@pytest.mark.usefixtures("as_root")
@pytest.mark.parametrize("known", ABSENT.packages)
def test_missing_package_is_named_then_installed_under_the_name_apt_knows(
    machine: Machine, capfd: pytest.CaptureFixture[str], known: str
) -> None:
    machine.has_apt(knows=known)
    assert bootstrap.supply((ABSENT,), allowed=True) == [ABSENT]  # nothing came
    update, install = machine.calls.read_text(encoding="ascii").splitlines()
    assert update.endswith(" update")
    assert install.endswith(f" install --yes --no-install-recommends {known}")
    said = capfd.readouterr().out
    assert said.index("for this test: libabsent.so.9") < said.index(known)


@linux_only
@pytest.mark.usefixtures("as_user")
def test_user_installs_by_sudo(machine: Machine) -> None:
    machine.has_apt(knows="libabsent9")
    machine.has("sudo", f'echo "sudo $1" >> {machine.calls}\nshift\nexec "$@"')
    bootstrap.supply((ABSENT,), allowed=True)
    calls = machine.calls.read_text(encoding="ascii").splitlines()
    assert calls[0] == "sudo -n"  # there is no terminal in a test
    assert calls[-1].endswith(" libabsent9")


@linux_only
@pytest.mark.usefixtures("as_user")
def test_without_rights_the_exact_command_is_printed(
    machine: Machine, capsys: pytest.CaptureFixture[str]
) -> None:
    machine.has_apt(knows="libabsent9t64")
    assert bootstrap.supply((ABSENT,), allowed=True) == [ABSENT]
    assert machine.calls.read_text(encoding="ascii") == ""
    assert (
        "sudo apt-get install --no-install-recommends libabsent9t64"
        in capsys.readouterr().out
    )


@linux_only
@pytest.mark.usefixtures("as_root")
def test_nothing_is_installed_when_told_not_to(machine: Machine) -> None:
    machine.has_apt(knows="libabsent9")
    assert bootstrap.supply((ABSENT,), allowed=False) == [ABSENT]
    assert machine.calls.read_text(encoding="ascii") == ""


@linux_only
@pytest.mark.usefixtures("as_root")
def test_failing_apt_ends_in_words(
    machine: Machine, capfd: pytest.CaptureFixture[str]
) -> None:
    machine.has_apt(knows="libabsent9", exit_code=100)
    assert bootstrap.supply((ABSENT,), allowed=True) == [ABSENT]
    assert "apt-get could not install them" in capfd.readouterr().out


@linux_only
@pytest.mark.usefixtures("machine")
def test_system_without_apt_is_told_the_files(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert bootstrap.supply((ABSENT,), allowed=True) == [ABSENT]
    said = capsys.readouterr().out
    assert "libabsent.so.9" in said
    assert "packages of your system that hold these files" in said.replace(
        "\nbootstrap: ", " "
    )


# The Python environment


def test_interpreter_stands_where_each_system_puts_it() -> None:
    assert bootstrap.interpreter(ROOT, windows=False) == ROOT / ".venv/bin/python"
    windows = bootstrap.interpreter(ROOT, windows=True)
    assert windows == ROOT / ".venv/Scripts/python.exe"


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    (tmp_path / "pyproject.toml").write_text(
        '[project]\nname = "small"\nversion = "1"\ndependencies = ["absent"]\n',
        encoding="ascii",
    )
    (tmp_path / ".venv").mkdir()
    return tmp_path


def filled_for(clone: Path, extra: str) -> None:
    text = bootstrap.stamp_text(clone, extra)
    bootstrap.stamp_path(clone).write_text(text, encoding="ascii")


def test_environment_is_filled_again_only_when_the_project_changed(clone: Path) -> None:
    assert not bootstrap.is_installed(clone, "")
    filled_for(clone, "")
    assert bootstrap.is_installed(clone, "")
    with (clone / "pyproject.toml").open("a", encoding="ascii") as file:
        file.write("# changed\n")
    assert not bootstrap.is_installed(clone, "")


def test_development_contains_the_run_and_not_the_reverse(clone: Path) -> None:
    filled_for(clone, "")
    assert not bootstrap.is_installed(clone, "dev")
    filled_for(clone, "dev")
    assert bootstrap.is_installed(clone, "")
    assert bootstrap.is_installed(clone, "dev")


def test_moved_clone_is_filled_again(clone: Path) -> None:
    filled_for(clone, "dev")
    moved = clone.rename(clone.with_name("moved"))
    assert not bootstrap.is_installed(moved, "dev")


@linux_only
@pytest.mark.parametrize(
    "content",
    [b"\x7fELF, but for another machine", b"#!/bin/sh\n# no pip in it\nexit 1\n"],
)
def test_broken_environment_does_not_count(clone: Path, content: bytes) -> None:
    python = bootstrap.interpreter(clone)
    python.parent.mkdir()
    python.write_bytes(content)
    python.chmod(0o755)
    assert not bootstrap.environment_works(clone)


@pytest.mark.slow
def test_environment_is_made_and_failing_pip_ends_in_words(
    clone: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PIP_NO_INDEX", "1")  # as without a connection, but at once
    monkeypatch.setenv("PIP_CONFIG_FILE", os.devnull)
    monkeypatch.delenv("PIP_FIND_LINKS", raising=False)
    bootstrap.ensure_environment(clone)
    assert bootstrap.environment_works(clone)
    with pytest.raises(SetupError, match="no internet connection"):
        bootstrap.ensure_installed(clone, extra="")
    assert not bootstrap.is_installed(clone, "")


# The run


@linux_only
@pytest.mark.parametrize("exit_code", [0, 5])
def test_arguments_and_exit_code_pass_through(clone: Path, exit_code: int) -> None:
    package = clone / "biofeedback"
    package.mkdir()
    (package / "__init__.py").touch()
    shutil.copy(bootstrap.__file__, package)
    python = bootstrap.interpreter(clone)
    python.parent.mkdir()
    # Answers the question whether it works with yes, and the run with its words.
    script = f'#!/bin/sh\n[ "$1" = -c ] && exit 0\necho "$@"\nexit {exit_code}\n'
    python.write_text(script, encoding="ascii")
    python.chmod(0o755)
    filled_for(clone, "sound")
    given = ["--no-system", "demo", "--snapshot", "a picture.png"]
    done = subprocess.run(  # noqa: S603  our own words
        [sys.executable, "-m", "biofeedback.bootstrap", *given],
        cwd=clone,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == exit_code
    last = done.stdout.splitlines()[-1]
    assert last == "-m biofeedback demo --snapshot a picture.png"
