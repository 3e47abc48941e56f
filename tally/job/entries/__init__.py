"""The kinds of entry, by room; a room is read in when an entry first has one of its kinds.

They stand in the order in which a job comes to need them: a book that is opened early in its job
need not wait for the kinds of its end.
"""

ROOMS = (
    *("people", "pipe", "running", "correction", "rack", "steps", "passing", "calling", "watching"),
    *("weighing", "auto_fill", "signing", "readings", "records", "handing_over", "trouble", "flow"),
    *("closing", "landing", "conditioning", "mixing", "following", "pumping", "shoe", "waiting"),
)
