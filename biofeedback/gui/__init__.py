"""The window: Qt, and no rule of the domain.

Widgets are given what to show and never decide it. The main thread owns all of
them and pulls once a frame from the session, the only door to rig and files.
"""
