"""The help of a command: its options in groups, each under a heading of its own."""

from typing import Any

from typer.core import TyperCommand

__all__ = ["GROUPS", "GroupedCommand"]

GROUPS = {
    "The question": (
        "--budget", "--painters", "--most-tubes", "--tolerance", "--flower", "--flowers",
        "--prefer", "--nearer", "--about-to-buy", "--most", "--up-to", "--near", "--near-size",
        "--paper", "--light", "--one-set", "--counts",
    ),
    "Which tubes": (
        "--catalogue", "--prices", "--tube", "--owned", "--box", "--must-have", "--never",
        "--lightfastness", "--transparency", "--without-hazard", "--millilitres", "--paint-for",
        "--pigment", "--most-price", "--count-twins",
    ),
    "How it is mixed": ("--most-in-mix", "--one-sitting", "--nearest-each", "--steadiest"),
    "How sure it is": (
        "--prove-by", "--seconds", "--how-sure", "--within", "--draws", "--seed", "--no-cache",
        "--cluster",
    ),
    "What is told and written": (
        "--full", "--all", "--names", "--out", "--again", "--report", "--reports", "--pictures",
        "--chart", "--handout", "--write-program", "--spreadsheet",
    ),
}  # fmt: skip
"""Options under each heading, in the order in which they are told."""

OTHERS = "Options"
"""Heading of those that stand under none, as of commands that have few."""

LEAST_TO_GROUP = 10
"""Options from which a help is parted into groups; fewer are read at a glance."""


class GroupedCommand(TyperCommand):
    """A command that tells its options in groups, if it has many."""

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Write arguments, then options group by group."""
        told = [(param, param.get_help_record(ctx)) for param in self.get_params(ctx)]
        known = [(param, record) for param, record in told if record is not None]
        options = [it for it in known if it[0].param_type_name == "option"]
        if len(options) < LEAST_TO_GROUP:
            super().format_options(ctx, formatter)
            return
        arguments = [record for param, record in known if param.param_type_name == "argument"]
        if arguments:
            with formatter.section("Arguments"):
                formatter.write_dl(arguments)
        left = {param.opts[0]: record for param, record in options}
        for heading, names in GROUPS.items():
            records = [left.pop(name) for name in names if name in left]
            if records:
                with formatter.section(heading):
                    formatter.write_dl(records)
        with formatter.section(OTHERS):
            formatter.write_dl([*left.values()])
