from django.urls import path

from . import (
    agreed_views,
    day_views,
    group_views,
    kind_views,
    late_views,
    meeting_views,
    papers,
    picture_views,
    question_views,
    views,
    visit_views,
)

urlpatterns = [
    path("", views.season, name="season"),
    path("studio", views.studio, name="studio"),
    path("kinds", kind_views.kinds, name="kinds"),
    path("kinds/<slug:key>", kind_views.kind, name="kind"),
    path("kinds/<slug:key>/remove", kind_views.remove_kind, name="remove_kind"),
    path("questions", question_views.questions, name="questions"),
    path("questions/preview", question_views.preview_questions, name="preview_questions"),
    path("weddings/new", views.new_wedding, name="new_wedding"),
    path("w/<slug:public_id>/booking", views.booking, name="booking"),
    path("w/<slug:public_id>/link", views.link, name="link"),
    path(
        "w/<slug:public_id>/questions", question_views.wedding_questions, name="wedding_questions"
    ),
    path("w/<slug:public_id>/answers", views.answers, name="answers"),
    path("w/<slug:public_id>/meeting", meeting_views.meeting, name="meeting"),
    path("w/<slug:public_id>/agenda.pdf", papers.agenda, name="agenda"),
    path("q/<slug:public_id>/agreed", agreed_views.agreed, name="agreed"),
    path("w/<slug:public_id>/pictures", picture_views.pictures, name="studio_pictures"),
    path("w/<slug:public_id>/picture/<slug:key>", picture_views.picture, name="studio_picture"),
    path(
        "w/<slug:public_id>/picture/<slug:key>/small",
        picture_views.picture,
        {"small": True},
        name="small_studio_picture",
    ),
    path("w/<slug:public_id>/groups", group_views.groups, name="groups"),
    path("w/<slug:public_id>/light", views.light, name="light"),
    path("w/<slug:public_id>/visit", visit_views.visit, name="visit"),
    path("w/<slug:public_id>/day", day_views.day, name="day"),
    path("w/<slug:public_id>/late", late_views.late, name="late"),
    path("w/<slug:public_id>/map", views.on_the_map, name="map"),
    path("w/<slug:public_id>/papers", papers.papers, name="papers"),
    path("w/<slug:public_id>/day-pack.pdf", papers.day_pack, name="day_pack"),
    path("w/<slug:public_id>/calling-list.pdf", papers.calling_list, name="calling_list"),
    path(
        "w/<slug:public_id>/second-photographer.pdf",
        papers.second_photographer,
        name="second_photographer",
    ),
    path("w/<slug:public_id>/calendar.ics", papers.calendar, name="calendar"),
]
