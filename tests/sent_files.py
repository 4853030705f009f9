"""Files as somebody might send them, good and bad, each made here from nothing."""

import io
import struct
import zlib

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, ImageDraw, PngImagePlugin


def drawing(width=640, height=480, mode="RGB", seed=0):
    """An invented drawing; its top left corner is red, so that a turned one shows it."""
    picture = Image.new("RGB", (width, height), (230, 222, 200 + seed % 50))
    draw = ImageDraw.Draw(picture)
    draw.rectangle((0, 0, width // 4, height // 4), fill="red")
    draw.ellipse((width // 3, height // 3, width // 2 + seed % 97, height - 20), fill="navy")
    return picture.convert(mode)


def as_bytes(picture, kind, **options):
    file = io.BytesIO()
    picture.save(file, kind, **options)
    return file.getvalue()


def jpeg(seed=0, **options):
    return as_bytes(drawing(seed=seed), "JPEG", **options)


def heic(width=640, height=480, **options):
    from pillow_heif import register_heif_opener

    register_heif_opener()
    return as_bytes(drawing(width, height), "HEIF", **options)


def chunk(kind, data):
    checksum = struct.pack(">I", zlib.crc32(kind + data))
    return struct.pack(">I", len(data)) + kind + data + checksum


def png_bomb(width=30_000, height=30_000):
    """A PNG of a few bytes a row that would unpack into gigabytes (ISO/IEC 15948)."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0))
    packer = zlib.compressobj(9)
    rows = b"".join(packer.compress(b"\0" * (1 + 4 * width)) for _ in range(64))
    body = chunk(b"IDAT", rows + packer.flush())
    return b"\x89PNG\r\n\x1a\n" + head + body + chunk(b"IEND", b"")


def png_with_text(size=30_000_000, packed=True):
    """A PNG whose text alone unpacks into tens of megabytes."""
    info = PngImagePlugin.PngInfo()
    info.add_text("Comment", "a" * size, zip=packed)
    return as_bytes(drawing(), "PNG", pnginfo=info)


def grey_16(width=640, height=480):
    """A PNG of 16 bits of grey that rises from black at the left to white at the right."""
    row = b"".join(struct.pack("<H", 65535 * x // (width - 1)) for x in range(width))
    return as_bytes(Image.frombytes("I;16", (width, height), row * height), "PNG")


def colour_16(width=640, height=480):
    """A PNG of 16 bits for each of red, green and blue, which Pillow itself cannot write."""
    row = b"\0" + struct.pack(">HHH", 65535, 32768, 0) * width
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 16, 2, 0, 0, 0))
    body = chunk(b"IDAT", zlib.compress(row * height))
    return b"\x89PNG\r\n\x1a\n" + head + body + chunk(b"IEND", b"")


def moving(kind):
    frames = [drawing(seed=seed) for seed in range(3)]
    return as_bytes(frames[0], kind, save_all=True, append_images=frames[1:])


def broken_heic():
    """A HEIC whose boxes say that they are longer than the file (ISO/IEC 14496-12, 4.2)."""
    content = bytearray(heic())
    at = content.index(b"meta") - 4
    content[at : at + 4] = struct.pack(">I", 0x7FFFFFF0)
    return bytes(content)


def many_scans(count):
    """A JPEG that asks to be gone through so many times; cameras write ten or so."""
    content = as_bytes(drawing(), "JPEG", progressive=True)
    at = content.rindex(b"\xff\xda")
    return content[:at] + content[at:-2] * count + b"\xff\xd9"


SCRIPT = b"#!/bin/sh\nrm -rf /\n"
SVG = b"<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'><script>1</script></svg>"
PDF = b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer <</Root 1 0 R>>\n%%EOF\n"


def bad_files():
    """Each bad file: what it is, its name, its bytes, and words of the line that answers it."""
    return [
        ("a renamed script", "us.jpg", SCRIPT, "not a JPEG, PNG, WebP or HEIC"),
        ("a drawing that runs", "us.svg", SVG, "not a JPEG, PNG, WebP or HEIC"),
        ("a page", "us.png", b"<!doctype html><script>1</script>", "not a JPEG"),
        ("a decompression bomb", "us.png", png_bomb(), "more than 50 million pixels"),
        ("a bomb just below Pillow's own limit", "b.png", png_bomb(9000, 9000), "50 million"),
        ("a 40 MB photograph", "us.jpg", jpeg() + bytes(40 * 1024 * 1024), "20 MB is the most"),
        ("half a JPEG", "us.jpg", jpeg()[:-3000], "only a part of it came"),
        ("the start of a JPEG", "us.jpg", jpeg()[:30], "only a part of it came"),
        ("a moving GIF", "us.gif", moving("GIF"), "not a JPEG, PNG, WebP or HEIC"),
        ("a moving WebP", "us.webp", moving("WEBP"), "moves"),
        ("a moving PNG", "us.png", moving("PNG"), "moves"),
        ("nothing", "us.jpg", b"", "empty"),
        ("one pixel", "us.png", as_bytes(Image.new("RGB", (1, 1)), "PNG"), "at least 50 pixels"),
        ("a PNG with packed text", "us.png", png_with_text(), "damaged"),
        ("a HEIC with a broken box", "us.heic", broken_heic(), "damaged"),
        ("half a HEIC", "us.heic", heic()[:-2000], "damaged"),
        ("a JPEG of a thousand scans", "us.jpg", many_scans(1000), "damaged"),
        ("a JPEG of fifty scans", "us.jpg", many_scans(50), "damaged"),
    ]


def upload(content, name="us.jpg"):
    return SimpleUploadedFile(name, content, "image/jpeg")
