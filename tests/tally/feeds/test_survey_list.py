"""Surveys as CSV files: found by their titles, read exactly, or refused row by row."""

from __future__ import annotations

from pathlib import Path

import pytest

from tally.errors import JobFileError
from tally.feeds.survey_list import parse_survey, read_survey

WANTED = (
    {"measured_depth": "0 ft", "inclination": "0 deg", "azimuth": "0 deg"},
    {"measured_depth": "3300.5 ft", "inclination": "0.8 deg", "azimuth": "117.25 deg"},
)


@pytest.mark.parametrize(
    "text",
    [
        "measured depth,inclination,azimuth\n0,0,0\n3300.5,0.8,117.25\n",
        "MD (ft);Inc (deg);Azi (deg)\n0;0;0\n3300,5;0,8;117,25\n",
        "MD\tINCL\tAZIM\n0\t0\t0\n\n3300,5\t0,8\t117,25\n",
        "Azimuth,TVD,MD [ft],Inclination\n0,0,0,0\n117.25,3299,3300.5,0.8\n",
        "Larkspur 14,,\ndefinitive,,\nMD ft,Inc. deg,Azi. deg\n0,0,0\n3300.5,0.8,117.25\n",
        '"MD","Inc","Azi"\r\n"0 ft","0 deg","0"\r\n"3300.5 ft","0.8","117.25 deg"\r\n',
    ],
)
def test_a_survey_is_read_whatever_its_form(text: str) -> None:
    assert parse_survey(text, "ft") == WANTED


def test_the_unit_of_the_title_goes_before_the_one_assumed() -> None:
    text = "MD (m),Inc,Azi\n1006,0.8,117\n"
    assert parse_survey(text, "ft")[0]["measured_depth"] == "1006 m"
    assert parse_survey(text.replace(" (m)", ""), "ft")[0]["measured_depth"] == "1006 ft"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "The survey has no column for: measured depth, inclination, azimuth."),
        ("MD,Inc\n1,2\n", "The survey has no column for: azimuth."),
        ("MD,Inc,Azi\n", "The survey has no station in it"),
        ("MD,Inc,Azi\n" + "1,2,3\n" * 5_100, "more than 5,000 rows"),
    ],
)
def test_what_is_no_survey_is_one_sentence(text: str, said: str) -> None:
    with pytest.raises(JobFileError) as caught:
        parse_survey(text, "ft")
    assert len(caught.value.faults) == 1
    assert said in str(caught.value)


def test_every_doubtful_station_is_told_with_its_row(tmp_path: Path) -> None:
    path = tmp_path / "survey.csv"
    path.write_text("MD,Inc,Azi\n0,0,0\n4,127,x,9**9\n\n,1,\u202e2\n[/],1,2\n", encoding="utf-8")
    with pytest.raises(JobFileError) as caught:
        read_survey(path, "ft")
    starts = [each.split('"')[0].strip() for each in caught.value.faults]
    assert starts == [
        "survey.csv. Row 3: azimuth:",
        "survey.csv. Row 5: measured depth:",
        "survey.csv. Row 5: azimuth:",
        "survey.csv. Row 6: measured depth:",
    ]
    assert all(each.isascii() and each.isprintable() for each in caught.value.faults)


def test_a_file_that_is_not_there_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match=r"There is no survey 'gone\.csv'"):
        read_survey(tmp_path / "gone.csv", "ft")
