"""``python -m app`` is ``coursewright``."""

import sys

from app.cli import main

sys.exit(main())
