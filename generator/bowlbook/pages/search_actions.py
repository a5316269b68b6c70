"""Things to do that search offers beside entries: pages and tools, by what people type for them."""

from typing import NamedTuple


class Action(NamedTuple):
    """``address`` from the site's top; ``typed``: what people type for it, with commas between.

    ``of_blend``: the place on a blend's page; then the row leads to the blend opened last on this phone, and
    to ``address`` where there was none.
    """

    title: str
    note: str
    address: str
    typed: str
    of_blend: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """What people type for it."""
        return tuple(self.typed.split(", "))


ACTIONS = (
    Action("Pick by hair", "What to mix, how to place it, and what not to.", "pick/",
           "what to mix, consultation, choose, find a recipe, which bleach"),
    Action("Try a blend", "Put a bowl together from the shelf; see it weighed and checked.", "try/",
           "new recipe, new blend, own blend, experiment, draft, mix from the shelf, invent"),
    Action("Added too much?", "The rest of the pours, put right.", "blends/",
           "poured too much, too much developer, over poured, overpoured, wrong weight, "
           "correct my bowl, fix my bowl, spilled", "bb-added"),
    Action("Any amount", "A bowl of any weight, on the page of its blend.", "blends/",
           "other size, other amount, half a bowl, double, smaller bowl, oz, g, ounces, grams, "
           "weigh, calculator, how much", "bb-any"),
    Action("Timers and timing log",
           "What is running, and today’s checks, on this phone. A timer is started on a technique’s page.",
           "timing-log/", "timer, timers, clock, start a timer, processing time, minutes, stopwatch, log"),
    Action("When it goes wrong", "What to do now, what never, and when a doctor is needed.", "troubles/",
           "trouble, problem, mistake, wrong, first aid, help, accident"),
    Action("Cards to print", "Blends and techniques for the bench.", "cards/",
           "print cards, print, cards, card, laminate, qr code, pdf"),
    Action("Costs", "What a bowl and a service cost.", "reports/costs/",
           "price, prices, cost, costs, money, how much does it cost, bowl cost"),
    Action("Weighing", "How exactly each size can be weighed.", "reports/weighing/",
           "scale, scales, accuracy, rounding, weighing errors"),
    Action("Out of date", "Reviews and prices that are due.", "reports/dates/",
           "out of date, overdue, expired, old prices, due, reviews"),
    Action("Coverage", "Heads that no recipe serves.", "reports/coverage/",
           "gaps, missing recipes, coverage"),
    Action("Recent changes", "What changed in the recipes, newest first.", "changes/",
           "what is new, whats new, new, changes, changed, updates, latest, news"),
    Action("Hair situations", "All of them.", "situations/", "situations, heads"),
    Action("Blends", "All of them.", "blends/", "blends, recipes, recipe, formulas, mixes, bowls"),
    Action("Techniques", "All of them.", "techniques/", "techniques, placements, services"),
    Action("Products", "All of them.", "products/", "products, shelf, stock"),
    Action("Class notes", "All of them.", "classes/", "classes, teaching, handouts"),
)  # fmt: skip
