from django.db import migrations, models

FITTINGS = ("card_form", "power")


def one_name_each(apps, schema_editor):
    """A comma was part of a name until now: without it, what fitted goes on fitting."""
    items = apps.get_model("planning", "KitItem").objects.using(schema_editor.connection.alias)
    for name in FITTINGS:
        for item in items.filter(**{f"{name}__contains": ","}):
            setattr(item, name, " ".join(getattr(item, name).replace(",", " ").split()))
            item.save(update_fields=[name])


class Migration(migrations.Migration):

    dependencies = [
        ('planning', '0018_sheet_links'),
    ]

    operations = [
        migrations.AddField(
            model_name='kititem',
            name='second_form',
            field=models.CharField(blank=True, max_length=40, verbose_name='form of card of the second slot, if another'),
        ),
        migrations.AlterField(
            model_name='kititem',
            name='slots',
            field=models.PositiveSmallIntegerField(choices=[(1, 'one'), (2, 'two, the same on both')], default=1, verbose_name='slots that record'),
        ),
        migrations.RunPython(one_name_each, migrations.RunPython.noop),
    ]
