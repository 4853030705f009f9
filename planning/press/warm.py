"""What the server that papers are forked from has loaded beforehand: a second of work, once."""

from __future__ import annotations

try:
    import weasyprint
except OSError:  # no Pango: whoever draws says so
    pass
else:
    # Fonts are looked for, and modules loaded, when the first page is drawn.
    weasyprint.HTML(string='<html lang="en"><title>x</title><p>x').write_pdf()
