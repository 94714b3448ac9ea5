PRAGMA application_id = 1397444166; PRAGMA user_version = 2;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
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
INSERT INTO yarn VALUES(1,'Cedar Lane',3,'[["wool",0.8],["nylon",0.2]]','170 yd',155.4480000000000075,'3.5 oz',99.223330937500008987,'8 ft',2.4384000000000001229);
INSERT INTO yarn VALUES(2,'Cedar Lane',NULL,NULL,'170 yd',155.4480000000000075,'3.5 oz',99.223330937500008987,NULL,NULL);
INSERT INTO yarn VALUES(3,'Brook',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO yarn VALUES(4,'Harbour Light',4,'[["wool",0.8],["nylon",0.2]]','170 yd',155.4480000000000075,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(5,'Harbour Light',4,NULL,'170 yd',155.4480000000000075,'100 g',100.0,NULL,NULL);
CREATE TABLE skein (
    number INTEGER NOT NULL,
    id TEXT NOT NULL,
    CONSTRAINT skein_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT skein_id_used_once UNIQUE (id),
    CONSTRAINT skein_id_not_empty CHECK (id <> '')
) STRICT;
INSERT INTO skein VALUES(1,'a-1');
INSERT INTO skein VALUES(2,'s2');
INSERT INTO skein VALUES(3,'s3');
INSERT INTO skein VALUES(4,'gone');
INSERT INTO skein VALUES(5,'last');
INSERT INTO skein VALUES(7,'s7');
INSERT INTO skein VALUES(8,'s8');
INSERT INTO skein VALUES(9,'s9');
INSERT INTO skein VALUES(10,'hl-part');
INSERT INTO skein VALUES(11,'sleeve');
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
INSERT INTO entry VALUES(1,NULL,NULL);
INSERT INTO entry VALUES(2,'2024-05-01',NULL);
INSERT INTO entry VALUES(3,'2024-05-02',NULL);
INSERT INTO entry VALUES(4,'2026-11-25',NULL);
INSERT INTO entry VALUES(5,'2026-11-25',NULL);
INSERT INTO entry VALUES(6,'2026-11-25',NULL);
INSERT INTO entry VALUES(7,'2026-11-25',NULL);
INSERT INTO entry VALUES(8,'2026-11-25',7);
INSERT INTO entry VALUES(9,'2026-11-25',NULL);
INSERT INTO entry VALUES(10,'2026-11-25',NULL);
INSERT INTO entry VALUES(11,'2026-11-25',NULL);
INSERT INTO entry VALUES(12,'2026-11-25',NULL);
INSERT INTO entry VALUES(13,'2026-11-25',12);
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
INSERT INTO movement_kind VALUES('bought',0,1,1,'none',0,'came into the stash, bought or as a gift','common practice, no source');
INSERT INTO movement_kind VALUES('wound from',1,1,1,'any',1,'begun with yarn wound off another skein','common practice, no source');
INSERT INTO movement_kind VALUES('weighed',0,0,0,'reading',0,'laid on a scale','common practice, no source');
INSERT INTO movement_kind VALUES('wound off',-1,0,0,'any',1,'gave yarn to a new skein','common practice, no source');
INSERT INTO movement_kind VALUES('used in',-1,0,0,'any or all',0,'worked into something','common practice, no source');
INSERT INTO movement_kind VALUES('given',-1,0,0,'any or all',0,'left the stash for somebody else','common practice, no source');
INSERT INTO movement_kind VALUES('ripped back',1,0,0,'any',0,'work was undone and the yarn wound up again','common practice, no source');
INSERT INTO movement_kind VALUES('corrected',0,0,1,'none',0,'described anew: label, colour, lot, state, knots or note','common practice, no source');
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
INSERT INTO movement VALUES(1,1,1,'bought',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(2,1,1,'weighed',NULL,'62 g',62.0,NULL,'0.1 oz',2.8349523125000004597,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(3,1,1,'weighed',NULL,'55 g',55.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(4,1,2,'bought',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(5,1,3,'bought',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(6,1,3,'weighed',NULL,'142 g',142.0,NULL,'1 g',1.0,'40 g',40.0,NULL,'','',NULL);
INSERT INTO movement VALUES(7,1,3,'weighed',NULL,'130 g',130.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(8,1,5,'bought',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',NULL);
INSERT INTO movement VALUES(9,2,7,'bought','2024-05-01',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2018380824);
INSERT INTO movement VALUES(10,2,8,'bought','2024-05-01',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2227783242);
INSERT INTO movement VALUES(11,2,9,'bought','2024-05-01',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3253140153);
INSERT INTO movement VALUES(12,3,10,'bought','2024-05-02',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1803237639);
INSERT INTO movement VALUES(13,3,10,'weighed','2024-05-02','42 g',42.0,NULL,'1 g',1.0,'5 g',5.0,NULL,'','',731242200);
INSERT INTO movement VALUES(14,4,8,'used in','2024-05-03','20 g',20.0,NULL,'1 g',1.0,NULL,NULL,NULL,'Lantern cowl','',231507125);
INSERT INTO movement VALUES(15,5,8,'ripped back','2024-05-04','12 g',12.0,NULL,'1 g',1.0,NULL,NULL,NULL,'Lantern cowl','',591258583);
INSERT INTO movement VALUES(16,6,9,'wound off','2024-05-05','40 yd',NULL,36.576000000000000512,NULL,NULL,NULL,NULL,11,'','',1411224749);
INSERT INTO movement VALUES(17,6,11,'wound from','2024-05-05','40 yd',NULL,36.576000000000000512,NULL,NULL,NULL,NULL,9,'','',4216789835);
INSERT INTO movement VALUES(18,7,10,'given','2024-05-06',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'Maud','',2727580539);
INSERT INTO movement VALUES(19,9,7,'corrected','2024-05-07',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3873625755);
INSERT INTO movement VALUES(20,10,7,'weighed','2024-05-08','97 g',97.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',974429363);
INSERT INTO movement VALUES(21,11,10,'given','2024-05-08',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'Maud','',3916522801);
INSERT INTO movement VALUES(22,12,7,'used in','2024-05-09','10 m',NULL,10.0,NULL,NULL,NULL,NULL,NULL,'Hat','',547440319);
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
INSERT INTO description VALUES(1,1,'Dämmerung','81','dusk','part',2,replace('from the "attic" box;\nsmells of cedar','\n',char(10)));
INSERT INTO description VALUES(4,2,'','81',NULL,'whole',0,'');
INSERT INTO description VALUES(5,3,'',NULL,NULL,'part',0,'');
INSERT INTO description VALUES(8,3,'',NULL,NULL,'whole',0,'it''s here');
INSERT INTO description VALUES(9,4,'','12',NULL,'whole',0,'');
INSERT INTO description VALUES(10,4,'','12',NULL,'whole',0,'');
INSERT INTO description VALUES(11,4,'','12',NULL,'whole',0,'');
INSERT INTO description VALUES(12,5,'',NULL,NULL,'part',0,'it''s "quoted" <b>');
INSERT INTO description VALUES(17,4,'','12',NULL,'part',0,'');
INSERT INTO description VALUES(19,4,'','13',NULL,'whole',0,'');
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('skein',11);
INSERT INTO sqlite_sequence VALUES('entry',13);
INSERT INTO sqlite_sequence VALUES('movement',22);
CREATE UNIQUE INDEX yarn_identity ON yarn (
    name, coalesce(class, -1), coalesce(fibre_json, ''),
    coalesce(label_length_text, ''), coalesce(label_length_m, 0),
    coalesce(label_mass_text, ''), coalesce(label_mass_g, 0),
    coalesce(colour_repeat_text, ''), coalesce(colour_repeat_m, 0));
CREATE INDEX movement_by_skein ON movement (skein);
CREATE INDEX movement_by_entry ON movement (entry);
CREATE INDEX description_by_yarn ON description (yarn);
CREATE VIEW standing AS
SELECT movement.*, movement_kind.sense, movement_kind.first, movement_kind.describes
FROM movement JOIN movement_kind ON movement_kind.kind = movement.kind
WHERE NOT EXISTS (SELECT 1 FROM entry AS undoing WHERE undoing.undoes = movement.entry);
CREATE VIEW standing_skein AS
SELECT skein, min(number) AS arrival,
    max(CASE WHEN describes = 1 THEN number END) AS described,
    max(CASE WHEN kind = 'weighed' OR (sense = -1 AND amount_text IS NULL) THEN number END) AS base,
    max(CASE WHEN sense = 1 THEN number END) AS added,
    max(sense <> 0) AS moved
FROM standing GROUP BY skein;
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
COMMIT;
