"""What a reader of the whole book would object to: one module a check, named after its code."""
