"""`backbud make`: compile the journal into calendars and pages."""

from __future__ import annotations

from argparse import Namespace

from backbud.commands.answers import tell_refused
from backbud.commands.journal import day_of, folder_of, journal_options
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE, PROBLEMS, unpublished
from backbud.say import say, say_json, warn, warn_problem

# More than a screenful helps nobody who only wanted to compile.
SHOWN = 20


def add_options(parser: ArgumentParser) -> None:
    """The journal and the day; whether a foreign output may be moved aside."""
    parser.add_argument(
        "--take-over",
        action="store_true",
        help="move aside a made/ that is not of your making, and make it anew",
    )
    journal_options(parser)


def run(options: Namespace) -> int:
    """Compile and publish; tell the problems, then what was made."""
    from backbud.make import make
    from backbud.publish.refused import PublishError
    from backbud.publish.unchanged import made_on, make_arguments
    from backbud.whole import Broken
    from backbud.words import number

    folder = folder_of(options.folder)
    today, asked = day_of(options)
    try:
        if options.take_over:
            from backbud.publish.aside import take_over

            for sentence in take_over(folder, made_on(today.isoformat(), asked)):
                warn(sentence)
        made = make(
            folder,
            today,
            as_of=asked,
            arguments=make_arguments(asked, options.json),
            json=options.json,
            by_two=True,
        )
    except Broken as error:
        return tell_refused(error)
    except PublishError as error:
        raise unpublished(error) from None
    if not options.json:
        for problem in made.problems[:SHOWN]:
            warn_problem(problem)
        if len(made.problems) > SHOWN:
            more = number(len(made.problems) - SHOWN, "more problem")
            warn(f"… and {more}; backbud check shows all.")
        say(*made.summary.split("\n"))
    else:
        say_json(made.summary)
    return PROBLEMS if made.problems else FINE
