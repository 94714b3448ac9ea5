PRAGMA application_id = 1397444166; PRAGMA user_version = 1;
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
CREATE TABLE skein_id (
    number INTEGER NOT NULL,
    id TEXT NOT NULL,
    CONSTRAINT skein_id_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT skein_id_used_once UNIQUE (id),
    CONSTRAINT skein_id_not_empty CHECK (id <> '')
) STRICT;
INSERT INTO skein_id VALUES(1,'a-1');
INSERT INTO skein_id VALUES(2,'s2');
INSERT INTO skein_id VALUES(3,'s3');
INSERT INTO skein_id VALUES(4,'gone');
INSERT INTO skein_id VALUES(5,'last');
CREATE TABLE skein (
    number INTEGER NOT NULL,
    yarn INTEGER NOT NULL,
    colourway TEXT NOT NULL,  -- empty when not known
    dye_lot TEXT,
    shade_group TEXT,         -- judged alike by eye; stands above the dye lot
    state TEXT NOT NULL,      -- 'part': begun, or wound off another skein
    knots INTEGER NOT NULL,   -- known joins inside the skein
    note TEXT NOT NULL,
    CONSTRAINT skein_key PRIMARY KEY (number),
    CONSTRAINT skein_has_an_id FOREIGN KEY (number) REFERENCES skein_id (number),
    CONSTRAINT skein_has_a_yarn FOREIGN KEY (yarn) REFERENCES yarn (number),
    CONSTRAINT skein_dye_lot_not_empty CHECK (dye_lot <> ''),
    CONSTRAINT skein_shade_group_not_empty CHECK (shade_group <> ''),
    CONSTRAINT skein_state_known CHECK (state IN ('whole', 'part')),
    CONSTRAINT skein_knots_at_least_zero CHECK (knots BETWEEN 0 AND 2147483647)
) STRICT;
INSERT INTO skein VALUES(1,1,'Dämmerung','81','dusk','part',2,replace('from the "attic" box;\nsmells of cedar','\n',char(10)));
INSERT INTO skein VALUES(2,2,'','81',NULL,'whole',0,'');
INSERT INTO skein VALUES(3,3,'',NULL,NULL,'part',0,'');
INSERT INTO skein VALUES(5,3,'',NULL,NULL,'whole',0,'it''s here');
CREATE TABLE weighing (
    number INTEGER NOT NULL,
    skein INTEGER NOT NULL,
    weighed_text TEXT NOT NULL,
    weighed_g REAL NOT NULL,
    scale_text TEXT NOT NULL, -- the scale's step
    scale_g REAL NOT NULL,
    tare_text TEXT,           -- cone, bag or bowl on the scale too
    tare_g REAL,
    CONSTRAINT weighing_key PRIMARY KEY (number),
    CONSTRAINT weighing_of_a_skein FOREIGN KEY (skein) REFERENCES skein (number),
    CONSTRAINT weighing_weighed_text_not_empty CHECK (weighed_text <> ''),
    CONSTRAINT weighing_weighed_above_zero CHECK (weighed_g > 0 AND weighed_g < 9e999),
    CONSTRAINT weighing_scale_text_not_empty CHECK (scale_text <> ''),
    CONSTRAINT weighing_scale_above_zero CHECK (scale_g > 0 AND scale_g < 9e999),
    CONSTRAINT weighing_tare_text_not_empty CHECK (tare_text <> ''),
    CONSTRAINT weighing_tare_text_with_number CHECK ((tare_text IS NULL) = (tare_g IS NULL)),
    CONSTRAINT weighing_tare_above_zero CHECK (tare_g > 0 AND tare_g < 9e999)
) STRICT;
INSERT INTO weighing VALUES(1,1,'62 g',62.0,'0.1 oz',2.8349523125000004597,NULL,NULL);
INSERT INTO weighing VALUES(2,3,'142 g',142.0,'1 g',1.0,'40 g',40.0);
INSERT INTO weighing VALUES(3,1,'55 g',55.0,'1 g',1.0,NULL,NULL);
INSERT INTO weighing VALUES(4,3,'130 g',130.0,'1 g',1.0,NULL,NULL);
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('skein_id',6);
CREATE UNIQUE INDEX yarn_identity ON yarn (
    name, coalesce(class, -1), coalesce(fibre_json, ''),
    coalesce(label_length_text, ''), coalesce(label_length_m, 0),
    coalesce(label_mass_text, ''), coalesce(label_mass_g, 0),
    coalesce(colour_repeat_text, ''), coalesce(colour_repeat_m, 0));
CREATE INDEX skein_by_yarn ON skein (yarn);
CREATE INDEX weighing_by_skein ON weighing (skein);
COMMIT;
