"""Whether a print shop takes the file: asked of validators that had no hand in writing it."""

from __future__ import annotations

import subprocess
from io import BytesIO
from pathlib import Path
from shutil import which

import numpy as np
import pytest
from msgspec.structs import replace
from PIL import Image, ImageCms
from pypdf import PdfReader

from engine.lettering import default_font, shape
from engine.model import Art, Fit, Size
from engine.press import PdfDocument, draw_ticket, insert_page, sheet_page, ticket_lines, turned
from engine.press.pens import srgb
from tests.press.making import A4, insert, net, place, sheet

JARS = Path("/usr/share/java")
CLASSPATH = [
    JARS / f"{name}.jar"
    for name in (
        "preflight",
        "pdfbox2",
        "xmpbox",
        "fontbox2",
        "commons-logging",
        "commons-io",
        "javax.activation",
        "jaxb-api",
    )
]
"""Of Debian's libpdfbox2-java, libactivation-java and libjaxb-api-java."""

needs_validator = pytest.mark.skipif(
    which("java") is None or not all(jar.exists() for jar in CLASSPATH),
    reason="needs java, libpdfbox2-java, libactivation-java and libjaxb-api-java",
)
needs_qpdf = pytest.mark.skipif(which("qpdf") is None, reason="needs qpdf")


@pytest.fixture(scope="module")
def files(picture: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A sheet, a proof, a job behind its ticket, and text that is drawn as outlines."""
    folder = tmp_path_factory.mktemp("accepted")
    clear = folder / "clear.png"
    disc = Image.radial_gradient("L").point(lambda level: 255 if level < 128 else 0)
    shown = Image.open(picture).convert("RGB").resize(disc.size)
    Image.merge("RGBA", (*shown.split(), disc)).save(clear)
    inserts = {
        "kite": insert("snap-shell", "Kite", picture, art=Art(picture.name, Fit.MATTE)),
        "tide": insert("jewel-tray", "The Ninth Tide", clear, base="#f0e020", text="#000000"),
    }
    laid = sheet(
        A4, [place("kite", inserts["kite"], 13, 27), place("tide", inserts["tide"], 13, 125)]
    )
    laid = replace(laid, reverse="long", machine="dxf")
    names = {"kite": "Kite", "tide": "The Ninth Tide"}
    job = PdfDocument("Sheet 7")
    kinds = {"snap-shell": net("snap-shell"), "jewel-tray": net("jewel-tray")}
    draw_ticket(job, "Sheet 7", ticket_lines([laid], kinds, {}), A4)
    pages = {
        "sheet": sheet_page(laid, inserts, names),
        "proof": insert_page(inserts["kite"]),
        "job": job.finish(),
        "words": _words(),
    }
    for name, page in pages.items():
        (folder / f"{name}.pdf").write_bytes(page)
    return {name: folder / f"{name}.pdf" for name in pages}


def _words() -> bytes:
    document = PdfDocument("Words & more <than> usual")
    pen = document.page(Size(100, 50), label="One")
    for place_, colour in enumerate(("#000000", "#aa0000")):
        pen.text(shape("ffi Ää", default_font(), 9), turned(0, 5, 10 + 10 * place_), colour)
    return document.finish()


@needs_validator
@pytest.mark.parametrize("name", ["sheet", "proof", "job", "words"])
def test_it_is_pdf_a_1b(files: dict[str, Path], name: str) -> None:
    """ISO 19005-1, level B: fonts embedded, colour stated, nothing transparent, no references."""
    java = ["java", "-cp", ":".join(map(str, CLASSPATH))]
    validator = "org.apache.pdfbox.preflight.Validator_A1b"
    done = subprocess.run(
        [*java, validator, str(files[name])], check=False, capture_output=True, text=True
    )
    assert "is a valid PDF/A-1b file" in done.stdout, done.stdout + done.stderr


@needs_qpdf
@pytest.mark.parametrize("name", ["sheet", "proof", "job", "words"])
def test_its_syntax_is_whole(files: dict[str, Path], name: str) -> None:
    subprocess.run(["qpdf", "--check", str(files[name])], check=True, capture_output=True)


def test_what_is_clear_is_the_matte_to_the_level(files: dict[str, Path]) -> None:
    """Read by pypdf: around a disc no tint of the picture is left, as a JPEG would leave one."""
    (art,) = (one for one in PdfReader(files["sheet"]).pages[0].images if one.name.endswith("png"))
    levels = np.asarray(art.image)
    height, width, _ = levels.shape
    down, across = np.ogrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    # The picture fills the panel, its longer side: the disc is as wide as 0.71 of that.
    outside = np.hypot(down * height, across * width) > 0.78 * max(height, width)
    assert outside.mean() > 0.05
    assert (levels[outside] == (0xF0, 0xE0, 0x20)).all()
    assert (levels[height // 2, width // 2] != (0xF0, 0xE0, 0x20)).any()


def test_it_says_that_its_colours_are_srgb(files: dict[str, Path]) -> None:
    # ISO 32000-1, 14.11.5: an output intent carries the profile; 3 components are RGB.
    (intent,) = PdfReader(files["sheet"]).trailer["/Root"]["/OutputIntents"]
    carried = intent.get_object()["/DestOutputProfile"].get_object()
    assert carried["/N"] == 3
    assert carried.get_data() == srgb.profile()


def test_the_profile_is_srgb_to_another_library() -> None:
    """littleCMS's own sRGB takes every colour for what it was, to a level."""
    steps = np.linspace(0, 255, 18).astype(np.uint8)
    cube = np.stack(np.meshgrid(steps, steps, steps), axis=-1).reshape(-1, 18, 3)
    ours = ImageCms.ImageCmsProfile(BytesIO(srgb.profile()))
    theirs = ImageCms.createProfile("sRGB")
    for one, other in ((ours, theirs), (theirs, ours)):
        out = ImageCms.profileToProfile(Image.fromarray(cube), one, other, outputMode="RGB")
        assert np.abs(np.asarray(out).astype(int) - cube).max() <= 1


def test_the_title_of_the_file_is_said_twice_alike() -> None:
    reader = PdfReader(BytesIO(_words()))
    assert reader.metadata is not None
    assert reader.xmp_metadata is not None
    assert reader.xmp_metadata.dc_title["x-default"] == reader.metadata.title
    assert reader.page_labels == ["One"]


def test_small_type_and_marks_are_black_ink_alone(files: dict[str, Path]) -> None:
    """In no content is black three zeros of RGB: grey 0 is (ISO 32000-1, 10.3.3)."""
    code = PdfReader(files["sheet"]).pages[0].get_contents().get_data().decode("ascii")
    assert "0 0 0 rg" not in code
    assert "0 0 0 RG" not in code
    assert "0 g" in code


@pytest.mark.parametrize("name", ["sheet", "proof", "job"])
def test_no_file_tells_where_it_was_made(files: dict[str, Path], picture: Path, name: str) -> None:
    reader = PdfReader(files[name])
    told = [files[name].read_bytes()]
    told += [page.get_contents().get_data() for page in reader.pages]
    told += [str(reader.metadata).encode(), reader.trailer["/Root"]["/Metadata"].get_data()]
    for secret in (str(picture.parent), picture.name, str(Path.home())):
        assert not any(secret.encode() in part for part in told if len(secret) > 5)
