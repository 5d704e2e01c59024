"""A program lets go of the logbook's file, and takes it back."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import lending
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def place(tmp_path: Path) -> KeptPlace:
    return KeptPlace(tmp_path / "logbook.db", tmp_path / "recordings")


@pytest.fixture
def book(place: KeptPlace) -> Iterator[Logbook]:
    with Logbook.open(place.logbook) as opened:
        opened.add_athlete("INV-1")
        yield opened


def until_refused(book: Logbook) -> None:
    try:
        while True:
            book.athletes()
    except FileError:
        return


def test_while_it_is_lent_nobody_has_the_file_open(
    book: Logbook, place: KeptPlace
) -> None:
    """By SQLite's own lock, which is another way than the count of users."""
    assert place.in_use()
    with book.lent():
        assert not place.in_use()
    assert [each.code for each in book.athletes()] == ["INV-1"]
    assert place.in_use()


def test_who_asks_meanwhile_is_told_and_may_ask_again(book: Logbook) -> None:
    hurried = book.hurried(0.05)
    with book.lent():
        for asked in (book, hurried):
            with pytest.raises(FileError, match="being erased from the logbook"):
                asked.athletes()
            with pytest.raises(FileError, match="Try again when that is done"):
                asked.add_athlete("INV-2")
    hurried.add_athlete("INV-2")
    assert len(book.athletes()) == 2


def test_what_is_under_way_is_waited_for(book: Logbook, place: KeptPlace) -> None:
    """Another thread is within a transaction when the file is asked for."""
    within, go_on = threading.Event(), threading.Event()
    order: list[str] = []

    def read() -> None:
        with book._read():
            within.set()
            assert go_on.wait(10.0)
            order.append("read")

    def lend() -> None:
        with book.lent():
            order.append("lent" if not place.in_use() else "still open")

    reader, lender = threading.Thread(target=read), threading.Thread(target=lend)
    reader.start()
    assert within.wait(10.0)
    lender.start()
    until_refused(book)  # the lender is there as soon as others are refused
    go_on.set()
    for thread in (reader, lender):
        thread.join(10.0)
    assert order == ["read", "lent"]


def test_who_does_not_come_to_an_end_keeps_it(
    book: Logbook, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lending, "WAIT_S", 0.01)
    with book._read():
        with pytest.raises(UserError, match="in use just now"), book.lent():
            pytest.fail("it was lent in the middle of a transaction")
        assert len(book.athletes()) == 1  # and all goes on as before


def test_it_is_lent_to_one_at_a_time(book: Logbook) -> None:
    with book.lent():
        with pytest.raises(UserError, match="in use just now"), book.lent():
            pytest.fail("it was lent twice")
        with pytest.raises(FileError):
            book.athletes()
    assert len(book.athletes()) == 1
