"""The day that prices and reviews are held against."""

import os
import time
from datetime import UTC, date, datetime


def today() -> date:
    """The day of SOURCE_DATE_EPOCH where it is set (reproducible-builds.org), else today, in UTC."""
    seconds = int(os.environ.get("SOURCE_DATE_EPOCH") or time.time())
    return datetime.fromtimestamp(seconds, UTC).date()
