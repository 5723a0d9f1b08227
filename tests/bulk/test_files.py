"""The file runner: what it reads, what it writes, what it refuses, and that its memory does not grow with the file."""

import csv
import io
import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import polars
import pytest

from kneewall.bulk.chunk import Chunk, Job, run_chunk
from kneewall.bulk.source import Source, Unreadable
from tests.asking import answer, result, value
from tests.bulk.conftest import kneewall

HEADING = "/airflow [cfm],/friction_rate [inH2O/100ft],/duct/material,id"


def answered(folder: Path, text: str | bytes, *options: str, name: str = "in.csv") -> list[dict[str, str]]:
    """The rows that come of a file with this text."""
    (folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())
    done = kneewall("bulk", folder / name, "--calculation", "duct-sizing", "--out", folder / "out.csv", *options)
    assert done.returncode == 0, done.stderr
    with (folder / "out.csv").open(newline="") as file:
        return list(csv.DictReader(file))


def chunked(text: bytes, heading: str, out: str = "csv", **job: Any) -> list[dict[str, str]]:
    """The same in this process, as one chunk."""
    names = tuple(next(csv.reader([heading])))
    written = run_chunk(Job("csv", "duct-sizing", names, out, **job), Chunk(text, 2, 0, 0))  # type: ignore[arg-type]
    columns = kind_of_heading(names, **job)
    return [dict(zip(columns, row, strict=True)) for row in csv.reader(io.StringIO(written.text.decode(), newline=""))]


def kind_of_heading(names: tuple[str, ...], **job: Any) -> list[str]:
    from kneewall.bulk.chunk import writing_of

    return next(csv.reader([writing_of(Job("csv", "duct-sizing", names, "csv", **job)).heading.decode().strip()]))


def test_a_row_gets_the_figures_of_the_single_question(tmp_path: Path) -> None:
    rows = answered(tmp_path, f"{HEADING}\n400,0.1,,hall\n110,0.08,flexible,bath\n")
    for row, question in zip(
        rows,
        (
            {"airflow": "400 cfm", "friction_rate": "0.1 inH2O/100ft"},
            {"airflow": "110 cfm", "friction_rate": "0.08 inH2O/100ft", "duct": {"material": "flexible"}},
        ),
        strict=True,
    ):
        alone = answer("duct-sizing", question)
        assert float(row["/result/size/diameter [in]"]) == value(alone["result"]["size"]["diameter"], "in")
        assert float(row["/result/velocity [fpm]"]) == value(alone["result"]["velocity"], "fpm")
        assert float(row["/result/friction_factor"]) == alone["result"]["friction_factor"]
        assert row["/result/regime"] == alone["result"]["regime"]
        worst = "watch" if any(check["verdict"] == "watch" for check in alone["checks"]) else "meets"
        assert row["verdict"] == worst
    assert [(row["line"], row["id"]) for row in rows] == [("2", "hall"), ("3", "bath")]
    assert rows[1]["attention"] == "flexible duct: watch"


@pytest.mark.parametrize(
    ("heading", "cell"),
    [
        ("/airflow [cfm]", "400"),
        ("/airflow [CFM]", " 400 "),
        ("/airflow", "400 cfm"),
        ("/airflow [L/s]", "400 cfm"),
        ("/airflow [m3/h]", "679.6043"),
        ("/airflow [cfm]", "800/2"),
        ("/airflow [cfm]", "399 2/2"),
        ("/airflow [cfm]", "4e2"),
    ],
)
def test_a_unit_stands_in_the_cell_or_in_the_heading(heading: str, cell: str) -> None:
    """400 cfm is 679.6043 m3/h: 400 * 0.3048^3 * 60."""
    row = chunked(f"{cell},0.1 inH2O/100ft\n".encode(), f"{heading},/friction_rate")[0]
    wanted = result("duct-sizing", {"airflow": "400 cfm", "friction_rate": "0.1 inH2O/100ft"})
    assert float(row["/result/velocity [fpm]"]) == pytest.approx(value(wanted["velocity"], "fpm"), rel=2e-7)


@pytest.mark.parametrize("cell", ["nan", "inf", "1_0", "400 kg", "4,0", "400cfm", "--4", "400 cfm cfm", "０"])
def test_a_cell_that_is_no_quantity_refuses_its_row_alone(cell: str) -> None:
    quoted = f'"{cell}"' if "," in cell else cell
    before, faulty, after = chunked(f"400,0.1\n{quoted},0.1\n400,0.1\n".encode(), "/airflow [cfm],/friction_rate [inH2O/100ft]")
    assert faulty["verdict"] == "refused" and faulty["refusal"].startswith("/airflow ")
    assert before["verdict"] == after["verdict"] == "meets"


