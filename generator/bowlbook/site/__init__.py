"""The site: the only rooms that know MkDocs. A plugin of few hooks, and publishing beside the old site."""
