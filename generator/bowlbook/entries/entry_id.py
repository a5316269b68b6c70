"""What an entry's id is: the name of its file, and how other entries name it."""

import re

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_ID = 60
