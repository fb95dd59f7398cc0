"""Pages and dictionaries written at once: the same bytes as the PDF library's own objects give."""

from io import BytesIO

import pytest

from linebook.pdf import library
from linebook.pdf.library import Canvas, Label, Packed, Page, pdfdoc


def document_of(pages):
    buffer = BytesIO()
    canvas = Canvas(buffer, pagesize=(1, 1), invariant=1)
    for page, (width, height), stream, links in pages:
        page.pagewidth, page.pageheight, page.Contents = width, height, stream
        page.Annots = [pdfdoc.PDFString(link) for link in links]
        canvas._doc.addPage(page)
    canvas.save()
    return buffer.getvalue()


def librarys_own_stream(stream):
    packed = pdfdoc.PDFDictionary({"Filter": pdfdoc.PDFArray([pdfdoc.PDFName("FlateDecode")])})
    return pdfdoc.PDFStream(packed, stream)


def librarys_own():
    page = pdfdoc.PDFPage()
    page.hasImages, page.Rotate, page.ExtGState, page._shadingUsed = 1, 0, None, {}
    page.setPageTransition({})
    return page


@pytest.mark.parametrize("links", [(), ("here", "there")], ids=["plain", "with links"])
def test_a_page_is_written_as_the_library_writes_it(links):
    sizes = [(595.28, 841.89), (792.0, 612.0), (595, 841)]
    streams = [b"one", b"another", b""]
    made = [
        document_of([(kind(), size, packed(stream), links) for size, stream in zip(sizes, streams, strict=True)])
        for kind, packed in ((Page, Packed), (librarys_own, librarys_own_stream))
    ]
    assert made[0] == made[1]
    assert made[0].count(b"/Type /Page\n") == len(sizes)


@pytest.mark.parametrize("count", [0, 1, 5, 6, 7, 12, 13])
def test_a_dictionary_is_written_as_the_library_writes_it(count):
    document = Canvas(BytesIO(), invariant=1)._doc
    held = [pdfdoc.PDFString("(é)"), 1, 2.5, "/Name", b"raw", pdfdoc.PDFDictionary({"b": 1, "a": 2}), document.Pages]
    entries = {f"Entry {(at * 5) % 13}": held[at % len(held)] for at in range(count)}
    one = pdfdoc.PDFDictionary(entries)
    assert one.format(document) == library._dictionary(one, document)


@pytest.mark.parametrize("prefix", ["", "7F3A91C2-", "(é)"])
@pytest.mark.parametrize("numbered", [True, False])
def test_a_label_is_written_as_the_library_writes_it(prefix, numbered):
    document = Canvas(BytesIO(), invariant=1)._doc
    style, start = ("D", 1) if numbered else (None, None)
    theirs = pdfdoc.PDFPageLabel(style, start, prefix)
    assert Label(prefix, numbered=numbered).format(document) == theirs.format(document)
