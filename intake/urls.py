from django.urls import path

from . import file_views, paste_views, picture_views, step_views, views

urlpatterns = [
    path("q/<slug:public_id>/", views.steps, name="steps"),
    path("q/<slug:public_id>/read-through", views.read_through, name="read_through"),
    path("q/<slug:public_id>/language", views.language, name="language"),
    path("q/<slug:public_id>/step/groups/paste", paste_views.paste, name="paste"),
    path("q/<slug:public_id>/step/pictures", picture_views.pictures, name="pictures"),
    path("q/<slug:public_id>/picture/<slug:key>", picture_views.picture, name="picture"),
    path(
        "q/<slug:public_id>/picture/<slug:key>/small",
        picture_views.picture,
        {"small": True},
        name="small_picture",
    ),
    path("q/<slug:public_id>/file/<slug:key>", file_views.own_file, name="own_file"),
    path("q/<slug:public_id>/file/<slug:key>/sent", file_views.sent_own_file, name="sent_own_file"),
    path("q/<slug:public_id>/step/<slug:slug>", step_views.step, name="step"),
    path("q/<slug:public_id>/<path:token>", views.open_link, name="open_link"),
]
