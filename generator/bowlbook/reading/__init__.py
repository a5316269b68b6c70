"""Text and where it stands: files, YAML, amounts and the findings that point back at them."""
