"""``python -m app.endurance [--short]``: tries to break the program, and prints what was tried and what held."""

import argparse
import os
import sys

from app.endurance.outcome import table_text
from app.endurance.trials import TRIALS, Effort


def main() -> int:
    """Run the trials that the options ask for; 1 where something did not hold."""
    options = _options()
    effort = Effort.SHORT if options.short else Effort.LONG
    # No trial needs a screen.
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    outcomes = []
    for name, trial in TRIALS.items():
        if options.only in (None, name):
            sys.stderr.write(f"{name} ...\n")
            outcomes += trial(effort, options.seed)
    sys.stdout.write(table_text(outcomes) + "\n")
    return 0 if all(outcome.held for outcome in outcomes) else 1


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m app.endurance", description=__doc__, allow_abbrev=False)
    parser.add_argument("--short", action="store_true", help="a few of everything, as the tests do; without it some hours")
    parser.add_argument("--only", choices=TRIALS, metavar="NAME", help=f"only one of {', '.join(TRIALS)}")
    parser.add_argument("--seed", type=int, default=1, help="another number makes other tries; the same one the same")
    return parser.parse_args()


if __name__ == "__main__":
    sys.exit(main())
