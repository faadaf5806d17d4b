"""Numbers of drawn PDFs, against those of ReportLab itself."""

from types import SimpleNamespace

from hypothesis import given
from hypothesis import strategies as st
from reportlab.lib import rl_accel
from reportlab.pdfgen import pathobject

from guidegen.render.pdf.drawn_numbers import mend_numbers, numbers_text
from guidegen.render.pdf.drawn_pdf import write_drawings

LENGTHS = st.floats(-2e6, 2e6) | st.integers(-(10**7), 10**7) | st.floats(-1, 1)
EDGES = st.sampled_from([0, -0.0, 1e-7, 2e-7, 4e-7, 6e-7, 0.5, -0.5, 1.0, 9.9999995, 10, 99.999996])
POWERS = st.integers(-7, 7).map(lambda power: 10.0**power)


@given(st.lists(LENGTHS | EDGES | POWERS, max_size=6))
def test_numbers_are_written_as_the_library_writes_them(numbers):
    """Single ones, several, and one sequence of them."""
    own = rl_accel._py_fp_str
    assert numbers_text(*numbers) == own(*numbers)
    assert numbers_text(numbers) == own(numbers)


def test_only_the_function_of_the_library_is_replaced():
    """An accelerator that is installed, and another version's function, stay as they are."""
    user = SimpleNamespace(fp_str=str)
    mend_numbers(rl_accel, user)
    mend_numbers(SimpleNamespace(), user)
    assert user.fp_str is str
    assert write_drawings
    replaced = rl_accel.fp_str is rl_accel._py_fp_str
    assert (pathobject.fp_str is numbers_text) is replaced
