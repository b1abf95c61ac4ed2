"""Work beside the answer: in a thread whose errors are logged, or at once where nothing goes on beside."""

import subprocess
import sys
import threading
from queue import Queue
from types import SimpleNamespace

from garage import background


def test_without_a_background_it_is_done_at_once(settings):
    settings.PLAN_IN_BACKGROUND, where = False, []
    background.beside(lambda: where.append(threading.current_thread()))
    assert where == [threading.current_thread()]


def test_in_a_thread_of_its_own_an_error_is_logged_and_nobody_waits(settings, monkeypatch, caplog):
    settings.PLAN_IN_BACKGROUND, begun = True, []
    monkeypatch.setattr(background.connections, "close_all", lambda: begun.append("closed"))
    start = threading.Thread.start
    monkeypatch.setattr(threading.Thread, "start", lambda thread: (begun.append(thread), start(thread)))
    background.beside(lambda: 1 / 0)
    begun[0].join(timeout=10)
    assert begun[1:] == ["closed"]
    assert "ZeroDivisionError" in caplog.text


def test_the_worker_beside_ends_with_its_input(settings, monkeypatch):
    begun = []
    monkeypatch.setattr("subprocess.Popen", lambda command, **more: begun.append((command, more)))
    background.worker_beside()
    ((command, more),) = begun
    assert command[1:] == [str(settings.BASE_DIR / "manage.py"), "worker", "--beside"]
    assert more["stdin"] == background.subprocess.PIPE


def test_a_worker_that_is_killed_is_begun_again_until_the_server_ends(monkeypatch):
    begun: Queue = Queue()

    def worker():
        process = subprocess.Popen([sys.executable, "-c", "import time; time.sleep(60)"])
        begun.put(process)
        return process

    monkeypatch.setattr(background, "worker_beside", worker)
    monkeypatch.setattr(background.KeptWorker, "REST", 0.0)
    kept = background.KeptWorker()
    begun.get(timeout=10).kill()
    second = begun.get(timeout=10)
    assert second.poll() is None
    while kept._worker is not second:
        pass
    kept.end()
    assert second.wait(10) == -9
    assert begun.empty()


def test_a_worker_that_cannot_begin_is_tried_ever_more_seldom(monkeypatch):
    rests = []

    class Over(threading.Event):
        def wait(self, seconds):
            rests.append(seconds)
            if len(rests) == 9:
                self.set()

    monkeypatch.setattr(background, "worker_beside", lambda: SimpleNamespace(wait=lambda: 1))
    monkeypatch.setattr(background.threading, "Event", Over)
    monkeypatch.setattr(background.threading.Thread, "start", lambda thread: thread.run())
    background.KeptWorker()
    assert rests == [6.0, 12.0, 24.0, 48.0, 96.0, 192.0, 300.0, 300.0, 300.0]
