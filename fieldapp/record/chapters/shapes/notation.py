"""How the data of a record writes moments, hashes and places: texts of a certain form."""

from typing import Annotated

from msgspec import Meta

Moment = Annotated[
    str,
    Meta(
        pattern=r"^([0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}[+-][0-9]{2}:[0-9]{2})?$",
        description="Date and time by the tablet's clock with its offset, or nothing",
    ),
]
Digits = Annotated[
    str,
    Meta(pattern="^[0-9a-f]*$", description="A SHA-256 in hexadecimal digits, or nothing"),
]
Place = Annotated[
    str,
    Meta(
        pattern="^(inside|too near|outside|done|noted|missing|not needed)$",
        description="Where something stands against its limits",
    ),
]
State = Annotated[
    str,
    Meta(
        pattern="^(proven|done|sent back|awaits the crew lead|not proven)$",
        description="How the job stands",
    ),
]
Jpeg = Annotated[str, Meta(pattern="^[A-Za-z0-9+/=]*$", description="A JPEG in Base64, or nothing")]
