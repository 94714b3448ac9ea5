-- Layout 1 to layout 2: a skein is explained by its movements instead of one row that is changed.
-- Nothing is known of when layout 1's skeins came and were weighed, so their days stay unknown and
-- their entry cannot be undone.

ALTER TABLE skein RENAME TO skein_1;

-- Every skein there ever was, by its id. A row stays when the skein goes, so no id comes to mean
-- another skein; it is taken up again only when everything said of it was undone.
CREATE TABLE skein (
    number INTEGER NOT NULL,
    id TEXT NOT NULL,
    CONSTRAINT skein_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT skein_id_used_once UNIQUE (id),
    CONSTRAINT skein_id_not_empty CHECK (id <> '')
) STRICT;

-- What was entered in one go, and is undone in one go.
CREATE TABLE entry (
    number INTEGER NOT NULL,
    day TEXT,                -- when it was entered; NULL when an older layout did not keep it
    undoes INTEGER,          -- the entry that this one takes back
    CONSTRAINT entry_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT entry_undoes_an_entry FOREIGN KEY (undoes) REFERENCES entry (number),
    CONSTRAINT entry_undone_once UNIQUE (undoes),
    CONSTRAINT entry_day_in_the_calendar CHECK (
        day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND day = date(day, '+0 days'))
) STRICT;

-- What can happen to a skein. sense: 1 adds yarn, -1 takes some away, 0 neither.
CREATE TABLE movement_kind (
    kind TEXT NOT NULL,
    sense INTEGER NOT NULL,
    first INTEGER NOT NULL,     -- 1: the skein begins with it, 0: comes later
    describes INTEGER NOT NULL, -- 1: a row of description goes with it
    amount TEXT NOT NULL,       -- 'none', 'reading' off a scale, 'any', 'any or all' that is left
    other INTEGER NOT NULL,     -- 1: names the skein at the other end
    meaning TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT movement_kind_key PRIMARY KEY (kind),
    CONSTRAINT movement_kind_sense_known CHECK (sense IN (-1, 0, 1)),
    CONSTRAINT movement_kind_first_yes_or_no CHECK (first IN (0, 1)),
    CONSTRAINT movement_kind_describes_yes_or_no CHECK (describes IN (0, 1)),
    CONSTRAINT movement_kind_amount_known CHECK (
        amount IN ('none', 'reading', 'any', 'any or all')),
    CONSTRAINT movement_kind_other_yes_or_no CHECK (other IN (0, 1))
) STRICT;

INSERT INTO movement_kind (kind, sense, first, describes, amount, other, meaning, source) VALUES
    ('bought', 0, 1, 1, 'none', 0, 'came into the stash, bought or as a gift',
        'common practice, no source'),
    ('wound from', 1, 1, 1, 'any', 1, 'begun with yarn wound off another skein',
        'common practice, no source'),
    ('weighed', 0, 0, 0, 'reading', 0, 'laid on a scale',
        'common practice, no source'),
    ('wound off', -1, 0, 0, 'any', 1, 'gave yarn to a new skein',
        'common practice, no source'),
    ('used in', -1, 0, 0, 'any or all', 0, 'worked into something',
        'common practice, no source'),
    ('given', -1, 0, 0, 'any or all', 0, 'left the stash for somebody else',
        'common practice, no source'),
    ('ripped back', 1, 0, 0, 'any', 0, 'work was undone and the yarn wound up again',
        'common practice, no source'),
    ('corrected', 0, 0, 1, 'none', 0, 'described anew: label, colour, lot, state, knots or note',
        'common practice, no source');

