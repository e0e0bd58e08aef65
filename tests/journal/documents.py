"""Documents of every kind a journal keeps, and things it may be given by mistake."""

import unicodedata

from hypothesis import strategies as st

from fieldapp.journal.lines.canonical import LARGEST_WHOLE_NUMBER

texts = st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=30).map(
    lambda text: unicodedata.normalize("NFC", text)
)
keys = st.text(alphabet=st.characters(max_codepoint=127), max_size=12)
numbers = st.integers(-LARGEST_WHOLE_NUMBER, LARGEST_WHOLE_NUMBER)
parts = st.recursive(
    st.none() | st.booleans() | numbers | texts,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4),
    max_leaves=12,
)
documents = st.dictionaries(keys, parts, max_size=6)

things = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=8)
    | st.binary(max_size=3)
    | st.decimals(),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.tuples(inner, inner)
        | st.dictionaries(st.text(max_size=4) | st.integers() | st.none(), inner, max_size=3)
    ),
    max_leaves=8,
)
