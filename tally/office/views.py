"""The questions an office asks, as views over the books that it has gathered.

They are written once for SQLite and PostgreSQL: `instr`, `julianday` and `json_extract` are
SQLite's own, and the PostgreSQL office makes functions of these names. A line of the journal
begins with its kind, so that only the lines that are asked for are parsed.
"""

from __future__ import annotations

from tally.book.schema import VIEWS

OFFICE_VIEWS = {
    "rigs": """
        WITH said AS (
            SELECT book, seq, seq AS of_entry, json_extract(line, '$.setup.well.rig') AS rig
            FROM journal
            WHERE line LIKE '{"kind":"set up",%'
            UNION ALL
            SELECT
                book,
                seq,
                CAST(json_extract(line, '$.of') AS INTEGER),
                json_extract(line, '$.instead.setup.well.rig')
            FROM journal
            WHERE line LIKE '{"kind":"correction",%'
                AND json_extract(line, '$.instead.setup.well.name') IS NOT NULL
        ), ranked AS (
            SELECT
                book,
                rig,
                row_number() OVER (PARTITION BY book ORDER BY of_entry DESC, seq DESC) AS place
            FROM said
        )
        SELECT books.book, books.title, coalesce(ranked.rig, '') AS rig
        FROM books
        LEFT JOIN ranked ON ranked.book = books.book AND ranked.place = 1""",
    "strings_run": """
        WITH corrections AS (
            SELECT
                book,
                CAST(json_extract(line, '$.of') AS INTEGER) AS of_entry,
                json_extract(line, '$.instead') IS NULL AS struck,
                row_number() OVER (
                    PARTITION BY book, json_extract(line, '$.of') ORDER BY seq DESC
                ) AS place
            FROM journal
            WHERE line LIKE '{"kind":"correction",%'
        ), made_up AS (
            SELECT journal.book, julianday(json_extract(journal.line, '$.at')) AS day
            FROM journal
            LEFT JOIN corrections
                ON corrections.book = journal.book
                AND corrections.of_entry = journal.seq
                AND corrections.place = 1
                AND corrections.struck
            WHERE journal.line LIKE '{"kind":"item run",%' AND corrections.book IS NULL
        ), times AS (
            SELECT book, 24.0 * (max(day) - min(day)) AS hours FROM made_up GROUP BY book
        ), joints AS (
            SELECT book, count(joint) AS joints FROM items GROUP BY book
        )
        SELECT rigs.rig, rigs.book, rigs.title, joints.joints, times.hours
        FROM rigs
        JOIN joints ON joints.book = rigs.book
        JOIN times ON times.book = rigs.book""",
    "joints_an_hour": """
        SELECT
            rig,
            count(*) AS strings,
            sum(joints) AS joints,
            round(CAST(sum(hours) AS NUMERIC), 1) AS hours,
            round(CAST(sum(joints) / nullif(sum(hours), 0) AS NUMERIC), 1) AS joints_an_hour
        FROM strings_run
        GROUP BY rig
        ORDER BY rig""",
    "centralizers_missing": """
        WITH told AS (
            SELECT
                book,
                seq,
                left_by,
                left_at,
                closed_by,
                substr(what, instr(what, 'Not installed as programmed: ') + 29) AS rest
            FROM exceptions
            WHERE instr(what, 'Not installed as programmed: ') > 0
        )
        SELECT
            rigs.rig,
            rigs.title,
            told.book,
            told.seq,
            substr(told.rest, 1, instr(told.rest || '. ', '. ') - 1) AS missing,
            told.left_by,
            told.left_at,
            told.closed_by
        FROM told
        JOIN rigs ON rigs.book = told.book
        ORDER BY rigs.rig, rigs.title, told.seq""",
    "bumps_off_volume": """
        SELECT
            rigs.rig,
            rigs.title,
            steps.book,
            steps.value AS pumped_at_bump,
            exceptions.what,
            exceptions.closed_by
        FROM steps
        JOIN exceptions ON exceptions.book = steps.book AND exceptions.seq = steps.seq
        JOIN rigs ON rigs.book = steps.book
        WHERE steps.step = 'bump-volume'
        ORDER BY rigs.rig, rigs.title""",
    "open_exceptions": """
        SELECT
            rigs.rig,
            rigs.title,
            exceptions.book,
            exceptions.seq,
            exceptions.what,
            exceptions.left_by,
            exceptions.left_at
        FROM exceptions
        JOIN rigs ON rigs.book = exceptions.book
        WHERE exceptions.closed_by = ''
        ORDER BY rigs.rig, rigs.title, exceptions.seq""",
}
"""Name and query, in an order in which each can be made."""

EVERY_VIEW = {**VIEWS, **OFFICE_VIEWS}