-- What happened to a skein, in the order it was entered. Rows are never changed or removed.
CREATE TABLE movement (
    number INTEGER NOT NULL,
    entry INTEGER NOT NULL,
    skein INTEGER NOT NULL,
    kind TEXT NOT NULL,
    day TEXT,                -- when it happened; NULL when not known
    amount_text TEXT,        -- NULL for all that was left, or when the kind has no amount
    amount_g REAL,
    amount_m REAL,
    scale_text TEXT,         -- the scale's step
    scale_g REAL,
    tare_text TEXT,          -- cone, bag or bowl on the scale too
    tare_g REAL,
    other INTEGER,           -- the skein at the other end
    purpose TEXT NOT NULL,   -- what it was used in or ripped back from, to whom it was given
    note TEXT NOT NULL,
    digest INTEGER,          -- over all that is said here, for skeinfall's own check; NULL: none
    CONSTRAINT movement_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT movement_in_an_entry FOREIGN KEY (entry) REFERENCES entry (number),
    CONSTRAINT movement_of_a_skein FOREIGN KEY (skein) REFERENCES skein (number),
    CONSTRAINT movement_kind_known FOREIGN KEY (kind) REFERENCES movement_kind (kind),
    CONSTRAINT movement_other_is_a_skein FOREIGN KEY (other) REFERENCES skein (number),
    CONSTRAINT movement_other_is_another CHECK (other <> skein),
    CONSTRAINT movement_day_in_the_calendar CHECK (
        day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND day = date(day, '+0 days')),
    CONSTRAINT movement_amount_text_not_empty CHECK (amount_text <> ''),
    CONSTRAINT movement_amount_text_with_one_number CHECK (
        (amount_text IS NOT NULL) = ((amount_g IS NOT NULL) + (amount_m IS NOT NULL))),
    CONSTRAINT movement_amount_mass_above_zero CHECK (amount_g > 0 AND amount_g < 9e999),
    CONSTRAINT movement_amount_length_above_zero CHECK (amount_m > 0 AND amount_m < 9e999),
    CONSTRAINT movement_scale_text_not_empty CHECK (scale_text <> ''),
    CONSTRAINT movement_scale_text_with_number CHECK ((scale_text IS NULL) = (scale_g IS NULL)),
    CONSTRAINT movement_scale_above_zero CHECK (scale_g > 0 AND scale_g < 9e999),
    CONSTRAINT movement_scale_with_a_mass CHECK ((scale_g IS NULL) = (amount_g IS NULL)),
    CONSTRAINT movement_tare_text_not_empty CHECK (tare_text <> ''),
    CONSTRAINT movement_tare_text_with_number CHECK ((tare_text IS NULL) = (tare_g IS NULL)),
    CONSTRAINT movement_tare_above_zero CHECK (tare_g > 0 AND tare_g < 9e999)
) STRICT;

CREATE INDEX movement_by_skein ON movement (skein);
CREATE INDEX movement_by_entry ON movement (entry);

-- A skein as it is described when it comes, and again whenever that is corrected.
CREATE TABLE description (
    movement INTEGER NOT NULL,
    yarn INTEGER NOT NULL,
    colourway TEXT NOT NULL,  -- empty when not known
    dye_lot TEXT,
    shade_group TEXT,         -- judged alike by eye; stands above the dye lot
    state TEXT NOT NULL,      -- 'part': begun, or wound off another skein
    knots INTEGER NOT NULL,   -- known joins inside the skein
    note TEXT NOT NULL,
    CONSTRAINT description_key PRIMARY KEY (movement),
    CONSTRAINT description_of_a_movement FOREIGN KEY (movement) REFERENCES movement (number),
    CONSTRAINT description_has_a_yarn FOREIGN KEY (yarn) REFERENCES yarn (number),
    CONSTRAINT description_dye_lot_not_empty CHECK (dye_lot <> ''),
    CONSTRAINT description_shade_group_not_empty CHECK (shade_group <> ''),
    CONSTRAINT description_state_known CHECK (state IN ('whole', 'part')),
    CONSTRAINT description_knots_at_least_zero CHECK (knots BETWEEN 0 AND 2147483647)
) STRICT;

CREATE INDEX description_by_yarn ON description (yarn);

-- Movements that count: those of entries that were not undone.
CREATE VIEW standing AS
SELECT movement.*, movement_kind.sense, movement_kind.first, movement_kind.describes
FROM movement JOIN movement_kind ON movement_kind.kind = movement.kind
WHERE NOT EXISTS (SELECT 1 FROM entry AS undoing WHERE undoing.undoes = movement.entry);

-- Where the count of each skein starts. base: its latest weighing, or the movement that took all
-- there was left, whichever came last; NULL when there is neither.
CREATE VIEW standing_skein AS
SELECT skein, min(number) AS arrival,
    max(CASE WHEN describes = 1 THEN number END) AS described,
    max(CASE WHEN kind = 'weighed' OR (sense = -1 AND amount_text IS NULL) THEN number END) AS base,
    max(CASE WHEN sense = 1 THEN number END) AS added,
    max(sense <> 0) AS moved
FROM standing GROUP BY skein;

