"""The views of the database: what people ask a collection most often."""

from __future__ import annotations

from msgspec import Struct


class Question(Struct, frozen=True):
    """A view: its name, what it answers, and the SELECT that does."""

    name: str
    about: str
    select: str


QUESTIONS = (
    Question(
        "due_by_place",
        "What wants doing now, by place: what a tree may die of first, then by its last day.",
        """SELECT coalesce(places.name, 'nowhere written') AS place, trees.name AS tree,
       works.title, works.closes AS last_day, works.minutes, works.at_stake
FROM works JOIN trees USING (tree) LEFT JOIN places USING (place)
WHERE works.state IN ('overdue', 'now')
ORDER BY place, CASE works.at_stake WHEN 'life' THEN 0 WHEN 'harm' THEN 1 ELSE 2 END,
         works.closes, trees.name, works.title""",
    ),
    Question(
        "last_root_work",
        "When the roots of each tree that is here were last worked on; those longest ago first.",
        """SELECT trees.tree, trees.name, trees.kind, max(entries.first_day) AS last_day,
       entries.act, entries.details
FROM trees LEFT JOIN entries ON entries.tree = trees.tree AND entries.done = 1
     AND entries.act IN ('repotted', 'potted-on', 'root-pruned')
WHERE trees.standing = 'here' GROUP BY trees.tree ORDER BY last_day, trees.tree""",
    ),
    Question(
        "wire_on_trees",
        "The wire that is on trees that are here, what has been on longest first.",
        """SELECT trees.name AS tree, on_trees.part, on_trees.thickness_mm, on_trees.what,
       on_trees.since, on_trees.bites
FROM on_trees JOIN trees USING (tree)
WHERE on_trees.sort = 'wire' AND trees.standing = 'here'
ORDER BY on_trees.since, trees.name, on_trees.part""",
    ),
    Question(
        "hours_by_month",
        "The hours that were written down (`worked`), by month; each tree has its share of them.",
        """SELECT substr(first_day, 1, 7) AS month,
       round(sum(figure / CASE unit WHEN 'min' THEN 60.0 ELSE 1.0 END / shared_among), 2) AS hours
FROM entries JOIN details USING (entry)
WHERE act = 'worked' AND done = 1 AND within IS NULL AND unit IN ('h', 'min')
GROUP BY month ORDER BY month""",
    ),
    Question(
        "charges_by_person",
        "What each person's visits come to, by currency, as far as prices are known.",
        """SELECT people.name AS person, charges.currency, count(DISTINCT visits.visit) AS visits,
       printf('%.2f', sum(CAST(charges.amount AS REAL))) AS comes_to,
       sum(charges.amount IS NULL AND NOT charges.within) AS lines_without_price
FROM charges JOIN visits USING (visit) JOIN people USING (person)
GROUP BY person, charges.currency ORDER BY person, charges.currency""",
    ),
    Question(
        "trees_by_kind",
        "How many trees of each kind are here, how many died, and how many were lost.",
        """SELECT kind, sum(standing = 'here') AS here, sum(standing = 'died') AS died,
       sum(standing = 'lost') AS lost
FROM trees GROUP BY kind ORDER BY here DESC, kind""",
    ),
)
