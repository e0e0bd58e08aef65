"""The invented job at its stages, played once for all tests of screens."""

import tempfile
from datetime import datetime, timedelta, timezone
from functools import cache
from pathlib import Path

from fieldapp.demo.player import play
from fieldapp.judgement.evaluation import evaluate
from fieldapp.screens.frame_view import Desktop

ZONE = timezone(timedelta(hours=2))
MAREN, RUTH = "Maren Holtby", "Ruth Calderon"


def moment(text, day=16):
    time = text if text.count(":") > 1 else f"{text}:00"
    return datetime.fromisoformat(f"2026-06-{day:02}T{time}").replace(tzinfo=ZONE)


@cache
def whole_job():
    with tempfile.TemporaryDirectory() as folder:
        jobs = play(Path(folder), lambda played: None)
        job = jobs.open(jobs.numbers()[0]).job
        jobs.close()
    return job


@cache
def job_at(text, day=16):
    """The job as it stood at a moment: nothing that happened later is known."""
    from dataclasses import replace

    from fieldapp.job.state import replay

    job = whole_job()
    until = moment(text, day)
    return replace(job, state=replay(event for event in job.state.log if event.at <= until))


def evaluated(text, day=16):
    job = job_at(text, day)
    return job, evaluate(job, moment(text, day)), moment(text, day)


def desktop(step="", who=MAREN):
    return Desktop(who, step)
