-- What no constraint and no trigger can hold by itself. Each statement gives a row (rule, skein or
-- place) for everything that breaks its rule, and none for a sound stash:
--     sqlite3 stash.skeinfall < schema/checks.sql

SELECT 'a_movement_that_describes_has_a_description', skein.id
FROM movement JOIN movement_kind USING (kind) JOIN skein ON skein.number = movement.skein
WHERE describes = 1 AND movement.number NOT IN (SELECT movement FROM description)
ORDER BY movement.number;

SELECT 'only_a_movement_that_describes_has_a_description', skein.id
FROM description JOIN movement ON movement.number = description.movement
    JOIN movement_kind USING (kind) JOIN skein ON skein.number = movement.skein
WHERE describes = 0 ORDER BY movement.number;

SELECT 'a_skein_begins_with_its_first_movement', skein.id
FROM standing_skein JOIN standing ON standing.skein = standing_skein.skein
    JOIN skein ON skein.number = standing.skein
WHERE standing.first <> (standing.number = standing_skein.arrival)
ORDER BY standing.number;

SELECT 'yarn_wound_off_arrives_in_another_skein', skein.id
FROM standing JOIN skein ON skein.number = standing.skein
WHERE standing.kind IN ('wound off', 'wound from') AND NOT EXISTS (
    SELECT 1 FROM standing AS far
    WHERE far.skein = standing.other AND far.other = standing.skein AND far.entry = standing.entry
        AND far.kind IN ('wound off', 'wound from') AND far.kind <> standing.kind
        AND far.amount_g IS standing.amount_g AND far.amount_m IS standing.amount_m)
ORDER BY standing.number;

SELECT 'no_skein_holds_less_than_nothing', holding.id
FROM holding
WHERE (since_g < 0 AND left_g < -0.000001 OR since_m < 0 AND left_m < -0.000001)
    -- Where masses and lengths were both taken, only a length per mass could tell.
    AND NOT (EXISTS (SELECT 1 FROM standing WHERE standing.skein = holding.skein
            AND standing.sense <> 0 AND standing.amount_g IS NOT NULL)
        AND EXISTS (SELECT 1 FROM standing WHERE standing.skein = holding.skein
            AND standing.sense <> 0 AND standing.amount_m IS NOT NULL))
ORDER BY holding.skein;

SELECT 'amounts_fit_their_kind', skein.id
FROM movement JOIN movement_kind USING (kind) JOIN skein ON skein.number = movement.skein
WHERE NOT CASE movement_kind.amount
        WHEN 'none' THEN amount_text IS NULL AND tare_text IS NULL
        WHEN 'reading' THEN amount_g IS NOT NULL
        WHEN 'any' THEN amount_text IS NOT NULL AND tare_text IS NULL
        ELSE tare_text IS NULL END
    OR movement_kind.other <> (movement.other IS NOT NULL)
ORDER BY movement.number;

SELECT 'an_entry_that_undoes_holds_no_movement', entry.number
FROM entry WHERE undoes IS NOT NULL
    AND (number IN (SELECT entry FROM movement) OR number IN (SELECT entry FROM reading))
ORDER BY entry.number;

SELECT 'an_entry_undoes_an_earlier_one', entry.number
FROM entry WHERE undoes >= number ORDER BY entry.number;

SELECT 'a_movement_that_sets_aside_has_a_promise', skein.id
FROM movement JOIN skein ON skein.number = movement.skein
WHERE kind = 'set aside' AND movement.number NOT IN (SELECT movement FROM promise)
ORDER BY movement.number;

SELECT 'only_a_movement_that_sets_aside_has_a_promise', skein.id
FROM promise JOIN movement ON movement.number = promise.movement
    JOIN skein ON skein.number = movement.skein
WHERE kind <> 'set aside' ORDER BY movement.number;

SELECT 'no_more_is_set_aside_than_a_skein_holds', skein.id
FROM overpromised JOIN skein ON skein.number = overpromised.skein ORDER BY skein.number;

SELECT 'what_is_set_aside_is_held', skein.id
FROM set_aside JOIN skein ON skein.number = set_aside.skein
WHERE set_aside.skein NOT IN (SELECT skein FROM holding) ORDER BY set_aside.number;

SELECT 'a_skein_is_set_aside_once_for_a_project', skein.id
FROM set_aside JOIN skein ON skein.number = set_aside.skein
GROUP BY set_aside.skein, lower(project) HAVING count(*) > 1 ORDER BY skein.number;

SELECT 'what_is_kept_for_a_project_names_it', skein.id
FROM movement JOIN skein ON skein.number = movement.skein
WHERE kind IN ('set aside', 'released') AND purpose = '' ORDER BY movement.number;

SELECT 'a_class_is_one_of_the_council', yarn.name
FROM yarn WHERE class IS NOT NULL AND class NOT IN (SELECT number FROM weight_class)
ORDER BY yarn.number;
