"""The service as it runs on a board or on the host: requests in, answers out."""

import functools

import build
import dialogue
from emulate import answers, emulated

SOURCES = tuple(sorted((build.HERE / "src").glob("*.c")))


class Service:
    def __init__(self, image, run):
        self.image = image
        self._run = run

    @staticmethod
    @functools.cache
    def on(board):
        """Built for a board."""
        image = build.image(board, "service", SOURCES, build.library(board))
        return Service(image, lambda requests: emulated(board, image, requests))

    @staticmethod
    @functools.cache
    def host():
        """Built for the host."""
        image = build.host("service", SOURCES)
        return Service(image, lambda requests: answers([image], requests))

    def raw(self, requests):
        """Bytes for bytes."""
        return self._run(requests)

    def ask(self, lines):
        """The answers to these lines."""
        found = dialogue.answers(self.raw(dialogue.requests(lines)))
        assert len(found) == len(lines)
        return found
