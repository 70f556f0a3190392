-- Questions to a whole archive, after load.sql. The first four give what
-- `9m tally --by server`, `--by type`, `--by set` and `--by situation` (cold) give of
-- the same notes: counts and sums, so that a share always has what it is out of.
\set ON_ERROR_STOP on

-- Who breaks the pass? Below 30 serves a share says little; order by it with care. A
-- name is one person whatever her shirt; without one the shirt has to do.
SELECT club, coalesce(name, shirt::text) AS who, sum(times) AS serves, sum(broke * times) AS broke,
       sum(missed * times) AS missed, sum(won * times) AS won
FROM counted WHERE kind = 'match'
GROUP BY club, who ORDER BY club, who;

-- By type of serve, where it was written down.
SELECT club, type, sum(times) AS serves, sum(broke * times) AS broke,
       sum(missed * times) AS missed, sum(won * times) AS won
FROM counted WHERE kind = 'match'
GROUP BY club, type ORDER BY club, type;

-- Set by set.
SELECT club, set, sum(times) AS serves, sum(broke * times) AS broke,
       sum(missed * times) AS missed, sum(won * times) AS won
FROM counted WHERE kind = 'match'
GROUP BY club, set ORDER BY club, set;

-- First serves after coming in.
SELECT club, cold, sum(times) AS serves, sum(broke * times) AS broke,
       sum(missed * times) AS missed, sum(won * times) AS won
FROM counted WHERE kind = 'match' AND cold = 1
GROUP BY club, cold ORDER BY club;

-- What no table of 9m has: all clubs together, month by month and type by type.
SELECT date_trunc('month', date)::date AS month, type, sum(times) AS serves,
       round(avg(broke), 3) AS broke_frac, round(avg(missed), 3) AS missed_frac
FROM counted WHERE kind = 'match' AND type IS NOT NULL
GROUP BY month, type ORDER BY month, type;

-- What a mark of technique goes with, over all clubs; not what it causes. Only where
-- the phase was observed is a missing mark an answer.
SELECT 'td' = ANY (string_to_array(marks, ' ')) AS toss_down, count(*) AS serves,
       sum(missed) AS missed, sum((outcome = 'net')::int) AS into_the_net
FROM counted
WHERE kind = 'match' AND 'toss' = ANY (string_to_array(observed, ' '))
GROUP BY toss_down ORDER BY toss_down NULLS FIRST;
