"""What is still to do, on the front page of a record that is not signed off."""

from fieldapp.record.chapters.shapes.shapes import StepRows
from fieldapp.record.chapters.shapes.shapes_of_sources import Content
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, shortened, width
from fieldapp.record.pages.kit.marks import OPEN, mark
from fieldapp.record.pages.kit.paper import SECONDARY, TEXT_WIDTH, Paper
from fieldapp.record.pages.kit.volume import section

LINE = 12.0
FEWEST = 3
CLOSED = frozenset({"done", "not needed"})


def draw_open(paper: Paper, content: Content, y: float, until: float) -> None:
    """Write the first steps that are open, if there are any and there is room for some."""
    steps = [step for phase in content.phases for step in phase.steps if step.state not in CLOSED]
    most = int((until - y - 17) // LINE) + 1
    if not steps or most < min(FEWEST, len(steps)):
        return
    paper.tag("H2")
    section(paper, y, "Still open", "in the order of the checklist")
    shown = steps if len(steps) <= most else steps[: most - 1]
    for place, step in enumerate(shown):
        _step(paper, y + 17 + LINE * place, step)
    if len(steps) > most:
        paper.tag("P")
        words = f"and {len(steps) - len(shown)} more"
        paper.text(11, y + 17 + LINE * len(shown), words, 8, REGULAR, SECONDARY)


def _step(paper: Paper, y: float, step: StepRows) -> None:
    paper.tag("P")
    mark(paper, OPEN, 3.5, y - 2.6)
    state = shortened(step.state, 90, 7.4)
    room = TEXT_WIDTH - 11 - width(state, 7.4) - 12
    end = paper.text(11, y, shortened(step.title, room, 8, SEMIBOLD), 8, SEMIBOLD)
    left = room - (end - 11) - 8
    if step.why and width(step.why, 7.4) < left:
        paper.text(end + 6, y, step.why, 7.4, REGULAR, SECONDARY)
    paper.text(TEXT_WIDTH, y, state, 7.4, REGULAR, SECONDARY, "right")
