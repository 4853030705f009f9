"""What a day needs, told once more from the words of the task and nothing of the program.

A camera is a body that somebody can put a card and a battery into. Everything is tried: each
card in each slot, each battery in each body, each card in each reader. Exponential, for small bags.
"""

from itertools import combinations, permutations, product


def word(text):
    return text.replace(" ", "").lower()


def words(text):
    return {word(each) for each in text.split(",") if each.strip()} or {""}


def slots(body):
    first = word(body.card_form)
    return [first] if body.slots == 1 else [first, word(body.second_form) or first]


def cameras(bag):
    """Bodies for which some card and some battery are found, trying all of both."""
    cards = [x for x in bag if x.kind == "card"]
    cells = [x for x in bag if x.kind == "battery"]
    return [
        body
        for body in bag
        if body.kind == "body"
        and any(
            word(card.card_form) in slots(body) and word(cell.power) == word(body.power)
            for card, cell in product(cards, cells)
        )
    ]


def frames_on(card, body, need):
    raw = body.raw_mb or need.raw_mb
    count = 0
    while raw and (count + 1) * raw * 1.3 <= card.gb * 1000 + 1e-6 and count < need.frames:
        count += 1
    return count


def room(bag, need):
    """Frames that go on the cards, each in the camera where it takes the fewest."""
    usable = cameras(bag)
    known = any(body.raw_mb for body in usable)
    places = [
        [b for b in usable if word(card.card_form) in slots(b) and (b.raw_mb or not known)]
        or [b for b in usable if word(card.card_form) in slots(b)]
        for card in bag
        if card.kind == "card"
    ]
    cards = [card for card in bag if card.kind == "card"]
    pairs = [(card, bodies) for card, bodies in zip(cards, places, strict=True) if bodies]
    if not pairs:
        return None
    ways = product(*([frames_on(card, body, need) for body in bodies] for card, bodies in pairs))
    return min(sum(way) for way in ways)


def charge_for(cells, usable, need):
    """The most frames that any way of handing out the batteries gives."""
    tables = [
        [0]
        + [
            (need.shots or b.shots) * (0.8 if cell.old else 1) * (0.8 if need.cold else 1)
            for b in usable
            if word(b.power) == word(cell.power)
        ]
        for cell in cells
    ]
    return max(sum(way) for way in product(*tables))


def covered(bag, need):
    """The keys of all that is covered with these things."""
    kinds = {kind: [x for x in bag if x.kind == kind] for kind in {x.kind for x in bag}}

    def of(kind):
        return kinds.get(kind, [])

    usable, done = cameras(bag), set()
    on = [lens for lens, b in product(of("lens"), usable) if word(lens.mount) == word(b.mount)]
    if usable:
        done.add("camera")
    if any(lens.wide <= 35 for lens in on):
        done.add("wide")
    if any(lens.long >= 70 for lens in on):
        done.add("longer")
    lamps = [f for f in of("flash") if word(f.power) == ""]
    lamps += [f for f, x in product(of("flash"), of("battery")) if word(f.power) == word(x.power)]
    if usable and (lamps or any(0 < lens.aperture <= 2 for lens in on)):
        done.add("dark")
    fits = room(bag, need)
    if fits is not None and (need.gb == 0 or fits >= need.frames):
        done.add("space")
    unknown = any(
        not any(need.shots or b.shots for b in usable if word(b.power) == word(cell.power))
        for cell in of("battery")
        if any(word(b.power) == word(cell.power) for b in usable)
    )
    if usable and (unknown or charge_for(of("battery"), usable, need) >= need.frames):
        done.add("power")
    if usable and all(any(word(b.power) in words(c.power) for c in of("charger")) for b in usable):
        done.add("charging")
    written = [c for c in of("card") if any(word(c.card_form) in slots(b) for b in usable)]
    read = all(any(word(c.card_form) in words(r.card_form) for r in of("reader")) for c in written)
    two = any(
        all(drive.gb == 0 or drive.gb >= need.gb for drive in pair)
        for pair in combinations(of("drive"), 2)
    )
    if written and read and two:
        done.add("copies")
    return done


def twice(bag, need):
    """The most frames on two cards at once: every order of the cards, two by two."""
    usable = [body for body in cameras(bag) if body.slots == 2]
    cards = [card for card in bag if card.kind == "card"]
    return max((_in_order(order, usable, need) for order in permutations(cards)), default=0)


def _in_order(order, usable, need):
    """What goes in pairs, where a form once paired with another is always paired with it."""
    total, partner = 0, {}
    for a, b in zip(order[::2], order[1::2], strict=False):
        one, other = word(a.card_form), word(b.card_form)
        bodies = [x for x in usable if sorted(slots(x)) == sorted((one, other))]
        if not bodies or partner.get(one, other) != other or partner.get(other, one) != one:
            continue
        partner |= {one: other, other: one}
        total += min(frames_on(card, body, need) for card in (a, b) for body in bodies)
    return total
