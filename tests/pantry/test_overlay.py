"""An author's own pantry, laid over ours by name."""

from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gristbook.pantry.pantry import SECTIONS, Pantry, ours
from gristbook.pantry.reading import ASSUMED, read_section
from gristbook.problems import Problems

OURS = Pantry.load(None, Problems())


def laid_over(folder: Path, **files: str) -> tuple[Pantry, list[str]]:
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text, "utf-8")
    problems = Problems()
    return Pantry.load(folder, problems, "pantry"), [str(problem) for problem in problems]


def test_a_known_name_replaces_only_what_it_states(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, hops="- name: east kent goldings\n  alpha: 6.1 % (5.9 to 6.3)\n")
    hop, before = pantry.hops.look_up("EKG").only, OURS.hops.look_up("EKG").only
    assert not problems
    assert hop is not None
    assert before is not None
    assert (hop.alpha.typical, hop.alpha.low, hop.alpha.high) == pytest.approx((0.061, 0.059, 0.063))
    assert (hop.alpha.source, str(hop.alpha.place)) == ("pantry/hops.yaml", "pantry/hops.yaml:2:10")
    assert (hop.name, hop.aroma, hop.oil, hop.source) == (before.name, before.aroma, before.oil, before.source)
    assert len(pantry.hops.records) == len(OURS.hops.records)


def test_ours_stay_as_they_are_for_the_next_book(tmp_path: Path) -> None:
    laid_over(tmp_path, hops="- name: Cascade\n  alpha: 9 %\n")
    assert Pantry.load(None, Problems()).hops.look_up("Cascade").found == OURS.hops.look_up("Cascade").found


def test_a_new_name_adds_a_record_and_what_it_leaves_out_is_said_to_be_assumed(tmp_path: Path) -> None:
    stated = "kind: base\n  extract: 80 %\n  colour: 8 EBC\n  source: the maltster"
    text = f"- name: Mill floor malt\n  also: [floor malt]\n  {stated}\n"
    pantry, problems = laid_over(tmp_path, malts=text)
    malt = pantry.malts.look_up("floor malt").only
    assert not problems
    assert malt is not None
    assert (malt.name, malt.colour.typical, malt.colour.unit) == ("Mill floor malt", 8, "EBC malt")
    assert (malt.colour.source, malt.moisture.source, malt.moisture.typical) == ("the maltster", ASSUMED, 0.04)
    assert (malt.cereal, malt.needs_mash, malt.diastatic_power) == ("barley", True, None)
    assert len(pantry.malts.records) == len(OURS.malts.records) + 1


def test_a_single_figure_may_have_a_source_of_its_own(tmp_path: Path) -> None:
    text = "- name: Saaz\n  alpha: 3.1 %\n  oil: 0.6 mL/100 g\n  source: the label\n  sources: {oil: the grower}\n"
    hop = laid_over(tmp_path, hops=text)[0].hops.look_up("Saaz").only
    assert hop is not None
    assert hop.oil is not None
    assert (hop.alpha.source, hop.oil.source, hop.source) == ("the label", "the grower", "the label")


def test_other_names_are_added_to_ours(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, hops="- name: East Kent Golding\n  also: [hedge hop]\n")
    assert not problems
    assert pantry.hops.look_up("hedge hop").found == pantry.hops.look_up("EKG").found != ()


def test_what_an_author_says_in_no_can_be_taken_back(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, malts="- name: Dextrin malt\n  needs mash: no\n")
    malt = pantry.malts.look_up("dextrin malt").only
    assert not problems
    assert malt is not None
    assert malt.needs_mash is False


def test_a_missing_folder_is_an_empty_one(tmp_path: Path) -> None:
    problems = Problems()
    assert Pantry.load(tmp_path / "pantry", problems).malts.records == OURS.malts.records
    assert not len(problems)


