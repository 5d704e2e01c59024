"""The filter bench: recordings replayed through candidate filters, and compared.

`material` reads a recording, `candidates` says what is tried, `shown` gives the force
that the athlete would have seen, `yardsticks` measures it against the zero-phase
reference, `bench` does so for many recordings at once, and `choice` recommends.

Rules:

* What a candidate shows is what the live run would have shown: design, priming and
  order are those of `conditioning`. Where scipy runs the sections for speed, a test
  holds it against the live code.
* The reference looks ahead. It is for measuring only and is never shown live.
* A recording that cannot be used is named with the reason, and the others go on.
"""
