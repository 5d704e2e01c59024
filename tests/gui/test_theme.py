"""Contrast by WCAG 2.2, checked against published pairs and for each palette."""

from __future__ import annotations

import colorsys

import pytest

from biofeedback.gui.theme import DAY, NIGHT, Theme, contrast

THEMES = pytest.mark.parametrize("theme", [DAY, NIGHT], ids=lambda theme: theme.name)


@pytest.mark.parametrize(
    ("colour", "on_white", "on_black"),
    [
        # Okabe & Ito, Color Universal Design; ratios by the WCAG 2.2 formula.
        ("#000000", 21.00, 1.00),
        ("#E69F00", 2.25, 9.32),
        ("#56B4E9", 2.31, 9.10),
        ("#009E73", 3.42, 6.14),
        ("#F0E442", 1.32, 15.88),
        ("#0072B2", 5.19, 4.05),
        ("#D55E00", 3.87, 5.43),
        ("#CC79A7", 3.06, 6.86),
    ],
)
def test_contrast_agrees_with_the_table(
    colour: str, on_white: float, on_black: float
) -> None:
    assert contrast(colour, "#FFFFFF") == pytest.approx(on_white, abs=0.005)
    assert contrast("#000000", colour) == pytest.approx(on_black, abs=0.005)


def test_the_greys_on_either_side_of_the_limits() -> None:
    # The lightest greys on white that pass 4.5:1 and 3:1, and the next ones.
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.542225, abs=1e-6)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.478089, abs=1e-6)
    assert contrast("#949494", "#FFFFFF") == pytest.approx(3.033470, abs=1e-6)
    assert contrast("#959595", "#FFFFFF") == pytest.approx(2.995346, abs=1e-6)


@THEMES
def test_text_reaches_4_5(theme: Theme) -> None:
    for text, grounds in (
        (theme.ink, (theme.paper, theme.wash, theme.dense, theme.field)),
        (theme.quiet, (theme.paper, theme.field)),
        (theme.paper, (theme.ink, theme.edge)),  # the figure on the filled bar
    ):
        for ground in grounds:
            assert contrast(text, ground) >= 4.5, (text, ground)


@THEMES
def test_lines_reach_3(theme: Theme) -> None:
    for line, grounds in (
        (theme.edge, (theme.paper, theme.wash, theme.dense, theme.field)),
        (theme.hatch, (theme.paper, theme.wash)),
        (theme.ink, (theme.dense, theme.wash, theme.paper)),
    ):
        for ground in grounds:
            assert contrast(line, ground) >= 3.0, (line, ground)


@THEMES
def test_there_is_no_red_and_no_green(theme: Theme) -> None:
    for role in ("paper", "ink", "quiet", "wash", "dense", "edge", "hatch", "field"):
        colour = theme.colour(role)
        red, green, blue = colour.redF(), colour.greenF(), colour.blueF()
        hue, _, saturation = colorsys.rgb_to_hls(red, green, blue)
        # Hue in degrees: paper near 45, slate near 205; nothing else has colour.
        slate_or_paper = 30 <= hue * 360 <= 60 or 190 <= hue * 360 <= 225
        assert saturation < 0.02 or slate_or_paper, role
