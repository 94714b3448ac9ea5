-- Layout 2 to layout 3: yarn can be set aside for a project, readings of work in progress are kept,
-- and a figure's unit is checked against the column it stands in.

INSERT INTO movement_kind (kind, sense, first, describes, amount, other, meaning, source) VALUES
    ('set aside', 0, 0, 0, 'any or all', 0, 'kept for a project; a row of promise goes with it',
        'common practice, no source'),
    ('released', 0, 0, 0, 'none', 0, 'kept for that project no longer',
        'common practice, no source');

-- Names of units that a text may end in, beside a number converted to metres or grams: rows of
-- lib/data/unit_names.csv. A name of several words is found by its last.
CREATE TABLE unit (
    name TEXT NOT NULL COLLATE NOCASE,
    kind TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT unit_key PRIMARY KEY (name),
    CONSTRAINT unit_kind_known CHECK (kind IN ('length', 'mass'))
) STRICT, WITHOUT ROWID;

INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'common practice, no source' FROM (VALUES
        ('m'), ('metre'), ('metres'), ('meter'), ('meters'), ('mtr'), ('mtrs'), ('mts'), ('mt'),
        ('cm'), ('cms'), ('centimetre'), ('centimetres'), ('centimeter'), ('centimeters'), ('mm'),
        ('millimetre'), ('millimetres'), ('millimeter'), ('millimeters'), ('km'), ('kilometre'),
        ('kilometres'), ('kilometer'), ('kilometers'), ('yd'), ('yds'), ('yard'), ('yards'), ('ft'),
        ('foot'), ('feet'), ('in'), ('ins'), ('inch'), ('inches'), ('"'), ('″'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'mass', 'common practice, no source' FROM (VALUES
        ('g'), ('gr'), ('gm'), ('gms'), ('gram'), ('grams'), ('gramme'), ('grammes'), ('kg'),
        ('kgs'), ('kilo'), ('kilos'), ('kilogram'), ('kilograms'), ('mg'), ('oz'), ('ozs'),
        ('ounce'), ('ounces'), ('lb'), ('lbs'), ('pound'), ('pounds'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'mass', 'S02 GNU units definitions file' FROM (VALUES
        ('dr'), ('dram'), ('drams'), ('drachm'), ('drachms'), ('grain'), ('grains'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'S17 lea entries' FROM (VALUES
        ('lea'), ('leas'), ('hank'), ('hanks'), ('cotton lea'), ('cotton leas'), ('worsted lea'),
        ('worsted leas'), ('linen lea'), ('linen leas'), ('cotton hank'), ('cotton hanks'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'S18 Kilgour and Woodhouse' FROM (VALUES
        ('linen cut'), ('linen cuts'), ('heer'), ('heers'), ('linen hank'), ('linen hanks'),
        ('jute hank'), ('jute hanks'), ('spyndle'), ('spyndles'), ('spindle'), ('spindles'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'S16 ASTM D2260 page' FROM (VALUES
        ('worsted hank'), ('worsted hanks'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'memory: linen trade tables as in general encyclopedias' FROM (VALUES
        ('linen bundle'), ('linen bundles'));

-- The weight classes of the Craft Yarn Council: rows of lib/data/yarn_weight_classes.csv.
CREATE TABLE weight_class (
    number INTEGER NOT NULL,
    name TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT weight_class_key PRIMARY KEY (number)
) STRICT;

INSERT INTO weight_class (number, name, source) VALUES
    (0, 'Lace', 'S03 CYC Standard Yarn Weight System (copies); S04 course copy'),
    (1, 'Super Fine', 'S03 CYC Standard Yarn Weight System (copies); S04'),
    (2, 'Fine', 'S03 CYC Standard Yarn Weight System (copies); S04'),
    (3, 'Light', 'S03 CYC Standard Yarn Weight System (copies); S04'),
    (4, 'Medium', 'S03 CYC Standard Yarn Weight System (copies); S04'),
    (5, 'Bulky', 'S03 CYC Standard Yarn Weight System (copies); S04'),
    (6, 'Super Bulky', 'S03 CYC Standard Yarn Weight System (copies); S04 (crochet 7-9 and '
        || '9-15 mm); S25 yarn guide PDF (needle 8-12.75 mm)'),
    (7, 'Jumbo', 'S03 CYC Standard Yarn Weight System (copies); S04 (crochet 6 and '
        || 'fewer; 15 mm and larger); S25');

-- For whom a movement 'set aside' keeps yarn of its skein: movement.purpose names the project,
-- movement.amount_.. says how much (all there is when NULL), role which of its yarns.
CREATE TABLE promise (
    movement INTEGER NOT NULL,
    role TEXT NOT NULL,      -- empty: any yarn of the project
    CONSTRAINT promise_key PRIMARY KEY (movement),
    CONSTRAINT promise_of_a_movement FOREIGN KEY (movement) REFERENCES movement (number)
) STRICT;

-- What a scale showed after a row of work in progress. Rows are never changed or removed.
CREATE TABLE reading (
    number INTEGER NOT NULL,
    entry INTEGER NOT NULL,
    project TEXT NOT NULL,
    role TEXT NOT NULL,      -- which yarn of the project
    piece TEXT NOT NULL,     -- empty: the first the yarn works
    copy INTEGER NOT NULL,   -- which of several alike pieces
    after_row INTEGER NOT NULL,
    skein TEXT NOT NULL,     -- what the maker calls it, often its id; empty: the one before
    mass_text TEXT NOT NULL,
    mass_g REAL NOT NULL,
    scale_text TEXT NOT NULL,
    scale_g REAL NOT NULL,
    tare_text TEXT,          -- needles, hook or bag on the scale too
    tare_g REAL,
    afresh INTEGER NOT NULL, -- 1: the readings before it count no more
    day TEXT NOT NULL,
    note TEXT NOT NULL,
    digest INTEGER,          -- over all that is said here, for skeinfall's own check; NULL: none
    CONSTRAINT reading_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT reading_in_an_entry FOREIGN KEY (entry) REFERENCES entry (number),
    CONSTRAINT reading_project_not_empty CHECK (project <> ''),
    CONSTRAINT reading_role_not_empty CHECK (role <> ''),
    CONSTRAINT reading_copy_at_least_one CHECK (copy BETWEEN 1 AND 2147483647),
    CONSTRAINT reading_row_at_least_zero CHECK (after_row BETWEEN 0 AND 2147483647),
    CONSTRAINT reading_mass_text_not_empty CHECK (mass_text <> ''),
    CONSTRAINT reading_mass_above_zero CHECK (mass_g > 0 AND mass_g < 9e999),
    CONSTRAINT reading_scale_text_not_empty CHECK (scale_text <> ''),
    CONSTRAINT reading_scale_above_zero CHECK (scale_g > 0 AND scale_g < 9e999),
    CONSTRAINT reading_tare_text_not_empty CHECK (tare_text <> ''),
    CONSTRAINT reading_tare_text_with_number CHECK ((tare_text IS NULL) = (tare_g IS NULL)),
    CONSTRAINT reading_tare_above_zero CHECK (tare_g > 0 AND tare_g < 9e999),
    CONSTRAINT reading_afresh_yes_or_no CHECK (afresh IN (0, 1)),
    CONSTRAINT reading_day_in_the_calendar CHECK (
        day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND day = date(day, '+0 days'))
) STRICT;

-- Finds the few promises among all movements.
CREATE INDEX movement_set_aside ON movement (skein) WHERE kind = 'set aside';

CREATE INDEX reading_by_entry ON reading (entry);

-- Promises that bind: not undone, not released, not all used in their project. used_g and used_m
-- are what went into it since.
CREATE VIEW set_aside AS
SELECT told.number, told.skein, told.purpose AS project, coalesce(promise.role, '') AS role,
    told.day, told.amount_text, told.amount_g, told.amount_m, told.scale_text, told.scale_g,
    (SELECT total(since.amount_g) FROM standing AS since WHERE since.skein = told.skein
        AND since.number > told.number AND since.kind = 'used in'
        AND since.purpose = told.purpose COLLATE NOCASE) AS used_g,
    (SELECT total(since.amount_m) FROM standing AS since WHERE since.skein = told.skein
        AND since.number > told.number AND since.kind = 'used in'
        AND since.purpose = told.purpose COLLATE NOCASE) AS used_m
FROM movement AS told LEFT JOIN promise ON promise.movement = told.number
WHERE told.kind = 'set aside'
    AND NOT EXISTS (SELECT 1 FROM entry AS undoing WHERE undoing.undoes = told.entry)
    AND NOT EXISTS (SELECT 1 FROM standing AS later WHERE later.skein = told.skein
        AND later.number > told.number AND later.purpose = told.purpose COLLATE NOCASE
        AND (later.kind = 'released' OR later.kind = 'used in' AND later.amount_text IS NULL));

-- What is promised of a skein and what it holds, in metres by the label's length per mass, or in
-- grams where only masses are known. NULL where neither can be told.
CREATE VIEW promised AS
SELECT skein, promises, of_all,
    CASE WHEN per_g IS NOT NULL OR no_mass THEN length ELSE CASE WHEN no_length THEN mass END END
        AS promised,
    CASE WHEN per_g IS NOT NULL OR no_mass THEN held_m ELSE CASE WHEN no_length THEN left_g END END
        AS held
FROM (
    SELECT holding.skein, count(*) AS promises, total(set_aside.amount_text IS NULL) AS of_all,
        yarn.label_length_m / yarn.label_mass_g AS per_g,
        total(max(0, coalesce(set_aside.amount_m,
                set_aside.amount_g * yarn.label_length_m / yarn.label_mass_g)
            - used_m - coalesce(used_g * yarn.label_length_m / yarn.label_mass_g, 0))) AS length,
        total(max(0, set_aside.amount_g - used_g)) AS mass,
        total(set_aside.amount_g) + total(used_g) = 0 AS no_mass,
        total(set_aside.amount_m) + total(used_m) = 0 AS no_length,
        left_g,
        coalesce(since_m + since_g * yarn.label_length_m / yarn.label_mass_g
            + CASE counted_from WHEN 'nothing' THEN 0 WHEN 'whole' THEN yarn.label_length_m
                WHEN 'weighing' THEN (weighed_g - coalesce(tare_g, 0))
                    * yarn.label_length_m / yarn.label_mass_g END, left_m) AS held_m
    FROM holding JOIN yarn ON yarn.number = holding.yarn
    JOIN set_aside ON set_aside.skein = holding.skein
    GROUP BY holding.skein);

-- Skeins of which more is promised than they hold.
CREATE VIEW overpromised AS
SELECT skein FROM promised
WHERE promises > 1 AND of_all > 0
    OR of_all = 0 AND NOT coalesce(promised <= held * 1.000000001, 0);

CREATE TRIGGER yarn_label_length_unit_is_a_length BEFORE INSERT ON yarn
WHEN NEW.label_length_m IS NOT NULL AND NEW.label_length_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'length'
        AND name = ltrim(NEW.label_length_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'length'
        AND lower(NEW.label_length_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: yarn_label_length_unit_is_a_length'); END;

CREATE TRIGGER yarn_label_mass_unit_is_a_mass BEFORE INSERT ON yarn
WHEN NEW.label_mass_g IS NOT NULL AND NEW.label_mass_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.label_mass_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.label_mass_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: yarn_label_mass_unit_is_a_mass'); END;

CREATE TRIGGER yarn_colour_repeat_unit_is_a_length BEFORE INSERT ON yarn
WHEN NEW.colour_repeat_m IS NOT NULL AND NEW.colour_repeat_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'length'
        AND name = ltrim(NEW.colour_repeat_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'length'
        AND lower(NEW.colour_repeat_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: yarn_colour_repeat_unit_is_a_length'); END;

CREATE TRIGGER movement_amount_unit_is_a_mass BEFORE INSERT ON movement
WHEN NEW.amount_g IS NOT NULL AND NEW.amount_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.amount_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.amount_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_amount_unit_is_a_mass'); END;

CREATE TRIGGER movement_amount_unit_is_a_length BEFORE INSERT ON movement
WHEN NEW.amount_m IS NOT NULL AND NEW.amount_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'length'
        AND name = ltrim(NEW.amount_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'length'
        AND lower(NEW.amount_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_amount_unit_is_a_length'); END;

CREATE TRIGGER movement_scale_unit_is_a_mass BEFORE INSERT ON movement
WHEN NEW.scale_g IS NOT NULL AND NEW.scale_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.scale_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.scale_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_scale_unit_is_a_mass'); END;

CREATE TRIGGER movement_tare_unit_is_a_mass BEFORE INSERT ON movement
WHEN NEW.tare_g IS NOT NULL AND NEW.tare_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.tare_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.tare_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_tare_unit_is_a_mass'); END;

CREATE TRIGGER reading_mass_unit_is_a_mass BEFORE INSERT ON reading
WHEN NEW.mass_g IS NOT NULL AND NEW.mass_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.mass_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.mass_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: reading_mass_unit_is_a_mass'); END;

CREATE TRIGGER reading_scale_unit_is_a_mass BEFORE INSERT ON reading
WHEN NEW.scale_g IS NOT NULL AND NEW.scale_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.scale_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.scale_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: reading_scale_unit_is_a_mass'); END;

CREATE TRIGGER reading_tare_unit_is_a_mass BEFORE INSERT ON reading
WHEN NEW.tare_g IS NOT NULL AND NEW.tare_text <> '' AND CASE
    WHEN EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND name = ltrim(NEW.tare_text, '0123456789 .,/')) THEN 0
    ELSE NOT EXISTS (SELECT 1 FROM unit WHERE kind = 'mass'
        AND lower(NEW.tare_text) || ' '
            GLOB '*[^a-z]' || lower(substr(name, instr(name, ' ') + 1)) || '[^a-z]*') END
BEGIN SELECT RAISE(ABORT, 'rule broken: reading_tare_unit_is_a_mass'); END;

CREATE TRIGGER movement_sets_aside_what_is_held BEFORE INSERT ON movement
WHEN NEW.kind = 'set aside' AND NOT EXISTS (SELECT 1 FROM holding WHERE skein = NEW.skein
    AND coalesce(left_g, 1) > 0 AND coalesce(left_m, 1) > 0)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_sets_aside_what_is_held'); END;

CREATE TRIGGER movement_sets_aside_for_a_project BEFORE INSERT ON movement
WHEN NEW.kind IN ('set aside', 'released') AND NEW.purpose = ''
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_sets_aside_for_a_project'); END;

CREATE TRIGGER movement_releases_what_is_set_aside BEFORE INSERT ON movement
WHEN NEW.kind = 'released' AND NOT EXISTS (SELECT 1 FROM set_aside
    WHERE skein = NEW.skein AND project = NEW.purpose COLLATE NOCASE)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_releases_what_is_set_aside'); END;

CREATE TRIGGER movement_takes_nothing_kept_for_another BEFORE INSERT ON movement
WHEN (SELECT sense FROM movement_kind WHERE kind = NEW.kind) = -1
    AND EXISTS (SELECT 1 FROM movement WHERE skein = NEW.skein AND kind = 'set aside')
    AND EXISTS (SELECT 1 FROM set_aside WHERE skein = NEW.skein
        AND (amount_text IS NULL OR NEW.amount_text IS NULL)
        AND NOT (NEW.kind = 'used in' AND project = NEW.purpose COLLATE NOCASE))
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_takes_nothing_kept_for_another'); END;

CREATE TRIGGER movement_leaves_what_is_set_aside AFTER INSERT ON movement
WHEN NEW.kind NOT IN ('bought', 'wound from', 'corrected', 'set aside', 'released')
    AND EXISTS (SELECT 1 FROM movement WHERE skein = NEW.skein AND kind = 'set aside')
    AND EXISTS (SELECT 1 FROM overpromised WHERE skein = NEW.skein)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_leaves_what_is_set_aside'); END;

CREATE TRIGGER description_leaves_what_is_set_aside AFTER INSERT ON description
WHEN EXISTS (SELECT 1 FROM movement AS corrected JOIN movement AS kept USING (skein)
        WHERE corrected.number = NEW.movement AND corrected.kind = 'corrected'
            AND kept.kind = 'set aside')
    AND EXISTS (SELECT 1 FROM overpromised
        WHERE skein = (SELECT skein FROM movement WHERE number = NEW.movement))
BEGIN SELECT RAISE(ABORT, 'rule broken: description_leaves_what_is_set_aside'); END;

CREATE TRIGGER promise_of_a_movement_that_sets_aside BEFORE INSERT ON promise
WHEN NOT EXISTS (SELECT 1 FROM movement WHERE number = NEW.movement AND kind = 'set aside')
BEGIN SELECT RAISE(ABORT, 'rule broken: promise_of_a_movement_that_sets_aside'); END;

CREATE TRIGGER movement_sets_aside_once_a_project AFTER INSERT ON movement
WHEN NEW.kind = 'set aside' AND (SELECT count(*) FROM set_aside
    WHERE skein = NEW.skein AND project = NEW.purpose COLLATE NOCASE) > 1
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_sets_aside_once_a_project'); END;

CREATE TRIGGER movement_sets_aside_no_more_than_is_held AFTER INSERT ON movement
WHEN NEW.kind = 'set aside' AND EXISTS (SELECT 1 FROM overpromised WHERE skein = NEW.skein)
BEGIN SELECT RAISE(ABORT, 'rule broken: movement_sets_aside_no_more_than_is_held'); END;

CREATE TRIGGER reading_in_an_entry_that_stands BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM entry WHERE undoes = NEW.entry)
    OR (SELECT undoes FROM entry WHERE number = NEW.entry) IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'rule broken: reading_in_an_entry_that_stands'); END;

CREATE TRIGGER promise_never_changed BEFORE UPDATE ON promise
BEGIN SELECT RAISE(ABORT, 'rule broken: promise_never_changed'); END;

CREATE TRIGGER promise_never_removed BEFORE DELETE ON promise
BEGIN SELECT RAISE(ABORT, 'rule broken: promise_never_removed'); END;

CREATE TRIGGER reading_never_changed BEFORE UPDATE ON reading
BEGIN SELECT RAISE(ABORT, 'rule broken: reading_never_changed'); END;

CREATE TRIGGER reading_never_removed BEFORE DELETE ON reading
BEGIN SELECT RAISE(ABORT, 'rule broken: reading_never_removed'); END;

CREATE TRIGGER yarn_never_changed BEFORE UPDATE ON yarn
BEGIN SELECT RAISE(ABORT, 'rule broken: yarn_never_changed'); END;
