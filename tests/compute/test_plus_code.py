"""Plus Codes against the open test data of the specification.

Source: google/open-location-code, test_data/decoding.csv and validityTests.csv (Apache 2.0).
"""

import pytest

from planning.compute.plus_code import FULL, SHORT, decode

# code, south, west, north, east
DECODING = """\
7FG49Q00+,20.35,2.75,20.4,2.8
7FG49QCJ+2V,20.37,2.782125,20.370125,2.78225
7FG49QCJ+2VX,20.3701,2.78221875,20.370125,2.78225
7FG49QCJ+2VXGJ,20.370113,2.782234375,20.370114,2.78223632813
8FVC2222+22,47.0,8.0,47.000125,8.000125
4VCPPQGP+Q9,-41.273125,174.785875,-41.273,174.786
62G20000+,0.0,-180.0,1,-179
22220000+,-90,-180,-89,-179
7FG40000+,20.0,2.0,21.0,3.0
22222222+22,-90.0,-180.0,-89.999875,-179.999875
6VGX0000+,0,179,1,180
6FH32222+222,1,1,1.000025,1.00003125
CFX30000+,89,1,90,2
62H20000+,1,-180,2,-179
62H30000+,1,-179,2,-178
CFX3X2X2+X2,89.9998750,1,90,1.0001250
84000000+,30,-140,50,-120
6FH56C22+22,1.2000000000000028,3.4000000000000057,1.2001249999999999,3.4001250000000027
849VGJQF+VX7QR3J,37.5396691200,-122.3750698242,37.5396691600,-122.3750697021
849VGJQF+VX7QR3J7QR3J,37.5396691200,-122.3750698242,37.5396691600,-122.3750697021
"""

FULL_CODES = "8FWC2345+G6 8FWC2345+G6G 8fwc2345+ 8FWCX400+ 849VGJQF+VX7QR3J 849VGJQF+VX7QR3JW"
SHORT_CODES = "WC2345+G6g 2345+G6 45+G6"
NO_CODES = (
    "G+ + 8FWC2345+G 8FWC2_45+G6 8FWC2η45+G6 8FWC2345+G6+ 8FWC2345G6+ 8FWC2300+G6 "
    "WC2300+G6g WC2345+G WC2300+ 849VGJQF+VX7QR3U 849VGJQF+VX7QR3JU"
)


@pytest.mark.parametrize("line", DECODING.splitlines())
def test_published_codes_decode_to_their_cells(line):
    code, *edges = line.split(",")
    assert decode(code) == pytest.approx([float(edge) for edge in edges], abs=1e-10)


@pytest.mark.parametrize("code", FULL_CODES.split())
def test_published_full_codes_are_full(code):
    assert FULL.fullmatch(code)
    assert not SHORT.fullmatch(code)


@pytest.mark.parametrize("code", SHORT_CODES.split())
def test_published_short_codes_are_not_full(code):
    assert SHORT.fullmatch(code)
    with pytest.raises(ValueError, match="no full Plus Code"):
        decode(code)


@pytest.mark.parametrize("code", NO_CODES.split())
def test_published_broken_codes_are_neither(code):
    assert not FULL.search(code)
    assert not SHORT.search(code)


def test_a_code_off_the_globe_is_refused():
    for code in ("F2222222+22", "2W222222+22"):
        with pytest.raises(ValueError, match="not on the globe"):
            decode(code)
