"""Work in a thread: its progress, its end, and what goes wrong in it."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import UserError
from biofeedback.phrase import phrase
from biofeedback.tuning.errand import Errand

if TYPE_CHECKING:
    from collections.abc import Callable


def over(errand: Errand[int]) -> None:
    errand._thread.join(10.0)
    assert errand.done


def test_a_result_is_there_once_the_thread_has_ended() -> None:
    go_on = threading.Event()

    def work(tell: Callable[[int, int], None]) -> int:
        tell(1, 2)
        assert go_on.wait(10.0)
        return 7

    errand = Errand(work)
    errand.start()
    early = (errand.done, errand.result)
    go_on.set()
    over(errand)
    assert early == (False, None)
    assert errand.progress == (1, 2)
    assert errand.result == 7
    assert errand.failure is None
    assert not errand.faulty


def test_it_is_given_up_where_it_tells_how_far_it_is() -> None:
    begun, asked = threading.Event(), threading.Event()

    def work(tell: Callable[[int, int], None]) -> int:
        begun.set()
        assert asked.wait(10.0)
        tell(1, 2)
        pytest.fail("it went on")

    errand = Errand(work)
    errand.start()
    assert begun.wait(10.0)
    errand.ask_to_stop()
    assert errand.stopping
    asked.set()
    errand.stop()
    assert errand.done
    assert errand.result is None
    assert errand.failure is None
    assert not errand.faulty


def test_what_was_foreseen_is_kept_for_whoever_looks() -> None:
    def work(_tell: Callable[[int, int], None]) -> int:
        raise UserError(phrase("None of these recordings can be used."))

    errand = Errand(work)
    errand.start()
    over(errand)
    assert str(errand.failure) == "None of these recordings can be used."
    assert errand.result is None


@pytest.mark.expects_log("filter bench met a fault")
def test_a_fault_of_the_program_is_logged_and_told() -> None:
    def work(_tell: Callable[[int, int], None]) -> int:
        raise ZeroDivisionError

    errand = Errand(work)
    errand.start()
    over(errand)
    assert errand.faulty
    assert errand.result is None
