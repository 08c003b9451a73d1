"""The ASGI application that uvicorn serves."""

import os

from django.core.asgi import get_asgi_application

from lawn.web.body_limits import Bounded

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "lawn.settings")
application = Bounded(get_asgi_application())
