from __future__ import annotations

import numpy as np

from biofeedback.gui.band_history import BandHistory, Step
from biofeedback.training.band import Band

LOW, HIGH = Band(10, 20), Band(30, 40)


def test_each_time_has_the_band_that_was_in_force() -> None:
    history = BandHistory()
    history.change(Step(1.0, LOW, judged=True))
    history.change(Step(2.0, HIGH, judged=True))
    history.change(Step(3.0, None, judged=False))
    times_s = np.array([0.5, 1.0, 1.9, 2.0, 2.9, 3.0, 9.0])
    bands = [history[int(index)].band for index in history.at(times_s)]
    assert bands == [None, LOW, LOW, HIGH, HIGH, None, None]


def test_what_is_dated_back_replaces_what_followed() -> None:
    history = BandHistory()
    history.change(Step(1.0, LOW, judged=True))
    history.change(Step(2.0, HIGH, judged=True))
    assert history.change(Step(1.5, None, judged=False))
    assert history.newest.band is None
    assert history[int(history.at(np.array([2.5]))[0])].band is None


def test_the_same_again_is_no_change() -> None:
    history = BandHistory()
    assert history.change(Step(1.0, LOW, judged=True))
    assert not history.change(Step(2.0, LOW, judged=True))


def test_old_steps_are_forgotten_but_not_the_one_in_force() -> None:
    history = BandHistory()
    for i in range(100):
        history.change(Step(float(i), Band(i, i + 10.0), judged=True))
    history.forget_before(97.5)
    assert history[int(history.at(np.array([97.6]))[0])].band == Band(97, 107)
    assert history[int(history.at(np.array([99.5]))[0])].band == Band(99, 109)
    assert history.after(1) is not None
    assert history.after(4) is None
