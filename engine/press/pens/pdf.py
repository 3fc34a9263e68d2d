"""Writes PDF files. No other module knows the PDF library.

Pages are of their true size with nothing scaled, and the same drawing gives the same
bytes. Fonts are embedded as subsets addressed glyph by glyph (ISO 32000-1, 9.7: composite
fonts), so kerning and forms are those that were set; JPEG files go in as they are,
PNG files pixel by pixel.

What is written is PDF/A-1b (ISO 19005-1): every font embedded, all colour stated to be sRGB by an
output intent, nothing transparent, nothing fetched from elsewhere. A print shop takes that, and
a reader of any age shows it alike. It is no PDF/X, which wants the profile of a press.
"""

from __future__ import annotations

from functools import cache
from io import BytesIO
from typing import Any, Literal
from zlib import compress

from engine.model import Rect, Size
from engine.model.maker import MAKER
from engine.model.units import points
from engine.press.pens import srgb
from engine.press.pens.base import PNG_SIGNATURE
from engine.press.pens.content import PageFont, PdfPen, Resources
from engine.press.pens.typeface import blank
from engine.press.pens.xmp import packet

_VERSION = (1, 7)
"""ISO 32000-1; PrintScaling came with 1.6."""
_DATE = "2000-01-01T00:00:00+00:00"
"""Of every file, since the same drawing gives the same bytes; as the PDF library writes it."""


