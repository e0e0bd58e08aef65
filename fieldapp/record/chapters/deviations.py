"""What was outside its limits, why it is kept, and who accepted it."""

from fieldapp.actions.sign_off import label_of
from fieldapp.checklist.model import Waive
from fieldapp.job.job import Job
from fieldapp.judgement.deviations import Deviation as Deviating
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.record.chapters.shapes.shapes import Deviation
from fieldapp.record.chapters.words import stamp


def deviations_of(job: Job, evaluation: Evaluation) -> tuple[Deviation, ...]:
    """Return every deviation, settled or open."""
    return tuple(deviation(found, job) for found in evaluation.deviations)


def deviation(found: Deviating, job: Job) -> Deviation:
    """Return one deviation with the words of those who explained and accepted it."""
    why, accepted = found.explanation, found.acceptance
    return Deviation(
        subject=found.subject,
        label=label_of(job, found.subject),
        sentence=found.verdict.sentence,
        settled=found.settled,
        reason=why.reason if why else "",
        reason_by=why.by if why else "",
        reason_at=stamp(why.at) if why else "",
        accepted_by=accepted.what.accepter if accepted else "",
        accepted_role=accepted.what.role if accepted else "",
        accepted_at=stamp(accepted.at) if accepted else "",
        condition=accepted.what.condition if accepted else "",
        document=accepted.what.document if accepted else "",
        stays_open_with=found.promise.person if found.promise else "",
        stays_open_until=found.promise.due.isoformat() if found.promise else "",
    )


def how_settled(found: Deviating) -> str:
    """Return in a word how a deviation stands."""
    if not found.settled:
        return "open"
    return "explained" if found.verdict.waive is Waive.REASON else "accepted"
