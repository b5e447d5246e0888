"""Commands: the verbs under one name, and what becomes of every way they can end."""

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TextIO

import click

from holeplacer.errors import HoleplacerError

FINE, FINDINGS, UNUSABLE = 0, 1, 2
"""Exit statuses: all is well; a rule is broken; input or arguments can't be used."""

_INTERRUPTED, _NOBODY_READS = 130, 141
"""What a shell reports for a program ended by the interrupt key or by a closed pipe."""

_HELP = """Place mounting holes on a sign of script lettering cut from thin sheet metal.

Without a verb the window opens; `holeplacer FILE` opens a drawing or plan in it.

\b
From artwork to a cut drawing:
  holeplacer show sign.svg
  holeplacer propose sign.svg --save sign.holeplan --dxf cut.dxf
  holeplacer check sign.holeplan
  holeplacer make sign.holeplan --to out

\b
Lengths bear their unit: 300, 300mm, 7/32in, 3/8", 1-1/2in, "6' 2 1/2\\"".
A number without a unit is millimetres, a fraction without one inches.

\b
Ends with 0 if all is well, 1 if a rule is broken or a stroke stays unsupported,
2 if the input or the arguments can't be used.
"""

VERBS = {
    "show": "What is in a drawing: size, pieces, strokes.",
    "propose": "Place the fewest holes that satisfy every rule.",
    "check": "Hold a plan's holes to every rule.",
    "make": "Write drawing, schedule, picture and report of a plan.",
    "found": "What to do about a hole that was found blocked on site.",
}
"""Each verb in the order of the job, and what it does."""


class _Verbs(click.Group):
    """The verbs, each loaded when it is asked for: a window or a help text needs none of them."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 (click's signature)
        """Names in the order of the job."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 (click's signature)
        """The verb of a name."""
        return _verb(cmd_name)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The verb that a command line begins with.

        Raises:
            click.UsageError: It begins with something else.
        """
        if args[0] not in VERBS:
            ctx.fail(f"{args[0][:80]!r} is neither a verb nor a file")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 (click's signature)
        """List the verbs with what they do."""
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


def _verb(name: str) -> click.Command | None:
    if name == "show":
        from holeplacer.cli.show import show as verb
    elif name == "propose":
        from holeplacer.cli.propose import propose as verb
    elif name == "check":
        from holeplacer.cli.check import check as verb
    elif name == "make":
        from holeplacer.cli.make import make as verb
    elif name == "found":
        from holeplacer.cli.found import found as verb
    else:
        return None
    return verb


@click.group(
    cls=_Verbs,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    subcommand_metavar="VERB [ARGS]...",
    help=_HELP,
)
@click.option(
    "--version",
    is_flag=True,
    expose_value=False,
    is_eager=True,
    callback=lambda context, _, wanted: _say_version(context) if wanted else None,
    help="Say which version this is.",
)
def holeplacer() -> None:
    """Hold the verbs."""


def run(arguments: Sequence[str]) -> int:
    """Run a verb; every way it can end is a status and at most one sentence on standard error.

    Args:
        arguments: The command line without the program's name.

    Returns:
        Exit status.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a file name may hold what a terminal can't show
    return guarded(lambda: _invoked(arguments))


def guarded(work: Callable[[], int]) -> int:
    """Do work, flush what it printed, and turn each way to fail into a status."""
    try:
        status = work()
        sys.stdout.flush()
    except HoleplacerError as error:
        return _ended(str(error))
    except click.UsageError as error:
        return _ended(_usage(error))
    except click.ClickException as error:
        return _ended(error.format_message())
    except (KeyboardInterrupt, click.Abort):
        return _ended("Stopped.", _INTERRUPTED)
    except BrokenPipeError:
        _forget(sys.stdout, sys.stderr)
        return _NOBODY_READS
    except OSError as error:  # standard output can't take it: a full disk
        _forget(sys.stdout)
        return _ended(f"The result can't be printed: {(error.strerror or str(error)).lower()}.")
    except MemoryError:
        return _ended("There is not enough memory for this; give a simpler drawing.")
    except Exception as error:  # noqa: BLE001 (a person gets a sentence, whatever went wrong)
        return _ended(
            f"A fault of the program ({type(error).__name__}: {_short(error)}); please report it "
            "with the file that brought it about."
        )
    return status


def _say_version(context: click.Context) -> None:
    import tomllib  # these two take longer to load than all the rest of a help text
    from importlib import metadata

    try:
        version = metadata.version("holeplacer")
    except metadata.PackageNotFoundError:  # run from its source folder
        source = Path(__file__).parents[2] / "pyproject.toml"
        version = tomllib.loads(source.read_text(encoding="utf-8"))["project"]["version"]
    click.echo(f"holeplacer {version}")
    context.exit()


def _invoked(arguments: Sequence[str]) -> int:
    try:
        with holeplacer.make_context("holeplacer", list(arguments)) as context:
            return int(holeplacer.invoke(context) or FINE)
    except click.exceptions.Exit as end:  # --help, --version
        return end.exit_code


def _usage(error: click.UsageError) -> str:
    """The error and where help is, in one sentence."""
    command = error.ctx.command_path if error.ctx else "holeplacer"
    return f"{error.format_message().rstrip('.')}; see {command} --help."


def _ended(sentence: str, status: int = UNUSABLE) -> int:
    """Say it in one line."""
    try:
        sys.stderr.write(" ".join(sentence.split()) + "\n")
        sys.stderr.flush()
    except OSError:  # nowhere left to say it
        _forget(sys.stderr)
    return status


def _forget(*streams: TextIO) -> None:
    """Point streams at nothing, so that the interpreter's own flush at exit can't fail."""
    nothing = os.open(os.devnull, os.O_WRONLY)
    for stream in streams:
        try:
            os.dup2(nothing, stream.fileno())
        except (OSError, ValueError):  # a stream without a file behind it
            continue
    os.close(nothing)


def _short(error: Exception) -> str:
    return str(error)[:200]
