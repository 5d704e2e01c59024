"""Tables in: the names by which the rest of the program knows them."""

from biofeedback.logbook.table_import import Imported, import_table
from biofeedback.logbook.table_source import NEWTONS, TIME_UNITS_S, Choice, forces_in

__all__ = [
    "NEWTONS",
    "TIME_UNITS_S",
    "Choice",
    "Imported",
    "forces_in",
    "import_table",
]
