"""One file of everything a studio has here, and the way back from it.

A backup is a zip of the database as one SQLite file, the pictures, the key behind the couples'
links, and a manifest with the SHA-256 digest (FIPS 180-4) of each. The database is SQLite's in any
case: a file that every machine reads, which holds its own schema, so that a backup of an earlier
version is brought up to date by the ordinary migrations, and one made on PostgreSQL can be put back
on SQLite and the other way round.
"""
