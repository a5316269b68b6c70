"""What a page of the site may do, as its Content-Security-Policy says to the browser."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'"
)
"""Own files only; nothing inline runs, nothing is evaluated. ``data:`` pictures are the theme's own icons."""
