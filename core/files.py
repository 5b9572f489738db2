"""Room files: reading with one clear message for whatever is wrong, and saving so that nothing is ever lost."""

import contextlib
import errno
import hashlib
import json
import os
import tempfile
import time
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from core.errors import RoomFileError, SaveError
from core.file_faults import first_fault, quoted
from core.language import tr
from core.room import Room
from core.system_words import remedy, system_words

FORMAT = "coursewright-room"
VERSION = 1
LARGEST_FILE_BYTES = 20_000_000
BACKUP_SUFFIX = ".bak"

_PART_SUFFIX = ".coursewright.part"
_STALE_SECONDS = 3600.0

_ALWAYS_WRITTEN = {"format", "version", "display_units", "openings", "mode"}


def load_room(path: Path) -> Room:
    """The room in a file; raises RoomFileError, whose one line names the file, the field and what would be right."""
    try:
        return parse_room(_read(path))
    except RoomFileError as error:
        raise RoomFileError(f"{path}: {error}") from None


def parse_room(data: bytes) -> Room:
    """The room in the bytes of a room file; raises RoomFileError."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise RoomFileError(tr("byte {byte} is not UTF-8 text; a room file is JSON in UTF-8", byte=error.start + 1)) from None
    document = _decode(text)
    _check_header(document)
    try:
        return Room.model_validate_json(text)
    except ValidationError as error:
        raise RoomFileError(first_fault(error, document, Room)) from None


def _read(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE_BYTES + 1)
    except FileNotFoundError:
        raise RoomFileError(tr("there is no such file")) from None
    except IsADirectoryError:
        raise RoomFileError(tr("this is a folder; give a room file")) from None
    except (OSError, ValueError) as error:
        raise RoomFileError(tr("cannot be read ({why})", why=system_words(error, in_sentence=True))) from None
    if len(data) > LARGEST_FILE_BYTES:
        raise RoomFileError(tr("is larger than {most} MB; that is no room file", most=LARGEST_FILE_BYTES // 1_000_000))
    return data


def _decode(text: str) -> dict[str, Any]:
    try:
        document = json.loads(text, object_pairs_hook=_object_without_repeats, parse_constant=_refuse_constant)
    except json.JSONDecodeError as error:
        place = {"line": error.lineno, "column": error.colno}
        raise RoomFileError(tr("line {line}, column {column}: not JSON ({why})", **place, why=tr(error.msg))) from None
    except RecursionError:
        raise RoomFileError(tr("not a room: lists or objects are nested too deeply")) from None
    except ValueError:
        # What is left: Python refuses to read integers of thousands of digits.
        raise RoomFileError(tr("holds a number of thousands of digits; that is no room file")) from None
    if not isinstance(document, dict):
        start = f'{{"format": "{FORMAT}"'
        raise RoomFileError(
            tr("found {found} at the top level, should be an object that starts {start}", found=quoted(document), start=start)
        )
    return document


def _object_without_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    document = dict(pairs)
    if len(document) < len(pairs):
        seen: set[str] = set()
        for key, _ in pairs:
            if key in seen:
                raise RoomFileError(tr("{key} is given twice in one object; keep one of them", key=quoted(key)))
            seen.add(key)
    return document


def _refuse_constant(name: str) -> float:
    raise RoomFileError(tr("found {name}; every number must be finite", name=name))


def _check_header(document: dict[str, Any]) -> None:
    if document.get("format") != FORMAT:
        if "format" not in document:
            raise RoomFileError(tr('format: missing, should be "{wanted}"', wanted=FORMAT))
        raise RoomFileError(tr('format: found {found}, should be "{wanted}"', found=quoted(document["format"]), wanted=FORMAT))
    version = document.get("version")
    if isinstance(version, int) and version > VERSION:
        raise RoomFileError(
            tr(
                "version: was written by a newer version of Coursewright (format version {found}, this one "
                "reads {wanted}); update Coursewright to open it",
                found=quoted(version),
                wanted=VERSION,
            )
        )
    if version != VERSION or isinstance(version, bool):
        if "version" not in document:
            raise RoomFileError(tr("version: missing, should be {wanted}", wanted=VERSION))
        raise RoomFileError(tr("version: found {found}, should be {wanted}", found=quoted(version), wanted=VERSION))


def room_document(room: Room) -> dict[str, Any]:
    """The room as a JSON object, defaults left out; ``parse_room`` reads it back to an equal room."""
    return _plain_model(room)


def _plain_model(model: BaseModel) -> dict[str, Any]:
    document = {}
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        if name in _ALWAYS_WRITTEN or field.is_required() or value != field.get_default(call_default_factory=True):
            document[name] = _plain(value)
    return document


def _plain(value: Any) -> Any:
    if isinstance(value, BaseModel):
        return _plain_model(value)
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value


def room_text(room: Room) -> str:
    """The room as the text of a room file: one line per field, and one per opening and frame."""
    fields = []
    for name, value in room_document(room).items():
        if isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
            items = ",\n".join(f"   {json.dumps(item, ensure_ascii=False)}" for item in value)
            fields.append(f'"{name}": [\n{items}]')
        else:
            fields.append(f'"{name}": {json.dumps(value, ensure_ascii=False)}')
    return "{" + ",\n ".join(fields) + "}\n"


def save_room(room: Room, path: Path) -> str:
    """Writes a room file; a crash at any moment leaves the old or the new one, whole. Returns its digest, as ``file_digest``.

    What stood there before is kept beside it as ``.bak``. Links are followed and permissions kept. Raises SaveError.
    """
    data = room_text(room).encode()
    try:
        target = path.resolve()
        if target.is_dir():
            raise SaveError(tr("{path}: this is a folder; give a file name", path=path))
        files = {target: data}
        if target.exists():
            if not os.access(target, os.W_OK):
                raise SaveError(tr("{path}: is write-protected; allow writing or save under another name", path=path))
            backup = target.with_name(target.name + BACKUP_SUFFIX)
            if backup.is_dir():
                raise SaveError(
                    tr(
                        "{path}: cannot be saved ({backup}, its backup, is a folder); move that folder away",
                        path=path,
                        backup=backup.name,
                    )
                )
            # The backup first: between the two steps the old room stands twice, never nowhere.
            files = {backup: target.read_bytes(), target: data}
        replace_files(files, like=target)
    except (OSError, ValueError, RuntimeError) as error:
        why, known = system_words(error, in_sentence=True), remedy(error)
        raise SaveError(
            tr("{path}: cannot be saved ({why}); nothing was changed; {remedy}", path=path, why=why, remedy=known)
            if known
            else tr("{path}: cannot be saved ({why}); nothing was changed", path=path, why=why)
        ) from None
    return hashlib.sha256(data).hexdigest()


def file_digest(path: Path) -> str | None:
    """What tells whether a file still holds the same bytes; None where there is none that can be read."""
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except (OSError, ValueError):
        return None


def replace_file(target: Path, data: bytes, *, like: Path | None = None) -> None:
    """Puts ``data`` in the place of a file in one step, with the permissions of ``like``; raises OSError."""
    beside = _write_beside(target, data, like)
    try:
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    _settle_folder(target.parent)


def replace_files(files: Mapping[Path, bytes], *, like: Path | None = None) -> None:
    """Puts data in the place of several files, in their order, with the permissions of ``like``.

    Where one cannot be written none is touched. Raises OSError whose ``filename`` is the file that stood in the way.
    """
    written: dict[Path, Path] = {}
    try:
        for target, data in files.items():
            with _naming(target):
                if target.is_dir():
                    raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
                written[target] = _write_beside(target, data, like)
        for target, beside in written.items():
            with _naming(target):
                beside.replace(target)
    except BaseException:
        for beside in written.values():
            beside.unlink(missing_ok=True)
        raise
    for folder in {target.parent for target in files}:
        _settle_folder(folder)


@contextlib.contextmanager
def _naming(target: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        error.filename = str(target)
        raise


def _write_beside(target: Path, data: bytes, like: Path | None) -> Path:
    """Writes the data to a new file in the target's folder, down to the disk."""
    handle, name = tempfile.mkstemp(prefix=f".{target.name[:50]}.", suffix=_PART_SUFFIX, dir=target.parent)
    beside = Path(name)
    try:
        with open(handle, "wb") as file:  # noqa: PTH123 - a descriptor, not a path
            file.write(data)
            file.flush()
            _take_permissions(file.fileno(), like)
            os.fsync(file.fileno())
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    return beside


