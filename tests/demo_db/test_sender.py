"""The rig of the demonstration on a line of this machine."""

from __future__ import annotations

import socket
from datetime import timedelta

from demo_db.play import MOMENTS
from demo_db.sender import RigSender
from tally.feeds.rig_source import TcpClient
from tally.feeds.rig_stream import RigStream
from tally.job.entry import moment
from tests.demo_db.test_rig_data import rig
from tests.tally.feeds.test_rig_stream import until

THIRD = moment(MOMENTS["third"])


def test_whoever_calls_hears_the_rig_and_may_call_again():
    sender = RigSender(rig(), THIRD, speed=60)
    sender.begin()
    try:
        for _ in range(2):
            stream = RigStream(TcpClient("127.0.0.1", sender.port), "field")
            stream.begin()
            until(lambda stream=stream: stream.frames >= 6)
            heard = stream.fetch()
            stream.end()
            assert not stream.faults.counts
            times = [each.reading.rig_time for each in heard if each.reading.rig_time]
            assert times == sorted(times)
            assert times[-1] - times[0] >= timedelta(seconds=6)
            assert "0114" in heard[0].reading.values
    finally:
        sender.end()


def test_what_is_sent_back_is_heard():
    sender = RigSender(rig(), THIRD)
    sender.begin()
    try:
        with socket.create_connection(("127.0.0.1", sender.port), timeout=10) as line:
            line.sendall(b"&&\r\n17101077.0\r\n!!\r\n")
            until(lambda: sender.heard == b"&&\r\n17101077.0\r\n!!\r\n")
    finally:
        sender.end()


def test_the_job_goes_on_at_its_speed_and_ends():
    sender = RigSender(rig(), rig().last - timedelta(seconds=30), speed=600)
    assert not sender.over
    sender.begin()
    until(lambda: sender.over)
    sender.end()


def test_it_can_be_called_from_this_machine_only():
    sender = RigSender(rig(), THIRD)
    assert sender._door.getsockname()[0] == "127.0.0.1"
    sender.end()
