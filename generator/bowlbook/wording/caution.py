"""The usual cautions. They stand on every page that helps someone mix or apply; no setting removes them.

Sources: disposable non-latex gloves and ventilation, HSE COSHH pages on hairdressing; persulfates sensitise
skin and airways, ANSES (12 June 2019) and NICNAS (2001); patch tests, FDA and SCCP (2007) pages. The rest is
common practice, no published source.
"""

FIRST_AID = (
    "An eye first: clean water at once, gently, twenty minutes by the clock, contact lenses out if they come "
    "easily. Then a doctor, always.",
    "Skin that burns: rinse the mix off at once with much lukewarm water, twenty minutes where it burned.",
    "Trouble breathing, a swollen face, fainting: the emergency number at once, fresh air, then rinse.",
    "Swallowed: rinse the mouth, nothing to make it come up, and the emergency number or a poison centre.",
    "Blisters, white patches, or pain after rinsing: a doctor the same day.",
    "The product’s label or safety sheet goes along. Nobody is left alone, and nobody drives themselves.",
)
"""What holds whatever went wrong. It stands on the page of troubles of every book; no setting removes it."""

FIRST_AID_SOURCE = (
    "Eye, breathing, swallowed: Regulation (EC) No 1272/2008 (CLP), Annex IV, P305 + P351 + P338, P310, "
    "P304 + P340, P342 + P311, P301 + P330 + P331. Twenty minutes and the rest: common practice, no "
    "published source. Not medical advice."
)

USUAL_CAUTIONS = (
    "Follow the maker’s instructions first: where they differ from this page, they win.",
    "Patch test and strand test before the service. A clear patch test is no proof of safety.",
    "Non-latex gloves for every client, eyes protected, fresh air in the room. Powder dust and lightener can "
    "sensitise skin and airways; add powder from low down, and keep the lid on.",
    "Never on a broken, sore or irritated scalp. Off-scalp products stay off the scalp.",
    "Brows and lashes: never.",
    "No metal bowls or tools in the mix. Never close a mixed bowl in a container: it gives off gas.",
    "Check often. Rinse at the first burning, heat or discomfort, whatever the clock says.",
    "Local rules and licensed practice come before this book. It shows one house’s practice and is not "
    "medical or legal advice.",
)

USUAL_SHORT = (
    "The maker’s leaflet first: where it differs from this page, it wins.",
    "Patch test and strand test before the service. A clear patch test is no proof of safety.",
    "Non-latex gloves, eyes protected, fresh air. Add powder from low down, and keep the lid on.",
    "Never on a broken, sore or irritated scalp. Off-scalp products stay off it. Brows and lashes: never.",
    "No metal bowls or tools in the mix. Never close a mixed bowl in a container.",
    "Check often. Rinse at the first burning, heat or discomfort, whatever the clock says.",
    "Local rules and licensed practice come first. One house’s practice, not medical or legal advice.",
)
"""The usual cautions on a page of the site, which leads to all of them: none left out, fewer words."""

USUAL_SAYS = "leaflet first, strand test, gloves, never on sore skin"
"""What the shut fold of the usual cautions says of them."""
