import os

from django.core.wsgi import get_wsgi_application

from studio.letters import readable

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")

application = readable(get_wsgi_application())
