"""Pages of past sheets written again, and the one file of a job."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import StreamObject

from engine import Workshop
from engine.model.errors import InputError, RefusedError


@pytest.fixture
def pressed(stocked: Workshop) -> Workshop:
    """Six inserts on one sheet."""
    stocked.designs.accept([line.id for line in stocked.games.lines()[:6]])
    stocked.sheets.press(part_full=True)
    return stocked


def test_a_page_is_written_again_to_the_byte(pressed: Workshop) -> None:
    file = Path(pressed.sheets.sheet(1).file)
    page = file.read_bytes()
    file.unlink()
    pressed.setup.change(distance=900.0, patience=9)
    (again,) = pressed.printing.again([1])
    assert Path(again.file) == file
    assert file.read_bytes() == page


def test_a_page_is_written_again_whatever_was_set_up_since(pressed: Workshop) -> None:
    file = Path(pressed.sheets.sheet(1).file)
    page = file.read_bytes()
    pressed.setup.change(pose="stack", spine="ascending", stock="a5-copy", caliper=0.4)
    pressed.printing.again([1])
    assert file.read_bytes() == page


def test_a_page_tells_nothing_of_where_it_was_made(pressed: Workshop) -> None:
    """pypdf opens every stream; what could tell is the folder, the home and the pictures' names."""
    file = Path(pressed.sheets.sheet(1).file)
    reader = PdfReader(file)
    objects = [reader.get_object(number) for number in range(1, reader.trailer["/Size"])]
    streams = [one.get_data() for one in objects if isinstance(one, StreamObject)]
    whole = b"\n".join([file.read_bytes(), repr(objects).encode(), *streams])
    pictures = [one.name for one in pressed.choosing.pictures()]
    sources = [one.source for one in pressed.choosing.pictures()]
    for private in (str(pressed.folder), str(Path.home()), *pictures, *sources):
        assert private.encode() not in whole
    assert b"xpacket" in whole, "the streams were read"


def test_a_page_that_would_be_another_is_not_written(pressed: Workshop) -> None:
    file = Path(pressed.sheets.sheet(1).file)
    for picture in (pressed.folder / "pictures").iterdir():
        Image.new("RGB", (300, 260), "#d02020").save(picture)
    page = file.read_bytes()
    with pytest.raises(RefusedError, match="would be another"):
        pressed.printing.again([1])
    assert file.read_bytes() == page


def test_a_withdrawn_sheet_is_not_written_again(pressed: Workshop) -> None:
    pressed.sheets.withdraw(1)
    with pytest.raises(InputError, match="was withdrawn"):
        pressed.printing.again([1])


def test_a_job_is_one_file_of_a_ticket_and_every_sheet(stocked: Workshop) -> None:
    stocked.designs.accept([line.id for line in stocked.games.lines()])
    report = stocked.sheets.press(part_full=True, job=True)
    assert report.job is not None
    with pypdfium2.PdfDocument(report.job) as job:
        labels = [job.get_page_label(n) for n in range(len(job))]
        said = job[0].get_textpage().get_text_bounded()
    assert labels[0] == "Ticket"
    assert labels[-len(report.sheets) :] == [f"Sheet {one.number}" for one in report.sheets]
    for words in ("100 %", "score", "eye protection", "flammable", "cut"):
        assert words in " ".join(said.split()).lower() or words in " ".join(report.ticket).lower()
    assert report.ticket[0].count("A4 card, 200 g/m²") == report.ticket[0].count("g/m²") == 1


def test_the_back_and_the_machine_s_file_follow_their_sheet(stocked: Workshop) -> None:
    stocked.designs.accept([line.id for line in stocked.games.lines()[:2]])
    stocked.setup.change(machine="svg")
    (sheet,) = stocked.sheets.press(part_full=True, reverse="short").sheets
    assert sheet.reverse == "short"
    page, machine = Path(sheet.file), Path(sheet.machine)
    was = {path: path.read_bytes() for path in (page, machine)}
    assert b'<g id="registration"' in was[machine]
    with pypdfium2.PdfDocument(page) as pdf:
        assert [pdf.get_page_label(n) for n in range(len(pdf))] == ["Sheet 1", "Sheet 1, back"]
    stocked.setup.change(machine="none")
    assert stocked.sheets.sheet(1).machine == str(machine), "pressed as it was set up then"
    for path in was:
        path.unlink()
    stocked.printing.again([1])
    assert {path: path.read_bytes() for path in was} == was
    stocked.sheets.withdraw(1)
    assert not any(path.exists() for path in was), "withdrawn: in the backups"
    stocked.undo()
    assert {path: path.read_bytes() for path in was} == was
    assert stocked.check().ok
    stocked.undo(), stocked.undo()  # the setup, the pressing
    assert not any(path.exists() for path in was)


def test_a_job_with_backs_begins_each_sheet_on_a_front(stocked: Workshop) -> None:
    stocked.designs.accept([line.id for line in stocked.games.lines()[:2]])
    report = stocked.sheets.press(part_full=True, job=True, reverse="long")
    with pypdfium2.PdfDocument(report.job) as job:
        labels = [job.get_page_label(n) for n in range(len(job))]
    assert labels == ["Ticket", "Ticket, back", "Sheet 1", "Sheet 1, back"]
    assert any("turned over the long edge" in line for line in report.ticket)


def test_a_sheet_cut_by_knife_tells_its_scores(stocked: Workshop) -> None:
    stocked.setup.change(rule="knife")
    stocked.designs.accept([line.id for line in stocked.games.lines()[:2]])
    stocked.sheets.press(part_full=True, cut_page=True)
    page = pypdfium2.PdfDocument(stocked.folder / "sheets" / "sheet-0001-cuts.pdf")
    said = page[0].get_textpage().get_text_bounded()
    page.close()
    assert "Score first, along the diamonds:" in said
    assert "(mountain)" in said


def test_a_sheet_without_room_for_marks_is_not_cut_by_machine(stocked: Workshop) -> None:
    """A5 holds two cassette inserts of 93.75 × 101.5 mm with its bar in one strip, else one."""
    stocked.setup.change(stock="a5-card")
    twelve = [f"lantern-bay-{n}" for n in range(1, 13)]
    stocked.designs.change_cases(twelve, "hard-cassette")
    stocked.designs.accept(twelve[:2])
    with pytest.raises(RefusedError, match="no room for registration marks"):
        stocked.sheets.press(machine="svg")
    stocked.setup.change(machine="svg")
    assert len(stocked.sheets.report().ready) == 2, "with room for them each sheet holds one"
    stocked.setup.change(machine="none")
    (sheet,) = stocked.sheets.press().sheets
    assert len(sheet.placements) == 2
