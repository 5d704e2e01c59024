"""Labels in names of BIDS: letters and digits only, and never one for two.

Codes and names of tasks lose what may not stand in a label. What would then be the
same as another, on a file system that does not tell capitals from small letters too,
gets a number.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field

_NOT_IN_LABELS = re.compile(r"[^A-Za-z0-9]+")
LABEL_MAX = 40


@dataclass(slots=True)
class Labels:
    """Labels of one sort, each given once.

    Attributes:
        otherwise: the label where nothing of the text is left.
        given: the label of each key so far.
    """

    otherwise: str
    given: dict[str, str] = field(default_factory=dict)

    def label(self, key: str, text: str = "") -> str:
        """The label of this key, always the same.

        Args:
            text: what it is made of; the key itself where none is given.
        """
        if key not in self.given:
            self.given[key] = self._free(plain_label(text or key) or self.otherwise)
        return self.given[key]

    def _free(self, wanted: str) -> str:
        taken = {label.casefold() for label in self.given.values()}
        label, number = wanted, 1
        while label.casefold() in taken:
            number += 1
            label = f"{wanted}x{number}"
        return label


def plain_label(text: str) -> str:
    """Letters and digits of a text; letters lose their marks."""
    plain = unicodedata.normalize("NFKD", text)
    kept = "".join(letter for letter in plain if not unicodedata.combining(letter))
    return _NOT_IN_LABELS.sub("", kept)[:LABEL_MAX]
