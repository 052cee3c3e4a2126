"""``python -m fewtubes`` is the command ``fewtubes``."""

from fewtubes.command_line.main import run

__all__: list[str] = []

if __name__ == "__main__":
    run()
