"""The addresses of the pages at the bench."""

from django.urls import path

from reelwright.web.bench import cutting, files, readings, start, trials, wrong
from reelwright.web.bench.kinds import Kind

urlpatterns = [
    path("bench", start.bench_page, name="bench"),
    path("bench/files", files.files_page, name="bench_files"),
    path("bench/files/readings.csv", files.template_download, name="bench_template"),
    path("bench/cut/<str:code>", cutting.cut_page, name="cut"),
    path("bench/cut/<str:code>/confirm", cutting.confirm, name="cut_confirm"),
    path("bench/cut/<str:code>/take-back", cutting.take_back, name="cut_take_back"),
    path("bench/cut/<str:code>/flaw", wrong.flaw_page, name="flaw"),
    path("bench/cut/<str:code>/count", wrong.count_page, name="count"),
    path("bench/trials/<str:code>", trials.trial_page, name="bench_trial"),
    path("bench/trials/<str:code>/take-back", trials.trial_back, name="bench_trial_back"),
]
urlpatterns += [
    path(f"bench/{kind}/<str:code>", readings.readings_page, {"kind": kind}, name=f"bench_{kind}")
    for kind in Kind
]
urlpatterns += [
    path(
        f"bench/{kind}/<str:code>/take-back",
        readings.take_back,
        {"kind": kind},
        name=f"bench_{kind}_back",
    )
    for kind in Kind
]
