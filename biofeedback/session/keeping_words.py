"""What a backup did, in sentences for people."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase, numbered, phrase

if TYPE_CHECKING:
    from biofeedback.session.keeping import Made


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
