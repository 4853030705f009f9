from django.contrib.auth import views as auth
from django.urls import include, path

from .health import health
from .password_views import ChangePassword, ChoosePassword, SignIn
from .views import versions

urlpatterns = [
    path("sign-in", SignIn.as_view(), name="login"),
    path("sign-out", auth.LogoutView.as_view(), name="logout"),
    path("password", ChangePassword.as_view(), name="password"),
    path("password/<uidb64>/<token>", ChoosePassword.as_view(), name="choose_password"),
    path("health", health, name="health"),
    path("versions", versions, name="versions"),
    path("", include("planning.urls")),  # first: intake takes the rest of q/ for links
    path("", include("intake.urls")),
]

handler400 = "studio.views.unreadable"
handler403 = "studio.views.not_yours"
handler404 = "studio.views.not_here"
handler500 = "studio.views.went_wrong"
