"""Where a book lies: a drive on the network or one that can be pulled out is no place for it.

Best effort on each system: where it cannot be told, nothing is said.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

NETWORK = "network"
REMOVABLE = "removable"
_NETWORK_SYSTEMS = re.compile(
    r"nfs\d?|cifs|smb\d?|smbfs|afs|afpfs|ncpfs|coda|ceph|glusterfs|lustre|davfs|webdav|"
    r"fuse\.(sshfs|davfs|smbnetfs|curlftpfs|rclone)"
)
_WARNINGS = {
    NETWORK: "{name} lies on a network drive: locks and flushes cannot be relied on there.",
    REMOVABLE: "{name} lies on a removable drive: it can be pulled out in the middle of an entry.",
}
_ADVICE = "Keep the book on a local disk, and copy it there with `backup`."


def warning(path: Path) -> str:
    """Return what is to be said of the place where a book lies, or nothing."""
    told = _WARNINGS.get(medium(path), "")
    return f"{told.format(name=path.name)} {_ADVICE}" if told else ""


def medium(path: Path) -> str:
    """Return "network", "removable", or nothing where it is neither or cannot be told."""
    try:
        where = path.resolve()
        if sys.platform == "win32":
            return _on_windows(where)
        if sys.platform == "darwin":
            return _on_mac(where)
        mounts = Path("/proc/self/mountinfo").read_text("utf-8", errors="replace")
        return on_linux(where, mounts, Path("/sys/dev/block"))
    except (OSError, ValueError, AttributeError, ImportError):
        return ""


def on_linux(where: Path, mounts: str, devices: Path) -> str:
    """Return the medium of a place by the table of mounts and the folder of block devices."""
    system, device = _mounted(where, mounts)
    if _NETWORK_SYSTEMS.fullmatch(system):
        return NETWORK
    found = (devices / device).resolve()
    for each in (found, found.parent):  # a partition lies in the folder of its drive
        marked = each / "removable"
        if marked.is_file() and marked.read_text("ascii").strip() == "1":
            return REMOVABLE
        if "/usb" in str(each):
            return REMOVABLE
    return ""


def _mounted(where: Path, mounts: str) -> tuple[str, str]:
    """Return the file system and the device of the innermost mount that holds a place."""
    best, found = -1, ("", "")
    for told in mounts.splitlines():
        before, _, after = told.partition(" - ")
        fields, kinds = before.split(), after.split()
        if len(fields) < 5 or not kinds:
            continue
        point = Path(_unescaped(fields[4]))
        if len(point.parts) >= best and where.is_relative_to(point):
            best, found = len(point.parts), (kinds[0], fields[2])
    return found


def _unescaped(point: str) -> str:
    r"""Return the name of a mount, in which blanks stand as octal numbers.

    >>> _unescaped(r"/media/my\040stick")
    '/media/my stick'
    """
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), point)


def _on_windows(where: Path) -> str:
    if str(where).startswith("\\\\"):
        return NETWORK
    import ctypes

    windll: object = getattr(ctypes, "windll")  # noqa: B009 - only Windows has it
    kind = windll.kernel32.GetDriveTypeW(where.anchor)  # type: ignore[attr-defined]
    return {2: REMOVABLE, 4: NETWORK}.get(kind, "")


def _on_mac(where: Path) -> str:
    """Return removable for any volume beside the one that the system started from."""
    if where.parts[:2] != ("/", "Volumes") or len(where.parts) < 3:
        return ""
    volume = Path(*where.parts[:3])
    return REMOVABLE if volume.stat().st_dev != Path("/").stat().st_dev else ""
