"""Training: what is asked of the athlete, and how it is judged.

Pure rules on sample time. Live, replay and tuning run this one implementation.
"""
