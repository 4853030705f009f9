"""The pages that every checker looks at, so that a new one is looked at by all."""

from intake.steps import STEPS

FILLED, BEGUN, ENGLISH = "demo-two-days", "demo-far-hillside", "demo-orchard-barn"
CHANGED = "demo-winter-hall"  # confirmed, and changed since
LESSENED = "demo-two-villages"  # once a place is taken out of the answers
COUPLES = ["", "read-through", "step/groups/paste", *(f"step/{step.slug}" for step in STEPS)]
COUPLES += ["agreed"]
WEDDINGS = [
    "answers", "meeting", "groups", "light", "visit", "day", "late", "map", "pictures", "papers",
    "link", "booking", "questions", "people", "bag", "ready", "ready/lines", "erase", "phone",
]  # fmt: skip
STUDIOS = ["", "studio", "kinds", "kinds/one_place", "questions", "questions/preview"]
STUDIOS += ["weddings/new", "people", "password", "kit", "kit/demo-1"]
STUDIOS += ["calendar"]
STUDIOS += ["due", "insurance", "ready-lines", "first-weddings", "experience"]
SPOIL = """() => document.querySelectorAll("main input:not([type=hidden], [hidden])")
.forEach((box) => {
  if (box.type === "text") box.value = "";
  if (box.inputMode === "numeric") box.value = "x";
})"""


def sign_in(page, site):
    page.goto(f"{site.url}/sign-in")
    page.fill("input[name=username]", site.username)
    page.fill("input[name=password]", site.password)
    page.click("main button")


def refused_steps(page, site):
    """Every step of a couple, sent with something that cannot be kept; yields its answer."""
    page.goto(site.links[ENGLISH])
    for step in STEPS:
        page.goto(f"{site.url}/q/{ENGLISH}/step/{step.slug}")
        page.evaluate(SPOIL)
        with page.expect_navigation() as answer:
            page.get_by_role("button", name="Keep", exact=True).last.click()
        yield step.slug, answer.value


def answers_without_a_place(page, site):
    """The photographer's page when a place is gone about which something was settled."""
    page.goto(f"{site.url}/q/{LESSENED}/step/places?from=answers")
    removes = page.locator(".row .tick.remove input")
    if removes.count() > 1:  # the walks share a site
        removes.first.check()
        page.get_by_role("button", name="Keep", exact=True).last.click()
    return page.goto(f"{site.url}/w/{LESSENED}/answers")


def sheet_links(page, site):
    """A link to each sheet of a wedding, made on its page Papers, which stays open.

    The second photographer gets a block of their own first.
    """
    page.goto(f"{site.url}/w/{FILLED}/day")
    page.locator("a[href^='?change=']").first.click()
    page.locator("select[name=who]").first.select_option("both")
    page.locator(".settle button").first.click()
    page.goto(f"{site.url}/w/{FILLED}/papers")
    makes = page.get_by_role("button", name="Make a link")
    while makes.count():
        with page.expect_navigation():  # all of the next page, or some are not counted yet
            makes.first.click()
    return [each.input_value() for each in page.locator(".linkbox input").all()]
