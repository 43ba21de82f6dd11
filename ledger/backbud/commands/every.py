"""Which commands there are, and what each does in a few words."""

from __future__ import annotations

# In the order of `--help`, each with what it does.
COMMANDS = {
    "begin": "start a journal in a new folder",
    "jot": "put what was done on today's page of the diary",
    "check": "print every problem of the journal",
    "make": "compile the journal into calendars and pages (made/)",
    "watch": "keep the pages up to date while you write, and serve them",
    "due": "what wants doing, soonest first",
    "tree": "a tree: what it is, what is on it, what was done, what is due",
    "trees": "the trees as a list, to be sorted and narrowed down",
    "places": "the places, each below what it is within, and who stands there",
    "pots": "the pots, the free ones first: size, what they hold, who is in them",
    "why": "why something is due: the chain of reasons",
    "since": "what the diary gained since a revision, and how the plan changed for it",
    "reckon": "a sum of the bench: pot, mix, wire, feed, roots, water",
    "publish": "compile the journal and write its feeds to a CalDAV server",
    "collect": "bring what was ticked off on the server into the diary",
    "species": "the species that are known; the year of one of them",
    "trust": "look at the code in a journal's plugins/, and let it run",
    "stores": "what is on the shelf, and what to buy for the year ahead",
    "visits": "other people's trees in the house: agreed, done, waiting, open",
    "account": "what a person's trees came to, was billed, paid, and is open",
    "registers": "treatments, plants in and out, stock, unpaid bills; as CSV, too",
    "papers": "a person's receipts, account of the work, care sheets and provenance",
    "weather": "fetch the forecast of the met service that you named, and past days",
    "nightly": "fetch, make and publish by itself; how to set that up",
    "data": "give the journal out as SQLite, CSV, JSON and a Darwin Core archive",
    "bring": "bring a list from a spreadsheet or a calendar of past work in",
    "tidy": "line up the details in files, changing no meaning",
    "rest": "move whole days of years long past out of the way",
    "completion": "what makes bash, zsh or fish complete commands, options and handles",
    "man": "the manual page, for man",
    "editor": "a language server for your editor: problems, completion, what is due",
}
