"""What the app bears, by wrk on loopback: `.ci/load` runs it."""
