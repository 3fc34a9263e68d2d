"""Which way is up, checked by putting the case into a room and looking at it.

ISO 6357:1985 (as quoted in public copies): a descending spine title reads from top to
bottom when the thing stands upright, and upright when it lies with its front up; an
ascending one reads from bottom to top, and upright when it lies with its front down.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from engine.cases import CaseKind, Panel, Pose, Role, Side, Spine, Vector, flatten, fold, load_kinds
from engine.cases.facing import Stance, stance, turns
from engine.cases.folding import frames
from engine.cases.sizes import panel_sizes
from engine.cases.space import Frame
from tests.cases.nets import nets

SPINED = ("soft-cassette", "soft-cassette-pieces", "hard-cassette", "hard-cassette-full",
          "keep-case", "keep-case-short", "snap-shell", "snap-shell-card")  # fmt: skip
KINDS = load_kinds()


def text_axes(frame: Frame, turn: int) -> tuple[Vector, Vector]:
    """Where the baseline and the letters' up of a turned text point in space."""
    cosine, sine = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[turn]
    baseline = frame.right.scaled(cosine).plus(frame.up, sine)
    return baseline, frame.right.scaled(-sine).plus(frame.up, cosine)


def spine_text(kind: CaseKind, pose: Pose, spine: Spine) -> tuple[Vector, Vector]:
    """The axes of the text on the edge that shows when the case stands upright."""
    shape = fold(kind, 0.25, pose=Pose.SHELF)
    name = shape.facing[0]
    turn = flatten(kind, 0.25, pose=pose, spine=spine).panel(name).turn
    return text_axes(shape.panel(name).frame, turn)


@pytest.mark.parametrize("name", SPINED)
def test_a_descending_title_on_the_shelf_is_iso_6357_descending(name: str) -> None:
    shape = fold(KINDS[name], 0.25)
    baseline, up = spine_text(KINDS[name], Pose.SHELF, Spine.DESCENDING)
    assert baseline == shape.up.scaled(-1)  # from top to bottom as it stands
    assert up == shape.front  # upright as it lies with its front up


@pytest.mark.parametrize("name", SPINED)
def test_an_ascending_title_on_the_shelf_is_iso_6357_ascending(name: str) -> None:
    shape = fold(KINDS[name], 0.25)
    baseline, up = spine_text(KINDS[name], Pose.SHELF, Spine.ASCENDING)
    assert baseline == shape.up
    assert up == shape.front.scaled(-1)


@pytest.mark.parametrize("spine", Spine)
@pytest.mark.parametrize("name", SPINED)
def test_a_case_lying_face_up_reads_as_iso_6357_descending(name: str, spine: Spine) -> None:
    """Lying face up, only a descending title is upright: the habit has no say."""
    shape = fold(KINDS[name], 0.25)
    baseline, up = spine_text(KINDS[name], Pose.STACK, spine)
    assert (baseline, up) == (shape.up.scaled(-1), shape.front)


@pytest.mark.parametrize("spine", Spine)
@pytest.mark.parametrize("name", SPINED)
def test_a_spine_up_in_a_drawer_reads_as_iso_6357_ascending(name: str, spine: Spine) -> None:
    """Seen from above with its front towards the person, letters stand away from the front."""
    shape = fold(KINDS[name], 0.25)
    baseline, up = spine_text(KINDS[name], Pose.DRAWER, spine)
    assert (baseline, up) == (shape.up, shape.front.scaled(-1))


def test_both_spines_of_a_tray_card_descend() -> None:
    net = flatten(KINDS["jewel-tray"], 0.25)
    assert [net.panel(n).turn for n in ("left spine", "right spine")] == [270, 270]


def test_a_flap_at_the_head_faces_the_person_in_a_drawer() -> None:
    shell = KINDS["snap-shell"]
    assert fold(shell, 0.25, pose=Pose.DRAWER).facing == ("short",)
    assert fold(shell, 0.25, pose=Pose.SHELF).facing == ("long",)
    assert fold(shell, 0.25, pose=Pose.DRAWER, left_out=frozenset({"short"})).facing == ("long",)
    assert fold(shell, 0.25, left_out=frozenset({"short", "long"})).facing == ()


