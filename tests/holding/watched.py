"""Runs one command of the program in this process with an ear on what it opens, writes and starts.

`python watched.py REPORT [--shut FOLDER] -- ARGUMENTS`: the report is JSON lines of (what, path or event). Writing
below
FOLDER is refused as a read-only disk would refuse it.
"""

import errno
import json
import os
import sys

_WRITES = {
    "os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.link", "os.symlink", "os.truncate", "os.chmod", "os.chown",
    "os.utime", "shutil.rmtree",
}  # fmt: skip
_STARTS = {"subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.fork", "os.forkpty", "pty.spawn"}


def listen(report, shut):
    busy = False

    def hear(event, args):
        nonlocal busy
        if busy:
            return
        busy = True
        try:
            told = _told(event, args)
            if told is not None:
                os.write(report, (json.dumps(told) + "\n").encode())
                if shut and told[0] == "write" and told[1].startswith(shut + os.sep):
                    raise OSError(errno.EROFS, "Read-only file system", told[1])
        finally:
            busy = False

    sys.addaudithook(hear)


def _told(event, args):
    if event.startswith("socket."):
        return "socket", event
    if event in _STARTS:
        return "start", str(args[0])
    if event in _WRITES:
        folder = args[-1] if event in ("os.remove", "os.rmdir", "os.mkdir") else -1
        return "write", _path(args[1] if event in ("os.rename", "os.link", "os.symlink") else args[0], folder)
    if event == "open":
        path, mode, flags = args
        writes = any(sign in mode for sign in "wax+") if mode else flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
        if writes and isinstance(path, str | bytes) and os.fsdecode(path) != os.devnull:
            return "write", _path(path)
    return None


def _path(path, folder=-1):
    if isinstance(folder, int) and folder != -1:  # a whole tree is removed by names within open folders
        return os.path.join(os.readlink(f"/proc/self/fd/{folder}"), os.fsdecode(path))
    return os.path.abspath(os.fsdecode(path)) if isinstance(path, str | bytes | os.PathLike) else str(path)


def main():
    mine, words = sys.argv[1 : sys.argv.index("--")], sys.argv[sys.argv.index("--") + 1 :]
    report = os.open(mine[0], os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    from benchmate.cli import main as run

    listen(report, os.path.abspath(mine[2]) if len(mine) > 2 else "")
    sys.exit(run(words))


if __name__ == "__main__":
    main()
