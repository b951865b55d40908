"""What publishes a book: the hook, the workflow that `start` lays, and pages that stand under any address."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from posixpath import dirname, join, normpath
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest
import the_demo
import yaml

from gristbook import cli
from gristbook.cli.start import WORKFLOW

from .conftest import Ran

Run = Callable[..., Ran]
ROOT = Path(__file__).parents[2]


def read_by_the_parser(words: list[str]) -> str:
    """The command that a call is of; our parser ends the test where it would not read it."""
    assert words[0] == "gristbook"
    return str(cli.parser(words[1:]).parse_args(words[1:]).command)


def test_the_hook_calls_a_command_that_there_is() -> None:
    (hook,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
    assert read_by_the_parser([*shlex.split(hook["entry"]), *hook["args"]]) == "check"
    assert re.fullmatch("[a-z-]+", hook["id"])
    assert (hook["language"], hook["pass_filenames"]) == ("python", False)


@pytest.fixture
def workflow(book: Path, run: Run) -> dict[str, Any]:
    ran = run("start", "book", "--workflow")
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert ran.out.startswith(f"book/{WORKFLOW}\n")
    assert run("check", "book", "--strict").status == cli.FINE
    found = yaml.safe_load((book / WORKFLOW).read_text("utf-8"))
    assert isinstance(found, dict)
    return found


def steps(job: dict[str, Any]) -> Iterator[tuple[str, dict[str, str]]]:
    """What a job runs, and what is set in the environment for it."""
    for step in job["steps"]:
        if "run" in step:
            yield step["run"], step.get("env", {})


def commands(job: dict[str, Any]) -> list[str]:
    calls = [shlex.split(line.partition(" >> ")[0]) for line, _ in steps(job) if not line.startswith("pip install ")]
    return [read_by_the_parser(call) for call in calls]


def test_a_pull_request_is_checked_and_compared_and_nothing_of_it_is_built(workflow: dict[str, Any]) -> None:
    when = workflow[True]  # YAML 1.1 reads `on` so
    assert when == {"pull_request": None, "push": {"branches": ["main"]}}
    jobs = workflow["jobs"]
    assert commands(jobs["check"]) == ["check", "compare"]
    assert jobs["check"]["if"] == "github.event_name == 'pull_request'"
    assert jobs["build"]["if"] == "github.event_name == 'push'"
    assert commands(jobs["build"]) == ["build"]
    assert (jobs["publish"]["needs"], commands(jobs["publish"])) == ("build", [])
    assert jobs.keys() == {"check", "build", "publish"}


def test_nothing_is_permitted_that_is_not_needed(workflow: dict[str, Any], book: Path) -> None:
    assert workflow["permissions"] == {"contents": "read"}
    permitted = {name: job.get("permissions") for name, job in workflow["jobs"].items()}
    assert permitted == {"check": None, "build": None, "publish": {"pages": "write", "id-token": "write"}}
    text = (book / WORKFLOW).read_text("utf-8")
    assert "secrets" not in text
    assert "pull_request_target" not in text
    used = [step for job in workflow["jobs"].values() for step in job["steps"] if "uses" in step]
    assert len(used) == 6
    for step in used:
        assert re.fullmatch(r"actions/[a-z-]+@v\d+", step["uses"])
        assert "checkout" not in step["uses"] or step["with"]["persist-credentials"] is False
    assert workflow["env"] == {"GRISTBOOK": ""}  # an author says it, and until then the run stops at the line that asks
    installs = [
        step["run"] for job in workflow["jobs"].values() for step in job["steps"] if "pip" in step.get("run", "")
    ]
    assert len(installs) == 2
    assert all("${GRISTBOOK:?" in line for line in installs)
    words = [word for line, env in steps(workflow["jobs"]["check"]) for word in (line, *env.values())]
    asked = re.findall(r"\$\{\{.*?\}\}", " ".join(words))
    assert asked == ["${{ github.event.pull_request.base.sha }}"]  # no word of a stranger's is put into a shell


def test_its_commands_do_what_it_says(workflow: dict[str, Any], book: Path, tmp_path: Path) -> None:
    tools = tmp_path / "tools"
    tools.mkdir()
    (tools / "gristbook").write_text(f'#!/bin/sh\nexec {shlex.quote(sys.executable)} -m gristbook "$@"\n', "utf-8")
    (tools / "gristbook").chmod(0o755)
    kept = {"GIT_CONFIG_GLOBAL": "/dev/null", "GIT_CONFIG_NOSYSTEM": "1"}
    summary = tmp_path / "summary.md"
    around = os.environ | kept | {"PATH": f"{tools}:{os.environ['PATH']}", "GITHUB_STEP_SUMMARY": str(summary)}

    def called(line: str, env: dict[str, str]) -> None:
        subprocess.run(["bash", "-e", "-c", line], cwd=book, env=around | env, check=True, capture_output=True)

    me = "git -c user.name=me -c user.email=me@example.org"
    called(f"git init -q -b main && git add -A && {me} commit -q -m first", {})
    (book / "bitter.md").write_text((book / "bitter.md").read_text("utf-8").replace("3.6 kg", "4.2 kg"), "utf-8")
    for line, env in steps(workflow["jobs"]["check"]):
        if line.startswith("gristbook"):
            called(line, dict.fromkeys(env, "HEAD"))
    assert "| original gravity |" in summary.read_text("utf-8")
    assert not (book / "site").exists()
    for line, env in steps(workflow["jobs"]["build"]):
        if line.startswith("gristbook"):
            called(line, env)
    assert (book / "site" / "index.html").is_file()


def test_a_new_book_may_have_it_from_the_start_and_nothing_is_written_over(
    tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run("start", "mine", "--workflow")
    assert ran.status == cli.FINE
    assert f"  mine/{WORKFLOW}\n" in ran.out
    laid = Path("mine", WORKFLOW)
    laid.write_text("mine", "utf-8")
    ran = run("start", "mine", "--workflow")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert f"mine has {WORKFLOW} already: nothing was written" in ran.err
    assert laid.read_text("utf-8") == "mine"


def test_every_page_stands_under_any_address(demo_site: the_demo.Site) -> None:
    """No link begins at the root of a host: within the site all are relative, and lead to a file of it."""
    files, address = demo_site.files, the_demo.book().address
    assert address
    found = 0
    for path, data in files.items():
        if not path.endswith(".html"):
            continue
        for tag, link in re.findall(r'<(\w+)[^>]* (?:href|src)="([^"]*)"', data.decode()):
            parts = urlsplit(link.replace("&amp;", "&"))
            if parts.scheme or parts.netloc:
                assert tag == "a" or link.startswith(address), (path, link)
                continue
            assert not parts.path.startswith("/"), (path, link)
            there = normpath(join(dirname(path), unquote(parts.path))) if parts.path else path
            assert there in files, (path, link)
            found += 1
    assert found > 10_000
    for name in (name for name in files if name.endswith((".css", ".js"))):
        assert not re.search(r"""url\(["']?/|["'`]/[a-z]|location\.(?:origin|host)""", files[name].decode()), name
