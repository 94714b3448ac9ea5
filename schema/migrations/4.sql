-- Layout 3 to layout 4: labels as other languages print them.

INSERT INTO unit (name, kind, source)
    SELECT column1, 'length', 'common practice, no source' FROM (VALUES
        ('metro'), ('metros'), ('yarda'), ('yardas'));
INSERT INTO unit (name, kind, source)
    SELECT column1, 'mass', 'common practice, no source' FROM (VALUES
        ('gramm'), ('gramo'), ('gramos'), ('unze'), ('unzen'), ('onza'), ('onzas'));
