"""The service is built and asked once: by the host, and by all boards at the same time."""

from concurrent.futures import ThreadPoolExecutor

import every
import pytest
import dialogue
from boards import BOARDS
from service import Service


@pytest.fixture(scope="session")
def requests():
    return dialogue.requests(every.lines())


@pytest.fixture(scope="session")
def spoken(requests):
    """All that the host says to everything that is asked."""
    return Service.host().raw(requests)


@pytest.fixture(scope="session")
def host(spoken):
    """The host's answers by group, each with what was asked."""
    return every.sorted_out(dialogue.answers(spoken))


@pytest.fixture(scope="session")
def _heard(requests):
    services = [Service.on(board) for board in BOARDS]
    with ThreadPoolExecutor() as pool:
        yield dict(zip(BOARDS, [pool.submit(service.raw, requests) for service in services]))


@pytest.fixture(params=BOARDS, ids=lambda board: board.chip)
def board(request):
    return request.param


@pytest.fixture
def heard(_heard, board):
    """All that a board says to the same."""
    return _heard[board].result()