def test_all_faults_of_a_row_are_named() -> None:
    row = chunked(b"3 kg,0.1,paper,x\n", "/airflow,/friction_rate [inH2O/100ft],/duct/material,/duct/stretch")[0]
    assert [part.split(" ")[0] for part in row["refusal"].split("; /")] == ["/airflow", "duct/material", "duct/stretch"] or row["refusal"].count(
        "/"
    ) >= 3


def test_quoted_cells_line_ends_and_a_byte_order_mark(tmp_path: Path) -> None:
    """RFC 4180: quoted cells may hold commas, doubled quotes and line ends; lines may end with CR LF."""
    text = b'\xef\xbb\xbf"/airflow [cfm]",/friction_rate [inH2O/100ft],id\r\n400,0.1,"a ""b"", c"\r\n"400","0.1","two\r\nlines"\r\n\r\n400,0.1,last'
    rows = answered(tmp_path, text)
    assert [(row["line"], row["id"]) for row in rows] == [("2", 'a "b", c'), ("3", "two\r\nlines"), ("6", "last")]


def test_quotes_and_line_ends_anywhere_do_not_move_the_cut(tmp_path: Path) -> None:
    """However small the chunks, their rows are those of Python's own csv module."""
    cells = ['plain,"quo\nted"', '"a ""b""\n\n"', '12" duct', "", "x,y", '"last\n"']
    lines = ["/airflow [cfm],id,note"] + [f"{number},n{number},{cells[number % len(cells)]}" for number in range(200)]
    path = tmp_path / "cut.csv"
    path.write_text("\n".join(lines) + "\n", newline="")
    with path.open(newline="") as file:
        whole = [row for row in csv.reader(file) if row][1:]
    source = Source(path)
    for size in (1, 7, 50, 333, 100_000):
        found, numbers = [], []
        for chunk in source.chunks(source.start, source.first, lambda size=size: size):  # type: ignore[misc]
            rows = csv.reader(io.StringIO(chunk.text.decode(), newline=""))
            found += [row for row in rows if row]
            numbers.append((chunk.first, chunk.next_first))
        assert found == whole
        assert all(one[1] == other[0] for one, other in pairwise(numbers))


def test_a_quote_that_never_closes_stops_with_its_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from kneewall.bulk import source

    monkeypatch.setattr(source, "LONGEST_CELL", 1000)
    path = tmp_path / "open.csv"
    path.write_text('/airflow [cfm]\n"400\n' + "1\n" * 2000)
    with pytest.raises(Unreadable, match="line 2"):
        list(Source(path).chunks(15, 2, lambda: 100))


@pytest.mark.parametrize(
    ("heading", "says"),
    [
        ("/airflows [cfm]", "/airflows [cfm] is not a field"),
        ("/airflow [kg]", "has a unit that does not fit"),
        ("/duct/material [in]", "this field takes none"),
        ("/airflow [cfm],/airflow [cfm]", "more than once"),
        ("/airflow [cfm],/airflow", "/airflow is given by another column"),
        ("/duct,/duct/material", "is given by another column"),
        ("room,note", "no column is a JSON pointer"),
        ("/airflow [cfm", "is not a JSON pointer with a unit"),
    ],
)
def test_a_heading_that_is_wrong_begins_nothing(tmp_path: Path, heading: str, says: str) -> None:
    (tmp_path / "in.csv").write_text(f"{heading}\n400\n")
    done = kneewall("bulk", tmp_path / "in.csv", "--calculation", "duct-sizing", "--out", tmp_path / "out.csv")
    assert done.returncode == 2 and says in done.stderr
    assert not list(tmp_path.glob("out*"))


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--out", "out.txt"], "ends with none of"),
        (["--out", "out.ndjson", "--columns", "/result/velocity"], "is for tables"),
        (["--out", "out.csv", "--columns", "/result/speed"], "/result/speed is not a column"),
        (["--out", "out.csv", "--columns", "/result/velocity [kg]"], "is not answered in"),
        (["--out", "there.csv"], "is there already"),
        (["--out", "out.csv", "--workers", "0"], "between 1 and"),
        (["--out", "out.csv", "--cluster", "tcp://127.0.0.1:1"], "no cluster answers"),
        (["--out", "out.csv", "--against", "ftp://x"], "is not the http address"),
    ],
)
def test_what_cannot_be_done_begins_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, options: list[str], says: str) -> None:
    monkeypatch.setattr("kneewall.bulk.ways.PATIENCE", 1)
    (tmp_path / "in.csv").write_text("/airflow [cfm]\n400\n")
    (tmp_path / "there.csv").write_text("precious")
    options[1] = str(tmp_path / options[1])
    done = kneewall("bulk", tmp_path / "in.csv", "--calculation", "duct-sizing", *options)
    assert done.returncode == 2 and says in done.stderr, done.stderr
    assert (tmp_path / "there.csv").read_text() == "precious"


