"""The settings with one more address, for a page that does nothing: to measure beside ours."""

from studio import settings as real

globals().update({name: value for name, value in vars(real).items() if name.isupper()})
ROOT_URLCONF = "tests.load.urls"
