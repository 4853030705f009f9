"""The bag of a wedding: what goes, what happens if one thing fails, and whether it is enough.

`items.py` is one thing, `need.py` what the day asks of cards and batteries, `jobs.py` what must be
done whatever fails, `stock.py` what a set of things can do together, `cards.py` which frames go on
which card, `check.py` takes each thing out, `cures.py` says what of the kit helps, and `hire.py`
what to borrow.
"""
