"""Writes the JSON Schema of the room file: ``python -m app.room_schema --write docs/room.schema.json``."""

import argparse
import sys
from pathlib import Path

from core.export.room_schema import schema_text


def main() -> int:
    """Print the schema, or write it to a file."""
    parser = argparse.ArgumentParser(prog="python -m app.room_schema", description="The room file as a JSON Schema.")
    parser.add_argument("--write", type=Path, metavar="FILE", help="write it there instead of printing it")
    options = parser.parse_args()
    if options.write:
        options.write.write_text(schema_text(), encoding="utf-8")
    else:
        sys.stdout.write(schema_text())
    return 0


if __name__ == "__main__":
    sys.exit(main())