-- What is in the stash now: base plus the sum of what was added and taken since, mass and length
-- each by itself. counted_from: 'weighing', 'nothing' (all had gone, or begun with yarn wound off
-- another), 'whole' (as it came, by its label) or 'unknown' (came begun, never weighed).
-- The squares serve the uncertainty of the sums.
CREATE VIEW counted AS
SELECT standing_skein.skein, skein.id, standing_skein.arrival,
    description.yarn, description.colourway, description.dye_lot, description.shade_group,
    description.knots, description.note,
    CASE WHEN description.state = 'part' OR standing_skein.moved THEN 'part' ELSE 'whole' END
        AS state,
    CASE WHEN base.kind = 'weighed' THEN 'weighing'
        WHEN base.number IS NOT NULL OR arrival.kind = 'wound from' THEN 'nothing'
        WHEN description.state = 'whole' THEN 'whole' ELSE 'unknown' END AS counted_from,
    base.amount_text AS weighed_text, base.amount_g AS weighed_g,
    base.scale_text, base.scale_g, base.tare_text, base.tare_g,
    CASE WHEN moved THEN (SELECT total(sense * amount_g) FROM standing AS since
            WHERE since.skein = standing_skein.skein AND since.number > coalesce(base.number, 0)
                AND since.sense <> 0) ELSE 0.0 END AS since_g,
    CASE WHEN moved THEN (SELECT total(sense * amount_m) FROM standing AS since
            WHERE since.skein = standing_skein.skein AND since.number > coalesce(base.number, 0)
                AND since.sense <> 0) ELSE 0.0 END AS since_m,
    CASE WHEN moved THEN (SELECT total(scale_g * scale_g) FROM standing AS since
            WHERE since.skein = standing_skein.skein AND since.number > coalesce(base.number, 0)
                AND since.sense <> 0) ELSE 0.0 END AS since_scale_g2,
    CASE WHEN moved THEN (SELECT total(amount_m * amount_m) FROM standing AS since
            WHERE since.skein = standing_skein.skein AND since.number > coalesce(base.number, 0)
                AND since.sense <> 0) ELSE 0.0 END AS since_amount_m2
FROM standing_skein
JOIN skein ON skein.number = standing_skein.skein
JOIN movement AS arrival ON arrival.number = standing_skein.arrival
JOIN description ON description.movement = standing_skein.described
LEFT JOIN movement AS base ON base.number = standing_skein.base
WHERE base.number IS NULL OR base.kind = 'weighed' OR standing_skein.added > base.number;

-- The same with what is left, where that takes no length per mass to tell; else NULL.
CREATE VIEW holding AS
SELECT counted.*,
    CASE WHEN since_m <> 0 THEN NULL
        WHEN counted_from = 'weighing' THEN weighed_g - coalesce(tare_g, 0) + since_g
        WHEN counted_from = 'nothing' THEN since_g
        WHEN counted_from = 'whole' THEN yarn.label_mass_g + since_g END AS left_g,
    CASE WHEN since_g <> 0 THEN NULL
        WHEN counted_from = 'nothing' THEN since_m
        WHEN counted_from = 'whole' THEN yarn.label_length_m + since_m END AS left_m
FROM counted JOIN yarn ON yarn.number = counted.yarn;

INSERT INTO skein (number, id) SELECT number, id FROM skein_id ORDER BY number;

-- No number is given out twice, not even that of an id whose row is gone.
DELETE FROM sqlite_sequence WHERE name = 'skein';
INSERT INTO sqlite_sequence (name, seq)
    SELECT 'skein', seq FROM sqlite_sequence WHERE name = 'skein_id';

INSERT INTO entry (number) SELECT 1 WHERE EXISTS (SELECT 1 FROM skein_1);

INSERT INTO movement (entry, skein, kind, amount_text, amount_g, scale_text, scale_g, tare_text,
    tare_g, purpose, note)
SELECT 1, skein, kind, weighed_text, weighed_g, scale_text, scale_g, tare_text, tare_g, '', ''
FROM (
    SELECT number AS skein, 0 AS place, 'bought' AS kind, NULL AS weighed_text, NULL AS weighed_g,
        NULL AS scale_text, NULL AS scale_g, NULL AS tare_text, NULL AS tare_g
    FROM skein_1
    UNION ALL
    SELECT skein, number, 'weighed', weighed_text, weighed_g, scale_text, scale_g, tare_text,
        tare_g
    FROM weighing)
ORDER BY skein, place;

INSERT INTO description (movement, yarn, colourway, dye_lot, shade_group, state, knots, note)
SELECT movement.number, yarn, colourway, dye_lot, shade_group, state, knots, skein_1.note
FROM movement JOIN skein_1 ON skein_1.number = movement.skein
WHERE kind = 'bought' ORDER BY movement.number;

DROP TABLE weighing;
DROP TABLE skein_1;
DROP TABLE skein_id;

