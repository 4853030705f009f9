"""A picture drawn anew: upright, in sRGB, on white, with nothing in it but what is seen."""

import io
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image, ImageCms, ImageOps, PngImagePlugin

from intake import reencode as module
from intake.reencode import LONGEST, SMALL, RefusedError, reencode
from tests.sent_files import as_bytes, colour_16, drawing, grey_16, heic, jpeg

# Exif 2.3, tag 0x0112: where the first row and the first column are to be seen.
CORNERS = {1: "tl", 2: "tr", 3: "br", 4: "bl", 5: "tl", 6: "tr", 7: "br", 8: "bl"}


def drawn(content):
    large, small, size = reencode(content)
    picture = Image.open(io.BytesIO(large))
    picture.load()
    assert picture.format == "JPEG"
    assert picture.mode == "RGB"
    assert picture.size == size
    assert max(Image.open(io.BytesIO(small)).size) <= SMALL
    return picture


def near(pixel, wanted, by=12):
    return all(abs(one - other) <= by for one, other in zip(pixel, wanted, strict=True))


def corner(picture, name):
    x = 12 if "l" in name else picture.width - 13
    return picture.getpixel((x, 12 if "t" in name else picture.height - 13))


def with_orientation(value):
    exif = Image.Exif()
    exif[0x0112] = value
    return exif


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_each_kind_comes_out_as_the_same_drawing(kind):
    content = heic() if kind == "HEIF" else as_bytes(drawing(), kind)
    picture = drawn(content)
    assert picture.size == (640, 480)
    assert near(corner(picture, "tl"), (255, 0, 0), 20)
    assert near(picture.getpixel((280, 300)), (0, 0, 128), 20)


@pytest.mark.parametrize("value", CORNERS)
def test_a_picture_is_turned_as_it_was_held(value):
    content = jpeg(exif=with_orientation(value))
    picture = drawn(content)
    assert near(corner(picture, CORNERS[value]), (255, 0, 0), 20)
    reference = ImageOps.exif_transpose(Image.open(io.BytesIO(content)))  # Pillow's own reading
    assert picture.size == reference.size
    assert near(picture.resize((1, 1)).getpixel((0, 0)), reference.resize((1, 1)).getpixel((0, 0)))


def test_a_heic_is_turned_once_and_not_twice():
    picture = drawn(heic(exif=with_orientation(6).tobytes()))
    assert picture.size == (480, 640)
    assert near(corner(picture, "tr"), (255, 0, 0), 20)


@pytest.mark.filterwarnings("ignore:Corrupt EXIF data")
def test_exif_that_cannot_be_read_turns_nothing():
    assert drawn(jpeg(exif=b"Exif\0\0II*\0\xff\xff\xff\xff")).size == (640, 480)


def test_nothing_of_where_when_and_with_what_it_was_taken_is_left():
    exif = with_orientation(1)
    exif[0x010F] = "Camera of somebody"
    exif.get_ifd(0x8825).update({1: "N", 2: (52.0, 30.0, 0.0)})
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    content = jpeg(exif=exif, icc_profile=profile, comment=b"for us alone", dpi=(300, 300))
    assert all(word in content for word in (b"Exif", b"ICC_PROFILE", b"for us alone", b"somebody"))
    for part in reencode(content)[:2]:
        for word in (b"Exif", b"ICC_PROFILE", b"for us alone", b"somebody", b"http://ns.adobe"):
            assert word not in part
        left = Image.open(io.BytesIO(part))
        assert not left.getexif()
        assert not {"exif", "icc_profile", "comment", "xmp", "dpi"} & set(left.info)


def test_words_in_a_png_are_gone():
    words = PngImagePlugin.PngInfo()
    words.add_text("Author", "somebody at home")
    content = as_bytes(drawing(), "PNG", pnginfo=words)
    assert b"somebody at home" in content
    assert b"somebody at home" not in b"".join(reencode(content)[:2])


