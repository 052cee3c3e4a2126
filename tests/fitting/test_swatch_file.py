"""Tables of swatches, read in all their ways and with all their faults."""

import csv
import io
from pathlib import Path

import pytest

from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.errors import InputError
from fewtubes.fitting.sheet import ScreenColour, SeenLab, SeenReflectance
from fewtubes.fitting.swatch_file import SWATCH_COLUMNS, read_swatches

HEADER = "tube,pigments,strength,over,hex\n"
PAPER = "paper,,,,#f4f1e8\n"


def _file(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "swatches.csv"
    path.write_text(text, encoding="utf-8")
    return path


def _faults(tmp_path: Path, text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_swatches(_file(tmp_path, text))
    return str(caught.value)


def test_a_table_of_screen_colours(tmp_path: Path) -> None:
    sheet = read_swatches(
        _file(
            tmp_path,
            HEADER
            + PAPER
            + "rose,PV19,0.25,paper,#e8b0c0\n"
            + "Rose,,1,black,#201014\n"
            + "rose,,1,,#B01248\n"
            + "black line,,,,#161616\n"
            + "dusk,PR122 + PB29,1,,#503060\ndusk,,0.5,,#9080a0\n",
        )
    )
    rose, dusk = sheet.tubes
    assert sheet.paper == ScreenColour((0xF4, 0xF1, 0xE8))
    assert sheet.black == ScreenColour((0x16, 0x16, 0x16))
    assert (rose.name, rose.codes) == ("rose", ("PV19",))
    # Strongest first, over paper before over black; names are the same in any capitals.
    assert [(s.strength, s.over_black) for s in rose.swatches] == [
        (1.0, False), (0.25, False), (1.0, True),
    ]  # fmt: skip
    assert rose.swatches[0].colour == ScreenColour((0xB0, 0x12, 0x48))
    assert rose.swatches[0].where == "swatches.csv, row 5"
    assert rose.swatches[0].noise == 1.5
    assert dusk.codes == ("PR122", "PB29")


def test_colour_index_names_in_any_capitals(tmp_path: Path) -> None:
    rows = "a,pbr7 / PBK6,1,,#112233\na,PBr7 + PBk6,0.5,,#445566\n"
    assert read_swatches(_file(tmp_path, HEADER + PAPER + rows)).tubes[0].codes == ("PBr7", "PBk6")


def test_cielab_and_spectra_side_by_side(tmp_path: Path) -> None:
    bands = [column for column in SWATCH_COLUMNS if column.startswith("nm")]
    header = ",".join(["tube", "strength", "L", "a", "b", *bands])
    blank = "," * len(bands)
    spectrum = ",".join(["0.5"] * len(bands))
    sheet = read_swatches(
        _file(
            tmp_path,
            f"{header}\npaper,,95,0,3{blank}\nx,1,40,-20.5,3{blank}\nx,0.5,,,,{spectrum}\n",
        ),
        colour_noise=2.0,
    )
    full, half = sheet.tubes[0].swatches
    assert full.colour == SeenLab((40.0, -20.5, 3.0))
    assert full.noise == 2.0
    assert isinstance(half.colour, SeenReflectance)
    assert half.colour.reflectance.tolist() == [0.5] * BAND_COUNT
    assert half.noise == 0.5


def test_what_the_label_says(tmp_path: Path) -> None:
    header = "tube,strength,hex,lightfastness,hazard,hazard_note\n"
    rows = "paper,,#ffffff,,,\na,1,#ff0000,IV,cobalt,no spray\na,0.5,#ff8888,,,\n"
    more = "b,1,#00ff00,,none,\nb,0.5,#88ff88,,,\nc,1,#0000ff,,,\nc,0.5,#8888ff,,,\n"
    a, b, c = read_swatches(_file(tmp_path, header + rows + more)).tubes
    assert a.label.lightfastness is Lightfastness.IV
    assert a.label.hazards == (Hazard.COBALT,)
    assert a.label.hazard_note == "no spray"
    assert b.label.hazards == ()  # the label names none, whatever is known of the pigments
    assert c.label.hazards is None  # nothing is said


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (HEADER + "a,,1,,#112233\na,,0.5,,#445566\n", "has no row for the bare paper"),
        (HEADER + PAPER, "has no swatch of any tube"),
        (HEADER + PAPER + PAPER + "a,,1,,#112233\n", "row 3: 'paper' is given twice"),
        (HEADER + PAPER + "a,,2,,#112233\n", "row 3: strength is '2'"),
        (HEADER + PAPER + "a,,half,,#112233\n", "row 3: strength is 'half'"),
        (HEADER + PAPER + "a,,50,,#112233\n", "is '50'; write the share of a full-strength stroke"),
        (HEADER + PAPER + "a,,,,#112233\n", "row 3: strength is blank; write the share"),
        (HEADER + PAPER + "a,,1,white,#112233\n", "row 3: over is 'white'; allowed: paper, black"),
        (HEADER + PAPER + "a,,1,,112233\n", "row 3: hex is '112233'"),
        (HEADER + PAPER + "a,,1,,\n", "row 3: the colour is given in no way"),
        (HEADER + PAPER + "a,rose,1,,#112233\n", "row 3: pigments is 'rose'"),
        (HEADER + PAPER + "a,PV19,1,,#112233\na,PB29,.5,,#112233\n", "an earlier row of 'a' says"),
        (HEADER + PAPER + ",,1,,#112233\n", "row 3: tube is blank"),
        ("tube,hex\npaper,#ffffff\n", "these columns are missing: strength"),
        ("tube,strength,colour\na,1,#112233\n", "unknown column 'colour'"),
        ("tube;strength;hex\na;1;#112233\n", "has no row for the bare paper"),
        ("tube;strength;hex\na;1,5;#112233\n", "row 2: strength is '1,5'; write the share"),
        ("tube;strength;hex\na;1;#112233;x\n", "the header has 3; check the semicolons"),
        ('tube,strength,hex\na,"0,5",#112233\n', "row 2: strength is '0,5'; write the share"),
        ("tube,strength,hex,L,a,b\na,1,#112233,50,0,0\n", "in 2 ways"),
        ("tube,strength,L\na,1,50\n", "CIELAB needs the columns a, b as well"),
        ("tube,strength,nm380\na,1,0.5\n", "the spectrum needs the columns nm390"),
        ("tube,strength,L,a,b\na,1,150,0,0\n", "L is '150'"),
    ],
)  # fmt: skip
def test_faults(tmp_path: Path, text: str, told: str) -> None:
    assert told in _faults(tmp_path, text)


