"""What was worked out for the phone page, kept in the cache folder until data or code change."""

import os
import tempfile
import zlib
from gzip import BadGzipFile, compress, decompress
from hashlib import sha256
from json import dumps, loads
from pathlib import Path
from typing import Any

from fastkit.errors import Broken
from fastkit.shopbook.place import cache_folder
from fastkit.version import VERSION

NAME = "phone-page.json.gz"
PACKAGE = Path(__file__).parents[1]
ONLY_SHOW = ("cli", "deck")  # rooms that decide nothing of what is worked out
UNREADABLE = (OSError, EOFError, BadGzipFile, zlib.error)


def stamp(data_version: str) -> dict[str, str]:
    """Return what must be the same for kept work to be good: version, data, and the code itself."""
    return {"fastkit": VERSION, "data": data_version, "code": _code()}


def _code() -> str:
    digest = sha256()
    for file in sorted(PACKAGE.rglob("*.py")):
        if file.relative_to(PACKAGE).parts[0] not in ONLY_SHOW:
            digest.update(file.relative_to(PACKAGE).as_posix().encode() + b"\0")
            digest.update(file.read_bytes() + b"\0")
    return digest.hexdigest()


def recall(wanted: dict[str, str]) -> Any:
    """Return what is kept under a stamp; None where there is nothing, another's or damaged work."""
    try:
        head, _, body = decompress((cache_folder() / NAME).read_bytes()).partition(b"\n")
    except (*UNREADABLE, Broken):  # no file, no home, no sense: worked out again
        return None
    return loads(body) if head == _head(wanted, body) else None


def keep(wanted: dict[str, str], work: Any) -> str | None:
    """Keep work under a stamp, in one step; return what was in the way, None where nothing was."""
    body = text_of(work)
    try:
        folder = cache_folder()
        folder.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=folder, prefix=".phone-page-")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(compress(_head(wanted, body) + b"\n" + body, mtime=0))
            Path(name).replace(folder / NAME)
        except BaseException:
            Path(name).unlink()
            raise
    except OSError as trouble:
        return f"plans cannot be kept in {folder}, the next page starts afresh: {trouble.strerror}"
    except Broken as trouble:
        return f"plans cannot be kept, the next page starts afresh: {trouble}"
    return None


def _head(wanted: dict[str, str], body: bytes) -> bytes:
    """Return the line that says what the work behind it is of."""
    return dumps({**wanted, "sum": sha256(body).hexdigest()}).encode()


def text_of(work: Any) -> bytes:
    """Return work as JSON, the same bytes for the same work."""
    return dumps(work, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode()
