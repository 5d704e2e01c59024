"""What a backup and an erasure do and did, in sentences for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.logbook.erasable import copies_out_of_reach
from biofeedback.logbook.erasure import OUT_OF_REACH
from biofeedback.phrase import Phrase, joined, numbered, phrase

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.session.keeping import Erasable, Erased, Made


def made_words(made: Made) -> tuple[Phrase, ...]:
    """What a backup did, in sentences."""
    done = made.done
    told = [
        numbered(
            made.recordings,
            "The backup is made and was read back whole: the logbook and {count} "
            "recording, {size_mb:.1f} MB.",
            "The backup is made and was read back whole: the logbook and {count} "
            "recordings, {size_mb:.1f} MB.",
            size_mb=made.size_bytes / 1e6,
        ),
        numbered(
            done.copied,
            "Copied now: {count} file; as before: {same}.",
            "Copied now: {count} files; as before: {same}.",
            same=done.same,
        )
        if done.copied
        else phrase("Nothing had changed since the last one."),
    ]
    if done.removed:
        told.append(
            numbered(
                done.removed,
                "{count} recording was taken out, as it was erased here since.",
                "{count} recordings were taken out, as they were erased here since.",
            )
        )
    if done.gone:
        told.append(
            numbered(
                done.gone,
                "{count} recording is in the backup and not here any more.",
                "{count} recordings are in the backup and not here any more.",
            )
        )
    told.append(
        phrase(
            "It holds names and health data and is not encrypted: keep it as safe as "
            "this computer."
        )
        if made.clear
        else phrase(
            "Names and recordings in it are sealed; codes, forces and dates are not."
        )
    )
    if made.same_disk:
        told.append(
            phrase(
                "It is on the same disk as the logbook: should that disk fail, both "
                "are gone. Another disk is better."
            )
        )
    return tuple(told)


def would_go_words(found: Erasable) -> tuple[Phrase, ...]:
    """What an erasure takes, and what it cannot reach, one line each."""
    of = found.found
    told = [
        phrase(
            "Of {who} there would go, for good: recordings {recordings}, rows of the "
            "logbook {rows}, reports {reports}.",
            who=", ".join((of.code, *of.names)),
            recordings=found.recordings,
            rows=found.rows,
            reports=len(of.reports),
        )
    ]
    if of.copies:
        told.append(
            numbered(
                len(of.copies),
                "Cleared as well: {count} copy, {places}.",
                "Cleared as well: {count} copies, {places}.",
                places=", ".join(str(copy.base) for copy in of.copies),
            )
        )
    return (*told, *of.unread, *_not_reached(copies_out_of_reach(of)))


def erased_words(code: str, done: Erased) -> tuple[Phrase, ...]:
    """What an erasure did, one line each."""
    told = [
        phrase(
            "{code} is erased, also in copies: recordings {recordings}, rows {rows}, "
            "reports {reports}; backups cleared: {backups}.",
            code=code,
            recordings=done.recordings,
            rows=done.rows,
            reports=done.reports,
            backups=done.backups,
        )
    ]
    if done.left:
        told.append(phrase("Still there, or not cleared; look at these yourself:"))
        told += map(_point, done.left)
    else:
        told.append(
            phrase(
                "Neither code nor name is found any more in the program's folders and "
                "the backups it knows."
            )
        )
    return (*told, *_not_reached(done.out_of_reach))


def _not_reached(known: Iterable[Phrase]) -> tuple[Phrase, ...]:
    """What stays beyond this program: what is known, and what is so in any case."""
    return (phrase("Not reached:"), *map(_point, (*known, *OUT_OF_REACH)))


def _point(words: Phrase) -> Phrase:
    return joined("", ("• ", words))