def test_pigments_in_another_order_are_the_same(tmp_path: Path) -> None:
    rows = "x,PR122 + PB29,1,,#112233\nx,PB29 + PR122,.5,,#445566\n"
    assert read_swatches(_file(tmp_path, HEADER + PAPER + rows)).tubes[0].codes == ("PR122", "PB29")


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ("I,,", "IV,,", "row 4: lightfastness is 'IV', but an earlier row of 'a' says otherwise"),
        (",cobalt,no spray", ",none,", "row 4: hazard is 'none', but an earlier row of 'a' says"),
        (",cobalt,no spray", ",cobalt,no dust", "row 4: hazard is 'cobalt', but an earlier row of"),
    ],
)
def test_a_label_that_says_two_things(tmp_path: Path, one: str, other: str, told: str) -> None:
    header = "tube,strength,hex,lightfastness,hazard,hazard_note\npaper,,#ffffff,,,\n"
    assert told in _faults(tmp_path, f"{header}a,1,#ff0000,{one}\na,0.5,#ff8888,{other}\n")


def test_a_label_that_says_the_same_twice(tmp_path: Path) -> None:
    header = "tube,strength,hex,lightfastness,hazard,hazard_note\npaper,,#ffffff,,,\n"
    rows = "a,1,#ff0000,I,cobalt,no spray\na,0.5,#ff8888,I,cobalt,no spray\n"
    (tube,) = read_swatches(_file(tmp_path, header + rows)).tubes
    assert tube.label.hazards == (Hazard.COBALT,)


def test_a_noise_out_of_bounds(tmp_path: Path) -> None:
    path = _file(tmp_path, HEADER + PAPER + "a,,1,,#112233\n")
    with pytest.raises(InputError, match="colour_noise: is 0"):
        read_swatches(path, colour_noise=0)


def test_no_such_file(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_swatches(tmp_path / "none.csv")


def test_names_that_look_the_same_are_one_tube(tmp_path: Path) -> None:
    text = HEADER + PAPER + "my rose,,1,,#112233\nMy  rose,,0.5,,#445566\n"
    (tube,) = read_swatches(_file(tmp_path, text)).tubes
    assert (tube.name, len(tube.swatches)) == ("my rose", 2)


COMMAS = """tube,strength,over,hex,L,a,b,pigments
paper,,,,95.5,-0.5,3,
rose,1,,,40.25,-20.5,3.125,"PR122 + PV19"
"dusk, own",0.5,,#9080a0,,,,PB29
"dusk, own",1,black,#201014,,,,
"""


@pytest.mark.parametrize(("mark", "decimal"), [(";", ","), (";", "."), ("\t", ","), ("|", ",")])
@pytest.mark.parametrize("begins", ["", "\ufeff"])
def test_a_table_as_spreadsheets_with_decimal_commas_save_it(
    tmp_path: Path, mark: str, decimal: str, begins: str
) -> None:
    """The same cells, written by the standard library's writer, are the same swatches."""
    rows = list(csv.reader(io.StringIO(COMMAS)))
    numbers = {rows[0].index(column) for column in ("strength", "L", "a", "b")}
    stream = io.StringIO(newline="")
    csv.writer(stream, delimiter=mark).writerows(
        [cell.replace(".", decimal) if at in numbers else cell for at, cell in enumerate(row)]
        for row in rows
    )
    path = tmp_path / "swatches.csv"
    path.write_text(begins + stream.getvalue(), encoding="utf-8", newline="")
    plain = read_swatches(HeldFile("swatches.csv", COMMAS.encode()))
    assert repr(read_swatches(path)) == repr(plain)  # values are told by what they hold
    assert len(plain.tubes) == 2


def test_thousands_are_no_decimals_where_both_signs_stand(tmp_path: Path) -> None:
    told = _faults(tmp_path, "tube;strength;L;a;b\npaper;;95;0;3\nx;1;1.040,5;0;0\n")
    assert "row 3: L is '1.040,5'; it must be from 0 to 100" in told
