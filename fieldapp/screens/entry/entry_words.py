"""What an entry with a text shows: a note, a serial number, or the file of a photo."""

from fieldapp.checklist.model import Entry, Kind
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.screens.body_view import WordsBody
from fieldapp.screens.draft import Draft, verdict_of_draft
from fieldapp.screens.entry.entry_plates import evaluation_verdict, keep_plates, verdict_view

_HINTS = {
    Kind.TEXT: "touch here and type",
    Kind.SERIAL: "read it from the plate, touch here and type",
    Kind.PHOTO: "take the photo, touch here and type its name",
}


def words_body(job: Job, evaluation: Evaluation, entry: Entry, draft: Draft) -> WordsBody:
    """Return the field for a text; names of the crew can be taken by a touch."""
    typed = draft.fields.get("value", "")
    given = job.state.latest(entry.id)
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    kept = evaluation_verdict(evaluation, job, entry) if given and not typed else None
    names = (person.name for person in job.sheet.crew if person.name != draft.who)
    return WordsBody(
        limit=f"Kept: {given.fields['value']}" if given else "",
        typed=typed,
        hint=_HINTS[entry.kind],
        suggestions=tuple(names)[:4] if entry.other_person else (),
        verdict=verdict_view(verdict or kept, kept=bool(kept)),
        keep=keep_plates(verdict, given_before=given is not None),
    )
