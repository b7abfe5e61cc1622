"""``reelwright serve``: the pages."""

import importlib

import click

from reelwright.cli.speaking import EXIT_BAD_INPUT, open_workshop, stop, telling_errors


@click.command("serve")
@click.option("--host", default="127.0.0.1", show_default=True, help="The address to listen on.")
@click.option("--port", type=click.IntRange(1, 65535), help="The port; REELWRIGHT_PORT or 8321.")
@click.option("--threads", type=click.IntRange(1, 64), default=8, show_default=True)
def command(host: str, port: int | None, threads: int) -> None:
    """Serve the pages of the workshop until it is stopped with Ctrl-C."""
    with telling_errors():
        open_workshop()
        from django.conf import settings
        from waitress import serve

        from reelwright.shop.people.selectors import workshop

        name = workshop().name
        # By its name only: the command line lies below the settings in the house.
        application = importlib.import_module("reelwright.config.wsgi").application
        port = port or settings.PORT
        try:
            click.echo(f"{name}: http://{host}:{port}/  (Ctrl-C ends it)")
            serve(
                application,
                host=host,
                port=port,
                threads=threads,
                ident=None,
                # Above the largest order file, so that its own message answers, not a dropped line.
                max_request_body_size=settings.DATA_UPLOAD_MAX_MEMORY_SIZE,
            )
        except OSError as error:
            stop(f"Cannot listen on {host}:{port}: {error.strerror}.", code=EXIT_BAD_INPUT)
