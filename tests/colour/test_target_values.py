"""A target's own values from a file: read, refused line by line, and used as the preset's are."""

import colour
import numpy as np
import pytest

from yarncolor import PlanError, photo
from yarncolor.colour.photo.annotations import read_annotations
from yarncolor.colour.photo.demo import TARGET_CORNERS, demo_photo
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.readings import seen_on
from yarncolor.colour.photo.target_values import OWN_VALUES, target_values
from yarncolor.colour.science import target_linear

EDITION = "newer values"
D50 = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D50"]
D65 = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]


def lab_of(linear: np.ndarray, white: np.ndarray) -> np.ndarray:
    """Return CIELAB of linear sRGB for a light, by the library and by nothing of ours."""
    xyz = colour.RGB_to_XYZ(linear, "sRGB", apply_cctf_decoding=False)
    from_white, to_white = colour.xy_to_XYZ(D65), colour.xy_to_XYZ(white)
    return colour.XYZ_to_Lab(
        colour.chromatic_adaptation(xyz, from_white, to_white, transform="Bradford"), white
    )


def written(lab: np.ndarray, columns: int, sign: str = ", ") -> str:
    rows = [[k // columns + 1, k % columns + 1, *one] for k, one in enumerate(lab.tolist())]
    return "\n".join(sign.join(f"{number:.9g}" for number in row) for row in rows)


@pytest.fixture(scope="module")
def preset() -> str:
    """Return the preset's values as a file has them."""
    return written(lab_of(target_linear(EDITION), D50), 6)


@pytest.fixture(scope="module")
def picture() -> Photo:
    return demo_photo()


def test_own_values_that_are_the_presets_put_a_picture_right_as_the_preset_does(
    preset, picture, tmp_path
):
    path = tmp_path / "target.csv"
    path.write_text(f"row, column, L, a, b\n{preset}\n", encoding="utf-8")
    own = photo.by_target(picture, TARGET_CORNERS, photo.read_target(path))
    by_preset = photo.by_target(picture, TARGET_CORNERS, EDITION)
    assert own.left_out_mean == pytest.approx(by_preset.left_out_mean, abs=1e-3)
    assert own.correction.matrix == pytest.approx(by_preset.correction.matrix, abs=1e-4)


@pytest.mark.parametrize("sign", [", ", "; ", "\t", " "])
def test_values_are_read_however_a_table_parts_them(sign):
    lab = np.column_stack([np.linspace(20, 95, 15), np.zeros(15), np.zeros(15)])
    lab[5:] += [0, 30, -20]
    found = target_values(f"\ufeffpatch values\n\n{written(lab, 5, sign)} # the last\n", "file")
    assert (found.rows, found.columns) == (3, 5)
    assert found.neutral.tolist() == [0, 1, 2, 3, 4]
    assert lab_of(found.linear, D50) == pytest.approx(lab, abs=0.01)


def test_decimal_commas_of_a_spreadsheet_and_another_light_are_read():
    lab = np.column_stack([np.linspace(20.5, 95.5, 12), np.zeros(12), np.zeros(12)])
    text = written(lab, 4, ";").replace(".", ",")
    found = target_values(f"light; D65\n{text}", "file")
    assert lab_of(found.linear, D65) == pytest.approx(lab, abs=0.01)


@pytest.mark.parametrize("turn", [0, 1, 2, 3])
@pytest.mark.parametrize(("rows", "columns"), [(3, 5), (2, 8), (10, 14)])
def test_a_target_of_any_field_is_found_however_it_lies(rows, columns, turn):
    patches = np.random.default_rng(1).uniform(0.03, 0.9, (rows * columns, 3))
    patches[:4] = np.array([0.05, 0.2, 0.45, 0.9])[:, None]
    camera = np.array([[0.85, 0.12, 0.02], [0.1, 0.75, 0.1], [0.02, 0.14, 0.7]])
    drawn = colour.cctf_encoding(patches @ camera.T).reshape(rows, columns, 3)
    wide = np.rint(255 * np.kron(drawn, np.ones((24, 24, 1)))).astype(np.uint8)
    seen = np.rot90(np.pad(wide, ((30, 30), (40, 40), (0, 0)), mode="edge"), turn)
    high_px, wide_px = seen.shape[:2]
    x, y = (40, 30) if turn % 2 == 0 else (30, 40)
    left, top, right, low = x / wide_px, y / high_px, 1 - x / wide_px, 1 - y / high_px
    corners = [(left, top), (right, top), (right, low), (left, low)]
    own = target_values(written(lab_of(patches, D50), columns), "file")
    found = photo.by_target(Photo(np.ascontiguousarray(seen)), corners, own)
    assert found.left_out_mean < 1.5
    assert f"{rows * columns}-patch target" in found.correction.words


GREY = "\n".join(
    f"{row}, {column}, {20 + 5 * row + column}, 0, 0"
    for row in (1, 2, 3)
    for column in (1, 2, 3, 4)
)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "file: patches = 0: give 12 or more, in rows"),
        ("no values at all", "file: patches = 0: give 12 or more, in rows"),
        (GREY.replace("2, 3, 33, 0, 0", "2, 3, 33, 0"), 'file: line 7 = "2, 3, 33, 0": give row'),
        (GREY.replace("33", "133"), 'file: line 7 = "2, 3, 133, 0, 0": give row, column, L, a and'),
        (GREY.replace("33", "nan"), 'file: line 7 = "2, 3, nan, 0, 0": give row, column, L, a and'),
        (GREY.replace("2, 3, 33", "0, 3, 33"), 'file: line 7 = "0, 3, 33, 0, 0": give row, column'),
        (f"{GREY}\n1, 1, 5, 0, 0", 'line 13 = "1, 1, 5, 0, 0": this patch stands in the file alr'),
        (f"light A\n{GREY}", 'file: line 1 = "light A": give D50 or D65'),
        (GREY.replace("2, 3, 33, 0, 0\n", ""), "row 2, column 3: is missing, in a field of 3 rows"),
        ("\n".join(GREY.splitlines()[:8]), "file: patches = 8: give 12 or more, in rows"),
        (GREY.replace(", 0, 0", ", 40, 0"), "file: patches: give 3 or more that are grey"),
        ("x" * 30_000, "file: is too long; give a line for each patch"),
    ],
)
def test_what_is_no_target_is_told_line_by_line(text, told):
    with pytest.raises(PlanError) as error:
        target_values(text, "file")
    assert told in str(error.value)


def test_every_wrong_line_is_told_at_once():
    with pytest.raises(PlanError) as error:
        target_values(f"{GREY}\n4, 1\n4, two, 5, 0, 0", "file")
    assert len(str(error.value).splitlines()) == 2


def test_a_file_that_cannot_be_read_is_told(tmp_path):
    (tmp_path / "binary").write_bytes(b"\xff\xfe\x00")
    for name in ("binary", "nowhere", "."):
        with pytest.raises(PlanError, match="cannot be read"):
            photo.read_target(tmp_path / name)


def test_on_the_bench_own_values_are_asked_for_read_and_doubted(picture, preset):
    drawn = {"corners": TARGET_CORNERS, "way": "target", "edition": OWN_VALUES}
    asked = seen_on(picture, read_annotations(drawn))
    assert "open the file of the target's values" in asked.faults["corners"]
    wrong = seen_on(picture, read_annotations(drawn | {"values": "1, 1, 5"}), asked)
    assert "the values: line 1" in wrong.faults["corners"]
    right = seen_on(picture, read_annotations(drawn | {"values": preset}), wrong)
    assert "corners" not in right.faults
    assert right.fit is not None
