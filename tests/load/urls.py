"""Every address of the app, and one whose view does nothing."""

from django.contrib.auth.decorators import login_not_required
from django.http import HttpResponse
from django.urls import include, path


@login_not_required
def bare(request):
    return HttpResponse("ok")


urlpatterns = [path("bare", bare), path("", include("studio.urls"))]
