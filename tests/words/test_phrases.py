"""The phrases of all languages: none is missing, none left over, each with the same parts and its grammar's forms."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from string import Formatter

import msgspec
import pytest
import yaml
from babel.core import Locale

from sowsheet.words.language import FOLDER, LANGUAGES, Phrase, language_of

CODE = FOLDER.parent
OTHERWISE = frozenset(("weekend card.in month",))  # another part there: `Weekend, June 5 and June 6`
NO_LANGUAGE = frozenset(("progress", "self"))  # what else has a `say`
BEFORE = {"reader": "record.wrong."}  # who puts something before every key
EN = {**language_of("en").phrases, **language_of("en").rare}
FAMILIES = frozenset(key.partition(".")[0] for key in EN)


class Say(msgspec.Struct, frozen=True):
    """A call of `say` or `said` in the code.

    Its key (`*` where the code puts something in) and its parts; None: not all seen.
    """

    where: str
    key: str
    parts: frozenset[str] | None


def phrases_of(tag: str) -> dict[str, Phrase]:
    """All phrases of a language, those that are rarely wanted too."""
    language = language_of(tag)
    return {**language.phrases, **language.rare}


def parts_of(phrase: Phrase) -> set[str]:
    """The {parts} of a phrase, in whichever of its forms."""
    forms = phrase.values() if isinstance(phrase, dict) else [phrase]
    return {name for form in forms for _, name, *_ in Formatter().parse(form) if name is not None}


def keys_in(node: ast.expr) -> Iterator[str]:
    """The keys that an expression may give, as far as they are written: `job.how.*`."""
    match node:
        case ast.Constant(value=str(key)):
            yield key
        case ast.IfExp(body=one, orelse=other):
            yield from (*keys_in(one), *keys_in(other))
        case ast.JoinedStr(values=values):
            yield "".join(str(v.value) if isinstance(v, ast.Constant) else "*" for v in values)


def parts_given(call: ast.Call) -> frozenset[str] | None:
    """The parts that a call hands over by name; None where not all can be seen."""
    given = [word.arg for word in call.keywords]
    return None if None in given else frozenset(part for part in given if part)


@cache
def trees() -> dict[str, ast.Module]:
    return {str(path.relative_to(CODE)): ast.parse(path.read_text("utf-8")) for path in sorted(CODE.rglob("*.py"))}


@cache
def said() -> tuple[Say, ...]:
    """Every call of `say`, `said` and of `count` with its noun, whose key is written in the call."""
    found = []
    for name, tree in trees().items():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            where = f"{name}:{node.lineno}"
            if isinstance(node.func, ast.Name) and node.func.id == "said":
                found += [Say(where, key, parts_given(node)) for key in keys_in(node.args[0])]
            if not isinstance(node.func, ast.Attribute):
                continue
            its_own = name == "words/language.py"
            if node.func.attr == "say" and (its_own or ast.unparse(node.func.value) not in NO_LANGUAGE):
                head = BEFORE.get(ast.unparse(node.func.value), "")
                found += [Say(where, f"{head}{key}", parts_given(node)) for key in keys_in(node.args[0])]
            elif node.func.attr == "count" and len(node.args) == 2:
                found += [Say(where, f"count.{noun}", frozenset("n")) for noun in keys_in(node.args[1])]
    return tuple(found)


@cache
def written() -> tuple[str, ...]:
    """Every string in the code, and every one that is put together, its gaps as `*`."""
    strings = (n for tree in trees().values() for n in ast.walk(tree) if isinstance(n, ast.Constant | ast.JoinedStr))
    return tuple(dict.fromkeys(key for node in strings for key in keys_in(node)))


@cache
def matching(key: str) -> list[str]:
    """The phrases that a key with gaps may mean."""
    pattern = re.compile(".*".join(map(re.escape, key.split("*"))))
    return [known for known in EN if pattern.fullmatch(known)]


def test_the_code_was_read() -> None:
    assert len(said()) > 500
    assert {"tray plan.week", "tray plan.column.*", "count.tray"} <= {say.key for say in said()}


def test_every_key_that_the_code_says_exists() -> None:
    assert [say for say in said() if not matching(say.key)] == []


def test_every_key_that_the_code_keeps_for_later_exists() -> None:
    """Keys that wait in a name or a table begin like a phrase's own: `tray plan.sum.left`."""
    heads = {".".join(key.split(".")[:2]) for key in EN if key.count(".") > 1}
    kept = [key for key in written() if ".".join(key.split(".")[:2]) in heads and re.fullmatch(r"[\w .*']+\w", key)]
    assert len(kept) > 150
    assert [key for key in kept if not matching(key) and not matching(f"{key}.*")] == []


