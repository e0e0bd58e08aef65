"""The command line: its words, and how a failure becomes one plain line."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

import click
from click.exceptions import NoArgsIsHelpError

from fieldapp.commands import complaint
from fieldapp.commands.blank import blank
from fieldapp.commands.calc import calc
from fieldapp.commands.check import check
from fieldapp.commands.crew import crew
from fieldapp.commands.demo import demo
from fieldapp.commands.logbook import logbook
from fieldapp.commands.named import folder
from fieldapp.commands.plan import plan
from fieldapp.commands.record import record
from fieldapp.commands.setting import Setting
from fieldapp.commands.store import store
from fieldapp.commands.verify import verify
from fieldapp.errors import FieldAppError

UNREADABLE = 2


@dataclass(frozen=True, slots=True)
class World:
    """What only the start of the program knows: the clock, the usual home, the window."""

    clock: Callable[[], datetime]
    home: Path
    open_window: Callable[[Path], None]


@click.group(
    invoke_without_command=True,
    help="Leads a crew through the hookup of an oil-drying skid, and keeps the signed record.",
    epilog="Without a command the tablet's window opens.",
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.option(
    "--home",
    type=folder,
    metavar="FOLDER",
    help="Folder where jobs and records live.",
)
@click.version_option(package_name="fieldapp")
@click.pass_context
def line(context: click.Context, home: Path | None) -> None:
    """Settle where things live; open the window when no command was given."""
    world: World = context.obj
    context.obj = Setting(home or world.home, world.clock)
    if context.invoked_subcommand is None:
        world.open_window(context.obj.home)


for command in (blank, calc, check, crew, demo, logbook, plan, record, store, verify):
    line.add_command(command)


def run(arguments: list[str], world: World) -> int:
    """Run the command line; return the exit code. What people got wrong is one line."""
    try:
        result: Any = line.main(
            args=arguments, prog_name="fieldapp", obj=world, standalone_mode=False
        )
    except click.Abort:
        click.echo("Stopped; nothing more was written.", err=True)
        return UNREADABLE
    except NoArgsIsHelpError as bare:
        click.echo(bare.format_message(), err=True)
        return UNREADABLE
    except click.ClickException as fault:
        return _complained(complaint.of_line(fault))
    except OSError as fault:
        return _complained(complaint.of_world(fault))
    except FieldAppError as fault:
        return _complained(str(fault))
    return result if isinstance(result, int) else 0


def _complained(words: str) -> int:
    click.echo(f"fieldapp: {words}", err=True)
    return UNREADABLE