def test_a_colour_profile_is_obeyed():
    """A profile that calls red what others call green: sRGB's, with two tags exchanged (ICC.1)."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = profile.replace(b"rXYZ", b"????").replace(b"gXYZ", b"rXYZ").replace(b"????", b"gXYZ")
    plain = drawn(jpeg(icc_profile=profile))
    assert near(corner(plain, "tl"), (255, 0, 0), 20)
    assert near(corner(drawn(jpeg(icc_profile=swapped)), "tl"), (0, 255, 0), 20)


def test_a_profile_that_is_none_is_left_out():
    assert near(corner(drawn(jpeg(icc_profile=b"no profile")), "tl"), (255, 0, 0), 20)


def test_ink_becomes_light():
    picture = drawn(as_bytes(drawing(mode="CMYK"), "JPEG"))
    assert near(corner(picture, "tl"), (255, 0, 0), 20)
    assert near(corner(picture, "br"), (230, 222, 200), 20)


def test_sixteen_bits_of_grey_keep_their_middle():
    picture = drawn(grey_16())
    for x, level in ((3, 1), (320, 128), (636, 254)):
        assert near(picture.getpixel((x, 200)), (level,) * 3, 6)


def test_sixteen_bits_of_colour_are_read():
    assert near(drawn(colour_16()).getpixel((300, 200)), (255, 128, 0), 6)


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P"])
def test_what_is_see_through_becomes_white(mode):
    picture = Image.new("RGBA", (200, 100), (10, 10, 10, 0))
    picture.paste((10, 10, 10, 255), (100, 0, 200, 100))
    picture = drawn(as_bytes(picture.convert(mode), "PNG"))
    assert near(picture.getpixel((20, 50)), (255, 255, 255))
    assert near(picture.getpixel((180, 50)), (10, 10, 10))


@pytest.mark.parametrize("mode", ["1", "L"])
def test_black_and_white_is_read(mode):
    assert drawn(as_bytes(drawing(mode=mode), "PNG")).size == (640, 480)


def test_a_phones_second_picture_in_one_file_is_no_film():
    both = {"save_all": True, "append_images": [drawing(320, 240)]}
    assert drawn(as_bytes(drawing(), "MPO", **both)).size == (640, 480)


@pytest.mark.parametrize(
    ("given", "got"), [((5000, 2500), (2000, 1000)), ((900, 3600), (500, 2000))]
)
def test_a_large_picture_is_made_smaller_and_keeps_its_shape(given, got):
    assert max(got) == LONGEST
    assert drawn(as_bytes(drawing(*given), "JPEG")).size == got


def test_the_smallest_and_the_largest_are_taken(monkeypatch):
    assert drawn(as_bytes(Image.new("RGB", (50, 50)), "PNG")).size == (50, 50)
    monkeypatch.setattr(module, "MOST_PIXELS", 640 * 480)
    assert drawn(jpeg()).size == (640, 480)
    monkeypatch.setattr(module, "MOST_PIXELS", 640 * 480 - 1)
    with pytest.raises(RefusedError, match="points"):
        reencode(jpeg())


def test_a_long_text_that_is_not_packed_goes_the_way_of_all_words():
    words = PngImagePlugin.PngInfo()
    words.add_text("Comment", "a" * 4_000_000)
    large, small, _size = reencode(as_bytes(drawing(), "PNG", pnginfo=words))
    assert len(large) + len(small) < 100_000


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux holds a process to its memory")
@pytest.mark.parametrize(
    ("act", "end"),
    [("bytearray(module.MEMORY)", "MemoryError"), ("print(len(bytearray(2 ** 20)))", "1048576")],
)
def test_a_picture_gets_so_much_memory_and_no_more(act, end):
    load = f"import runpy; module = type('', (), runpy.run_path({str(Path(module.__file__))!r}))"
    code = f"{load}\nmodule.hold_back()\n{act}"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (run.stdout + run.stderr).strip().endswith(end)
