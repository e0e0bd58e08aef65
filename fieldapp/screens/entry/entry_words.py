"""What an entry with a text shows: a note, or a serial number."""

from fieldapp.checklist.model import Entry, Kind
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.words import said
from fieldapp.screens.body_view import WordsBody
from fieldapp.screens.draft import Draft, verdict_of_draft
from fieldapp.screens.entry.entry_plates import (
    LATER,
    evaluation_verdict,
    keep_plates,
    verdict_view,
)
from fieldapp.screens.frame_view import PlateView

CANNOT_READ = PlateView("missing", "Cannot read it", "say why")
_HINTS = {
    Kind.TEXT: "touch here and type",
    Kind.SERIAL: "read it from the plate, touch here and type",
}


def words_body(job: Job, evaluation: Evaluation, entry: Entry, draft: Draft) -> WordsBody:
    """Return the field for a text; names of the crew can be taken by a touch."""
    typed = draft.fields.get("value", "")
    given = job.state.latest(entry.id)
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    kept = evaluation_verdict(evaluation, job, entry) if given and not typed else None
    names = (person.name for person in job.sheet.crew if person.name != draft.who)
    otherwise = CANNOT_READ if entry.kind is Kind.SERIAL else LATER
    return WordsBody(
        limit=f"Kept: {said(given.fields)}" if given else "",
        typed=typed,
        hint=_HINTS[entry.kind],
        suggestions=tuple(names)[:4] if entry.other_person else (),
        verdict=verdict_view(verdict or kept, kept=bool(kept)),
        keep=keep_plates(verdict, given_before=given is not None, otherwise=otherwise),
    )
