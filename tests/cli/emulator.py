"""A small terminal for tests: what the program draws, as rows of letters, with everything that scrolled off kept."""

import re

_SEQUENCE = re.compile(
    r"\x1b\[(?P<arguments>[0-9;?]*)(?P<final>[@-~])|\x1b\](?:[^\x07\x1b]*)(?:\x07|\x1b\\)|\x1b[()][A-Z0-9]|\x1b[=>78M]"
)


class Emulator:
    """Rows of letters and a cursor. replies: what the program asked the terminal for, to be sent back."""

    def __init__(self, columns, height):
        self.columns, self.height = columns, height
        self.rows = [[]]
        self.row = self.column = 0
        self.wraps = True
        self.held = ""
        self.replies = []

    @property
    def top(self):
        """The row that stands at the top of the screen."""
        return max(0, len(self.rows) - self.height)

    def text(self, since=0):
        """The rows from `since` on, as they are seen."""
        return ["".join(row).rstrip() for row in self.rows[since:]]

    def feed(self, words):
        """Draw what the program wrote. A sequence cut in two waits for its rest."""
        words, self.held = self.held + words, ""
        at = 0
        while at < len(words):
            if words[at] == "\x1b":
                match = _SEQUENCE.match(words, at)
                if not match:
                    if len(words) - at < 40:
                        self.held = words[at:]
                        return
                    at += 1
                    continue
                if match["final"]:
                    self._obey(match["arguments"], match["final"])
                at = match.end()
            else:
                self._put(words[at])
                at += 1

    def _put(self, letter):
        if letter == "\r":
            self.column = 0
        elif letter == "\n":
            self._move(self.row + 1)
        elif letter == "\b":
            self.column = max(0, self.column - 1)
        elif letter >= " ":
            if self.column >= self.columns:
                if not self.wraps:
                    self.column = self.columns - 1
                else:
                    self.column = 0
                    self._move(self.row + 1)
            row = self.rows[self.row]
            row += [" "] * (self.column + 1 - len(row))
            row[self.column] = letter
            self.column += 1

    def _move(self, row):
        self.row = max(0, row)
        while len(self.rows) <= self.row:
            self.rows.append([])

    def _obey(self, arguments, final):
        numbers = [int(number) for number in re.findall(r"\d+", arguments)]
        count = max(1, numbers[0]) if numbers else 1
        if final == "A":
            self._move(max(self.top, self.row - count))
        elif final == "B":
            self._move(self.row + count)
        elif final == "C":
            self.column = min(self.columns - 1, self.column + count)
        elif final == "D":
            self.column = max(0, self.column - count)
        elif final == "G":
            self.column = count - 1
        elif final == "H":
            self._move(self.top + count - 1)
            self.column = (numbers[1] - 1) if len(numbers) > 1 else 0
        elif final == "J":
            del self.rows[self.row][self.column :]
            del self.rows[self.row + 1 :]
            if numbers[:1] == [2]:
                self.rows[self.top :] = [[]]
                self._move(self.top)
        elif final == "K":
            del self.rows[self.row][self.column :]
        elif final == "n" and numbers == [6]:
            self.replies.append(f"\x1b[{self.row - self.top + 1};{self.column + 1}R")
        elif final in "hl" and arguments == "?7":
            self.wraps = final == "h"
