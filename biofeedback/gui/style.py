"""The theme in the style sheet language of Qt, for the desk and the review."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from biofeedback.gui.theme import Theme

_SHEET = """
QWidget {{ background: {paper}; color: {ink}; font-size: {base}px; }}
QLabel {{ background: transparent; }}
QLabel#who {{ font-size: {who}px; font-weight: bold; }}
QLabel#summary {{ color: {quiet}; font-size: {small}px; }}
QLabel#summary[wrong="true"] {{ color: {ink}; font-weight: bold; }}
QLabel#doubt {{ font-size: {small}px; }}
QLabel#look {{ font-weight: bold; }}
QLabel#prompt {{ font-size: {prompt}px; font-weight: bold;
    border-left: 5px solid {edge}; padding: 6px 10px; }}
QProgressBar {{ background: {field}; border: 1px solid {edge}; border-radius: 3px; }}
QProgressBar::chunk {{ background: {edge}; }}
QLabel#error {{ font-weight: bold; font-size: {small}px;
    border-left: 4px solid {ink}; padding-left: 5px; }}
QLabel#earlier {{ color: {quiet}; font-size: {small}px; }}
QLabel#earlier[advice="true"] {{ color: {ink}; font-weight: bold; }}
QLineEdit[wrong="true"] {{ border-left: 7px solid {ink}; }}
QLabel#told {{ border: 1px solid {edge}; border-left: 5px solid {edge};
    padding: 1px 6px; font-size: {small}px; }}
QLabel#message {{ border: 1px solid {edge}; border-left: 5px solid {edge};
    padding: 3px 6px; }}
QFrame#rule {{ background: {edge}; }}
QLineEdit, QComboBox {{ background: {field}; color: {ink};
    border: 1px solid {edge}; border-radius: 3px; padding: 2px 5px;
    min-height: {line}px; selection-background-color: {edge};
    selection-color: {paper}; }}
QComboBox {{ combobox-popup: 0; }}
QLineEdit:focus, QComboBox:focus, QPushButton:focus {{ border: 2px solid {ink};
    padding: 1px 4px; }}
QLineEdit:disabled, QComboBox:disabled, QCheckBox:disabled {{ color: {quiet};
    background: {paper}; border: 1px dashed {edge}; }}
QCheckBox:disabled {{ border: none; }}
QCheckBox::indicator {{ width: 12px; height: 12px; border: 1px solid {edge};
    background: {field}; }}
QCheckBox::indicator:checked {{ background: {ink}; }}
QCheckBox::indicator:focus {{ border: 2px solid {ink}; }}
QComboBox QAbstractItemView::item {{ min-height: {line}px; padding: 1px 5px; }}
QComboBox QAbstractItemView {{ outline: none; background: {field}; color: {ink};
    selection-background-color: {edge}; selection-color: {paper}; }}
QPushButton {{ background: {wash}; color: {ink}; border: 1px solid {edge};
    border-radius: 3px; padding: 2px 5px; min-height: {line}px; }}
QPushButton:pressed {{ background: {edge}; color: {paper}; }}
QPushButton:disabled {{ background: {paper}; color: {quiet};
    border: 1px dashed {edge}; }}
QPushButton#view:checked {{ background: {ink}; color: {paper}; }}
QPushButton#pain {{ padding: 2px 0; min-width: {line}px; }}
QPushButton#page {{ padding: 2px 3px; font-size: {small}px; }}
QPushButton#line {{ padding: 2px 5px; font-size: {small}px; text-align: left; }}
QPushButton#pain:checked {{ background: {ink}; color: {paper}; font-weight: bold;
    border: 3px double {paper}; padding: 0; min-width: {ticked}px; }}
QWidget#answers {{ border: 1px solid {paper}; border-radius: 3px; }}
QWidget#answers:focus {{ border: 1px solid {ink}; }}
QFrame#card {{ border: 1px solid {edge}; border-radius: 3px; }}
QSlider::groove:horizontal {{ background: {wash}; border: 1px solid {edge};
    height: 6px; border-radius: 3px; }}
QSlider::handle:horizontal {{ background: {ink}; width: 12px; margin: -6px 0;
    border-radius: 3px; }}
QSlider:focus {{ border: 1px solid {ink}; border-radius: 3px; }}
QPushButton#start {{ font-size: {start}px; font-weight: bold; }}
QPushButton#take {{ font-size: {who}px; font-weight: bold;
    min-height: {take}px; }}
QPushButton#stop {{ font-size: {stop}px; font-weight: bold; background: {ink};
    color: {paper}; border: 3px solid {ink}; }}
QPushButton#stop:pressed {{ background: {edge}; }}
QToolTip {{ background: {field}; color: {ink}; border: 1px solid {edge}; }}
QListWidget, QPlainTextEdit {{ background: {field}; color: {ink};
    border: 1px solid {edge}; border-radius: 3px; }}
QListWidget:focus, QPlainTextEdit:focus {{ border: 2px solid {ink}; }}
QListWidget::item {{ padding: 5px 6px; }}
QListWidget#legs::item {{ padding: 2px 6px; }}
QListWidget::item:selected {{ background: {edge}; color: {paper}; }}
QTableView {{ background: {field}; color: {ink}; gridline-color: {edge};
    border: 1px solid {edge}; selection-background-color: {edge};
    selection-color: {paper}; alternate-background-color: {paper}; }}
QHeaderView::section {{ background: {wash}; color: {ink}; border: none;
    border-right: 1px solid {edge}; border-bottom: 1px solid {edge};
    padding: 3px 6px; }}
QScrollBar {{ background: {paper}; border: none; }}
QScrollBar:vertical {{ width: {bar}px; }}
QScrollBar:horizontal {{ height: {bar}px; }}
QScrollBar::handle {{ background: {edge}; border-radius: 3px; margin: 1px; }}
QScrollBar::handle:vertical {{ min-height: {take}px; }}
QScrollBar::handle:horizontal {{ min-width: {take}px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: {wash}; }}
QScrollArea, QScrollArea > QWidget > QWidget {{ background: {paper}; border: none; }}
"""


def style_sheet(theme: Theme, *, size: float = 1.0) -> str:
    """The style sheet of a theme.

    Args:
        size: of all type, 1 for a window 720 pixels high.
    """
    sizes = {
        "base": 13,
        "small": 12,
        "who": 17,
        "start": 18,
        "prompt": 26,
        "stop": 22,
        "line": 18,
        "ticked": 14,  # its edge is wider by the rest
        "take": 28,
        "bar": 9,
    }
    return _SHEET.format(
        paper=theme.paper,
        ink=theme.ink,
        quiet=theme.quiet,
        edge=theme.edge,
        wash=theme.wash,
        field=theme.field,
        **{name: round(size * pixels) for name, pixels in sizes.items()},
    )
