"""Whatever is done to the bytes of a record, it never counts as sound again."""

from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.record.verification import verify
from tests.record import specimen as made

SIZE = len(made.closed())
PLACES = st.integers(min_value=5, max_value=SIZE - 1)
LENGTHS = st.integers(min_value=1, max_value=900)
tried = settings(max_examples=150, deadline=None)


def never_sound(pdf):
    assert pdf == made.closed() or not verify(pdf, made.roster()).sound


@tried
@given(PLACES, LENGTHS)
def test_piece_taken_out(place, length):
    never_sound(made.closed()[:place] + made.closed()[place + length :])


@tried
@given(PLACES, LENGTHS, PLACES)
def test_piece_written_twice(place, length, to):
    whole = made.closed()
    never_sound(whole[:to] + whole[place : place + length] + whole[to:])


@tried
@given(PLACES, LENGTHS, PLACES)
def test_piece_written_over_another(place, length, to):
    whole = made.closed()
    piece = whole[place : place + length]
    never_sound((whole[:to] + piece + whole[to + len(piece) :])[: max(len(whole), to)])


@tried
@given(PLACES, st.binary(min_size=1, max_size=40))
def test_bytes_put_in(place, content):
    whole = made.closed()
    never_sound(whole[:place] + content + whole[place:])


@tried
@given(st.data())
def test_piece_of_another_record_put_in(data):
    other = made.forged_lead(made.forged_technician(made.document_of(leak_rate="0.002")))
    begins = data.draw(st.integers(5, min(len(other), SIZE) - 1))
    ends = data.draw(st.integers(begins + 1, min(len(other), SIZE)))
    pdf = made.closed()[:begins] + other[begins:ends] + made.closed()[ends:]
    assert pdf in (made.closed(), other) or not verify(pdf, made.roster()).sound


@tried
@given(st.lists(st.tuples(PLACES, st.integers(0, 255)), min_size=1, max_size=5))
def test_several_bytes_changed(changes):
    pdf = bytearray(made.closed())
    for place, value in changes:
        pdf[place] = value
    never_sound(bytes(pdf))
