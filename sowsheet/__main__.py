"""Where `sowsheet` and `python -m sowsheet` begin."""

from __future__ import annotations

import sys

from sowsheet import __version__


def main() -> None:
    """Run the command line. The version is answered before anything heavy is imported."""
    if sys.argv[1:] == ["--version"]:
        print(f"sowsheet {__version__}")
        return
    from sowsheet.cli.app import run  # noqa: PLC0415 - start-up is felt on every command

    run()


if __name__ == "__main__":
    main()
