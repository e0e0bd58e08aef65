"""What people got wrong on the command line, and what failed around it, in one plain line."""

import errno

import click

CURES = {
    errno.EACCES: "name another place, or ask for the right to use this one",
    errno.EPERM: "name another place, or ask for the right to use this one",
    errno.EROFS: "name another place",
    errno.ENOENT: "check the name, and that its folder is there",
    errno.ENOTDIR: "a file stands where a folder belongs: name another place",
    errno.EEXIST: "a file stands where a folder belongs: name another place",
    errno.ENOSPC: "make room, or name another place",
    errno.ENAMETOOLONG: "give a shorter name",
}


def of_line(fault: click.ClickException) -> str:
    """Return what is wrong with the words of a command, and where they are explained."""
    words = fault.format_message().rstrip(".")
    if isinstance(fault, click.BadParameter) and not isinstance(fault, click.MissingParameter):
        hint = fault.param.get_error_hint(fault.ctx) if fault.param else ""
        words = f"{hint.strip(chr(39))}: {fault.message.rstrip('.')}".removeprefix(": ")
    where = fault.ctx.command_path if isinstance(fault, click.UsageError) and fault.ctx else ""
    return f"{words}. See “{where} --help”." if where else words


def of_world(fault: OSError) -> str:
    """Return which place failed, how, and what to do."""
    where = fault.filename if fault.filename is not None else "the output"
    why = (fault.strerror or str(fault)).lower()
    cure = CURES.get(fault.errno or 0, "look whether the disk, card or share is there")
    return f"{where}: {why}: {cure}"
