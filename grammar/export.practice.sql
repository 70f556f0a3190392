-- Tosses, tries, jumps and focus, one row a line, schema 2; for PostgreSQL:
--   9m export --table practice season/ > practice.csv
--   psql -f export.practice.sql < practice.csv
CREATE TABLE IF NOT EXISTS practice (
  "file" text NOT NULL,
  "line" integer NOT NULL CHECK ("line" >= 1),
  "date" date NOT NULL,
  "kind" text NOT NULL CHECK ("kind" IN ('match', 'practice')),
  "entry" text NOT NULL CHECK ("entry" IN ('toss', 'tries', 'jumps', 'focus')),
  "team" text,
  "player" integer NOT NULL CHECK ("player" >= 0 AND "player" <= 99),
  "player_name" text,
  "hits" integer CHECK ("hits" >= 0),
  "tries" integer CHECK ("tries" >= 0),
  "ring_m" numeric,
  "drill" text,
  "focus" text,
  "misses" text
);
\copy practice FROM pstdin WITH (FORMAT csv, HEADER true, ENCODING 'UTF8')
