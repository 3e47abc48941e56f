"""What the tests of corrections share: putting one in place, and what it names."""

from dataclasses import replace

from tally.job.entries.correction import Correction
from tally.job.entry import to_fields
from tally.job.fold import checked_correction, fold, fold_on
from tally.job.stored import to_fields as plain


def corrected(told, of, instead=None, reason="written down wrongly"):
    """Return the job with a correction put in place; it must be one that can be."""
    entry = told.makes(Correction, of=of, reason=reason, instead=instead)
    fold_on(told.job, entry)
    checked_correction(tuple(told.entries), entry)
    told.entries.append(entry)
    told.job = fold(told.entries)
    return told.job


def named(job):
    """Return the entries that an open exception says no longer fit."""
    return [each.seq for each in job.open_exceptions() if "no longer fits" in each.what]


def changed(told, seq, **fields):
    """Return the fields of an entry with some of them changed."""
    own = ("kind", "by", "at", "seq")
    kept = {key: value for key, value in to_fields(told.entries[seq - 1]).items() if key not in own}
    return {**kept, **fields}


def set_up(told, **fields):
    """Return the set-up of the first entry with some fields changed."""
    return {"setup": plain(replace(told.entries[0].setup, **fields))}
