"""The day that prices and reviews are held against."""

import os
import time
from datetime import UTC, date, datetime


def today() -> date:
    """The day of SOURCE_DATE_EPOCH where it is set (reproducible-builds.org), else today, in UTC."""
    wanted = os.environ.get("SOURCE_DATE_EPOCH")
    try:
        return datetime.fromtimestamp(int(wanted or time.time()), UTC).date()
    except (ValueError, OverflowError, OSError) as error:
        message = f"SOURCE_DATE_EPOCH is {wanted!r}; it must be a number of seconds since 1970."
        raise SystemExit(message) from error
