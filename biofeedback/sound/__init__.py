"""Sound for athletes who cannot see a screen: error, not level.

Silent inside the band, slow low pulses below it, quick high pulses above, a chime at
the end. Nothing is spoken.
"""
