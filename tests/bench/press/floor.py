"""The least that pressing could do: decode pictures at draft size and resize each once."""

import sys

from PIL import Image


def decode(path: str, size: tuple[int, int]) -> None:
    """Decode a JPEG at no less than ``size`` pixels, then resize it to them."""
    with Image.open(path) as image:
        image.draft("RGB", size)
        image.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)


if __name__ == "__main__":
    width, height = map(int, sys.argv[1:3])
    for line in sys.stdin:
        decode(line.rstrip("\n"), (width, height))
