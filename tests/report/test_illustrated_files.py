"""The pictures as files: one of each kind, with plain names, well-formed."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from fewtubes.catalogue.records import Paper
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.mixing.mixture import Optics
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.files import picture_files, plan_pictures
from fewtubes.shopping.plan import Plan

PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"
"""ISO/IEC 15948, section 5.2."""


@pytest.fixture
def optics() -> Optics:
    """Return a white paper under an even light, with weights that make grey grey."""
    paper = Paper("white", "white", np.full(BAND_COUNT, 0.88))
    return Optics.with_weights(paper, np.full((BAND_COUNT, 3), 100 / BAND_COUNT))


def with_flower(plan: Plan, name: str) -> Plan:
    return replace(
        plan,
        flowers=(replace(plan.flowers[0], name=name),),
        samples=tuple(replace(p, sample=replace(p.sample, flower=name)) for p in plan.samples),
    )


def test_tubes_plane_and_each_flower_come_as_svg_and_png(plan: Plan, optics: Optics) -> None:
    files = picture_files(Basis(plan, optics))
    stems = ("tubes", "hue-and-chroma", "flower-01-rose")
    assert sorted(files) == sorted(f"{stem}.{end}" for stem in stems for end in ("svg", "png"))
    for name, content in files.items():
        if isinstance(content, bytes):
            assert name.endswith(".png")
            assert content.startswith(PNG_SIGNATURE)
        else:
            assert ET.fromstring(content).tag.endswith("svg")  # noqa: S314 - our own output


def test_files_are_the_same_every_time(plan: Plan, optics: Optics) -> None:
    assert picture_files(Basis(plan, optics)) == picture_files(Basis(plan, optics))


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Sweet pea, pink", "flower-01-sweet-pea-pink"),
        ("Pensée d'été", "flower-01-pensee-d-ete"),
        ("../../etc/passwd", "flower-01-etc-passwd"),
        ("牡丹", "flower-01"),
        ("con", "flower-01-con"),
        ("x" * 10_000, f"flower-01-{'x' * 40}"),
    ],
)
def test_names_become_plain_file_names(plan: Plan, optics: Optics, name: str, stem: str) -> None:
    pictures = plan_pictures(Basis(with_flower(plan, name), optics))
    assert stem in pictures
    assert all(re.fullmatch(r"[a-z0-9-]{1,60}", found) for found in pictures)


def test_names_are_told_in_the_pictures_and_cut(plan: Plan, optics: Optics) -> None:
    basis = Basis(with_flower(plan, "<b>" + "x" * 500), optics)
    svg = picture_files(basis)[f"flower-01-b-{'x' * 38}.svg"]
    assert isinstance(svg, str)
    assert "&lt;b&gt;xxx" in svg
    assert max(map(len, re.findall("x+", svg))) < 60


def test_a_plan_without_tubes_has_no_picture_of_tubes(empty_plan: Plan, optics: Optics) -> None:
    assert sorted(plan_pictures(Basis(empty_plan, optics))) == ["flower-01-rose", "hue-and-chroma"]


def test_a_missed_colour_is_told_in_the_flowers_note(plan: Plan, optics: Optics) -> None:
    svg = picture_files(Basis(plan, optics))["flower-01-rose.svg"]
    assert isinstance(svg, str)
    assert "× out of reach (1 colour): more than ΔE00 4.0 off." in svg
