"""The bytes of a file as a log in a table, or why they are none."""

from __future__ import annotations

from ...grammar.diagnostic import Diagnostic
from ...grammar.source import Span
from ..checks.log_files import OLD_LETTERS, SECOND_SHEET
from .spreadsheet import NoSpreadsheet, marked_sheets
from .table import ENDINGS, MARK, MOST_BYTES, VERSION, Table, table_of

NOT_OURS = f"its first cell is not `{MARK} {VERSION}`"


def is_table(path: str) -> bool:
    """Whether a file may be a log as a table, by its ending."""
    return path.lower().endswith(ENDINGS)


def open_table(name: str, raw: bytes) -> tuple[Table | None, str, list[Diagnostic]]:
    """The table of a file, known by what is in it, not by its ending; else None, and why. With it, what is odd about it."""
    if len(raw) > MOST_BYTES:
        return None, f"it is larger than {MOST_BYTES // 1_000_000} MB", []
    if raw[:4] == b"PK\x03\x04":
        try:
            texts = marked_sheets(raw)
        except NoSpreadsheet as reason:
            return None, str(reason), []
        table = Table(name, texts[0], separator="\t", lettered=True) if texts else None
        more = [SECOND_SHEET.at(Span(table, 0, 0), count=len(texts))] if table is not None and len(texts) > 1 else []
        return table, NOT_OURS, more
    text, is_old = _decoded(raw)
    table = table_of(name, text)
    return table, NOT_OURS, [OLD_LETTERS.at(Span(table, 0, 0))] if table is not None and is_old else []


def _decoded(raw: bytes) -> tuple[str, bool]:
    """The text with its line ends made one, and whether its letters are those of old Windows."""
    is_old = False
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        text = raw.decode("utf-16", "replace")
    else:
        try:
            text = raw.decode("utf-8-sig")
        except UnicodeDecodeError:
            text, is_old = raw.decode("cp1252", "replace"), True
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text, is_old