def test_every_phrase_is_used() -> None:
    strings = set(written())
    gaps = [key for key in strings if "*" in key.lstrip("*") and key.partition(".")[0] in FAMILIES]
    used = strings | {known for key in gaps for known in matching(key)}
    nouns = {f"count.{noun}" for noun in strings}
    begun = tuple(f"{key}." for key in strings if key.count(".") == 1)  # what is put behind a key that waits in a name
    assert [key for key in EN if key not in used | nouns and not key.startswith(begun)] == []


@pytest.mark.parametrize("tag", LANGUAGES)
def test_every_call_gives_the_parts_that_its_phrase_wants(tag: str) -> None:
    phrases = phrases_of(tag)
    whole = [say for say in said() if say.key in phrases]  # which phrases a key with gaps means is not to be seen here
    assert len(whole) > 500
    for say in whole:
        wanted = parts_of(phrases[say.key]) | ({"n"} if isinstance(phrases[say.key], dict) else set())
        assert say.parts is None or wanted <= say.parts, (say, wanted - say.parts)


@pytest.mark.parametrize("tag", [tag for tag in LANGUAGES if tag != "en"])
def test_a_language_has_every_phrase_and_no_other(tag: str) -> None:
    phrases = phrases_of(tag)
    assert set(EN) - set(phrases) == set()
    assert set(phrases) - set(EN) == set()


@pytest.mark.parametrize("tag", [tag for tag in LANGUAGES if tag != "en"])
def test_a_phrase_has_the_same_parts_in_every_language(tag: str) -> None:
    for key, phrase in phrases_of(tag).items():
        # a number that only chooses the form need not be said: {number} says it as it is printed
        chosen = {"n"} if isinstance(phrase, dict) or isinstance(EN[key], dict) else set()
        assert key in OTHERWISE or parts_of(phrase) - chosen == parts_of(EN[key]) - chosen, key


@pytest.mark.parametrize("tag", LANGUAGES)
def test_a_plural_has_every_form_that_its_grammar_can_ask_for(tag: str) -> None:
    locale = Locale.parse(tag, sep="-")
    plural, ordinal = ({*rule.tags, "other"} for rule in (locale.plural_form, locale.ordinal_form))
    for key, phrase in phrases_of(tag).items():
        if isinstance(phrase, dict):
            wanted = ordinal if key == "nth" else plural
            assert set(phrase) >= wanted if key != "nth" else set(phrase) == wanted, key


def twice(node: yaml.Node, before: str) -> Iterator[str]:
    """The keys that stand twice in a mapping, of which YAML would drop one without a word."""
    if isinstance(node, yaml.MappingNode):
        names = [str(name.value) for name, _ in node.value]
        yield from (f"{before}{name}" for name in sorted(set(names)) if names.count(name) > 1)
        for name, value in node.value:
            yield from twice(value, f"{before}{name.value}.")


@pytest.mark.parametrize("tag", LANGUAGES)
def test_no_key_stands_twice(tag: str) -> None:
    for root in yaml.compose_all((FOLDER / f"{tag}.yaml").read_text("utf-8"), yaml.CSafeLoader):
        assert isinstance(root, yaml.MappingNode) or root.value == ""
        assert list(twice(root, "")) == []


@pytest.mark.parametrize("tag", LANGUAGES)
def test_no_phrase_is_an_empty_or_a_ragged_one(tag: str) -> None:
    """A value that YAML reads as a list or a mapping without an `other` would be no phrase at all."""
    for key, phrase in phrases_of(tag).items():
        for form in phrase.values() if isinstance(phrase, dict) else [phrase]:
            assert isinstance(form, str), key
            assert form == form.strip() != "", key
            assert "  " not in form, key


def test_the_folder_holds_the_languages_and_nothing_else() -> None:
    assert {Path(file).stem for file in FOLDER.glob("*.yaml")} == set(LANGUAGES)