CREATE TRIGGER movement_first_of_its_skein BEFORE INSERT ON movement
WHEN (SELECT first FROM movement_kind WHERE kind = NEW.kind)
    <> NOT EXISTS (SELECT 1 FROM standing WHERE skein = NEW.skein)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_first_of_its_skein'); END;

CREATE TRIGGER movement_amount_fits_its_kind BEFORE INSERT ON movement
WHEN NOT (SELECT CASE amount
        WHEN 'none' THEN NEW.amount_text IS NULL AND NEW.tare_text IS NULL
        WHEN 'reading' THEN NEW.amount_g IS NOT NULL
        WHEN 'any' THEN NEW.amount_text IS NOT NULL AND NEW.tare_text IS NULL
        ELSE NEW.tare_text IS NULL END FROM movement_kind WHERE kind = NEW.kind)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_amount_fits_its_kind'); END;

CREATE TRIGGER movement_names_the_other_skein BEFORE INSERT ON movement
WHEN (SELECT other FROM movement_kind WHERE kind = NEW.kind) <> (NEW.other IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_names_the_other_skein'); END;

CREATE TRIGGER movement_takes_from_what_is_held BEFORE INSERT ON movement
WHEN (SELECT sense FROM movement_kind WHERE kind = NEW.kind) = -1
    AND NOT EXISTS (SELECT 1 FROM holding WHERE skein = NEW.skein)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_takes_from_what_is_held'); END;

CREATE TRIGGER movement_takes_no_more_than_is_left BEFORE INSERT ON movement
WHEN (SELECT sense FROM movement_kind WHERE kind = NEW.kind) = -1
    AND EXISTS (SELECT 1 FROM holding WHERE skein = NEW.skein
        AND (NEW.amount_g > left_g * 1.000000001 OR NEW.amount_m > left_m * 1.000000001))
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_takes_no_more_than_is_left'); END;

CREATE TRIGGER movement_ripped_back_after_use BEFORE INSERT ON movement
WHEN NEW.kind = 'ripped back'
    AND NOT EXISTS (SELECT 1 FROM standing WHERE skein = NEW.skein AND kind = 'used in')
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_ripped_back_after_use'); END;

CREATE TRIGGER movement_in_an_entry_that_stands BEFORE INSERT ON movement
WHEN EXISTS (SELECT 1 FROM entry WHERE undoes = NEW.entry)
    OR (SELECT undoes FROM entry WHERE number = NEW.entry) IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_in_an_entry_that_stands'); END;

CREATE TRIGGER description_of_a_describing_movement BEFORE INSERT ON description
WHEN NOT (SELECT describes FROM movement JOIN movement_kind USING (kind)
    WHERE number = NEW.movement)
BEGIN SELECT RAISE(ABORT, 'rule broken: description_of_a_describing_movement'); END;

CREATE TRIGGER entry_undoes_the_newest_that_stands BEFORE INSERT ON entry
WHEN NEW.undoes IS NOT (SELECT max(number) FROM entry WHERE undoes IS NULL
        AND number NOT IN (SELECT undoes FROM entry WHERE undoes IS NOT NULL))
    AND NEW.undoes IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'rule broken: entry_undoes_the_newest_that_stands'); END;

CREATE TRIGGER entry_of_an_older_layout_stands BEFORE INSERT ON entry
WHEN (SELECT day IS NULL FROM entry WHERE number = NEW.undoes)
BEGIN SELECT RAISE(ABORT, 'rule broken: entry_of_an_older_layout_stands'); END;

CREATE TRIGGER skein_never_changed BEFORE UPDATE ON skein
BEGIN SELECT RAISE(ABORT, 'rule broken: skein_never_changed'); END;

CREATE TRIGGER skein_never_removed BEFORE DELETE ON skein
BEGIN SELECT RAISE(ABORT, 'rule broken: skein_never_removed'); END;

CREATE TRIGGER entry_never_changed BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'rule broken: entry_never_changed'); END;

CREATE TRIGGER entry_never_removed BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'rule broken: entry_never_removed'); END;

CREATE TRIGGER movement_never_changed BEFORE UPDATE ON movement
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_never_changed'); END;

CREATE TRIGGER movement_never_removed BEFORE DELETE ON movement
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_never_removed'); END;

CREATE TRIGGER description_never_changed BEFORE UPDATE ON description
BEGIN SELECT RAISE(ABORT, 'rule broken: description_never_changed'); END;

CREATE TRIGGER description_never_removed BEFORE DELETE ON description
BEGIN SELECT RAISE(ABORT, 'rule broken: description_never_removed'); END;
