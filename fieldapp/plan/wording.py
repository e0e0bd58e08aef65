"""A plan in words, as screen, page and command line write it."""

from fieldapp.plan.shapes import Figure, Plan
from fieldapp.units import rounded, written

PERMITS_NOTHING = (
    "For planning. It permits no energised work: the owner’s procedures, local codes and licensed "
    "practice decide. The crew measures what stands here."
)


def number(value: float, decimals: int, towards: str = "nearest") -> str:
    """Return a number for people, never minus nought.

    >>> number(-0.04, 1)
    '0.0'
    """
    text = written(rounded(value, decimals, towards))
    return text.lstrip("−") if not text.strip("−0.") else text


def value_words(figure: Figure) -> str:
    r"""Return a figure with its unit.

    >>> value_words(Figure("Water", 17.04, "kg", 1))
    '17.0\xa0kg'
    """
    unit = f"\u00a0{figure.unit}" if figure.unit else ""
    return f"{number(figure.value, figure.decimals)}{unit}"


def range_words(figure: Figure) -> str:
    """Return between what a figure lies; nothing where one number is all there is.

    >>> range_words(Figure("Water", 17, "kg", 0, 2, 37))
    '2 to 37'
    """
    if figure.low is None or figure.high is None:
        return ""
    low, high = (number(end, figure.decimals) for end in (figure.low, figure.high))
    return low if low == high else f"{low} to {high}"


def limit_words(figure: Figure) -> str:
    """Return the limits of a figure.

    >>> limit_words(Figure("Velocity", 0.39, "m/s", 2, at_most=1))
    'at most 1.00'
    """
    if figure.at_least is not None:
        return f"at least {number(figure.at_least, figure.decimals)}"
    return "" if figure.at_most is None else f"at most {number(figure.at_most, figure.decimals)}"


def verdict_words(figure: Figure) -> str:
    """Return whether a figure keeps to its limit, and by how much: never kinder than the truth.

    >>> verdict_words(Figure("Velocity", 0.395, "m/s", 2, at_most=1))
    'inside by 0.60'
    """
    bound = figure.at_least if figure.at_least is not None else figure.at_most
    if bound is None:
        return ""
    spare = abs(figure.value - bound)
    if figure.inside:
        return f"inside by {number(spare, figure.decimals, 'down')}"
    return f"outside by {number(spare, figure.decimals, 'up')}"


def figure_words(figure: Figure) -> str:
    """Return a figure in one line: label, value, range, limit and verdict."""
    words = f"{figure.label}: {value_words(figure)}"
    between = range_words(figure)
    if between:
        words += f" ({between})"
    if figure.limited:
        words += f", {limit_words(figure)}: {verdict_words(figure)}"
    return words


def heading(plan: Plan) -> str:
    """Return what a plan is of, in one line."""
    return f"Plan of {plan.number}: {plan.unit}, {plan.site}"
