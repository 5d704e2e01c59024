"""The rig: ports, sources and the acquisition thread."""
