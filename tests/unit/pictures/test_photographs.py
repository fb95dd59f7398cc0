"""Photographs made here: turned upright, bare of all but the picture, reduced, grey; the bad ones are located faults."""

import os
import struct
import zlib
from io import BytesIO
from pathlib import PurePosixPath

import pytest
from PIL import Image, ImageCms, ImageStat
from PIL.PngImagePlugin import PngInfo

from linebook.pictures import MOST_BYTES, Photograph, for_print, look_at, prepare
from linebook.source.spans import SourceFile

SOURCE = SourceFile(path="specs/dishes/cod.md", text="---\nname: Cod\nphoto: photos/cod.jpg\n---\n")
AT = SOURCE.span(SOURCE.text.index("photos"), SOURCE.text.index("\n---\n"))
MARKERS = {
    b"\xff\xe1": "EXIF or XMP",
    b"\xff\xe2": "a profile or a second picture",
    b"\xff\xfe": "a comment",
    b"\xff\xed": "press data",
}
TURN_BACK = {
    1: None, 2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE, 8: Image.Transpose.ROTATE_270,
}  # fmt: skip
"""What a camera held that way does to the scene before it writes the orientation (CIPA DC-008, table 6 read backwards)."""


def scene(width=640, height=480):
    """Red top left, green top right, blue bottom left, white bottom right."""
    picture = Image.new("RGB", (width, height), "white")
    half = width // 2, height // 2
    picture.paste((220, 30, 30), (0, 0, *half))
    picture.paste((30, 180, 40), (half[0], 0, width, half[1]))
    picture.paste((30, 50, 210), (0, half[1], half[0], height))
    return picture


def named(folder, name="cod.jpg"):
    return Photograph(root=folder, path=PurePosixPath("photos") / name, at=AT)


@pytest.fixture
def house(tmp_path):
    (tmp_path / "photos").mkdir()
    return tmp_path


def saved(house, picture, name="cod.jpg", **how):
    picture.save(house / "photos" / name, **how)
    return named(house, name)


def opened(picture):
    return Image.open(BytesIO(picture.content))


def made(photograph, width=60.0, height=60.0):
    outcome = prepare(photograph, width, height, "a plate")
    assert outcome.faults == ()
    return outcome.value


def corners(image):
    """Return the mean colour of each quarter's middle."""
    image = image.convert("RGB")
    wide, high = image.width // 8, image.height // 8
    boxes = [(x * wide - wide, y * high - high, x * wide + wide, y * high + high) for y in (2, 6) for x in (2, 6)]
    return [tuple(round(part) for part in ImageStat.Stat(image.crop(box)).mean) for box in boxes]


def assert_is_scene(image, slack=12):
    for found, meant in zip(
        corners(image), [(220, 30, 30), (30, 180, 40), (30, 50, 210), (255, 255, 255)], strict=True
    ):
        assert all(abs(a - b) <= slack for a, b in zip(found, meant, strict=True)), corners(image)


@pytest.mark.parametrize("kind", ["jpg", "png"])
@pytest.mark.parametrize("orientation", TURN_BACK)
def test_every_way_a_camera_is_held_ends_upright(house, orientation, kind):
    turn = TURN_BACK[orientation]
    held = scene() if turn is None else scene().transpose(turn)
    exif = Image.Exif()
    exif[0x0112] = orientation
    picture = made(saved(house, held, f"cod.{kind}", exif=exif))
    assert_is_scene(opened(picture))
    assert picture.width_px / picture.height_px == pytest.approx(4 / 3, rel=0.01)


def test_nothing_but_the_picture_is_kept(house):
    exif = Image.Exif()
    exif[0x010F] = "SECRET-MAKER"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)
    comment = b"SECRET-COMMENT"
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    photograph = saved(house, scene(), exif=exif, comment=comment, icc_profile=profile, xmp=b"<x>SECRET-XMP</x>")
    assert b"SECRET" in (house / "photos/cod.jpg").read_bytes()
    for picture in (made(photograph), for_print(made(photograph), 20, 15, grey=True)):
        assert b"SECRET" not in picture.content
        header = picture.content[: picture.content.index(b"\xff\xda")]
        assert not [said for marker, said in MARKERS.items() if marker in header]
        assert opened(picture).getexif() == {}


def test_text_in_a_png_is_not_kept(house):
    info = PngInfo()
    info.add_text("Author", "SECRET-NAME")
    picture = made(saved(house, scene(), "cod.png", pnginfo=info))
    assert b"SECRET" not in picture.content
    assert_is_scene(opened(picture))


