"""Which decimal mark the keys show: what the settings say, or else the tablet's language."""

import tomllib
from collections.abc import Mapping
from pathlib import Path

SETTINGS = "settings.toml"
POINT, COMMA = ".", ","
_FROM_ENVIRONMENT = ("LC_ALL", "LC_NUMERIC", "LANG")

# Languages that write a comma, and the countries that do not follow their language: Unicode
# CLDR, numbers, symbols of the standard number system (values from memory).
_COMMA = (
    "af az be bg bs ca cs da de el es et eu fi fr gl hr hu hy id is it ka kk ky lt lv mk mn nb nl "
    "nn no pl pt ro ru sk sl sq sr sv tr uk uz vi"
)
_POINT_ALL_THE_SAME = (
    "de_CH de_LI es_DO es_GT es_HN es_MX es_NI es_PA es_PE es_PR es_SV es_US it_CH"
)
_COMMA_ALL_THE_SAME = "en_AT en_DE en_DK en_FI en_NL en_SE en_SI"


def decimal_mark_of(home: Path, environment: Mapping[str, str]) -> str:
    """Return the mark stated in `home`/settings.toml, else that of the language set there or here.

    The file may hold `decimal_mark = ","` or `language = "de_DE"`; what it does not hold, or
    holds wrongly, the tablet's own language decides.
    """
    stated = _settings(home / SETTINGS)
    if stated.get("decimal_mark") in (POINT, COMMA):
        return str(stated["decimal_mark"])
    own = next((environment[name] for name in _FROM_ENVIRONMENT if environment.get(name)), "")
    return mark_of_language(str(stated.get("language") or own))


def mark_of_language(language: str) -> str:
    """Return the decimal mark of a language, with or without its country.

    >>> mark_of_language("de_DE.UTF-8"), mark_of_language("en-GB"), mark_of_language("C")
    (',', '.', '.')
    """
    name = language.partition(".")[0].partition("@")[0].replace("-", "_")
    if name in _COMMA_ALL_THE_SAME.split():
        return COMMA
    follows = name not in _POINT_ALL_THE_SAME.split()
    return COMMA if follows and name[:2] in _COMMA.split() else POINT


def _settings(path: Path) -> Mapping[str, object]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError):
        return {}
