"""A picture drawn anew as JPEG, in a process of its own, since a file may be built to do harm.

The file comes on standard input. On standard output come one line of JSON and, where it could be
drawn, the large and the small picture behind it. Pillow and the standard library only: starting
this for each picture has to be quick.
"""

from __future__ import annotations

import io
import json
import sys
import warnings

from PIL import Image, ImageCms
from pillow_heif import register_heif_opener

KINDS = ("JPEG", "PNG", "WEBP", "HEIF")
LONGEST, SMALL = 2000, 480  # px, the longest side of each of the two pictures
MOST_PIXELS = 50_000_000
LEAST_SIDE = 50  # px
MOST_SCANS = 40  # own choice; a JPEG may ask to be gone through again and again
MEMORY, SECONDS = 1024 * 1024 * 1024, 20  # address space in bytes, time on the processor
TURNED = {  # Exif 2.3, tag 0x0112
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


class RefusedError(Exception):
    """`args[0]` is the reason: "kind", "moves", "points", "tiny", "heavy" or "broken"."""


def reencode(content: bytes) -> tuple[bytes, bytes, tuple[int, int]]:
    """The large and the small JPEG (sRGB, upright, no metadata), and the large one's size in px.

    Raises RefusedError, or whatever a damaged file makes Pillow raise.
    """
    picture = upright(shrunk(opened(content)))
    small = picture.copy()
    small.thumbnail((SMALL, SMALL), reducing_gap=3)
    return as_jpeg(picture, 85), as_jpeg(small, 80), picture.size


def opened(content: bytes) -> Image.Image:
    """The picture behind a file's first bytes; nothing is unpacked yet."""
    register_heif_opener(thumbnails=False, depth_images=False, aux_images=False, decode_threads=1)
    try:
        picture = Image.open(io.BytesIO(content), formats=KINDS)
    except Image.UnidentifiedImageError:
        raise RefusedError("kind" if not looks_right(content) else "broken") from None
    except Image.DecompressionBombError:
        raise RefusedError("points") from None
    if picture.width * picture.height > MOST_PIXELS:
        raise RefusedError("points")
    if min(picture.size) < LEAST_SIDE:
        raise RefusedError("tiny")
    # Phones keep a second, dim copy in a JPEG or a HEIC; a PNG or a WebP with more pictures moves.
    if picture.format in ("PNG", "WEBP") and getattr(picture, "n_frames", 1) > 1:
        raise RefusedError("moves")
    if picture.format in ("JPEG", "MPO") and content.count(b"\xff\xda") > MOST_SCANS:
        raise RefusedError("broken")
    return picture


def looks_right(content: bytes) -> bool:
    """Whether a file begins as one of our kinds does, so that it is a damaged one of these."""
    begins = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")
    return content.startswith(begins) or content[8:12] == b"WEBP" or content[4:8] == b"ftyp"


def shrunk(picture: Image.Image) -> Image.Image:
    """At most LONGEST on its longest side; made small first, since all else costs by the pixel."""
    turn = orientation(picture)
    if picture.mode in ("P", "1"):
        picture = picture.convert("RGBA" if "transparency" in picture.info else "RGB")
    gap = None if picture.mode.startswith("I") else 2  # Pillow cannot halve 16 bits of grey
    picture.thumbnail((LONGEST, LONGEST), reducing_gap=gap)
    picture.info["turn"] = turn
    return picture


def orientation(picture: Image.Image) -> int:
    try:
        return int(picture.getexif().get(0x0112, 1))
    except Exception:  # Exif that cannot be read turns nothing
        return 1


def upright(picture: Image.Image) -> Image.Image:
    """Turned as it was held, in sRGB, on white, with nothing but its pixels."""
    turn, profile = picture.info["turn"], picture.info.get("icc_profile")
    if picture.mode.startswith("I"):  # 16 bits of grey, which Pillow would cut off at white
        picture = picture.convert("I").point(lambda level: level * (1 / 256)).convert("L")
    if picture.has_transparency_data:
        picture = picture.convert("RGBA")
        ground = Image.new("RGB", picture.size, "white")
        ground.paste(picture, mask=picture.getchannel("A"))
        picture = ground
    picture = in_srgb(picture, profile)
    if turn in TURNED:
        picture = picture.transpose(TURNED[turn])
    bare = Image.new("RGB", picture.size)
    bare.paste(picture)
    return bare


def in_srgb(picture: Image.Image, profile: bytes | None) -> Image.Image:
    """As its own colour profile means it; one that cannot be read is as good as none."""
    if profile:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            srgb = ImageCms.createProfile("sRGB")
            return ImageCms.profileToProfile(picture, source, srgb, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
            pass
    return picture.convert("RGB")


def as_jpeg(picture: Image.Image, quality: int) -> bytes:
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=quality, optimize=True, progressive=True)
    return file.getvalue()


def hold_back() -> None:
    """Let the system stop this process where it takes too much; Windows has no such limits."""
    Image.MAX_IMAGE_PIXELS = MOST_PIXELS // 2  # Pillow refuses at twice as many
    warnings.simplefilter("ignore")
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    if sys.platform == "linux":
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def answer(content: bytes) -> bytes:
    try:
        large, small, size = reencode(content)
    except RefusedError as refused:
        return json.dumps({"refused": refused.args[0]}).encode()
    except MemoryError:
        return json.dumps({"refused": "heavy"}).encode()
    except Exception:  # a decoder may raise anything at all over a damaged file
        return json.dumps({"refused": "broken"}).encode()
    return json.dumps({"size": size, "large": len(large)}).encode() + b"\n" + large + small


if __name__ == "__main__":
    hold_back()
    sys.stdout.buffer.write(answer(sys.stdin.buffer.read()))
