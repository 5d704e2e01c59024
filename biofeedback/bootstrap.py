"""From a fresh clone to a running program, in one command.

Run as `python3 -m biofeedback.bootstrap demo` from the clone. The rules here:

* The standard library alone: at this point nothing else is installed.
* Python code goes into `.venv` in the clone, never into the system's Python.
* System packages are installed only where `apt-get` is at hand and only after
  it was said which and why; elsewhere the exact command is printed.
* A step that fails says so in words and gives a non-zero exit code. After the
  tests nothing more is printed, so that their closing line is the last.

The text is plain ASCII: it must come out on any console.
"""

from __future__ import annotations

import argparse
import ctypes
import hashlib
import importlib
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
PYTHON_OLDEST = (3, 11)
APT_LOCK_WAIT_S = 300
"""A fresh Ubuntu updates itself in the background and holds apt's lock meanwhile."""

EXAMPLES = """\
examples:
  python3 -m biofeedback.bootstrap demo
      the live window, a simulated rig and an invented athlete
  python3 -m biofeedback.bootstrap demo --snapshot window.png
      the same off screen for some seconds, kept as a picture
  python3 -m biofeedback.bootstrap test
      the tests; what follows goes to pytest, for example: test -k hold -x
  python3 -m biofeedback.bootstrap prepare
      all the set-up for development, and nothing run
"""


class SetupError(Exception):
    """The set-up cannot go on; the message says why and what to do."""


class Need(NamedTuple):
    """Something of the operating system that must be there.

    Attributes:
        what: file name of a shared library, name of a program, or `FONT` or `VENV`.
        packages: names that Debian and Ubuntu use or used for it, newest first.
        reason: what it is for, to follow the word "for".
    """

    what: str
    packages: tuple[str, ...]
    reason: str


FONT = "a font"
VENV = "Python's ensurepip"

# What PySide6-Essentials 6.8 to 6.11 is linked against and does not bring along:
# `readelf -d` on QtCore, QtGui, QtWidgets and the platform plugins, checked by
# running on a Debian 12 that had nothing but Python.
_LIBRARIES = {
    "drawing the window (Qt)": """
        libstdc++.so.6          libstdc++6
        libz.so.1               zlib1g
        libzstd.so.1            libzstd1
        libglib-2.0.so.0        libglib2.0-0t64 libglib2.0-0
        libgthread-2.0.so.0     libglib2.0-0t64 libglib2.0-0
        libGL.so.1              libgl1
        libEGL.so.1             libegl1
        libX11.so.6             libx11-6
        libxkbcommon.so.0       libxkbcommon0
        libfreetype.so.6        libfreetype6
        libfontconfig.so.1      libfontconfig1
        libdbus-1.so.3          libdbus-1-3
    """,
    "windows on an X display (Qt)": """
        libX11-xcb.so.1         libx11-xcb1
        libxcb-cursor.so.0      libxcb-cursor0
        libxcb-icccm.so.4       libxcb-icccm4
        libxcb-image.so.0       libxcb-image0
        libxcb-keysyms.so.1     libxcb-keysyms1
        libxcb-randr.so.0       libxcb-randr0
        libxcb-render.so.0      libxcb-render0
        libxcb-render-util.so.0 libxcb-render-util0
        libxcb-shape.so.0       libxcb-shape0
        libxcb-shm.so.0         libxcb-shm0
        libxcb-sync.so.1        libxcb-sync1
        libxcb-util.so.1        libxcb-util1
        libxcb-xfixes.so.0      libxcb-xfixes0
        libxcb-xkb.so.1         libxcb-xkb1
        libxkbcommon-x11.so.0   libxkbcommon-x11-0
    """,
    "windows on a Wayland display (Qt)": """
        libwayland-client.so.0  libwayland-client0
        libwayland-cursor.so.0  libwayland-cursor0
        libwayland-egl.so.1     libwayland-egl1
    """,
    "tones for athletes who cannot see a screen (PortAudio)": """
        libportaudio.so.2       libportaudio2
    """,
}
WINDOW_NEEDS = (
    *(
        Need(line.split()[0], tuple(line.split()[1:]), reason)
        for reason, lines in _LIBRARIES.items()
        for line in lines.strip().splitlines()
    ),
    Need(FONT, ("fonts-dejavu-core",), "letters in the window"),
)
TEST_NEEDS = (
    Need("Xvfb", ("xvfb",), "the tests' virtual display"),
    Need("xauth", ("xauth",), "the tests' virtual display"),
    Need("xrandr", ("x11-xserver-utils",), "a second monitor that is taken away"),
    Need("pdftotext", ("poppler-utils",), "reading a printed plan"),
)


