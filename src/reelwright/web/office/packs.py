"""The files of a day pack, made from the records when they are asked for."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from reelwright.shop.day.pack.gather import gather
from reelwright.shop.day.pack.write import pack_file
from reelwright.web.widgets.access import page

_TYPES = {
    "pdf": "application/pdf",
    "csv": "text/csv; charset=utf-8",
    "txt": "text/plain; charset=utf-8",
}


@page()
@require_GET
def pack_download(request: HttpRequest, run_id: int, name: str) -> HttpResponse:
    """Send one file of a run's pack."""
    del request
    return file_answer(name, pack_file(gather(run_id), name))


def file_answer(name: str, content: bytes) -> HttpResponse:
    """Return a file to be looked at where the browser can, to be kept where it cannot."""
    kind = name.rpartition(".")[2]
    place = "attachment" if kind == "csv" else "inline"
    return HttpResponse(
        content,
        content_type=_TYPES[kind],
        headers={
            "Content-Disposition": f'{place}; filename="{name}"',
            "Cache-Control": "private, no-store",
        },
    )