@pytest.mark.parametrize(
    ("section", "text", "problem"),
    [
        ("malts", "- name: Vienna malt\n  color: 4 °L\n", '2:3: error: a malt has no "color"; did you mean "colour"?'),
        ("malts", "- name: X\n  kind: bass\n", '2:9: error: kind cannot be "bass"; expected base or'),
        ("malts", "- name: X\n  kind: base\n  extract: 80 %\n", "1:3: error: a malt needs colour"),
        ("malts", "- name: Vienna malt\n  extract: 80 kg\n", '2:12: error: "80 kg" is not a share'),
        ("malts", "- name: Vienna malt\n  cereal: weat\n", '2:11: error: cereal cannot be "weat"'),
        ("malts", "- name: Vienna malt\n  needs mash: perhaps\n", '2:15: error: needs mash cannot be "perhaps"'),
        ("malts", "- kind: base\n", "1:3: error: a malt needs name"),
        ("malts", "- name: ???\n", '1:9: error: "???" is not a name'),
        ("malts", "- name: Vienna malt\n  colour:\n", "2:3: error: colour is empty"),
        ("malts", "- Vienna malt, 4 °L\n", "1:3: error: this is not a malt; expected a list of entries"),
        ("malts", "Vienna malt:\n  colour: 4 °L\n", "1:1: error: the malts are not a list"),
        ("malts", "- name: Vienna malt\n   colour: 4\n", "error: "),
        ("hops", "- name: Saaz\n- name: saazer\n", '2:9: error: "saazer" is given twice; expected it once (line 1'),
        ("hops", "- name: Saaz\n  also: [EKG]\n", '2:10: error: "EKG" is a name of East Kent Golding already'),
        ("hops", "- name: Saaz\n  alpha: 3 %\n  sources: {alfa: x}\n", 'no figure "alfa"; did you mean "alpha"?'),
        ("hops", "- name: Saaz\n  sources: {oil: x}\n", "2:13: error: a source for oil, which is not given here"),
        ("yeasts", "- name: Kveik\n  temperature: 300 °C\n", '2:16: error: "300 °C" cannot be'),
    ],
)
def test_what_is_wrong_is_said_with_line_and_column(tmp_path: Path, section: str, text: str, problem: str) -> None:
    pantry, problems = laid_over(tmp_path, **{section: text})
    assert any(one.startswith(f"pantry/{section}.yaml:") and problem in one for one in problems), problems
    assert len(getattr(pantry, section).records) == len(getattr(OURS, section).records)


def test_a_wrong_value_leaves_ours_in_its_place(tmp_path: Path) -> None:
    pantry, problems = laid_over(tmp_path, hops="- name: Saaz\n  alpha: much\n  aroma: hay\n")
    hop, before = pantry.hops.look_up("Saaz").only, OURS.hops.look_up("Saaz").only
    assert len(problems) == 1
    assert hop is not None
    assert before is not None
    assert (hop.alpha, hop.aroma) == (before.alpha, "hay")


@pytest.mark.parametrize("wrong", ["cereal: weat", "moisture: wet", "needs mash: perhaps", "colour: red", "kind: x"])
def test_a_new_record_with_a_wrong_value_is_not_taken_in_half(tmp_path: Path, wrong: str) -> None:
    stated = {"kind": "base", "extract": "80 %", "colour": "3 °L"}
    stated[wrong.partition(": ")[0]] = wrong.partition(": ")[2]
    text = "- name: Mill floor malt\n" + "".join(f"  {key}: {value}\n" for key, value in stated.items())
    pantry, problems = laid_over(tmp_path, malts=text)
    assert len(problems) == 1
    assert not pantry.malts.look_up("Mill floor malt").found


@pytest.mark.parametrize(
    ("file", "problem"),
    [
        ("hop.yaml", 'pantry/hop.yaml:1:1: error: the pantry has no shelf "hop.yaml"; did you mean "hops.yaml"?'),
        ("hops.yml", 'pantry/hops.yml:1:1: error: a pantry file called "hops.yml"; did you mean "hops.yaml"?'),
    ],
)
def test_a_file_that_fits_no_shelf_is_a_problem(tmp_path: Path, file: str, problem: str) -> None:
    (tmp_path / file).write_text("- name: Saaz\n", "utf-8")
    assert laid_over(tmp_path)[1] == [problem]


def test_files_that_others_read_are_left_to_them(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("buy malt", "utf-8")
    assert laid_over(tmp_path, prices="x")[1] == []


def test_a_file_that_is_not_text_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "malts.yaml").write_bytes(b"\xff\xfe\x00")
    assert laid_over(tmp_path)[1] == [
        "pantry/malts.yaml:1:1: error: this file cannot be read; expected plain UTF-8 text"
    ]


@pytest.mark.parametrize("section", SECTIONS)
def test_our_own_file_laid_over_ours_changes_nothing_but_the_places(tmp_path: Path, section: str) -> None:
    text = files("gristbook.pantry").joinpath("data", f"{section}.yaml").read_text("utf-8")
    problems = Problems()
    again = read_section(text, "again.yaml", SECTIONS[section], ours(section), problems)
    assert not len(problems)
    assert again.records == ours(section).records


@given(st.text(alphabet="-:[]{} \n'\"#%°L0123456789namekidcolourextwhtsp", max_size=120))
def test_nothing_that_can_be_written_breaks_the_reading(text: str) -> None:
    for source in (text, "- name: Saaz\n  alpha: " + text, "- name: " + text + "\n  alpha: 4 %\n"):
        shelf = read_section(source, "pantry/hops.yaml", SECTIONS["hops"], ours("hops"), Problems())
        assert len(shelf.records) >= len(ours("hops").records)
