"""Whether all that was in a database is in it still, after it was brought up to date."""

from ast import literal_eval

# Columns and tables ("planning.Hours.starts", "planning.Hours") that a migration takes away: its
# name ("planning.0042_no_hours"), and why nobody misses what was in them.
TAKEN_AWAY = {}


def one_name(text):
    return " ".join(text.replace(",", " ").split())


# Columns that a migration writes anew: its name, and what becomes of a value.
WRITTEN_ANEW = {
    "planning.KitItem.card_form": ("planning.0019_second_slot", one_name),
    "planning.KitItem.power": ("planning.0019_second_slot", one_name),
}
GROWS = {"contenttypes.ContentType", "auth.Permission"}  # Django's own, of new tables
LEFT_OUT = ("sessions.", "axes.")  # of a backup: who was signed in, who mistyped a password


def lost(before, after, applied):
    """What of the rows of before is not there any more, or not as it was, as a list of sentences.

    `before` and `after` are {table: {key: {column: value}}}; `applied` are the migrations that the
    rows of before had been through already.
    """
    return [
        sentence
        for table, rows in before.items()
        if table not in TAKEN_AWAY
        for sentence in lost_of(table, rows, after.get(table), applied)
    ]


def lost_of(table, rows, now, applied):
    if now is None:
        return [f"{table}: there is no such table any more"]
    found = [f"{table} {key}: came from nowhere" for key in set(now) - set(rows)]
    found = [] if table in GROWS else found
    for key, row in rows.items():
        if key not in now:
            found.append(f"{table} {key}: is lost")
            continue
        for column, value in row.items():
            name = f"{table}.{column}"
            if name in TAKEN_AWAY:
                continue
            wanted = anew(name, value, applied)
            if now[key].get(column) != wanted:
                found.append(f"{name} of {key}: {now[key].get(column)}, and was {wanted}")
    return found


def anew(name, value, applied):
    migration, become = WRITTEN_ANEW.get(name, (None, None))
    if migration is None or migration in applied:
        return value
    return repr(become(literal_eval(value)))
