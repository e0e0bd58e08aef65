"""The logbook of a course: ledger, weighings, what is enough, what is due, and is it dry."""

from fieldapp.engineering.moisture.estimate import NoFigure
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.logbook.coming import change_expected, due_of
from fieldapp.logbook.course import Course
from fieldapp.logbook.figures import LABORATORY, PROBE, figures_of
from fieldapp.logbook.ledger import lines_of
from fieldapp.logbook.resting import dryness_of
from fieldapp.logbook.shapes import NOTHING, Enough, Logbook
from fieldapp.logbook.weighing import change_words, weighings_of
from fieldapp.plan.drying import to_remove
from fieldapp.plan.given import Given, MissingFactError

PAIR = "laboratory {lab:.1f} mg/kg, probe {probe:.1f}: the probe shows {ratio:.0f} % of it"


def logbook_of(course: Course) -> Logbook:
    """Return all that the weeks after a hookup add up to."""
    lines = lines_of(course)
    sheet = course.jobs[0].sheet
    return Logbook(
        number=course.number,
        unit=sheet.text_of("unit") or course.number,
        site=sheet.text_of("site_name") or "",
        lines=lines,
        removed=lines[-1].total if lines else NOTHING,
        at_least=bool(lines) and lines[-1].at_least,
        enough=_enough(course),
        weighings=weighings_of(course, lines),
        change=change_words(course, lines, change_expected(course)),
        due=due_of(course),
        dryness=dryness_of(course),
        notes=_pairs(course),
    )


def _enough(course: Course) -> Enough:
    try:
        found = to_remove(Given(course.jobs[0].sheet))
    except (MissingFactError, OutsideValidity) as why:
        return Enough(None, why=str(why))
    if isinstance(found, NoFigure):
        return Enough(None, why=found.reason)
    return Enough(*found)


def _pairs(course: Course) -> tuple[str, ...]:
    """Return what the laboratory found beside the probe: only that shows a wrong scale."""
    notes = []
    for job in course.of("visit"):
        figures = figures_of(job)
        lab, probe = figures.number(LABORATORY), figures.number(PROBE)
        if lab is not None and probe is not None and lab.si > 0:
            words = PAIR.format(lab=lab.si * 1e6, probe=probe.si * 1e6,
                                ratio=100 * probe.si / lab.si)  # fmt: skip
            notes.append(f"{job.number}: {words}")
    return tuple(notes)
