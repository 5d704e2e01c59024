"""What can go wrong, split by who must act.

Three kinds, and no more:

* `UserError`: the person at the desk can put it right; the message says how.
* `RigError`: the board, the cells or the cable; the message says what to look at.
* anything else is a bug in this program and may show a traceback.

A message is one or two plain sentences. It names the file, line, port or field. It is
a `Phrase`, checked by mypy, so that the window can say it in its own language.
"""

from biofeedback.phrase import Phrase, joined, phrase, sentences

NOTHING = phrase("")
"""No next step: the message says it all."""


class BiofeedbackError(Exception):
    """A foreseeable fault, told in words.

    Attributes:
        message: what happened, naming the place.
        next_step: what to do about it; may be empty where the message says it.
    """

    def __init__(self, message: Phrase, next_step: Phrase = NOTHING) -> None:
        super().__init__(message, next_step)
        self.message = message
        self.next_step = next_step

    @property
    def words(self) -> Phrase:
        """What happened and what to do about it."""
        return sentences(self.message, self.next_step)

    def __str__(self) -> str:
        return self.words


class UserError(BiofeedbackError):
    """Bad input or a wrong setting: the person at the desk acts."""


class FieldError(UserError):
    """A value that does not fit, in a named field.

    Attributes:
        field: dotted name of the field, for example ``band.lower_n``.
    """

    def __init__(
        self, field: str, problem: Phrase, next_step: Phrase = NOTHING
    ) -> None:
        super().__init__(joined(": ", (field, problem)), next_step)
        self.field = field
        self.problem = problem


class FileError(UserError):
    """A file that cannot be read or written as asked.

    Attributes:
        path: the file.
        place: line, byte or column in it; empty where the whole file is meant.
    """

    def __init__(
        self,
        path: object,
        problem: Phrase,
        *,
        place: Phrase = NOTHING,
        next_step: Phrase = NOTHING,
    ) -> None:
        where = joined(", ", filter(None, (f"{path}", place)))
        super().__init__(joined(": ", (where, problem)), next_step)
        self.path = str(path)
        self.place = place
        self.problem = problem


class RigError(BiofeedbackError):
    """The board, a cell or the cable is not as it should be."""
