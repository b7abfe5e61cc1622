"""Files of readings: read in whole or not at all, and the empty file to fill."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods

from reelwright.core.errors import Fault, InputFaults
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.bench_files.columns import COLUMNS
from reelwright.shop.setups.bench_files.services import bench_file_read
from reelwright.shop.setups.readings.selectors import files_read
from reelwright.web.widgets.access import page, person_of

_MOST_FILES, _MOST_FAULTS = 10, 200


@page(Action.BOOK_WORK)
@require_http_methods(["GET", "POST"])
def files_page(request: HttpRequest) -> HttpResponse:
    """Show which files were read in; read in another."""
    if request.method != "POST":
        return _show(request, ())
    file = request.FILES.get("readings")
    if file is None:
        messages.error(request, "Choose a file first: CSV or XLSX.", extra_tags="bad")
        return redirect("bench_files")
    try:
        taken = bench_file_read(
            by=person_of(request),
            name=str(file.name),
            content=file.read(),
            on=today(workshop()),
        )
    except InputFaults as error:
        return _show(request, error.faults, status=422)
    tell = messages.success if taken.new else messages.info
    tell(request, taken.sentence)
    return redirect("bench_files")


@page(Action.BOOK_WORK)
@require_GET
def template_download(request: HttpRequest) -> HttpResponse:
    """Send the file to fill: its header alone."""
    del request
    answer = HttpResponse(",".join(COLUMNS) + "\r\n", content_type="text/csv; charset=utf-8")
    answer.headers["Content-Disposition"] = 'attachment; filename="readings.csv"'
    return answer


def _show(request: HttpRequest, faults: tuple[Fault, ...], status: int = 200) -> HttpResponse:
    return render(
        request,
        "bench/files.html",
        {
            "faults": faults[:_MOST_FAULTS],
            "count": len(faults),
            "files": files_read(most=_MOST_FILES),
            "columns": COLUMNS,
        },
        status=status,
    )
