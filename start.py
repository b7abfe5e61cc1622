#!/usr/bin/env python3
"""From a fresh machine to a running demo workshop, or to passed tests. Standard library only.

    python3 start.py                set up, build the demo workshop, run its day, serve its pages
    python3 start.py --no-serve     the same without the server; the last line is the pack's folder
    python3 start.py test           set up what the tests need and run every check

``--wheels DIR`` (or REELWRIGHT_WHEELS) installs from that folder and asks no network;
requirements/README.md says how to fill it. REELWRIGHT_HOME names the workshop's folder.
"""

from __future__ import annotations

import argparse
import hashlib
import importlib.util
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent
LOCKS = ROOT / "requirements"
OLDEST_PYTHON = (3, 11)
HOST, PORT = "127.0.0.1", 8321


class Stop(Exception):
    """Set-up cannot go on; the text says why and what to do."""


def say(text: str) -> None:
    """Print at once, also where the output is a file."""
    print(text, flush=True)


def apt_install(*packages: str) -> bool:
    """Install Debian packages where that is allowed; say whether they are there now."""
    if os.name != "posix" or os.geteuid() != 0 or not shutil.which("apt-get"):
        return False
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    install = ["apt-get", "install", "-y", "--no-install-recommends", *packages]
    say(f"Installing {', '.join(packages)} from Debian …")
    # The lists may be missing or stale: refresh them only once the plain install has failed.
    for command in (install, ["apt-get", "update"], install):
        done = subprocess.run(
            command, env=environment, stdin=subprocess.DEVNULL, capture_output=True, check=False
        )
        if command is install and done.returncode == 0:
            return True
    return False


def require_venv_module() -> None:
    """Make sure this Python can make environments, or stop having changed nothing."""

    def able() -> bool:
        importlib.invalidate_caches()
        return all(importlib.util.find_spec(name) for name in ("venv", "ensurepip"))

    package = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
    if able() or (apt_install(package) and able()):
        return
    raise Stop(
        f"This Python cannot make environments yet. One line makes it so:\n"
        f"    sudo apt-get install -y {package}\nThen start again. Nothing was changed."
    )


class Environment:
    """One virtual environment, filled from one of the locks and stamped with what it holds."""

    def __init__(self, folder: Path, *, base: str = sys.executable, wheels: Path | None) -> None:
        self.folder, self.base, self.wheels = folder, base, wheels
        self.python = folder / "bin" / "python"
        self.stamp = folder / "reelwright-stamp.json"

    def run(self, *command: str | Path) -> None:
        """Run one step of the set-up; stop with its words where it fails."""
        done = subprocess.run(
            [str(part) for part in command],
            cwd=ROOT,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            check=False,
        )
        if done.returncode != 0:
            tail = "\n".join(done.stdout.splitlines()[-30:])
            raise Stop(f"{' '.join(map(str, command))}\nended with {done.returncode}:\n{tail}")

    def wanted(self, lock: str) -> dict[str, str]:
        """What the stamp says when the environment holds this lock and this project."""
        digest = hashlib.sha256()
        for file in (LOCKS / "uv.txt", LOCKS / f"{lock}.txt", ROOT / "pyproject.toml"):
            digest.update(file.read_bytes())
        return {"base": self.base_version(), "lock": lock, "digest": digest.hexdigest()}

    def base_version(self) -> str:
        """Return the base Python's version as ``X.Y``, without a process where it is our own."""
        if self.base == sys.executable:
            return f"{sys.version_info[0]}.{sys.version_info[1]}"
        code = "import sys; print('%d.%d' % sys.version_info[:2])"
        done = subprocess.run([self.base, "-c", code], capture_output=True, text=True, check=True)
        return done.stdout.strip()

    def holds(self) -> dict[str, str]:
        """What the stamp says now; empty where there is none or its Python has gone."""
        if not (self.python.exists() and self.stamp.is_file()):
            return {}
        try:
            return dict(json.loads(self.stamp.read_text()))
        except ValueError:
            return {}

    def make(self, lock: str, *, project: bool = True) -> None:
        """Bring the environment to this lock; nothing is done where the stamp says it is there.

        ``test`` holds all that ``run`` holds, so an environment made for the tests also serves.
        """
        holds = self.holds()
        if holds and holds in (self.wanted(lock), self.wanted("test")):
            return
        started = time.monotonic()
        say(f"Setting up {self.name()} …")
        if holds.get("base") != self.base_version():
            self.run(self.base, "-m", "venv", "--clear", self.folder)
        self.stamp.unlink(missing_ok=True)
        self.install_lock(lock)
        if project:
            self.install("--no-index", "-e", ROOT)
            self.stamp.write_text(json.dumps(self.wanted(lock)))
        say(f"  done in {time.monotonic() - started:.1f} s")

    def name(self) -> str:
        """The folder as a person would name it from the project."""
        inside = self.folder.is_relative_to(ROOT)
        return str(self.folder.relative_to(ROOT) if inside else self.folder)

    def sources(self) -> list[str]:
        """Options which keep every installer to the wheel folder, where one is given."""
        return [] if self.wheels is None else ["--no-index", "--find-links", str(self.wheels)]

    def install_lock(self, lock: str) -> None:
        """Install one lock, every file held to its digest: by uv, or by pip where uv fails."""
        pip: list[str | Path] = [self.python, "-m", "pip", "install", "--quiet", "--no-input"]
        pip += ["--disable-pip-version-check", "--require-hashes", *self.sources()]
        file = LOCKS / f"{lock}.txt"
        try:
            self.run(*pip, "--only-binary", ":all:", "-r", LOCKS / "uv.txt")
            # The system's certificates, as Debian's own tools use: a mirror may have its own.
            uv = (self.folder / "bin" / "uv", "--system-certs", "pip", "sync")
            sync = (*uv, "--python", self.python)
            self.run(*sync, "--require-hashes", "--compile-bytecode", *self.sources(), file)
        except Stop as reason:
            say(f"  uv did not do it ({str(reason).splitlines()[-1].strip()}); trying pip")
            self.run(*pip, "-r", file)

    def install(self, *what: str | Path) -> None:
        """Install the project or its wheel, with no download and no isolation."""
        uv = self.folder / "bin" / "uv"
        installer: list[str | Path] = [uv, "pip", "install", "--python", self.python]
        if not uv.exists():
            installer = [self.python, "-m", "pip", "install", "--disable-pip-version-check"]
        self.run(*installer, "--no-deps", "--no-build-isolation", *what)


