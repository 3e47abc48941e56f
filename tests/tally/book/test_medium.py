"""Where a book lies: told from tables of mounts as each kind of system has them."""

from pathlib import Path

import pytest

from tally.book.medium import medium, on_linux, warning

MOUNTS = r"""
21 1 259:1 / / rw,relatime shared:1 - ext4 /dev/nvme0n1p1 rw
30 21 0:45 / /mnt/office rw,relatime shared:2 - nfs4 office:/books rw,vers=4.2
31 21 0:46 / /mnt/share rw - cifs //office/books rw
32 21 8:17 / /media/my\040stick rw,nosuid shared:3 - vfat /dev/sdb1 rw
33 21 8:33 / /media/drive rw - ext4 /dev/sdc1 rw
34 21 0:50 / /mnt/far rw - fuse.sshfs rig@office:/ rw
35 30 259:2 / /mnt/office/local rw - ext4 /dev/nvme0n1p2 rw
a line that is none
"""


@pytest.fixture
def devices(tmp_path: Path) -> Path:
    """Return a folder of block devices as the system has it."""
    drives = {"259:1": "pci/nvme0n1", "8:17": "pci/sdb", "8:33": "pci/usb1/sdc"}
    (tmp_path / "block").mkdir()
    for number, place in drives.items():
        drive = tmp_path / place
        (drive / "part1").mkdir(parents=True)
        (drive / "removable").write_text("1\n" if "sdb" in place else "0\n")
        (tmp_path / "block" / number).symlink_to(drive / "part1")
    return tmp_path / "block"


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("/home/ama/job.book", ""),
        ("/mnt/office/job.book", "network"),
        ("/mnt/share/deep/job.book", "network"),
        ("/mnt/far/job.book", "network"),
        ("/media/my stick/job.book", "removable"),
        ("/media/drive/job.book", "removable"),
        ("/mnt/office/local/job.book", ""),
        ("/mnt/officer/job.book", ""),
    ],
)
def test_the_innermost_mount_tells(devices: Path, place: str, told: str) -> None:
    assert on_linux(Path(place), MOUNTS, devices) == told


def test_where_nothing_can_be_told_nothing_is_said(devices: Path, tmp_path: Path) -> None:
    assert on_linux(Path("/job.book"), "", devices) == ""
    assert medium(tmp_path / "job.book") in ("", "removable", "network")


@pytest.mark.parametrize("kind", ["network", "removable"])
def test_the_warning_says_what_to_do(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tally.book.medium.medium", lambda _path: kind)
    told = warning(Path("/mnt/job.book"))
    assert told.startswith(f"job.book lies on a {kind} drive: ")
    assert told.endswith("Keep the book on a local disk, and copy it there with `backup`.")


def test_a_path_of_another_system_is_asked_of_that_system(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("sys.platform", "darwin")
    assert medium(tmp_path / "job.book") == ""
    monkeypatch.setattr("sys.platform", "win32")
    assert medium(tmp_path / "job.book") == ""
