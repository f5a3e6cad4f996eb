"""The wheel carries its catalogue and its fonts: installed in an empty venv, it prints the demo from another folder."""

from __future__ import annotations

import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

from sowsheet.cli.print_ import SheetName
from tests.examples import ROOT


def test_an_installed_wheel_prints_from_any_folder(tmp_path: Path) -> None:
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(build, check=True, cwd=ROOT, capture_output=True)
    wheel = next(tmp_path.glob("*.whl"))
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    assert "sowsheet/_crops/leek.yaml" in names
    assert not [n for n in names if n.startswith("tests/")]

    home = tmp_path / "venv"
    venv.create(home, with_pip=True)
    python = home / "bin" / "python"
    install = [str(python), "-m", "pip", "install", "-q", "--disable-pip-version-check", str(wheel)]
    subprocess.run(install, check=True, capture_output=True)

    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    garden = ROOT / "out_examples" / "four-beds" / "garden.yaml"
    clean = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
    command = [str(home / "bin" / "sowsheet"), "print", str(garden), "--out", "sheets"]
    subprocess.run(command, check=True, cwd=elsewhere, env=clean)
    assert {p.name for p in (elsewhere / "sheets").iterdir()} == {f"{name.value}.pdf" for name in SheetName}
