"""What the screen of people shows: the crew of the job sheet, and who is at the tablet."""

from collections.abc import Sequence

from fieldapp.job.sheet import Person
from fieldapp.screens.frame_view import FrameView
from fieldapp.screens.row_view import ListView, RowView


def people_view(
    crew: Sequence[Person], who: str, start: int, frame: FrameView | None
) -> ListView:  # fmt: skip
    """Return the crew; a touch says who is at the tablet from now on."""
    rows = tuple(
        RowView(
            "person",
            (person.name,),
            person.name,
            f"{person.role}, {person.company}",
            "done" if person.name == who else "todo",
            "here" if person.name == who else "",
            here=person.name == who,
        )
        for person in crew
    )
    return ListView(
        title="Who is at the tablet?",
        under=("All that is entered", "carries this name."),
        rows=rows,
        start=start,
        frame=frame,
    )
