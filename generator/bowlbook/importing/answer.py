"""What a person may answer of a table, or of a column whose cells do not say it themselves."""

DECIMAL = {"comma": ",", "point": "."}
"""How a table's decimal sign is said, and the sign."""
DAYS = ("day first", "month first")
"""How a table may write 02/10/2026."""
LIGHTENER_FIRST, ADDITIVE_FIRST = "lightener first", "additive first"
"""Which side of an additive's ratio is which."""
PART_OF_ONE = "part of 1"
"""What 0.06 is of 6 %."""
NET_UNITS = ("g", "kg", "oz", "lb", "mL", "L", "fl oz", "pieces")
MEANS = ("volume", "%", PART_OF_ONE, "minutes", "g/mL", "ratio", LIGHTENER_FIRST, ADDITIVE_FIRST, *NET_UNITS)
"""All that ``means`` may say of a column."""
