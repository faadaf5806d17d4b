"""A sheet in → the energy of its layouts with both derivatives out.

Squares of what each triangle is stretched by (Sorkine and Alexa 2007), and stiff borders. The
second derivatives of the former have but one direction that can be negative (Smith and others
2019), which is cut off.
"""

import numpy as np
from scipy.sparse import coo_matrix, csc_matrix, csr_matrix

from guidegen.bench.forms.laying.sheets import PanelSheet, jacobians_of
from guidegen.bench.forms.records import Numbers

WINDOW = 4
"""Sides before and behind over which the way of a border is evened."""
LOOSE = 1.0
"""Stiffness (see `PanelSheet`) up to which ways are not evened."""
CORNER = 25.0
"""degrees of a turn beyond which the way is not evened."""


class Energy:
    """What is to be lowered, with its derivatives."""

    def __init__(self, sheet: PanelSheet, gradients: Numbers, flat: Numbers) -> None:
        self.sheet, self.gradients, self.areas = sheet, gradients, sheet.areas
        # Loose borders take no harm from their zigzag, and settle sooner by their own ways.
        window = WINDOW if float(sheet.stiff.max()) > LOOSE else 0
        self._evened = _evening(sheet, flat, window)
        self._ways = self._border_ways(flat)
        self.stiff = sheet.stiff * np.sqrt(float(self.areas.sum())) / sheet.lengths
        corners = np.stack((2 * sheet.corners, 2 * sheet.corners + 1), axis=2).reshape(-1, 6)
        ends = np.stack((2 * sheet.border, 2 * sheet.border + 1), axis=2).reshape(-1, 4)
        self.rows = np.concatenate(
            (np.repeat(corners, 6, axis=1).ravel(), np.repeat(ends, 4, axis=1).ravel())
        )
        self.columns = np.concatenate(
            (np.tile(corners, (1, 6)).ravel(), np.tile(ends, (1, 4)).ravel())
        )

    def _turned(self, jacobians: Numbers) -> tuple[Numbers, Numbers]:
        """The rotation nearest to each, and the sum of its principal stretches."""
        cosine = jacobians[:, 0, 0] + jacobians[:, 1, 1]
        sine = jacobians[:, 1, 0] - jacobians[:, 0, 1]
        size = np.hypot(cosine, sine)
        safe = np.where(size > 1e-12, size, 1)
        cosine, sine = np.where(size > 1e-12, cosine, 1) / safe, sine / safe
        turns = np.stack((cosine, -sine, sine, cosine), axis=1).reshape(-1, 2, 2)
        return turns, size

    def follow(self, flat: Numbers) -> None:
        """Take the ways of the border from a new layout."""
        self._ways = self._border_ways(flat)

    def value(self, flat: Numbers) -> float:
        """mm² of foam times its strain squared."""
        jacobians = jacobians_of(self.sheet, self.gradients, flat)
        turns, _ = self._turned(jacobians)
        inner = np.sum(self.areas * np.sum((jacobians - turns) ** 2, axis=(1, 2)))
        return float(inner + np.sum(self.stiff * self._border_more(flat) ** 2))

    def slope(self, flat: Numbers) -> tuple[Numbers, csc_matrix]:
        """First and second derivatives, the latter without negative directions."""
        jacobians = jacobians_of(self.sheet, self.gradients, flat)
        turns, size = self._turned(jacobians)
        grad = np.zeros((self.sheet.count, 2))
        pull = 2 * self.areas[:, None, None] * (jacobians - turns)
        np.add.at(grad, self.sheet.corners, np.einsum("fij,fcj->fci", pull, self.gradients))
        # Second derivatives: 2 in all directions, less 4 over the sum of stretches in the twist.
        twist = turns[:, :, ::-1] * np.array([1.0, -1.0]) / np.sqrt(2)
        less = np.minimum(4 / np.maximum(size, 1e-9), 2.0)
        along = np.einsum("fij,fcj->fci", twist, self.gradients).reshape(-1, 6)
        dots = np.einsum("fci,fdi->fcd", self.gradients, self.gradients)
        blocks = np.zeros((len(dots), 3, 2, 3, 2))
        blocks[:, :, 0, :, 0] = blocks[:, :, 1, :, 1] = 2 * dots
        blocks = blocks.reshape(-1, 6, 6) - less[:, None, None] * along[:, :, None] * along[:, None]
        blocks *= self.areas[:, None, None]
        return self._with_border(flat, grad, blocks)

    def _border_ways(self, flat: Numbers) -> Numbers:
        """Unit vectors along the border, evened: a border that is pressed together does not get any
        longer by running in zigzag."""
        one, two = self.sheet.border.T
        ways = np.asarray(self._evened @ (flat[two] - flat[one]))
        return np.asarray(ways / np.maximum(np.linalg.norm(ways, axis=1), 1e-9)[:, None])

    def _border_more(self, flat: Numbers) -> Numbers:
        """mm by which each side of the border is longer than it should be, along the evened way."""
        one, two = self.sheet.border.T
        along = np.einsum("ij,ij->i", flat[two] - flat[one], self._ways)
        return np.asarray(along - self.sheet.lengths)

    def _with_border(
        self, flat: Numbers, grad: Numbers, blocks: Numbers
    ) -> tuple[Numbers, csc_matrix]:
        one, two = self.sheet.border.T
        pull = 2 * (self.stiff * self._border_more(flat))[:, None] * self._ways
        np.add.at(grad, two, pull)
        np.add.at(grad, one, -pull)
        outer = self._ways[:, :, None] * self._ways[:, None, :]
        block = 2 * self.stiff[:, None, None] * outer
        whole = np.block([[block, -block], [-block, block]])
        values = np.concatenate((blocks.ravel(), whole.ravel()))
        size = (grad.size, grad.size)
        return grad.ravel(), coo_matrix((values, (self.rows, self.columns)), shape=size).tocsc()


def _evening(sheet: PanelSheet, flat: Numbers, window: int) -> csr_matrix:
    """What takes ways of the border's stiff sides to means over neighbours, not round corners."""
    border, count = sheet.border, len(sheet.border)
    side_at = {int(start): side for side, start in enumerate(border[:, 0].tolist())}
    after = np.array([side_at[end] for end in border[:, 1].tolist()])
    way = flat[border[:, 1]] - flat[border[:, 0]]
    turn = np.degrees(
        np.arctan2(
            np.abs(way[:, 0] * way[after][:, 1] - way[:, 1] * way[after][:, 0]),
            np.sum(way * way[after], axis=1),
        )
    )
    stiff = sheet.stiff > LOOSE
    onward = np.where((turn < CORNER) & stiff & stiff[after], after, -1)
    backward = np.full(count, -1)
    backward[onward[onward >= 0]] = np.flatnonzero(onward >= 0)
    rows, columns = [np.arange(count)], [np.arange(count)]
    ahead = behind = np.arange(count)
    for _ in range(window):
        # As far ahead as behind: a mean to one side would be turned against the border's own way.
        both = (ahead >= 0) & (behind >= 0)
        ahead = np.where(both, onward[ahead], -1)
        behind = np.where(both, backward[behind], -1)
        some = np.flatnonzero((ahead >= 0) & (behind >= 0))
        rows += [some, some]
        columns += [ahead[some], behind[some]]
    row, column = np.concatenate(rows), np.concatenate(columns)
    return csr_matrix((np.ones(len(row)), (row, column)), shape=(count, count))