def main(arguments: list[str] | None = None) -> int:
    """Sets up what is missing, then runs what was asked for.

    Returns:
        The exit code of what was run; 1 when the set-up failed.
    """
    options = _parser().parse_args(arguments)
    try:
        check_python(sys.version_info[:2])
        check_clone(ROOT)
        if sys.platform == "linux":
            needs = needs_of(options.command, with_venv=not environment_works(ROOT))
            supply(needs, allowed=not options.no_system)
        ensure_environment(ROOT)
        ensure_installed(ROOT, extra="sound" if options.command == "demo" else "dev")
        return _run(options.command, options.rest)
    except SetupError as fault:
        _say(str(fault))
        return 1
    except KeyboardInterrupt:
        return 130


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m biofeedback.bootstrap",
        description="Set up what is missing in this clone, then run it.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "--no-system",
        action="store_true",
        help="install no system packages, only say which are missing",
    )
    parser.add_argument("command", choices=("demo", "test", "prepare"))
    parser.add_argument(
        "rest",
        nargs=argparse.REMAINDER,
        help="handed on to `biofeedback demo` or to pytest",
    )
    return parser


def _say(text: str) -> None:
    print(f"bootstrap: {text}", flush=True)


# Before anything else


def check_python(version: tuple[int, int]) -> None:
    """Refuses a Python that is too old, and names a newer one if there is any.

    Raises:
        SetupError: `version` is older than `PYTHON_OLDEST`.
    """
    if version >= PYTHON_OLDEST:
        return
    newer = [f"python3.{minor}" for minor in range(14, PYTHON_OLDEST[1] - 1, -1)]
    found = next((name for name in newer if shutil.which(name)), None)
    advice = (
        f"This machine has {found}: run `{found} -m biofeedback.bootstrap ...`."
        if found
        else "Debian 12, Ubuntu 24.04 and python.org have one."
    )
    raise SetupError(
        f"Python {PYTHON_OLDEST[0]}.{PYTHON_OLDEST[1]} or newer is needed and this "
        f"is {version[0]}.{version[1]}. {advice}"
    )


def check_clone(root: Path) -> None:
    """Refuses to run from an installed package.

    Raises:
        SetupError: there is no project around this file.
    """
    if not (root / "pyproject.toml").is_file():
        raise SetupError(
            f"{root} is no clone of the project: pyproject.toml is missing. Run this "
            "from the folder that was cloned."
        )


# The operating system


def needs_of(command: str, *, with_venv: bool) -> tuple[Need, ...]:
    """What the operating system must have for `command`."""
    needs: tuple[Need, ...] = WINDOW_NEEDS
    if command != "demo":
        needs = (*needs, *TEST_NEEDS)
    if with_venv:
        # Debian takes ensurepip out of Python and into a package of its own.
        names = (f"python3.{sys.version_info[1]}-venv", "python3-venv")
        needs = (*needs, Need(VENV, names, "the program's own Python environment"))
    return needs


