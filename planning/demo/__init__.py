"""An invented season to look around in: no person, firm or venue in it is real."""
