"""What is outside its limits, why it is kept, and who has accepted it."""

from dataclasses import dataclass

from fieldapp.checklist.model import Step, Waive
from fieldapp.job.state import Acceptance, Explanation, JobState, Promise
from fieldapp.judgement.verdict import Verdict


@dataclass(frozen=True, slots=True)
class Deviation:
    """One subject that is outside or too near, and what has been done about it."""

    step: str
    subject: str
    verdict: Verdict
    explanation: Explanation | None
    acceptance: Acceptance | None
    promise: Promise | None = None
    """Who puts it right, and by which day, where it stays open."""

    @property
    def settled(self) -> bool:
        """Say whether whoever may accept it has."""
        match self.verdict.waive:
            case Waive.NEVER:
                return False
            case Waive.REASON:
                return self.explanation is not None
        return self.acceptance is not None

    @property
    def unowned(self) -> bool:
        """Say whether it was accepted on a condition that nobody has taken on by a day."""
        return self.acceptance is not None and self.promise is None

    @property
    def sentence(self) -> str:
        """Return what is outside and what is to be done."""
        if self.settled:
            return self.verdict.sentence
        return f"{self.verdict.sentence} {self.to_do}"

    @property
    def to_do(self) -> str:
        """Return what is to be done about it."""
        match self.verdict.waive:
            case Waive.NEVER:
                return "Stop: nobody may accept this. Put it right and do it again."
            case Waive.OWNER:
                return "Put it right, or the owner's engineer accepts it with a document."
            case Waive.LEAD if self.explanation is None:
                return "Put it right, or say why it is kept; then the crew lead decides."
            case Waive.LEAD:
                return "The crew lead decides."
        return "Put it right, or say why it is kept."


def deviation_of(step: Step, subject: str, verdict: Verdict, state: JobState) -> Deviation:
    """Return the deviation of a subject; words said before the last entry do not count."""
    entries = (
        {subject}
        if any(e.id == subject for e in step.entries)
        else {entry.id for entry in step.entries}
    )
    since = max((_last_given(entry, state) for entry in entries), default=-1)
    explanations = [e for e in state.explanations.get(subject, ()) if e.sequence > since]
    promises = [p for p in state.promises.get(subject, ()) if p.sequence > since]
    acceptances = [a for a in state.acceptances.get(subject, ()) if a.sequence > since]
    return Deviation(
        step.id,
        subject,
        verdict,
        explanations[-1] if explanations else None,
        acceptances[-1] if acceptances else None,
        promises[-1] if promises else None,
    )


def _last_given(entry: str, state: JobState) -> int:
    given, attempt = state.latest(entry), state.attempt(entry)
    last = given.sequence if given else -1
    if attempt:
        last = max(last, attempt.sequence, *(r.sequence for r in attempt.readings), last)
    return last
