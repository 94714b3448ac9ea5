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

-- Every id that a skein ever had. Rows stay when the skein goes, so no id comes to mean another
-- skein. The number is the order in which skeins were added.
CREATE TABLE skein_id (
    number INTEGER NOT NULL,
    id TEXT NOT NULL,
    CONSTRAINT skein_id_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT skein_id_used_once UNIQUE (id),
    CONSTRAINT skein_id_not_empty CHECK (id <> '')
) STRICT;

-- One physical ball, hank or cone.
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

CREATE INDEX skein_by_yarn ON skein (yarn);

-- What a scale showed for a skein. The row with the highest number is the current one.
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

CREATE INDEX weighing_by_skein ON weighing (skein);