def test_an_edge_wider_than_tall_as_it_stands_reads_across() -> None:
    """ISO 6357: a transverse title where it fits."""
    box = CaseKind(
        "box",
        "Box",
        (),
        (
            Panel("front", Role.ART, width=60, height=20),
            Panel("spine", Role.EDGE, on="front", side=Side.LEFT, width=40),
        ),
    )
    for spine in Spine:
        assert flatten(box, 0.25, spine=spine).panel("spine").turn == 0


class Room:
    """A room with z up, and a person who stands at negative y and looks along y."""

    def __init__(self, held: Stance, normal: Vector, pose: Pose) -> None:
        """Put the case so that an edge of that normal is looked at as the pose has it."""
        along = held.front.cross(normal)
        # The case's own three directions, and where each of them points in the room.
        if pose is Pose.SHELF:
            standing = abs(normal.dot(held.up)) < 0.5
            head = held.up if standing else normal.cross(held.front)
            self.axes = [(normal, (0, -1, 0)), (head, (0, 0, 1)), (head.cross(normal), (1, 0, 0))]
        elif pose is Pose.DRAWER:
            self.axes = [(normal, (0, 0, 1)), (held.front, (0, -1, 0)), (along, (-1, 0, 0))]
        else:
            self.axes = [(normal, (0, -1, 0)), (held.front, (0, 0, 1)), (along, (1, 0, 0))]

    def of(self, direction: Vector) -> Vector:
        """Where a direction of the folded net points in the room."""
        out = Vector(0, 0, 0)
        for case, room in self.axes:
            out = out.plus(Vector(*room), case.dot(direction))
        return out


@given(nets())
@settings(max_examples=200)
def test_no_edge_is_ever_mirrored_or_upside_down(kind: CaseKind) -> None:
    kept = frozenset(p.name for p in kind.panels)
    sizes = panel_sizes(kind, 0.25, kept)
    placed = frames(kind, sizes, 0.25)
    held = stance(kind, placed)
    if abs(held.front.dot(held.up)) > 0.5:
        return  # a front at the head is refused, see test_layout
    for pose in Pose:
        for spine in Spine:
            turned = turns(kind, placed, sizes, pose, spine)
            for panel in kind.panels:
                frame = placed[panel.name]
                baseline, up = text_axes(frame, turned[panel.name])
                assert baseline.cross(up) == frame.normal  # looked at from its printed face
                if panel.role is Role.EDGE and abs(frame.normal.dot(held.front)) < 0.5:
                    look(Room(held, frame.normal, pose), pose, spine, frame.normal, baseline, up)
                elif panel.role is Role.EDGE:  # on the front or back itself
                    running = -1 if spine is Spine.DESCENDING else 1
                    assert (up.dot(held.up), baseline.dot(held.up)) in {(1, 0), (0, running)}
                elif abs(frame.normal.dot(held.up)) < 0.5:
                    assert up.dot(held.up) == 1


def look(
    room: Room, pose: Pose, spine: Spine, normal: Vector, baseline: Vector, up: Vector
) -> None:
    towards, reads, stands = room.of(normal), room.of(baseline), room.of(up)
    assert reads.cross(stands) == towards  # the room is not a mirror
    if pose is Pose.DRAWER:
        assert towards == (0, 0, 1)
        view_up, down_the_view = stands.y, -reads.y
    else:
        assert towards == (0, -1, 0)
        view_up, down_the_view = stands.z, -reads.z
    assert view_up >= 0  # never upside down
    if view_up == 0:  # sideways: it runs down or up the view as the habit has it
        assert down_the_view == (1 if spine is Spine.DESCENDING else -1)
    else:
        assert reads.x == 1  # from left to right
