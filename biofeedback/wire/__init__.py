"""The wire: bytes to frames and back, without I/O.

`hardware/PROTOCOL.md` is the norm. One framing serves the serial line and the
recording, and one decoder reads both.
"""