def reelwright(
    python: Path, *arguments: str, keep: bool = False, accepted: tuple[int, ...] = (0,)
) -> str:
    """Run one command of Reelwright; what it prints is shown, or kept and returned."""
    command = [str(python), "-m", "reelwright", *arguments]
    out = subprocess.PIPE if keep else None
    done = subprocess.run(command, cwd=ROOT, stdout=out, text=True, check=False)
    if done.returncode not in accepted:
        said = done.stdout or ""
        raise Stop(f"{said}reelwright {' '.join(arguments)} ended with {done.returncode}.")
    return done.stdout or ""


def free_port(wanted: int) -> int:
    """The wanted port, or the next that nobody listens on: an earlier start may still serve."""
    for port in range(wanted, wanted + 40):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((HOST, port))
            except OSError:
                continue
            return port
    raise Stop(f"No free port from {wanted} to {wanted + 39}.")


def answers(port: int) -> bool:
    """Whether something listens there."""
    with socket.socket() as probe:
        probe.settimeout(1)
        return probe.connect_ex((HOST, port)) == 0


def serve(python: Path, *, port: int, sheet: str) -> int:
    """Serve the pages until stopped; the sheet is printed once they answer."""
    command = [str(python), "-m", "reelwright", "serve", "--host", HOST, "--port", str(port)]
    server = subprocess.Popen(command, cwd=ROOT)
    # Without this a plain kill of this script would leave the server running.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    try:
        # Another program may have taken the port in between: ours must be the one that answers.
        while not answers(port) or server.poll() is not None:
            if server.poll() is not None:
                raise Stop(f"The server ended with {server.returncode} before it answered.")
            time.sleep(0.05)
        say(sheet)
        return server.wait()
    except KeyboardInterrupt:
        return 0
    finally:
        server.terminate()
        server.wait()


def workshop(python: Path, *, with_server: bool, port: int) -> int:
    """Build the demo where it is not there yet, run its day once, and serve it."""
    os.environ.setdefault("REELWRIGHT_HOME", str(ROOT / "workshop" / "demo"))
    demo = json.loads(reelwright(python, "demo", "--json", keep=True))
    pack = Path(demo["packs"]) / demo["working_day"]
    if not (pack / "pack.json").is_file():
        # 1 means that some lines were refused: an answer like any other.
        reelwright(python, "day", demo["orders"], "--out", str(pack), accepted=(0, 1))
    if not with_server:
        say(str(pack))
        return 0
    port = free_port(port)
    lines = ["", f"  pages      http://{HOST}:{port}/"]
    for person in demo["sign_in"]:
        lines.append(f"  sign in    {person['name']} / {person['password']}   ({person['role']})")
    lines += [f"  day pack   {pack}", f"  later      {demo['late_orders']}, which arrives at 14:10"]
    return serve(python, port=port, sheet="\n".join([*lines, "", "Ctrl-C stops the server."]))


def main() -> int:
    """Read the command line and do what it asks."""
    reader = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    reader.add_argument("what", nargs="?", choices=["test"], help="run every check instead")
    reader.add_argument("--no-serve", action="store_true", help="end when the day pack is there")
    reader.add_argument("--wheels", type=Path, default=os.environ.get("REELWRIGHT_WHEELS") or None)
    reader.add_argument("--port", type=int, default=PORT, help=f"port of the pages ({PORT})")
    asked = reader.parse_args()
    try:
        wheels = Path(asked.wheels).resolve() if asked.wheels else None
        if wheels is not None and not wheels.is_dir():
            raise Stop(f"The wheel folder {wheels} is not there.")
        if not (ROOT / ".venv" / "bin" / "python").exists():
            require_venv_module()
        environment = Environment(ROOT / ".venv", wheels=wheels)
        environment.make("test" if asked.what == "test" else "run")
        if asked.what == "test":
            from tests import run_all

            return run_all.main(environment)
        return workshop(environment.python, with_server=not asked.no_serve, port=asked.port)
    except Stop as reason:
        print(f"\n{reason}", file=sys.stderr)
        return 2


if __name__ == "__main__":
    if sys.version_info < OLDEST_PYTHON:
        print(f"Reelwright needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
        sys.exit(2)
    sys.exit(main())
