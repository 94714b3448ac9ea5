-- The whole current layout of a stash file; schema/README.md draws and explains it.
-- application_id and user_version are set by the program when it runs this text.
-- What a label or a scale prints is kept as printed (.._text), beside the number converted from it
-- once (.._m in metres, .._g in grams). NULL means "not known". 9e999 is infinity.

-- A yarn as its label describes it. Two skeins are of one yarn when everything here is alike.
CREATE TABLE yarn (
    number INTEGER NOT NULL,
    name TEXT NOT NULL,
    class INTEGER,           -- weight class of the Craft Yarn Council, open upwards
    fibre_json TEXT,         -- [["wool",0.8],["nylon",0.2]]: fibre and its share of the mass
    label_length_text TEXT,
    label_length_m REAL,
    label_mass_text TEXT,
    label_mass_g REAL,
    colour_repeat_text TEXT, -- of a colour-changing yarn
    colour_repeat_m REAL,
    CONSTRAINT yarn_key PRIMARY KEY (number),
    CONSTRAINT yarn_name_not_empty CHECK (name <> ''),
    CONSTRAINT yarn_class_at_least_zero CHECK (class BETWEEN 0 AND 2147483647),
    CONSTRAINT yarn_fibre_is_a_list CHECK (fibre_json LIKE '[[%]]'),
    CONSTRAINT yarn_label_length_text_not_empty CHECK (label_length_text <> ''),
    CONSTRAINT yarn_label_length_text_with_number CHECK (
        (label_length_text IS NULL) = (label_length_m IS NULL)),
    CONSTRAINT yarn_label_length_above_zero CHECK (label_length_m > 0 AND label_length_m < 9e999),
    CONSTRAINT yarn_label_mass_text_not_empty CHECK (label_mass_text <> ''),
    CONSTRAINT yarn_label_mass_text_with_number CHECK (
        (label_mass_text IS NULL) = (label_mass_g IS NULL)),
    CONSTRAINT yarn_label_mass_above_zero CHECK (label_mass_g > 0 AND label_mass_g < 9e999),
    CONSTRAINT yarn_colour_repeat_text_not_empty CHECK (colour_repeat_text <> ''),
    CONSTRAINT yarn_colour_repeat_text_with_number CHECK (
        (colour_repeat_text IS NULL) = (colour_repeat_m IS NULL)),
    CONSTRAINT yarn_colour_repeat_above_zero CHECK (colour_repeat_m > 0 AND colour_repeat_m < 9e999)
) STRICT;

-- A plain UNIQUE would take two yarns with an unknown class for different ones.
CREATE UNIQUE INDEX yarn_identity ON yarn (
    name, coalesce(class, -1), coalesce(fibre_json, ''),
    coalesce(label_length_text, ''), coalesce(label_length_m, 0),
    coalesce(label_mass_text, ''), coalesce(label_mass_g, 0),
    coalesce(colour_repeat_text, ''), coalesce(colour_repeat_m, 0));

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

-- Names of units that a text may end in, beside a number converted to metres or grams: rows of
-- lib/data/unit_names.csv. A name of several words is found by its last.
CREATE TABLE unit (
    name TEXT NOT NULL COLLATE NOCASE,
    kind TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT unit_key PRIMARY KEY (name),
    CONSTRAINT unit_kind_known CHECK (kind IN ('length', 'mass'))
) STRICT, WITHOUT ROWID;

-- The weight classes of the Craft Yarn Council: rows of lib/data/yarn_weight_classes.csv.
CREATE TABLE weight_class (
    number INTEGER NOT NULL,
    name TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT weight_class_key PRIMARY KEY (number)
) STRICT;

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

-- Finds the few promises among all movements.
CREATE INDEX movement_set_aside ON movement (skein) WHERE kind = 'set aside';

CREATE INDEX reading_by_entry ON reading (entry);

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