def _take_permissions(descriptor: int, like: Path | None) -> None:
    if like is None or not like.exists():
        mask = os.umask(0)
        os.umask(mask)
        os.fchmod(descriptor, 0o666 & ~mask)
        return
    status = like.stat()
    # Only root may give a file away; a file of another owner in a shared folder simply becomes ours.
    with contextlib.suppress(PermissionError):
        os.fchown(descriptor, status.st_uid, status.st_gid)
    os.fchmod(descriptor, status.st_mode & 0o7777)


def _settle_folder(folder: Path) -> None:
    """Ends a save: its new names are on the disk, and what saves that were killed an hour ago or more left half done is gone."""
    _sync_folder(folder)
    stale_before = time.time() - _STALE_SECONDS
    # The save itself is done; another program may be clearing up just now, or the folder may not be ours to list.
    with contextlib.suppress(OSError):
        for part in folder.glob(f".*{_PART_SUFFIX}"):
            with contextlib.suppress(OSError):
                if part.lstat().st_mtime < stale_before:
                    part.unlink()


def _sync_folder(folder: Path) -> None:
    """Makes the new name itself survive a power cut; some file systems cannot, and the file is whole all the same."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        with contextlib.suppress(OSError):
            os.fsync(descriptor)
    finally:
        os.close(descriptor)
