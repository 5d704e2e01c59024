"""The pace: when frames of samples come, and how long they may wait to be read.

Of a quick board several come to one picture, and six that are judged at once cost
little more than one. So in a set the reader rests from one look of the window to
shortly before the next; then it reads what has come, together with the first frame that
follows, and the window draws both. Rules:

* Frames wait only where the next one comes soon and is waited for: it tells how old
  the picture is. Else the newest would look younger than it is.
* Where nobody knows when the window looks, nothing waits.
"""

from __future__ import annotations

from biofeedback.rig.handoff import EARLY_NS

NS = 1_000_000_000
FRAME_NS = round(NS / 60)
AWAKE_NS = EARLY_NS
"""So long before the window looks the reader is awake, and reads what has waited."""
FOLLOWS_NS = 4_000_000
"""Where the next frame comes within this time, what has waited is judged with it: the
window, which waits no longer than that, then meets one block in place of two."""
MEAN_OF = 16
TRIED_AGAIN = 256
"""On a line that brings frames in bursts, as some adapters do, a rest is tried seldom,
once in some dozens of bursts: else each burst would wait for the next one. What was
found out is forgotten at this rate."""


class Pace:
    """Follows when something was read, and says how long to rest.

    Attributes:
        read_ns: when something was read last.
        rests: whether the reader has rested for this turn, and reads on after it.
    """

    def __init__(self) -> None:
        self.read_ns = 0
        self.rests = False
        self._piece_ns = float(NS)  # mean time between frames of samples
        self._follow_ns = 0.0  # mean time until what follows has come
        self._judged_ns = 0

    @property
    def due_ns(self) -> int:
        """When the next frame of samples should come."""
        return self._judged_ns + round(self._piece_ns)

    def rest_ns(self, *, in_set: bool, look_ns: int, now_ns: int) -> int:
        """How long to rest before the next turn, a frame at most; 0 for not.

        Args:
            look_ns: when the window looks next; past where it waits or is late.
        """
        self.rests = False
        if not in_set or self._piece_ns >= FOLLOWS_NS:
            return 0
        if self._judged_ns >= look_ns - AWAKE_NS:
            look_ns += FRAME_NS  # there is already what that look will find
        rest_ns = look_ns - AWAKE_NS - now_ns
        if rest_ns <= 0:
            return 0
        if self._follow_ns >= FOLLOWS_NS:
            self._follow_ns -= self._follow_ns / TRIED_AGAIN
            return 0
        self.rests = True
        return rest_ns

    def read_on(self, *, now_ns: int, came: bool) -> None:
        """The read after that of a rest has ended, and has brought something or not."""
        self._follow_ns += (now_ns - self.read_ns - self._follow_ns) / MEAN_OF
        if came:
            self.read_ns = now_ns

    def judged(self, frames: int) -> None:
        """So many frames of samples were among what was read last."""
        each_ns = (self.read_ns - self._judged_ns) / frames
        self._piece_ns += (min(each_ns, NS) - self._piece_ns) / MEAN_OF
        self._judged_ns = self.read_ns
