"""One question to the print scheduler that ``lpstat`` does not answer: how a job ended.

IPP (RFC 8010 for the coding, RFC 8011 for what is said) over HTTP, to where CUPS' own programs
ask: what CUPS_SERVER names, the scheduler's socket, or port 631 of this machine.
"""

from __future__ import annotations

import os
import socket
import struct
from http.client import HTTPConnection, HTTPException
from pathlib import Path

PENDING, HELD, PROCESSING, STOPPED, CANCELED, ABORTED, COMPLETED = range(3, 10)
"""RFC 8011, 5.3.7: the values of ``job-state``."""

_SOCKETS = ("/run/cups/cups.sock", "/var/run/cupsd", "/private/var/run/cupsd")
_SECONDS = 10.0
_OPERATION, _END, _ENUM = 0x01, 0x03, 0x23
_KEYWORD, _URI, _CHARSET, _LANGUAGE = 0x44, 0x45, 0x47, 0x48
_GET_JOB_ATTRIBUTES = 0x0009


class _SocketConnection(HTTPConnection):
    """HTTP through a socket of the file system."""

    def __init__(self, path: str) -> None:
        super().__init__("localhost", timeout=_SECONDS)
        self._path = path

    def connect(self) -> None:
        self.sock = socket.socket(socket.AF_UNIX)
        self.sock.settimeout(_SECONDS)
        self.sock.connect(self._path)


def job_state(number: int) -> int | None:
    """Return the state of a job, or None where the scheduler does not say."""
    attributes = (
        (_CHARSET, "attributes-charset", "utf-8"),
        (_LANGUAGE, "attributes-natural-language", "en"),
        (_URI, "job-uri", f"ipp://localhost/jobs/{number}"),
        (_KEYWORD, "requested-attributes", "job-state"),
    )
    body = struct.pack(">BBHIB", 1, 1, _GET_JOB_ATTRIBUTES, 1, _OPERATION)
    body += b"".join(_attribute(*one) for one in attributes) + bytes([_END])
    try:
        connection = _connection()
        connection.request("POST", "/jobs/", body, {"Content-Type": "application/ipp"})
        answer = connection.getresponse().read()
        connection.close()
    except (OSError, HTTPException, ValueError):
        return None
    return _state_in(answer)


def _connection() -> HTTPConnection:
    server = os.environ.get("CUPS_SERVER", "").partition("/version=")[0]
    path = next((one for one in (server, *_SOCKETS) if one[:1] == "/" and Path(one).exists()), "")
    if path and (not server or server == path):
        return _SocketConnection(path)
    host, _, port = server.partition(":")
    return HTTPConnection(host or "localhost", int(port or 631), timeout=_SECONDS)


def _attribute(tag: int, name: str, value: str) -> bytes:
    key, said = name.encode(), value.encode()
    return struct.pack(">BH", tag, len(key)) + key + struct.pack(">H", len(said)) + said


def _state_in(answer: bytes) -> int | None:
    """Return the value of ``job-state`` in an answer (RFC 8010, 3.1)."""
    at = 8
    while at < len(answer) and answer[at] != _END:
        tag = answer[at]
        at += 1
        if tag < 0x10:  # the beginning of a group
            continue
        try:
            (length,) = struct.unpack_from(">H", answer, at)
            name = answer[at + 2 : at + 2 + length]
            at += 2 + length
            (size,) = struct.unpack_from(">H", answer, at)
            value = answer[at + 2 : at + 2 + size]
            at += 2 + size
        except struct.error:
            return None
        if tag == _ENUM and name == b"job-state" and size == 4:
            return int.from_bytes(value)
    return None
