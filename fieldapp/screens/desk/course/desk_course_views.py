"""What the screens of a course show: its lists, what may follow, the logbook."""

from collections.abc import Callable, Mapping

from fieldapp.screens.desk.course.desk_course import course_here, logbook_here, sheet_words
from fieldapp.screens.desk.desk_frame import told
from fieldapp.screens.desk.desk_lists import checklist_of, following, standalone
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.weeks.course_view import course_view
from fieldapp.screens.weeks.follow_view import follow_view, standalone_view


def _course(state: DeskState) -> object:
    return course_view(course_here(state), state.now, state.place.start, told(state))


def _follow(state: DeskState) -> object:
    return follow_view(
        course_here(state), following(state), sheet_words(state), state.now, state.place.start,
        told(state),
    )  # fmt: skip


def _logbook(state: DeskState) -> object:
    from fieldapp.screens.weeks.logbook_view import logbook_view

    course = course_here(state)
    book = logbook_here(state, course)
    return logbook_view(book, course, state.now, state.place.start, told(state))


def _lists(state: DeskState) -> object:
    chosen = checklist_of(state.checklist).id
    return standalone_view(standalone(state), chosen, state.faulty_lists, state.place.start)


VIEWS: Mapping[str, Callable[[DeskState], object]] = {
    "course": _course,
    "follow": _follow,
    "lists": _lists,
    "logbook": _logbook,
}
