-- A stash of layout 4 as its program left it, by .dump: most of it is the layout, so it stays whole.
PRAGMA application_id = 1397444166; PRAGMA user_version = 4;
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
INSERT INTO yarn VALUES(1,'Gorsebrook Worsted',4,'[["wool",1.0]]','200 yd',182.87999999999999544,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(2,'Harbour Light Worsted',4,'[["wool",0.8],["nylon",0.2]]','170 yd',155.4480000000000075,'3.5 oz',99.223330937500008987,NULL,NULL);
INSERT INTO yarn VALUES(3,'Marlpit Everyday',4,'[["acrylic",1.0]]','310 yd',283.46399999999999862,'6 oz',170.09713874999999916,NULL,NULL);
INSERT INTO yarn VALUES(4,'Skerrow Fine',1,'[["alpaca",0.7],["silk",0.3]]','400 m',400.0,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(5,'Quillby Sock',1,'[["superwash wool",0.75],["nylon",0.25]]','420 m',420.0,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(6,'Quillby Stripe Sock',1,'[["superwash wool",0.75],["nylon",0.25]]','420 m',420.0,'100 g',100.0,'9 m',9.0);
INSERT INTO yarn VALUES(7,'Tarnmoor DK',3,'[["superwash merino",1.0]]','115 m',115.0,'50 g',50.0,NULL,NULL);
INSERT INTO yarn VALUES(8,'Pellow Kitchen Cotton',4,'[["cotton",1.0]]','85 m',85.0,'50 g',50.0,NULL,NULL);
INSERT INTO yarn VALUES(9,'Dovecot Baby',3,'[["cotton",0.6],["acrylic",0.4]]','240 m',240.0,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(10,'Larkrise Sport',2,'[["superwash wool",1.0]]','300 m',300.0,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(11,'Flaxholm Linen',2,'[["linen",1.0]]','270 m',270.0,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(12,'Brackle Chunky',5,'[["wool",0.5],["acrylic",0.5]]','120 yd',109.72799999999999443,'3.5 oz',99.223330937500008987,NULL,NULL);
INSERT INTO yarn VALUES(13,'Ramshaw Roving',6,'[["wool",1.0]]','65 m',65.0,'100 g',100.0,NULL,NULL);
INSERT INTO yarn VALUES(14,'Gossamoor Lace',0,'[["alpaca",1.0]]','437 yd',399.59280000000001109,'1 3/4 oz',49.611665468750004493,NULL,NULL);
INSERT INTO yarn VALUES(15,'Millrace Coned Cotton',2,'[["cotton",1.0]]','1640 yd',1499.6159999999999854,'1 lb',453.59237000000001672,NULL,NULL);
INSERT INTO yarn VALUES(16,'Fallowfield Drift',4,'[["wool",1.0]]','190 m',190.0,'100 g',100.0,'24 m',24.0);
INSERT INTO yarn VALUES(17,'unlabelled ball',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO yarn VALUES(18,'Wellenschlag',NULL,NULL,'210 metros',210.0,'50 gramm',50.0,NULL,NULL);
CREATE TABLE skein (
    number INTEGER NOT NULL,
    id TEXT NOT NULL,
    CONSTRAINT skein_key PRIMARY KEY (number AUTOINCREMENT),
    CONSTRAINT skein_id_used_once UNIQUE (id),
    CONSTRAINT skein_id_not_empty CHECK (id <> '')
) STRICT;
INSERT INTO skein VALUES(1,'gw-01');
INSERT INTO skein VALUES(2,'gw-02');
INSERT INTO skein VALUES(3,'gw-03');
INSERT INTO skein VALUES(4,'gw-04');
INSERT INTO skein VALUES(5,'gw-05');
INSERT INTO skein VALUES(6,'gw-06');
INSERT INTO skein VALUES(7,'hl-01');
INSERT INTO skein VALUES(8,'hl-02');
INSERT INTO skein VALUES(9,'me-01');
INSERT INTO skein VALUES(10,'me-02');
INSERT INTO skein VALUES(11,'me-03');
INSERT INTO skein VALUES(12,'me-04');
INSERT INTO skein VALUES(13,'me-05');
INSERT INTO skein VALUES(14,'me-06');
INSERT INTO skein VALUES(15,'me-07');
INSERT INTO skein VALUES(16,'me-08');
INSERT INTO skein VALUES(17,'me-09');
INSERT INTO skein VALUES(18,'me-10');
INSERT INTO skein VALUES(19,'me-11');
INSERT INTO skein VALUES(20,'me-12');
INSERT INTO skein VALUES(21,'me-13');
INSERT INTO skein VALUES(22,'sk-01');
INSERT INTO skein VALUES(23,'sk-02');
INSERT INTO skein VALUES(24,'qs-01');
INSERT INTO skein VALUES(25,'qs-02');
INSERT INTO skein VALUES(26,'qt-01');
INSERT INTO skein VALUES(27,'qt-02');
INSERT INTO skein VALUES(28,'td-01');
INSERT INTO skein VALUES(29,'td-02');
INSERT INTO skein VALUES(30,'td-03');
INSERT INTO skein VALUES(31,'td-04');
INSERT INTO skein VALUES(32,'td-05');
INSERT INTO skein VALUES(33,'td-06');
INSERT INTO skein VALUES(34,'td-07');
INSERT INTO skein VALUES(35,'td-08');
INSERT INTO skein VALUES(36,'td-09');
INSERT INTO skein VALUES(37,'pk-01');
INSERT INTO skein VALUES(38,'pk-02');
INSERT INTO skein VALUES(39,'pk-03');
INSERT INTO skein VALUES(40,'db-01');
INSERT INTO skein VALUES(41,'db-02');
INSERT INTO skein VALUES(42,'db-03');
INSERT INTO skein VALUES(43,'db-04');
INSERT INTO skein VALUES(44,'ls-01');
INSERT INTO skein VALUES(45,'fx-01');
INSERT INTO skein VALUES(46,'bc-01');
INSERT INTO skein VALUES(47,'bc-02');
INSERT INTO skein VALUES(48,'rr-01');
INSERT INTO skein VALUES(49,'gl-01');
INSERT INTO skein VALUES(50,'mc-01');
INSERT INTO skein VALUES(51,'fd-01');
INSERT INTO skein VALUES(52,'ub-01');
INSERT INTO skein VALUES(53,'s53');
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
INSERT INTO entry VALUES(1,'2026-11-28',NULL);
INSERT INTO entry VALUES(2,'2026-01-03',NULL);
INSERT INTO entry VALUES(3,'2026-11-28',NULL);
INSERT INTO entry VALUES(4,'2026-11-28',NULL);
INSERT INTO entry VALUES(5,'2026-11-28',4);
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
INSERT INTO movement_kind VALUES('set aside',0,0,0,'any or all',0,'kept for a project; a row of promise goes with it','common practice, no source');
INSERT INTO movement_kind VALUES('released',0,0,0,'none',0,'kept for that project no longer','common practice, no source');
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
INSERT INTO movement VALUES(1,1,1,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3355366421);
INSERT INTO movement VALUES(2,1,2,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1117763356);
INSERT INTO movement VALUES(3,1,3,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1603955761);
INSERT INTO movement VALUES(4,1,3,'weighed','2026-11-28','47 g',47.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',3479084567);
INSERT INTO movement VALUES(5,1,4,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',4267345205);
INSERT INTO movement VALUES(6,1,5,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3017070757);
INSERT INTO movement VALUES(7,1,6,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3702895920);
INSERT INTO movement VALUES(8,1,7,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2677004466);
INSERT INTO movement VALUES(9,1,8,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1842186956);
INSERT INTO movement VALUES(10,1,9,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3996695299);
INSERT INTO movement VALUES(11,1,10,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1321911781);
INSERT INTO movement VALUES(12,1,11,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',781914183);
INSERT INTO movement VALUES(13,1,12,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',180506328);
INSERT INTO movement VALUES(14,1,13,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',443386009);
INSERT INTO movement VALUES(15,1,13,'weighed','2026-11-28','96 g',96.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',2634064444);
INSERT INTO movement VALUES(16,1,14,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2100176100);
INSERT INTO movement VALUES(17,1,15,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',4018442869);
INSERT INTO movement VALUES(18,1,16,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2650892253);
INSERT INTO movement VALUES(19,1,17,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',212586828);
INSERT INTO movement VALUES(20,1,18,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1488041704);
INSERT INTO movement VALUES(21,1,19,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',4247931949);
INSERT INTO movement VALUES(22,1,20,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',375010707);
INSERT INTO movement VALUES(23,1,21,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2789510635);
INSERT INTO movement VALUES(24,1,22,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3715625721);
INSERT INTO movement VALUES(25,1,22,'weighed','2026-11-28','99.1 g',99.099999999999994317,NULL,'0.1 g',0.10000000000000000555,NULL,NULL,NULL,'','',1640734868);
INSERT INTO movement VALUES(26,1,23,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3964334100);
INSERT INTO movement VALUES(27,1,23,'weighed','2026-11-28','41.5 g',41.5,NULL,'0.1 g',0.10000000000000000555,NULL,NULL,NULL,'','',1409666360);
INSERT INTO movement VALUES(28,1,24,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3222614133);
INSERT INTO movement VALUES(29,1,25,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',161438261);
INSERT INTO movement VALUES(30,1,25,'weighed','2026-11-28','38.4 g',38.399999999999998578,NULL,'0.1 g',0.10000000000000000555,NULL,NULL,NULL,'','',4223714398);
INSERT INTO movement VALUES(31,1,26,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',409970189);
INSERT INTO movement VALUES(32,1,26,'weighed','2026-11-28','62.3 g',62.299999999999997159,NULL,'0.1 g',0.10000000000000000555,NULL,NULL,NULL,'','',1088927422);
INSERT INTO movement VALUES(33,1,27,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2510242186);
INSERT INTO movement VALUES(34,1,28,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1248403483);
INSERT INTO movement VALUES(35,1,29,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2233066766);
INSERT INTO movement VALUES(36,1,30,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3224787453);
INSERT INTO movement VALUES(37,1,31,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',504633813);
INSERT INTO movement VALUES(38,1,32,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1530635558);
INSERT INTO movement VALUES(39,1,33,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2487967795);
INSERT INTO movement VALUES(40,1,34,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3513048256);
INSERT INTO movement VALUES(41,1,35,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',769889938);
INSERT INTO movement VALUES(42,1,36,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1758210657);
INSERT INTO movement VALUES(43,1,37,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',95083579);
INSERT INTO movement VALUES(44,1,38,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2774049501);
INSERT INTO movement VALUES(45,1,39,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3603457689);
INSERT INTO movement VALUES(46,1,39,'weighed','2026-11-28','31 g',31.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',1430176527);
INSERT INTO movement VALUES(47,1,40,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3390967480);
INSERT INTO movement VALUES(48,1,41,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3566775087);
INSERT INTO movement VALUES(49,1,42,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',574691853);
INSERT INTO movement VALUES(50,1,43,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2421361173);
INSERT INTO movement VALUES(51,1,44,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3342286663);
INSERT INTO movement VALUES(52,1,45,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3091980293);
INSERT INTO movement VALUES(53,1,46,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2116759955);
INSERT INTO movement VALUES(54,1,47,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1479736981);
INSERT INTO movement VALUES(55,1,48,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1123234655);
INSERT INTO movement VALUES(56,1,48,'weighed','2026-11-28','101 g',101.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',2097430734);
INSERT INTO movement VALUES(57,1,49,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',2021091418);
INSERT INTO movement VALUES(58,1,50,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1903616687);
INSERT INTO movement VALUES(59,1,50,'weighed','2026-11-28','371 g',371.0,NULL,'1 g',1.0,'42 g',42.0,NULL,'','',708645560);
INSERT INTO movement VALUES(60,1,51,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',384628188);
INSERT INTO movement VALUES(61,1,52,'bought','2026-11-28',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',1022510788);
INSERT INTO movement VALUES(62,1,52,'weighed','2026-11-28','83 g',83.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',3018981446);
INSERT INTO movement VALUES(63,2,53,'bought','2026-01-03',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'','',3590114851);
INSERT INTO movement VALUES(64,3,1,'weighed','2026-11-28','62 g',62.0,NULL,'1 g',1.0,NULL,NULL,NULL,'','',1017141150);
INSERT INTO movement VALUES(65,4,2,'used in','2026-11-28','20 m',NULL,20.0,NULL,NULL,NULL,NULL,NULL,'Hat','',372326927);
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
INSERT INTO description VALUES(1,1,'moss','4471',NULL,'whole',0,'label prints 200 yd and 183 m; the yards are kept');
INSERT INTO description VALUES(2,1,'moss','4471',NULL,'whole',0,'');
INSERT INTO description VALUES(3,1,'moss','4502',NULL,'part',0,'left from a hat, visibly greener than lot 4471');
INSERT INTO description VALUES(5,1,'rust','3920','kitchen table','whole',0,'');
INSERT INTO description VALUES(6,1,'rust','3955','kitchen table','whole',0,'laid beside gw-04 by a north window, no step to be seen');
INSERT INTO description VALUES(7,1,'oat',NULL,NULL,'whole',0,'band lost the lot number');
INSERT INTO description VALUES(8,2,'slate','A17',NULL,'whole',0,'');
INSERT INTO description VALUES(9,2,'slate','A17',NULL,'whole',0,'');
INSERT INTO description VALUES(10,3,'cream','B208',NULL,'whole',0,'');
INSERT INTO description VALUES(11,3,'cream','B208',NULL,'whole',0,'');
INSERT INTO description VALUES(12,3,'cream','B208',NULL,'whole',0,'');
INSERT INTO description VALUES(13,3,'cream','B208',NULL,'whole',0,'');
INSERT INTO description VALUES(14,3,'cream','B208',NULL,'part',0,'swatches came out of this one');
INSERT INTO description VALUES(16,3,'teal','C031',NULL,'whole',0,'');
INSERT INTO description VALUES(17,3,'teal','C031',NULL,'whole',0,'');
INSERT INTO description VALUES(18,3,'teal','C031',NULL,'whole',0,'');
INSERT INTO description VALUES(19,3,'teal','C031',NULL,'whole',0,'');
INSERT INTO description VALUES(20,3,'ochre','C044','ochre by eye','whole',0,'');
INSERT INTO description VALUES(21,3,'ochre','C044','ochre by eye','whole',0,'');
INSERT INTO description VALUES(22,3,'ochre','C044','ochre by eye','whole',0,'');
INSERT INTO description VALUES(23,3,'ochre','C052','ochre by eye','whole',0,'another lot, but the same to the eye');
INSERT INTO description VALUES(24,4,'heather dusk','612',NULL,'whole',0,'weighed on the letter scale');
INSERT INTO description VALUES(26,4,'peat','588',NULL,'part',0,'');
INSERT INTO description VALUES(28,5,'ink','2231',NULL,'whole',0,'');
INSERT INTO description VALUES(29,5,'saffron',NULL,NULL,'part',0,'heels and toes, keep');
INSERT INTO description VALUES(31,6,'tidepool','77',NULL,'part',0,'starts in the middle of the sea green');
INSERT INTO description VALUES(33,6,'bonfire','81',NULL,'whole',0,'');
INSERT INTO description VALUES(34,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(35,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(36,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(37,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(38,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(39,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(40,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(41,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(42,7,'woad','0417',NULL,'whole',0,'');
INSERT INTO description VALUES(43,8,'brick','88',NULL,'whole',0,'');
INSERT INTO description VALUES(44,8,'brick','88',NULL,'whole',0,'');
INSERT INTO description VALUES(45,8,'salt','91',NULL,'part',0,'');
INSERT INTO description VALUES(47,9,'buttermilk','D7',NULL,'whole',0,'');
INSERT INTO description VALUES(48,9,'buttermilk','D7',NULL,'whole',0,'');
INSERT INTO description VALUES(49,9,'buttermilk','D7',NULL,'whole',0,'');
INSERT INTO description VALUES(50,9,'buttermilk',NULL,NULL,'whole',0,'a gift, no band');
INSERT INTO description VALUES(51,10,'meadow','305',NULL,'whole',0,'');
INSERT INTO description VALUES(52,11,'unbleached','19',NULL,'whole',0,'');
INSERT INTO description VALUES(53,12,'juniper','5',NULL,'whole',0,'');
INSERT INTO description VALUES(54,12,'juniper','5',NULL,'whole',2,'two knots, one near the start');
INSERT INTO description VALUES(55,13,'ash','44',NULL,'whole',0,'');
INSERT INTO description VALUES(57,14,'pearl','L3',NULL,'whole',0,'');
INSERT INTO description VALUES(58,15,'ecru',NULL,NULL,'part',0,'tare is the empty cone, from its twin');
INSERT INTO description VALUES(60,16,'dusk to dawn','1102',NULL,'whole',0,'one run of the colours is 24 m, then it begins again');
INSERT INTO description VALUES(61,17,'grey',NULL,NULL,'part',0,'from a car boot sale, perhaps wool');
INSERT INTO description VALUES(63,18,'','9',NULL,'whole',0,'');
CREATE TABLE unit (
    name TEXT NOT NULL COLLATE NOCASE,
    kind TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT unit_key PRIMARY KEY (name),
    CONSTRAINT unit_kind_known CHECK (kind IN ('length', 'mass'))
) STRICT, WITHOUT ROWID;
INSERT INTO unit VALUES('"','length','common practice, no source');
INSERT INTO unit VALUES('centimeter','length','common practice, no source');
INSERT INTO unit VALUES('centimeters','length','common practice, no source');
INSERT INTO unit VALUES('centimetre','length','common practice, no source');
INSERT INTO unit VALUES('centimetres','length','common practice, no source');
INSERT INTO unit VALUES('cm','length','common practice, no source');
INSERT INTO unit VALUES('cms','length','common practice, no source');
INSERT INTO unit VALUES('cotton hank','length','S17 lea entries');
INSERT INTO unit VALUES('cotton hanks','length','S17 lea entries');
INSERT INTO unit VALUES('cotton lea','length','S17 lea entries');
INSERT INTO unit VALUES('cotton leas','length','S17 lea entries');
INSERT INTO unit VALUES('dr','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('drachm','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('drachms','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('dram','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('drams','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('feet','length','common practice, no source');
INSERT INTO unit VALUES('foot','length','common practice, no source');
INSERT INTO unit VALUES('ft','length','common practice, no source');
INSERT INTO unit VALUES('g','mass','common practice, no source');
INSERT INTO unit VALUES('gm','mass','common practice, no source');
INSERT INTO unit VALUES('gms','mass','common practice, no source');
INSERT INTO unit VALUES('gr','mass','common practice, no source');
INSERT INTO unit VALUES('grain','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('grains','mass','S02 GNU units definitions file');
INSERT INTO unit VALUES('gram','mass','common practice, no source');
INSERT INTO unit VALUES('gramm','mass','common practice, no source');
INSERT INTO unit VALUES('gramme','mass','common practice, no source');
INSERT INTO unit VALUES('grammes','mass','common practice, no source');
INSERT INTO unit VALUES('gramo','mass','common practice, no source');
INSERT INTO unit VALUES('gramos','mass','common practice, no source');
INSERT INTO unit VALUES('grams','mass','common practice, no source');
INSERT INTO unit VALUES('hank','length','S17 lea entries');
INSERT INTO unit VALUES('hanks','length','S17 lea entries');
INSERT INTO unit VALUES('heer','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('heers','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('in','length','common practice, no source');
INSERT INTO unit VALUES('inch','length','common practice, no source');
INSERT INTO unit VALUES('inches','length','common practice, no source');
INSERT INTO unit VALUES('ins','length','common practice, no source');
INSERT INTO unit VALUES('jute hank','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('jute hanks','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('kg','mass','common practice, no source');
INSERT INTO unit VALUES('kgs','mass','common practice, no source');
INSERT INTO unit VALUES('kilo','mass','common practice, no source');
INSERT INTO unit VALUES('kilogram','mass','common practice, no source');
INSERT INTO unit VALUES('kilograms','mass','common practice, no source');
INSERT INTO unit VALUES('kilometer','length','common practice, no source');
INSERT INTO unit VALUES('kilometers','length','common practice, no source');
INSERT INTO unit VALUES('kilometre','length','common practice, no source');
INSERT INTO unit VALUES('kilometres','length','common practice, no source');
INSERT INTO unit VALUES('kilos','mass','common practice, no source');
INSERT INTO unit VALUES('km','length','common practice, no source');
INSERT INTO unit VALUES('lb','mass','common practice, no source');
INSERT INTO unit VALUES('lbs','mass','common practice, no source');
INSERT INTO unit VALUES('lea','length','S17 lea entries');
INSERT INTO unit VALUES('leas','length','S17 lea entries');
INSERT INTO unit VALUES('linen bundle','length','memory: linen trade tables as in general encyclopedias');
INSERT INTO unit VALUES('linen bundles','length','memory: linen trade tables as in general encyclopedias');
INSERT INTO unit VALUES('linen cut','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('linen cuts','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('linen hank','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('linen hanks','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('linen lea','length','S17 lea entries');
INSERT INTO unit VALUES('linen leas','length','S17 lea entries');
INSERT INTO unit VALUES('m','length','common practice, no source');
INSERT INTO unit VALUES('meter','length','common practice, no source');
INSERT INTO unit VALUES('meters','length','common practice, no source');
INSERT INTO unit VALUES('metre','length','common practice, no source');
INSERT INTO unit VALUES('metres','length','common practice, no source');
INSERT INTO unit VALUES('metro','length','common practice, no source');
INSERT INTO unit VALUES('metros','length','common practice, no source');
INSERT INTO unit VALUES('mg','mass','common practice, no source');
INSERT INTO unit VALUES('millimeter','length','common practice, no source');
INSERT INTO unit VALUES('millimeters','length','common practice, no source');
INSERT INTO unit VALUES('millimetre','length','common practice, no source');
INSERT INTO unit VALUES('millimetres','length','common practice, no source');
INSERT INTO unit VALUES('mm','length','common practice, no source');
INSERT INTO unit VALUES('mt','length','common practice, no source');
INSERT INTO unit VALUES('mtr','length','common practice, no source');
INSERT INTO unit VALUES('mtrs','length','common practice, no source');
INSERT INTO unit VALUES('mts','length','common practice, no source');
INSERT INTO unit VALUES('onza','mass','common practice, no source');
INSERT INTO unit VALUES('onzas','mass','common practice, no source');
INSERT INTO unit VALUES('ounce','mass','common practice, no source');
INSERT INTO unit VALUES('ounces','mass','common practice, no source');
INSERT INTO unit VALUES('oz','mass','common practice, no source');
INSERT INTO unit VALUES('ozs','mass','common practice, no source');
INSERT INTO unit VALUES('pound','mass','common practice, no source');
INSERT INTO unit VALUES('pounds','mass','common practice, no source');
INSERT INTO unit VALUES('spindle','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('spindles','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('spyndle','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('spyndles','length','S18 Kilgour and Woodhouse');
INSERT INTO unit VALUES('unze','mass','common practice, no source');
INSERT INTO unit VALUES('unzen','mass','common practice, no source');
INSERT INTO unit VALUES('worsted hank','length','S16 ASTM D2260 page');
INSERT INTO unit VALUES('worsted hanks','length','S16 ASTM D2260 page');
INSERT INTO unit VALUES('worsted lea','length','S17 lea entries');
INSERT INTO unit VALUES('worsted leas','length','S17 lea entries');
INSERT INTO unit VALUES('yard','length','common practice, no source');
INSERT INTO unit VALUES('yarda','length','common practice, no source');
INSERT INTO unit VALUES('yardas','length','common practice, no source');
INSERT INTO unit VALUES('yards','length','common practice, no source');
INSERT INTO unit VALUES('yd','length','common practice, no source');
INSERT INTO unit VALUES('yds','length','common practice, no source');
INSERT INTO unit VALUES('″','length','common practice, no source');
CREATE TABLE weight_class (
    number INTEGER NOT NULL,
    name TEXT NOT NULL,
    source TEXT NOT NULL,
    CONSTRAINT weight_class_key PRIMARY KEY (number)
) STRICT;
INSERT INTO weight_class VALUES(0,'Lace','S03 CYC Standard Yarn Weight System (copies); S04 course copy');
INSERT INTO weight_class VALUES(1,'Super Fine','S03 CYC Standard Yarn Weight System (copies); S04');
INSERT INTO weight_class VALUES(2,'Fine','S03 CYC Standard Yarn Weight System (copies); S04');
INSERT INTO weight_class VALUES(3,'Light','S03 CYC Standard Yarn Weight System (copies); S04');
INSERT INTO weight_class VALUES(4,'Medium','S03 CYC Standard Yarn Weight System (copies); S04');
INSERT INTO weight_class VALUES(5,'Bulky','S03 CYC Standard Yarn Weight System (copies); S04');
INSERT INTO weight_class VALUES(6,'Super Bulky','S03 CYC Standard Yarn Weight System (copies); S04 (crochet 7-9 and 9-15 mm); S25 yarn guide PDF (needle 8-12.75 mm)');
INSERT INTO weight_class VALUES(7,'Jumbo','S03 CYC Standard Yarn Weight System (copies); S04 (crochet 6 and fewer; 15 mm and larger); S25');
CREATE TABLE promise (
    movement INTEGER NOT NULL,
    role TEXT NOT NULL,      -- empty: any yarn of the project
    CONSTRAINT promise_key PRIMARY KEY (movement),
    CONSTRAINT promise_of_a_movement FOREIGN KEY (movement) REFERENCES movement (number)
) STRICT;
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
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('skein',53);
INSERT INTO sqlite_sequence VALUES('entry',5);
INSERT INTO sqlite_sequence VALUES('movement',65);
CREATE UNIQUE INDEX yarn_identity ON yarn (
    name, coalesce(class, -1), coalesce(fibre_json, ''),
    coalesce(label_length_text, ''), coalesce(label_length_m, 0),
    coalesce(label_mass_text, ''), coalesce(label_mass_g, 0),
    coalesce(colour_repeat_text, ''), coalesce(colour_repeat_m, 0));
CREATE INDEX movement_by_skein ON movement (skein);
CREATE INDEX movement_by_entry ON movement (entry);
CREATE INDEX description_by_yarn ON description (yarn);
CREATE INDEX movement_set_aside ON movement (skein) WHERE kind = 'set aside';
CREATE INDEX reading_by_entry ON reading (entry);
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
COMMIT;
