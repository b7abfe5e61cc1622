"""The addresses of the pages at the bench."""

from django.urls import path

from reelwright.web.bench import cutting, trials, wrong

urlpatterns = [
    path("bench/cut/<str:code>", cutting.cut_page, name="cut"),
    path("bench/cut/<str:code>/confirm", cutting.confirm, name="cut_confirm"),
    path("bench/cut/<str:code>/take-back", cutting.take_back, name="cut_take_back"),
    path("bench/cut/<str:code>/flaw", wrong.flaw_page, name="flaw"),
    path("bench/cut/<str:code>/count", wrong.count_page, name="count"),
    path("bench/trials/<str:code>", trials.trial_page, name="bench_trial"),
    path("bench/trials/<str:code>/take-back", trials.trial_back, name="bench_trial_back"),
]
