"""The settings with the two pseudo-languages beside the others: for browser tests alone."""

import os
from pathlib import Path

from studio import settings as real
from tests.pseudo import NAMES

globals().update({name: value for name, value in vars(real).items() if name.isupper()})
LANGUAGES = [*real.LANGUAGES, *NAMES]
LOCALE_PATHS = [*real.LOCALE_PATHS, Path(os.environ["FOREDAY_PSEUDO"])]
