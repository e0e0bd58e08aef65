"""Whatever is typed for a formula or a rule is used, or refused in one line; nothing breaks."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.commands.calc_inputs import UnusableError, typed_for
from fieldapp.engineering.catalogue import FORMULAS, RULES, Formula, Rule
from fieldapp.engineering.docstring import ROWS, Input
from fieldapp.errors import FieldAppError
from fieldapp.units import UNITS

ALL: dict[str, Formula | Rule] = {**FORMULAS, **RULES}
NUMBERS = st.sampled_from(["0", "1", "-1", "12,5", "1e5", "99999999999", "0.0001", "NaN", "", "−3"])
WORDS = st.sampled_from(["H2", "yes", "no", "1984-05-01", "United States", "IEC in service", ";"])
CELLS = st.one_of(
    st.builds("{} {}".format, NUMBERS, st.sampled_from(list(UNITS))), NUMBERS, WORDS, st.text()
)
ROWS_TYPED = st.lists(CELLS, min_size=1, max_size=6).map("; ".join)
CLICK_TEXT = st.one_of(CELLS, ROWS_TYPED)


def no_file(path: Path) -> bytes:
    raise FileNotFoundError(path)


@st.composite
def typed_lines(draw):
    name = draw(st.sampled_from(sorted(ALL)))
    inputs = [wanted.name for wanted in ALL[name].inputs]
    texts = CLICK_TEXT.filter(lambda text: not text.startswith("@"))
    pairs = st.builds("{}={}".format, st.sampled_from([*inputs, "bulb"]), texts)
    return name, draw(st.lists(pairs, max_size=12))


@settings(max_examples=600, deadline=None)
@given(typed_lines())
def test_any_text_is_used_or_refused(typed):
    name, texts = typed
    assert "\n" not in outcome(name, texts).strip() or "\n" in "".join(texts)


def outcome(name, texts):
    """Return why something is refused; what it gives is no matter here."""
    try:
        found = typed_for(ALL[name].inputs, texts, no_file)
        work = FORMULAS[name].calculate if name in FORMULAS else RULES[name].judge
        return f"{name} gives {work(**found.values)}"
    except (UnusableError, FieldAppError) as fault:
        return str(fault)


def sound_text(wanted: Input) -> str:
    units = [unit.name for unit in UNITS.values() if unit.quantity == wanted.quantity]
    return f"1 {units[0]}" if units else {"text": "x", "yes or no": "yes"}.get(
        wanted.quantity, (wanted.answers or ("1984-05-01",))[0]
    )  # fmt: skip


@pytest.mark.parametrize("name", sorted(ALL))
def test_every_input_of_every_entry_can_be_typed(name):
    texts = []
    for wanted in ALL[name].inputs:
        cells = wanted.columns if wanted.quantity == ROWS else (wanted,)
        texts.append(f"{wanted.name}={'; '.join(sound_text(cell) for cell in cells)}")
    found = typed_for(ALL[name].inputs, texts, no_file)
    assert set(found.values) == {wanted.name for wanted in ALL[name].inputs}
    assert set(found.words) == set(found.values)
