"""Where a deck or page is put: never over what fastkit did not make, and in one step."""

import os
import re
import tempfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fastkit.deck.markup import PRODUCER
from fastkit.errors import Broken, Misuse

HEAD = 4096
"""Bytes of a page within which it says who made it."""


def is_ours(path: Path) -> bool:
    """Whether a file is a PDF or page that fastkit has made, by the keywords in its metadata."""
    data = path.read_bytes()
    if data.startswith(b"<!DOCTYPE html>"):
        return f'name="generator" content="{PRODUCER}"'.encode() in data[:HEAD]
    if not data.startswith(b"%PDF-"):
        return False
    # the information dictionary lies in a compressed object stream
    for packed in re.finditer(rb"/Type /ObjStm.*?>>\s*stream\r?\n", data, re.S):
        try:
            objects = zlib.decompressobj().decompress(data[packed.end() :], 10_000_000)
        except zlib.error:
            return False
        if f"/Keywords ({PRODUCER}".encode() in objects:
            return True
    return False


def check_target(path: Path, force: bool = False) -> None:
    """
    Refuse a file that exists and was not made here.

    Raises:
        Misuse: The file is foreign and not forced.
        Broken: It cannot be read, or its folder does not exist.
    """
    with _file_trouble(path):
        if path.exists() and not force and not is_ours(path):
            raise Misuse(
                f"{path} exists and was not made by fastkit; expected another --out FILE or --force"
            )
        path.parent.stat()


def write(path: Path, data: bytes, force: bool = False) -> None:
    """
    Put the file in place in one step; a foreign file stays as it is unless forced.

    Raises:
        Misuse: The file exists and was not made here.
        Broken: The folder cannot be written.
    """
    check_target(path, force)
    with _file_trouble(path):
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".cards-", suffix=path.suffix)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            Path(name).chmod(0o644)
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink()
            raise


@contextmanager
def _file_trouble(path: Path) -> Iterator[None]:
    """What the file system or a malformed path says, as errors.Broken."""
    try:
        yield
    except OSError as trouble:
        raise Broken(f"{path} cannot be written: {trouble.strerror}") from trouble
    except Misuse:
        raise
    except ValueError as trouble:
        raise Broken(f"no file can have this name: {trouble}") from trouble
