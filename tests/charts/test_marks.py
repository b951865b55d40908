"""Elements, numbers and words."""

from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.charts.marks import element, length, number, shortened
from gristbook.charts.placing import Area, Room, Spot, Stroke, best_pair


@given(st.text(), st.text())
def test_any_text_makes_one_well_formed_element(text, attribute):
    whole = ElementTree.fromstring(element("text", text, x=1.0, data=number(2.5), text_anchor="end"))
    assert whole.tag == "text"
    assert len(whole) == 0
    assert whole.attrib == {"x": "1", "data": "2.5", "text-anchor": "end"}


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e6, max_value=1e6))
def test_a_number_is_itself_to_two_decimals_and_never_minus_zero(value):
    assert abs(float(number(value)) - value) <= 0.005 + 1e-9
    assert number(value) != "-0"
    assert "e" not in number(value)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -float("inf")])
def test_a_coordinate_that_is_no_number_is_refused(bad):
    with pytest.raises(ValueError, match="cannot show"):
        element("circle", cx=bad)


@given(st.text(), st.floats(min_value=40, max_value=600))
def test_shortened_words_fit_their_room(text, room):
    short = shortened(text, room)
    assert length(short) <= room


def test_words_in_full_width_letters_count_double():
    assert length("ビール") == 2 * length("abc")


@pytest.mark.parametrize(
    ("stroke", "shared"),
    [
        (Stroke(0, 5, 10, 5, thickness=1), 10),  # all of it
        (Stroke(-10, 5, 5, 5, thickness=1), 5.5),  # half of it, and half a thickness at the edge
        (Stroke(5, -20, 5, 30, thickness=1), 11),  # upright, right through
        (Stroke(0, 20, 10, 20, thickness=1), 0),  # beside it
        (Stroke(20, -20, 20, 30, thickness=1), 0),
        (Stroke(-5, -5, 15, 15, thickness=0), 0),  # without a body
    ],
)
def test_a_stroke_covers_what_it_crosses(stroke, shared):
    assert stroke.shared(Area(0, 0, 10, 10)) == pytest.approx(shared)


def test_words_go_where_they_cover_least():
    page = Area(0, 0, 640, 440)
    taken = Area(0, 0, 300, 100)
    room = Room(within=page, full=[taken], lined=[])
    losses = room.losses("beer", [Spot(10, 50), Spot(630, 50), Spot(400, 50)], near=(0, 50))
    assert min(losses, key=lambda each: each[0])[1] == Spot(400, 50)


def test_two_pieces_of_words_keep_out_of_each_others_way():
    room = Room(within=Area(0, 0, 640, 440), full=[], lined=[])
    first = room.losses("beer", [Spot(100, 100)], near=(100, 100))
    second = room.losses("style", [Spot(110, 105), Spot(110, 200)], near=(110, 100))
    assert best_pair(first, second, apart=6)[1:] == (Spot(100, 100), Spot(110, 200))
