"""Vectors in space, in mm; all that a net of right-angled folds needs."""

from __future__ import annotations

from typing import NamedTuple


class Vector(NamedTuple):
    """A point or a direction in space."""

    x: float
    y: float
    z: float

    def plus(self, other: Vector, times: float = 1.0) -> Vector:
        """Return this moved by ``times`` the other."""
        return Vector(self.x + times * other.x, self.y + times * other.y, self.z + times * other.z)

    def scaled(self, by: float) -> Vector:
        """Return this stretched by a factor."""
        return Vector(self.x * by, self.y * by, self.z * by)

    def dot(self, other: Vector) -> float:
        """Return the scalar product."""
        return self.x * other.x + self.y * other.y + self.z * other.z

    def cross(self, other: Vector) -> Vector:
        """Return the vector product, right-handed."""
        return Vector(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )


class Frame(NamedTuple):
    """Where a panel lies in space: its lower left corner as on the flat net, and its axes.

    ``normal`` points out of the printed face: ``right`` x ``up``, so that a panel seen
    against its normal is never mirrored.
    """

    origin: Vector
    right: Vector
    up: Vector
    normal: Vector

    def at(self, x: float, y: float) -> Vector:
        """Return where the point x, y mm from the panel's lower left corner lies."""
        return self.origin.plus(self.right, x).plus(self.up, y)
