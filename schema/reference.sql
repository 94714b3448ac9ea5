-- The rows that a stash begins with, each with its source; run after schema.sql. Units and classes
-- are those of lib/data, which a test holds them to. To change a row is to change the layout.

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
        'common practice, no source'),
    ('set aside', 0, 0, 0, 'any or all', 0, 'kept for a project; a row of promise goes with it',
        'common practice, no source'),
    ('released', 0, 0, 0, 'none', 0, 'kept for that project no longer',
        'common practice, no source');

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
INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'common practice, no source' FROM (VALUES
        ('metro'), ('metros'), ('yarda'), ('yardas'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'mass', 'common practice, no source' FROM (VALUES
        ('gramm'), ('gramo'), ('gramos'), ('unze'), ('unzen'), ('onza'), ('onzas'));

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
