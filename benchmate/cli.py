"""The command line: arguments in, exit status out. 0 done, 1 input or files at fault, 2 wrong usage."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError

if TYPE_CHECKING:
    import argparse

    from benchmate.talk.commands.registry import Argument, Command

_ABOUT = "A bench assistant for growers of trees in pots. Without a command it opens the talk at the bench."
_CARE = (
    "Advice is from general practice. Health and safety come first; labels and local rules prevail; it is no "
    "replacement for a qualified arborist or a doctor."
)
_TALK = "benchmate.talk.opening:open_talk"


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command. argv: arguments without the program's name, or None for those of the process.

    Faults of the user's input or files end in one plain line on standard error and status 1.
    """
    words = list(sys.argv[1:] if argv is None else argv)
    _speak_utf8()
    try:
        return run(build_parser(words).parse_args(words))
    except UserError as error:
        return _complain(str(error))
    except BrokenPipeError:
        # the reader of the pipe has gone: nothing more can be told, and that is no fault
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return 1
    except OSError as error:
        place = f"{error.filename}: " if error.filename else ""
        return _complain(f"{place}{(error.strerror or str(error)).lower()}; see that it is there and may be used")
    except Exception as error:
        from benchmate.talk.slips import slip_words

        return _complain(slip_words(error))


def build_parser(words: Sequence[str] = ()) -> argparse.ArgumentParser:
    """The parser of all commands that can run here, from the registry.

    words: the arguments to come. Where they name a command only that one is built, which spares a third of the start.
    """
    import argparse

    from benchmate import __version__
    from benchmate.talk.commands.registry import ALOUD, AS_JSON, COMMANDS, COMMON, TALK

    def take(parser: argparse.ArgumentParser, arguments: Sequence[Argument]) -> None:
        for argument in arguments:
            options = argument.options | ({"default": argparse.SUPPRESS} if argument.unsaid else {})
            parser.add_argument(*argument.flags, help=argument.help, **options)  # type: ignore[arg-type]

    def wide(formatter: type[argparse.HelpFormatter]) -> Any:
        # argparse lays out every argument while it is told of them; to find the width each time it loads bz2 and lzma
        return lambda prog: formatter(prog, width=columns - 2)

    columns = _columns()
    common = argparse.ArgumentParser(add_help=False, formatter_class=wide(argparse.HelpFormatter))
    take(common, COMMON)
    as_data = argparse.ArgumentParser(add_help=False, formatter_class=wide(argparse.HelpFormatter))
    take(as_data, (AS_JSON,))
    parser = argparse.ArgumentParser(
        "benchmate", formatter_class=wide(argparse.HelpFormatter), description=_ABOUT, epilog=_CARE, parents=[common]
    )
    parser.add_argument("--version", action="version", version=f"benchmate {__version__}")
    take(parser, TALK)
    take(parser, ALOUD)

    def offer(into: argparse.ArgumentParser, commands: Sequence[Command], path: str, need: bool) -> None:
        # the name of the program is given, since argparse would lay out a usage line to find it
        group = into.add_subparsers(title="commands", metavar="COMMAND", required=need, prog=f"benchmate{path}")
        for command in filter(is_here, commands):
            one = group.add_parser(
                command.name,
                help=command.does,
                description=f"{command.does[0].upper()}{command.does[1:]}.",
                epilog=f"example: {command.example}",
                parents=[common, as_data] if command.json and not command.children else [common],
                formatter_class=wide(argparse.RawDescriptionHelpFormatter),
            )
            take(one, command.arguments)
            if command.children:
                offer(one, command.children, f"{path} {command.name}", True)
            else:
                one.set_defaults(run=command.run)

    named = [command for command in COMMANDS if command.name in words[:3]]
    offer(parser, named if len(named) == 1 else COMMANDS, "", False)
    return parser


def is_here(command: Command) -> bool:
    """Whether all that the command needs is installed. Nothing is imported to find out: that would cost every start."""
    for module in command.needs:
        path = os.path.join(os.path.dirname(__file__), *module.split(".")[1:])
        if not (os.path.exists(f"{path}.py") or os.path.exists(os.path.join(path, "__init__.py"))):
            return False
    return True


def run(args: argparse.Namespace) -> int:
    """Run what the arguments ask for, importing only the module that does it."""
    from importlib import import_module

    module, _, function = getattr(args, "run", _TALK).partition(":")
    status = getattr(import_module(module), function)(args)
    sys.stdout.flush()
    return int(status)


def _columns() -> int:
    """How wide help is laid out: COLUMNS, else the terminal's width, else 80."""
    told = os.environ.get("COLUMNS", "")
    if told.isdecimal() and int(told):
        return int(told)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or 80  # type: ignore[union-attr]
    except (AttributeError, ValueError, OSError):
        return 80


def _speak_utf8() -> None:
    """Words outside ASCII must not stop an answer on a terminal of another code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _complain(words: str) -> int:
    from benchmate.telling.lines import escape

    print(f"benchmate: {escape(words)}", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