def test_columns_and_units_are_chosen(tmp_path: Path) -> None:
    rows = answered(tmp_path, f"{HEADING}\n400,0.1,,a\n", "--columns", "/result/velocity [m/s],/result/size/diameter", "--units", "si")
    assert list(rows[0]) == ["line", "id", "verdict", "attention", "refusal", "/result/velocity [m/s]", "/result/size/diameter [mm]"]
    assert float(rows[0]["/result/size/diameter [mm]"]) == 254
    assert float(rows[0]["/result/velocity [m/s]"]) == pytest.approx(3.7256, rel=1e-4)


def test_the_summary_names_verdicts_and_commonest_faults(tmp_path: Path) -> None:
    (tmp_path / "in.csv").write_text(f"{HEADING},room\n400,0.1,,a,x\n3,kg,,b,x\n4,kg,,c,x\n5,5,paper,d,x\n")
    done = kneewall("bulk", tmp_path / "in.csv", "--calculation", "duct-sizing", "--out", tmp_path / "out.csv")
    assert "4 rows, 1 answered, 3 refused" in done.stdout
    faults = done.stdout.split("Commonest faults\n")[1].splitlines()
    assert [line.split()[:2] for line in faults] == [["2", "/friction_rate:"], ["1", "/duct/material:"]]
    assert "not read" in done.stderr and "room" in done.stderr
    assert "rows/s" in done.stderr


def test_parquet_in_and_out(tmp_path: Path) -> None:
    airflow = [100.0 + number for number in range(30_000)]
    frame = polars.DataFrame({"/airflow [cfm]": airflow, "/friction_rate": ["0.1 inH2O/100ft"] * 30_000, "id": list(range(30_000))})
    frame.write_parquet(tmp_path / "in.parquet", row_group_size=7_000)
    frame.write_csv(tmp_path / "in.csv")
    for name in ("parquet", "csv"):
        done = kneewall("bulk", tmp_path / f"in.{name}", "--calculation", "duct-sizing", "--out", tmp_path / f"{name}.parquet")
        assert done.returncode == 0, done.stderr
    by_row, by_line = (polars.read_parquet(tmp_path / f"{name}.parquet") for name in ("parquet", "csv"))
    assert by_row["row"].to_list() == list(range(1, 30_001))
    assert by_row.drop("row").equals(by_line.drop("line"))
    assert by_row["id"].to_list() == [str(number) for number in range(30_000)]
    kinds = {"/result/velocity [fpm]": polars.Float64, "/result/regime": polars.String, "row": polars.Int64}
    assert {name: by_row.schema[name] for name in kinds} == kinds


def test_whole_answers_in_lines(tmp_path: Path) -> None:
    questions: list[Any] = [{"airflow": f"{airflow} cfm", "friction_rate": "0.1 inH2O/100ft"} for airflow in (100, 400)]
    (tmp_path / "in.ndjson").write_text("\n".join(map(json.dumps, questions)) + "\n\n{\n")
    done = kneewall("bulk", tmp_path / "in.ndjson", "--calculation", "duct-sizing", "--out", tmp_path / "out.ndjson")
    assert done.returncode == 0
    lines = [json.loads(line) for line in (tmp_path / "out.ndjson").read_text().splitlines()]
    assert lines[:2] == [{"id": number, "answer": answer("duct-sizing", question)} for number, question in enumerate(questions, 1)]
    assert (lines[2]["id"], lines[2]["problem"]["status"], lines[2]["problem"]["instance"]) == (4, 400, "in.ndjson:4")


def test_an_empty_table_gives_an_empty_table(tmp_path: Path) -> None:
    assert answered(tmp_path, f"{HEADING}\n") == []
    assert (tmp_path / "out.csv").read_text().startswith("line,id,verdict")


def test_a_figure_that_is_not_finite_refuses_its_row_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """The columns of many rows are written at once; one row that left the range of arithmetic must not take the others along."""
    import msgspec

    from kneewall.bulk import chunk
    from kneewall.catalogue import all_calculations
    from kneewall.kernel.quantity import Velocity

    sound = all_calculations()["duct-sizing"]

    def unsound(question: Any) -> Any:
        found = sound.function(question)
        broken = msgspec.structs.replace(found.result, velocity=Velocity("inf"))
        return msgspec.structs.replace(found, result=broken) if question.airflow > 0.4 else found

    from dataclasses import replace

    monkeypatch.setattr(chunk, "calculation_of", lambda _: replace(sound, function=unsound))
    chunk.reading_of.cache_clear()
    rows = chunked(b"400,0.1\n4000,0.1\n500,0.1\n", "/airflow [cfm],/friction_rate [inH2O/100ft]")
    chunk.reading_of.cache_clear()
    assert [row["verdict"] for row in rows] == ["meets", "refused", "meets"]
    assert "outside what can be computed" in rows[1]["refusal"]
