"""Names and recordings encrypted at rest, where a practice has asked for it.

`FORMAT.md` beside this file is the norm, byte by byte. Rules that hold in the package:

* The library is loaded only where something sealed is read or written.
* No key, passphrase or recovery code is ever logged, printed but once, or part of a
  fault's words.
* What cannot be opened is told; nothing of it is guessed or passed over in silence.
"""
