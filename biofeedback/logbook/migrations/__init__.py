"""How a logbook comes from one schema to the next; one module a step."""
