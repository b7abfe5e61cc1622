"""The addresses of what pages are made of."""

from django.urls import path

from reelwright.web.widgets.fonts import font

urlpatterns = [path("fonts/<str:name>", font, name="font")]