def test_colours_are_turned_into_srgb(house):
    """A profile whose red and blue primaries are exchanged: its red is our blue."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    count = struct.unpack(">I", profile[128:132])[0]
    entries = {bytes(profile[at : at + 4]): at for at in range(132, 132 + 12 * count, 12)}
    red, blue = entries[b"rXYZ"], entries[b"bXYZ"]
    profile[red : red + 4], profile[blue : blue + 4] = b"bXYZ", b"rXYZ"
    picture = made(saved(house, Image.new("RGB", (80, 60), (200, 20, 20)), icc_profile=bytes(profile)))
    mean = ImageStat.Stat(opened(picture)).mean
    assert mean[2] > 180
    assert mean[0] < 60


def test_a_profile_that_cannot_be_read_is_passed_over(house):
    assert_is_scene(opened(made(saved(house, scene(), icc_profile=b"no profile at all"))))


@pytest.mark.parametrize("mode", ["L", "1", "P", "RGBA", "LA", "CMYK", "I;16", "YCbCr"])
def test_every_mode_of_a_picture_can_be_printed(house, mode):
    kind = "jpg" if mode in ("CMYK", "YCbCr") else "png"
    picture = (
        scene().convert("L").point(lambda value: value * 257, "I").convert("I;16")
        if mode == "I;16"
        else scene().convert(mode)
    )
    ready = made(saved(house, picture, f"cod.{kind}"))
    plain = opened(ready)
    assert plain.mode in ("RGB", "L")
    assert ready.grey == (plain.mode == "L")
    if mode in ("RGBA", "CMYK", "YCbCr"):
        assert_is_scene(plain, slack=24)
    else:
        light = [sum(one) for one in corners(plain)]
        assert light[3] == max(light)


def test_what_is_clear_is_white_paper(house):
    clear = Image.new("RGBA", (90, 60), (200, 0, 0, 0))
    assert ImageStat.Stat(opened(made(saved(house, clear, "cod.png")))).mean == pytest.approx([255] * 3, abs=1)


@pytest.mark.parametrize(("size", "turned"), [((3000, 2000), 1), ((2000, 3000), 6), ((300, 200), 1)])
def test_no_more_than_300_dots_an_inch(house, size, turned):
    """60 mm at 300 dots an inch are 708.66 dots; a small photograph is left as it is."""
    exif = Image.Exif()
    exif[0x0112] = turned
    picture = made(saved(house, scene(*size), exif=exif), 60.0, 60.0)
    assert max(picture.width_px, picture.height_px) == (709 if max(size) > 709 else max(size))
    smaller = for_print(picture, 25.4, 25.4 * picture.height_px / picture.width_px, grey=False)
    assert max(smaller.width_px, smaller.height_px) <= 300
    assert for_print(picture, 60.0, 60.0, grey=False) is picture


def test_grey_where_asked(house):
    picture = made(saved(house, scene()))
    grey = for_print(picture, 60.0, 45.0, grey=True)
    assert (picture.grey, grey.grey) == (False, True)
    assert opened(grey).mode == "L"
    assert for_print(grey, 60.0, 45.0, grey=True) is grey


def test_the_same_bytes_each_time(house):
    photograph = saved(house, scene(1200, 900))
    first, second = made(photograph), made(photograph)
    assert first.content == second.content
    assert for_print(first, 30, 22, grey=True).content == for_print(second, 30, 22, grey=True).content


# -- what cannot be printed


def both(photograph):
    """Return the fault ``check`` gives, and the one ``bind`` gives."""
    seen, drawn = look_at(photograph), prepare(photograph, 60.0, 60.0, "x")
    assert drawn.value is None
    return seen, drawn.faults


def the_fault(photograph, code, says, mend):
    seen, drawn = both(photograph)
    assert [fault.code for fault in seen] == [code]
    assert seen == drawn
    (fault,) = seen
    assert fault.span == AT
    assert (fault.span.line, fault.span.column) == (3, 8)
    assert says in fault.message
    assert mend in fault.hints[0]


def test_one_that_is_not_there(house):
    the_fault(named(house), "LB608", "`photos/cod.jpg`", "put the file")


def test_one_in_a_folder_that_is_not_there(tmp_path):
    the_fault(named(tmp_path), "LB608", "`photos/cod.jpg`", "put the file")


def test_one_with_another_name(house):
    saved(house, scene(), "cods.jpg")
    the_fault(named(house), "LB608", "`photos/cod.jpg`", "type `photos/cods.jpg`")


def test_one_in_capitals(house):
    saved(house, scene(), "Cod.JPG")
    the_fault(named(house), "LB608", "`photos/cod.jpg`", "rename the file `Cod.JPG` to `cod.jpg`")


def test_a_link_out_of_the_house(house, tmp_path_factory):
    outside = tmp_path_factory.mktemp("outside") / "cod.jpg"
    scene().save(outside)
    (house / "photos/cod.jpg").symlink_to(outside)
    the_fault(named(house), "LB113", "leads out of the house", "itself")


def test_a_link_inside_the_house_is_followed(house):
    saved(house, scene(), "fish.jpg")
    (house / "photos/cod.jpg").symlink_to("fish.jpg")
    assert_is_scene(opened(made(named(house))))


def test_a_folder_in_its_place(house):
    (house / "photos/cod.jpg").mkdir()
    the_fault(named(house), "LB608", "no file that can be opened", "put the picture itself there")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_in_its_place_is_not_waited_for(house):
    os.mkfifo(house / "photos/cod.jpg")
    the_fault(named(house), "LB608", "no file that can be opened", "put the picture itself there")


@pytest.mark.parametrize("content", [b"", b"hello", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", bytes(range(256)) * 40])
def test_what_is_no_picture(house, content):
    (house / "photos/cod.jpg").write_bytes(content)
    the_fault(named(house), "LB609", "not a JPEG or PNG picture", "save it")


@pytest.mark.parametrize("kind", ["GIF", "BMP", "TIFF", "WEBP", "PDF", "PPM"])
def test_other_kinds_under_a_jpeg_name(house, kind):
    into = BytesIO()
    scene(60, 40).save(into, kind)
    (house / "photos/cod.jpg").write_bytes(into.getvalue())
    the_fault(named(house), "LB609", "not a JPEG or PNG picture", "JPEG or PNG")


@pytest.mark.parametrize("kind", ["jpg", "png"])
@pytest.mark.parametrize("share", [0.5, 0.9])
def test_one_that_is_cut_short_is_found_when_it_is_drawn(house, kind, share):
    photograph = saved(house, scene(900, 700).resize((905, 703)), f"cod.{kind}")
    path = house / "photos" / f"cod.{kind}"
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * share)])
    assert look_at(photograph) == ()
    outcome = prepare(photograph, 60.0, 60.0, "x")
    assert [fault.code for fault in outcome.faults] == ["LB609"]
    assert "damaged or cut short" in outcome.faults[0].message
    assert outcome.faults[0].span == AT


def png_header(width, height, *more):
    def chunk(kind, content):
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    return b"".join(
        (
            b"\x89PNG\r\n\x1a\n",
            chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)),
            *(chunk(*one) for one in more),
            chunk(b"IDAT", zlib.compress(b"\0" * 1000)),
            chunk(b"IEND", b""),
        )
    )


@pytest.mark.parametrize(("width", "height"), [(60_000, 60_000), (10_000, 5_000), (2_000_000_000, 2)])
def test_a_few_bytes_that_claim_to_be_a_huge_picture(house, width, height):
    (house / "photos/cod.png").write_bytes(png_header(width, height))
    the_fault(named(house, "cod.png"), "LB610", "`photos/cod.png`", "smaller")


def test_a_text_that_unpacks_into_far_more_is_refused(house):
    bomb = b"Title\0\0" + zlib.compress(b"\0" * 80_000_000, 9)
    (house / "photos/cod.png").write_bytes(png_header(40, 40, (b"zTXt", bomb)))
    seen, drawn = look_at(named(house, "cod.png")), prepare(named(house, "cod.png"), 60.0, 60.0, "x")
    assert [fault.code for fault in (*seen, *drawn.faults)][-1] == "LB609"


def test_a_file_of_too_many_bytes(house):
    with (house / "photos/cod.jpg").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    the_fault(named(house), "LB610", "25 MB", "smaller")


@pytest.mark.parametrize("seed", range(60))
def test_spoiled_files_are_faults_or_pictures_and_nothing_else(house, seed):
    """Bytes changed anywhere, header included."""
    from random import Random

    random = Random(seed)
    kind = random.choice(["jpg", "png"])
    exif = Image.Exif()
    exif[0x0112] = 6
    photograph = saved(house, scene(120, 90), f"cod.{kind}", exif=exif)
    path = house / "photos" / f"cod.{kind}"
    content = bytearray(path.read_bytes())
    for _ in range(random.choice([1, 3, 30])):
        content[random.randrange(len(content))] = random.randrange(256)
    path.write_bytes(content[: random.randrange(1, len(content) + 1)] if random.random() < 0.3 else content)
    seen, drawn = look_at(photograph), prepare(photograph, 60.0, 60.0, "x")
    assert (drawn.value is None) == bool(drawn.faults)
    assert {fault.code for fault in (*seen, *drawn.faults)} <= {"LB609", "LB610"}


def test_a_house_without_photographs_never_loads_pillow():
    """Seen from another process, since this one has it already."""
    import subprocess
    import sys

    house = PurePosixPath(__file__).parents[3] / "specs"
    asked = (
        "import sys; from pathlib import Path; from linebook.pipeline import load_house; import linebook.workshop; "
        f"assert load_house(Path({str(house)!r}), 'specs').value; assert 'PIL' not in sys.modules"
    )
    assert subprocess.run([sys.executable, "-c", asked], capture_output=True, check=False).returncode == 0
