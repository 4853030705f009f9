"""Where the database has stood: what the main line's migrations were, from the first on.

Each entry is what came together, as `git log -- '*/migrations/*'` tells it, under the numbers that
they have now. A database of any of these points comes up whole (test_upgrade.py). A new migration
goes to the end, and fails there until it does.
"""

CAME = (
    {"intake": "0001_initial", "planning": "0001_initial", "studio": "0001_initial"},
    {"planning": "0002_group_order"},
    {"studio": "0002_walk_seconds"},
    {"planning": "0003_facing_and_skyline"},
    {"intake": "0002_everyone_in_a_group", "planning": "0004_nice_last"},
    {"planning": "0005_visit_place"},
    {"planning": "0006_blocks_settled"},
    {"planning": "0007_kinds_of_day"},
    {"intake": "0003_language_of_wedding", "studio": "0003_language_of_couples"},
    {"planning": "0008_suggested_times"},
    {"intake": "0004_pictures_of_the_couple"},
    {"planning": "0009_the_meeting", "studio": "0004_what_cannot_be_promised"},
    {"planning": "0010_pictures_of_the_studio"},
    {"intake": "0005_own_questions_and_who_may_see", "studio": "0005_what_is_kept"},
    {"planning": "0011_assigned", "studio": "0006_member"},
    {"planning": "0012_given_entries"},
    {"planning": "0013_ready_list", "studio": "0007_ready_list"},
    {"intake": "0006_kept_when_removed"},
    {"planning": "0014_the_kit"},
    {"planning": "0015_experience"},
    {"planning": "0016_charges_counted"},
    {"planning": "0017_calendar_address"},
    {"planning": "0018_sheet_links"},
    {"studio": "0008_keep_months"},
    {"planning": "0019_second_slot"},
)


def nodes(count):
    """The newest migration of each app after so many entries, as names Django takes."""
    stood = {}
    for came in CAME[:count]:
        stood |= came
    return sorted(".".join(node) for node in stood.items())


def newest(count):
    """What the last of so many entries brought, for the name of a test."""
    return "+".join(f"{app}{name[:4]}" for app, name in CAME[count - 1].items())