def is_there(need: Need) -> bool:
    """Whether `need` is met, asked of the loader, the path or the font folders."""
    if need.what == FONT:
        return any(_font_files())
    if need.what == VENV:
        return importlib.util.find_spec("ensurepip") is not None
    if ".so" not in need.what:
        return shutil.which(need.what) is not None
    try:
        ctypes.CDLL(need.what)
    except OSError:
        return False
    return True


def _font_files() -> list[Path]:
    folders = ("/usr/share/fonts", "/usr/local/share/fonts", "~/.local/share/fonts")
    return [
        path
        for folder in folders
        for path in Path(folder).expanduser().rglob("*.[ot]tf")
    ]


def supply(needs: tuple[Need, ...], *, allowed: bool) -> list[Need]:
    """Installs what is missing, where that can be done.

    Args:
        needs: what must be there.
        allowed: whether system packages may be installed.

    Returns:
        What is still missing; the person was told what to do about it.
    """
    missing = [need for need in needs if not is_there(need)]
    if not missing:
        return []
    _say("this machine lacks, and the program needs:")
    for reason in dict.fromkeys(need.reason for need in missing):
        lacking = [need.what for need in missing if need.reason == reason]
        _say(f"  for {reason}: {', '.join(lacking)}")
    if shutil.which("apt-get") is None:
        _say("Without apt-get this cannot be installed from here. Install the packages")
        _say("of your system that hold these files, then run this again.")
        return missing
    prefix = apt_prefix()
    if not allowed or prefix is None:
        _say("Not installed from here. Someone with the rights can run:")
        _say("  " + install_line(missing))
        return missing
    _install(missing, prefix)
    importlib.invalidate_caches()
    return [need for need in missing if not is_there(need)]


def apt_prefix() -> list[str] | None:
    """What to put before `apt-get` to have the rights, or None without any."""
    if os.geteuid() == 0:
        return []
    if shutil.which("sudo") is None:
        return None
    # Without a terminal nobody can type a password: fail at once, do not wait.
    can_type = sys.stdin is not None and sys.stdin.isatty()
    return ["sudo"] if can_type else ["sudo", "-n"]


def package_names(missing: list[Need]) -> list[str]:
    """One package for each need, by the name that this system's apt knows."""
    names = dict.fromkeys(
        next((name for name in need.packages if _apt_knows(name)), need.packages[-1])
        for need in missing
    )
    return list(names)


def _apt_knows(name: str) -> bool:
    # A name that only survives as an alias has no record of its own to show.
    shown = subprocess.run(
        ["apt-cache", "show", name], capture_output=True, check=False
    )
    return shown.stdout.strip() != b""


def install_line(missing: list[Need]) -> str:
    """The command for a person to run."""
    return "sudo apt-get update && sudo apt-get install --no-install-recommends " + (
        " ".join(package_names(missing))
    )


def _install(missing: list[Need], prefix: list[str]) -> None:
    wait = f"DPkg::Lock::Timeout={APT_LOCK_WAIT_S}"
    quietly = ["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-qq", "-o", wait]
    apt = [*prefix, *quietly]
    _say("reading the package lists (apt-get update) ...")
    subprocess.run([*apt, "update"], check=False)
    names = package_names(missing)
    _say("installing with apt-get: " + " ".join(names))
    command = [*apt, "install", "--yes", "--no-install-recommends", *names]
    # apt's own account of what it unpacks goes to nobody; its errors are shown.
    done = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
    if done.returncode != 0:
        _say("apt-get could not install them. What it said stands above.")
        _say("Someone with the rights and a connection can run:")
        _say("  " + install_line(missing))


# The Python environment


def interpreter(root: Path, *, windows: bool = os.name == "nt") -> Path:
    """The Python of the clone's own environment."""
    folder = root / ".venv"
    return folder / "Scripts" / "python.exe" if windows else folder / "bin" / "python"


