-- Puts the table of all serves into PostgreSQL, in the place of the one that was
-- there:
--   9m export -o serves.csv archive/ && psql -f load.sql < serves.csv
-- In one transaction: until the new table is whole, everybody sees the old one, and
-- if something is wrong it stays.
\set ON_ERROR_STOP on
SET client_min_messages = warning;
BEGIN;
DROP VIEW IF EXISTS counted;
DROP TABLE IF EXISTS serves;
\ir ../../grammar/export.serves.sql
DO $$ BEGIN
  IF NOT EXISTS (SELECT FROM serves) THEN
    RAISE EXCEPTION 'there was no serve to read; the old table stays';
  END IF;
END $$;

-- The serves that count, one row each, with the words of 9m tally: an overlap of the
-- receivers makes an ace of all but a fault at the hit, and a point that was taken
-- back counts for nothing. times is above 1 in practices only. The table has no name
-- for whoever an error is charged to in the place of the server.
CREATE VIEW counted AS
SELECT *,
       CASE WHEN ace OR outcome IN ('in', 'over') THEN 0 ELSE 1 END AS missed,
       CASE WHEN ace OR outcome = 'over' OR pass = 1 THEN 1 ELSE 0 END AS broke
FROM (SELECT *,
             coalesce(team_name, team) AS club,
             coalesce(charged, server) AS shirt,
             CASE WHEN charged IS NULL THEN server_name END AS name,
             repeat AS times,
             outcome IN ('ace', 'overlap')
               OR overlap = 1 AND outcome NOT IN ('foot', 'clock', 'order', 'drop') AS ace
      FROM serves WHERE cancelled = 0) AS s;

CREATE INDEX ON serves (team_name, server);
CREATE INDEX ON serves (date);
COMMIT;
ANALYZE serves;
