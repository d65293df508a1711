"""Files are replaced together or not at all."""

import errno
import os
from pathlib import Path

import pytest

from booklet.output.files import make_safe, name_file, write_files
from booklet.source import SourceFile

AT = SourceFile("wrap.md", "title: Dune Wrap\n").whole()


def read_folder(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def test_files_are_written_and_the_folder_is_made(tmp_path: Path) -> None:
    folder = tmp_path / "build" / "wrap"
    paths, findings = write_files(folder, {"a.pdf": b"a", "b.html": b"b"}, AT)
    assert findings == ()
    assert paths == (folder / "a.pdf", folder / "b.html")
    assert read_folder(folder) == {"a.pdf": b"a", "b.html": b"b"}


def test_earlier_files_are_replaced_and_others_stay(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.pdf": b"a", "b.html": b"b"}, AT)
    (tmp_path / "a.pdf").chmod(0o640)
    write_files(tmp_path, {"a.pdf": b"new"}, AT)
    assert read_folder(tmp_path) == {"a.pdf": b"new", "b.html": b"b"}
    assert (tmp_path / "a.pdf").stat().st_mode & 0o777 == 0o640
    mask = os.umask(0)
    os.umask(mask)
    assert (tmp_path / "b.html").stat().st_mode & 0o777 == 0o666 & ~mask


@pytest.mark.parametrize("fails_at", [1, 2, 3])
def test_error_a_failure_halfway_leaves_the_earlier_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails_at: int
) -> None:
    write_files(tmp_path, {"a.pdf": b"a", "c.pdf": b"c"}, AT)
    replace, calls = Path.replace, 0

    def fail_once(self: Path, target: Path) -> Path:
        nonlocal calls
        calls += 1
        if calls == fails_at:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", fail_once)
    paths, findings = write_files(tmp_path, {"a.pdf": b"1", "b.pdf": b"2", "c.pdf": b"3"}, AT)
    assert paths == ()
    assert [finding.code for finding in findings] == ["output-unwritable"]
    assert "No space left on device" in findings[0].label
    assert read_folder(tmp_path) == {"a.pdf": b"a", "c.pdf": b"c"}


def test_error_a_full_disk_while_staging_leaves_the_earlier_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_files(tmp_path, {"a.pdf": b"a"}, AT)

    def refuse(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("booklet.output.files.os.fsync", refuse)
    _, findings = write_files(tmp_path, {"a.pdf": b"1"}, AT)
    assert [finding.code for finding in findings] == ["output-unwritable"]
    assert read_folder(tmp_path) == {"a.pdf": b"a"}


def test_error_a_file_or_folder_in_the_way(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    _, findings = write_files(tmp_path / "file" / "wrap", {"a.pdf": b"a"}, AT)
    assert [finding.code for finding in findings] == ["output-unwritable"]
    (tmp_path / "a.pdf").mkdir()
    _, findings = write_files(tmp_path, {"b.pdf": b"b", "a.pdf": b"a"}, AT)
    assert [finding.code for finding in findings] == ["output-unwritable"]
    assert not (tmp_path / "b.pdf").exists()


def test_a_link_in_the_way_is_replaced_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.txt"
    outside.write_text("mine")
    (tmp_path / "build").mkdir()
    (tmp_path / "build" / "a.pdf").symlink_to(outside)
    write_files(tmp_path / "build", {"a.pdf": b"a"}, AT)
    assert outside.read_text() == "mine"
    assert read_folder(tmp_path / "build") == {"a.pdf": b"a"}


@pytest.mark.parametrize(
    ("facts", "name"),
    [
        (("dune-wrap", "1.0", "US", "A4", "pdf"), "dune-wrap-v1.0-US-A4.pdf"),
        (("dune-wrap", "v1.0", "UK", "web", "html"), "dune-wrap-v1.0-UK-web.html"),
        (("dune-wrap", "", "US", "Letter", "pdf"), "dune-wrap-US-Letter.pdf"),
        (("../../etc/passwd", "1/0", "US", "A4", "pdf"), "etc-passwd-v1-0-US-A4.pdf"),
        (("Überwurf: „Düne“", "2", "US", "A4", "pdf"), "Uberwurf-Dune-v2-US-A4.pdf"),
        (("编织", "", "", "A4", "pdf"), "pattern-A4.pdf"),
        (("con", "", "", "", "pdf"), "con_.pdf"),
    ],
)
def test_names_are_safe_on_any_system(facts: tuple[str, str, str, str, str], name: str) -> None:
    assert name_file(*facts) == name


def test_a_name_is_never_too_long() -> None:
    assert len(make_safe("x" * 500)) == 80
