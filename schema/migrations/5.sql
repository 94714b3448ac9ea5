-- Layout 4 to layout 5: what was kept and not answered, and the last whole check.

-- Entries that were kept while the answer to their command could not be printed: the same command
-- again is asked about. A row goes when that was done.
CREATE TABLE unanswered (
    entry INTEGER NOT NULL,
    day TEXT NOT NULL,
    command TEXT NOT NULL,   -- its words, one a line
    CONSTRAINT unanswered_key PRIMARY KEY (entry),
    CONSTRAINT unanswered_of_an_entry FOREIGN KEY (entry) REFERENCES entry (number),
    CONSTRAINT unanswered_command_not_empty CHECK (command <> ''),
    CONSTRAINT unanswered_day_in_the_calendar CHECK (
        day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND day = date(day, '+0 days'))
) STRICT;

-- The day on which the whole file was last checked and found sound; no row before the first.
CREATE TABLE whole_check (
    number INTEGER NOT NULL,
    day TEXT NOT NULL,
    version TEXT NOT NULL,   -- of skeinfall
    CONSTRAINT whole_check_key PRIMARY KEY (number),
    CONSTRAINT whole_check_only_the_last CHECK (number = 1),
    CONSTRAINT whole_check_version_not_empty CHECK (version <> ''),
    CONSTRAINT whole_check_day_in_the_calendar CHECK (
        day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND day = date(day, '+0 days'))
) STRICT;

-- Layout 1 lost the row of an id that was never used. Every number has its row from here on, so that a
-- missing one shows that rows were taken away; the id stays one that no new skein is given.
WITH RECURSIVE gap (number, ends) AS (
        SELECT before + 1, number
        FROM (SELECT number, lag(number, 1, 0) OVER (ORDER BY number) AS before FROM skein
            UNION ALL
            SELECT seq + 1, coalesce((SELECT max(number) FROM skein), 0)
            FROM sqlite_sequence WHERE name = 'skein')
        WHERE before + 1 < number AND number - before <= 1000000
        UNION ALL
        SELECT number + 1, ends FROM gap WHERE number + 1 < ends)
INSERT INTO skein (number, id)
SELECT number, CASE WHEN 's' || number IN (SELECT id FROM skein) THEN 'no skein ' || number
    ELSE 's' || number END
FROM gap;