class PdfDocument:
    """A file of pages, drawn one after the other."""

    def __init__(self, title: str) -> None:
        """Begin a file that its window and the print queue call ``title``."""
        from reportlab.pdfbase import pdfdoc

        self._lib: Any = pdfdoc
        self._doc: Any = pdfdoc.PDFDocument(compression=1, invariant=1, pdfVersion=_VERSION)
        info = self._doc.info
        info.title = title
        info.format = lambda document: self._info(title).format(document)
        catalog = self._doc.Catalog
        catalog.ViewerPreferences = self._dictionary(PrintScaling="/None", DisplayDocTitle="true")
        metadata = self._stream(packet(title, MAKER, _DATE), packed=False)  # 19005-1, 6.7.2
        metadata.dictionary = self._dictionary(Type="/Metadata", Subtype="/XML")
        catalog.Metadata = metadata
        # The library writes no entry of the catalogue that it does not know.
        catalog.__NoDefault__ = [*catalog.__NoDefault__, "OutputIntents"]
        catalog.OutputIntents = self._lib.PDFArray([self._output_intent()])
        self._resources = Resources()
        self._pages: list[tuple[Any, PdfPen]] = []
        self._labels: list[Any] = []

    def _info(self, title: str) -> Any:
        """Return the information dictionary: what the metadata say, and nothing beside."""
        text, day = self._lib.PDFString, self._lib.PDFString("D:20000101000000+00'00'")
        return self._dictionary(
            Title=text(title),
            Creator=text(MAKER),
            Producer=text(MAKER),
            CreationDate=day,
            ModDate=day,
            Trapped="/False",
        )

    def _output_intent(self) -> Any:
        """Return what says that all colour is sRGB (ISO 32000-1, 14.11.5)."""
        carried = self._stream(srgb.profile())
        carried.dictionary = self._dictionary(N=3, Alternate="/DeviceRGB")
        return self._dictionary(
            Type="/OutputIntent",
            S="/GTS_PDFA1",
            OutputConditionIdentifier=self._lib.PDFString(srgb.NAME),
            Info=self._lib.PDFString(srgb.NAME),
            RegistryName=self._lib.PDFString("http://www.color.org"),
            DestOutputProfile=self._add(carried),
        )

    def page(
        self,
        size: Size,
        *,
        trim: Rect | None = None,
        bleed: Rect | None = None,
        label: str = "",
    ) -> PdfPen:
        """Add a page of ``size`` in mm and return the pen that draws on it.

        ``trim`` is what is left after cutting and ``bleed`` how far colour runs past it; the
        whole page where not given. (ISO 15930: the TrimBox lies in the BleedBox, that in the
        MediaBox.) ``label`` is what a reader calls the page in place of its number.
        """
        if label:
            self._labels += [len(self._pages), self._dictionary(P=self._lib.PDFString(label))]
        whole = Rect(0, 0, *size)
        page = self._lib.PDFPage()
        page.MediaBox = page.CropBox = self._box(whole)
        page.BleedBox = self._box(bleed or whole)
        page.TrimBox = self._box(trim or bleed or whole)
        pen = PdfPen(self._resources)
        self._pages.append((page, pen))
        return pen

    @property
    def pages(self) -> int:
        """How many pages there are so far."""
        return len(self._pages)

    def turn_over(self, edge: Literal["long", "short"]) -> None:
        """Ask whoever prints it for both sides, the paper turned over this edge."""
        flip = f"/DuplexFlip{edge.capitalize()}Edge"  # ISO 32000-1, 12.2
        self._doc.Catalog.ViewerPreferences = self._dictionary(
            PrintScaling="/None", DisplayDocTitle="true", Duplex=flip
        )

    def finish(self) -> bytes:
        """Return the file; nothing may be drawn on it after."""
        fonts = {
            font.name: self._font(font) for font in self._resources.fonts.values() if font.codes
        }
        images = {name: self._image(data) for name, data in self._resources.images.items()}
        shared = self._add(
            self._dictionary(Font=self._dictionary(**fonts), XObject=self._dictionary(**images))
        )
        if self._labels:  # ISO 32000-1, 12.4.2
            labels = self._dictionary(Nums=self._lib.PDFArray(self._labels))
            self._doc.Catalog.PageLabels = labels
        for page, pen in self._pages:
            content = pen.content()
            page.Resources = shared
            page.Contents = self._add(self._stream(content))
            self._doc.addPage(page)
            self._doc.updateSignature(content)
        return bytes(self._doc.GetPDFData(None))

    def _image(self, data: bytes) -> Any:
        if data.startswith(PNG_SIGNATURE):
            return self._lossless_image(data)
        from reportlab.pdfbase.pdfutils import readJPEGInfo

        width, height, components, _ = readJPEGInfo(BytesIO(data))
        stream = self._stream(data, packed=False)
        space = {1: "/DeviceGray", 3: "/DeviceRGB"}[components]
        stream.dictionary = self._picture((width, height), space, "/DCTDecode")
        return self._add(stream)

    def _lossless_image(self, data: bytes) -> Any:
        """Add a PNG of 8 bits, its pixels as they are."""
        from PIL import Image

        with Image.open(BytesIO(data), formats=("PNG",)) as image:
            plain = image.convert("L" if image.mode == "L" else "RGB")
        stream = self._stream(compress(plain.tobytes()), packed=False)
        space = "/DeviceGray" if plain.mode == "L" else "/DeviceRGB"
        stream.dictionary = self._picture(plain.size, space, "/FlateDecode")
        return self._add(stream)

    def _picture(self, size: tuple[int, int], space: str, packed: str) -> Any:
        return self._dictionary(
            Type="/XObject",
            Subtype="/Image",
            Width=size[0],
            Height=size[1],
            BitsPerComponent=8,
            ColorSpace=space,
            Filter=packed,
        )

    def _font(self, font: PageFont) -> Any:
        """Add a composite font of two-byte codes and return the reference to it."""
        codes, face = font.codes, font.face
        file = blank() if face is None else face.subset({code.gid for code in codes})
        name = f"/{_tag(file + codes.to_unicode())}+{'Unseen' if face is None else face.name}"
        widths = " ".join(f"{code.advance:g}" for code in codes)
        descendant = self._dictionary(
            Type="/Font",
            Subtype="/CIDFontType2",
            BaseFont=name,
            CIDSystemInfo="<< /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>",
            FontDescriptor=self._add(self._descriptor(font, name, file)),
            W=f"[1 [{widths}]]",
            CIDToGIDMap=self._add(self._stream(codes.glyph_map())),
        )
        return self._add(
            self._dictionary(
                Type="/Font",
                Subtype="/Type0",
                BaseFont=name,
                Encoding="/Identity-H",
                DescendantFonts=self._lib.PDFArray([self._add(descendant)]),
                ToUnicode=self._add(self._stream(codes.to_unicode())),
            )
        )

    def _descriptor(self, font: PageFont, name: str, file: bytes) -> Any:
        face = font.face
        embedded = self._stream(file)
        embedded.dictionary["Length1"] = len(file)
        # One bit for each code that the font has, the first of them the highest (19005-1, 6.3.5).
        held = int("1" * (len(font.codes) + 1), 2) << (-(len(font.codes) + 1) % 8)
        codes = held.to_bytes((len(font.codes) + 8) // 8)
        return self._dictionary(
            Type="/FontDescriptor",
            FontName=name,
            Flags=4,  # symbolic: the codes are glyphs, not characters of a Latin set
            FontBBox=self._lib.PDFArray([round(side) for side in face.box] if face else [0] * 4),
            ItalicAngle=0,
            Ascent=round(face.ascent) if face else 800,
            Descent=round(face.descent) if face else -200,
            CapHeight=round(face.cap_height) if face else 700,
            StemV=80,  # a guess: only a reader that lacks the embedded file would look
            FontFile2=self._add(embedded),
            CIDSet=self._add(self._stream(codes)),
        )

    def _box(self, rect: Rect) -> Any:
        sides = (rect.x, rect.y, rect.x + rect.width, rect.y + rect.height)
        return self._lib.PDFArray([f"{points(side):.5f}" for side in sides])

    def _dictionary(self, **entries: object) -> Any:
        return self._lib.PDFDictionary(entries)

    def _stream(self, content: bytes, *, packed: bool = True) -> Any:
        filters = [self._lib.PDFZCompress] if packed else None
        return _ended(self._lib.PDFStream)(content=content, filters=filters)

    def _add(self, thing: Any) -> Any:
        return self._doc.Reference(thing)


@cache
def _ended(stream: Any) -> Any:
    """Return the library's ``stream`` with the end of line that ISO 19005-1, 6.1.7, asks for."""

    class Ended(stream):  # type: ignore[misc]
        def format(self, document: Any) -> bytes:
            written = bytes(super().format(document))
            return written.removesuffix(b"endstream\n") + b"\nendstream\n"

    return Ended


def _tag(data: bytes) -> str:
    """Return the six capitals that mark a subset (ISO 32000-1, 9.6.4), made from ``data``."""
    from hashlib import sha256

    digest = int.from_bytes(sha256(data).digest()[:8])
    return "".join(chr(ord("A") + digest // 26**place % 26) for place in range(6))