def environment_works(root: Path) -> bool:
    """Whether the environment is there, whole, and of a Python that is new enough."""
    python = interpreter(root)
    if not python.exists():
        return False
    ask = f"import sys, pip; sys.exit(sys.version_info < {PYTHON_OLDEST})"
    try:
        done = subprocess.run(
            [str(python), "-c", ask], capture_output=True, check=False
        )
    except OSError:  # for example copied from another machine
        return False
    return done.returncode == 0


def ensure_environment(root: Path) -> None:
    """Makes `.venv` in the clone if it is missing or broken.

    Raises:
        SetupError: Python cannot make one here.
    """
    if environment_works(root):
        return
    if importlib.util.find_spec("ensurepip") is None:
        raise SetupError(
            "Python's ensurepip is missing, so the program's own environment cannot "
            "be made. On Debian and Ubuntu: sudo apt-get install python3-venv"
        )
    _say(f"making a Python environment in {root / '.venv'} ...")
    # --clear: what is there was found missing or broken.
    command = [sys.executable, "-m", "venv", "--clear", str(root / ".venv")]
    if subprocess.run(command, check=False).returncode != 0:
        raise SetupError(
            f"the environment could not be made in {root}. Python's words stand above; "
            "look at free space and at the rights to write there."
        )


def stamp_path(root: Path) -> Path:
    """The file that says for what the environment was last filled."""
    return root / ".venv" / "installed-for.txt"


def stamp_text(root: Path, extra: str) -> str:
    """Changes when what is to be installed changes, or when the clone moves."""
    project = (root / "pyproject.toml").read_bytes()
    digest = hashlib.sha256(project + bytes(root)).hexdigest()
    return f"{digest} {extra or 'run'}\n"


def is_installed(root: Path, extra: str) -> bool:
    """Whether the project and `extra` are in the environment, by its stamp."""
    try:
        stamp = stamp_path(root).read_text(encoding="ascii")
    except (OSError, UnicodeDecodeError):
        return False
    return stamp in {stamp_text(root, extra), stamp_text(root, "dev")}


def ensure_installed(root: Path, *, extra: str) -> None:
    """Installs the project, editable, when `pyproject.toml` is not yet met.

    Raises:
        SetupError: pip failed.
    """
    if is_installed(root, extra):
        return
    stamp_path(root).unlink(missing_ok=True)
    _say("installing the Python packages (about 150 MB to fetch the first time) ...")
    target = f"{root}[{extra}]" if extra else str(root)
    command = [
        *(str(interpreter(root)), "-m", "pip", "install"),
        *("--disable-pip-version-check", "--no-input"),
        *(() if sys.stdout.isatty() else ("--quiet",)),
        *("--editable", target),
    ]
    # A person's pip may be set to install for the user; that fails in here.
    environment = {**os.environ, "PIP_USER": "0"}
    if subprocess.run(command, env=environment, check=False).returncode != 0:
        raise SetupError(
            "pip could not install the Python packages. Its own words stand above. "
            "Most often there is no internet connection, or a proxy that pip does "
            "not know of. Run the same command again when it is there."
        )
    stamp_path(root).write_text(stamp_text(root, extra), encoding="ascii")


# The run


def _run(command: str, rest: list[str]) -> int:
    python = str(interpreter(ROOT))
    if command == "prepare":
        _say(f"ready: {python}")
        return 0
    call = [python, "-m", "biofeedback", "demo", *rest]
    if command == "test":
        # A file keeps to one process, for what its tests share. A process that was
        # ended because it hung is not begun anew: it would hang at the same test.
        on_all_cores = [
            *("--numprocesses=auto", "--dist=loadfile"),
            "--max-worker-restart=0",
        ]
        call = [python, "-m", "pytest", *(rest or on_all_cores)]
        os.chdir(ROOT)
    if os.name != "nt":
        # In place of this process: exit codes and signals need nobody in between.
        os.execv(python, call)  # noqa: S606  no shell is wanted
    # On Windows exec would give the console back before the program ends.
    return subprocess.run(call, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
