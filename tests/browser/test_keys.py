"""The one-time key: used once, forgiving of how it is typed, and never the same."""

from __future__ import annotations

import secrets
from collections.abc import Callable

import pytest

from wizard.browser.guard import OneTimeKey


def test_only_the_right_key_works_and_only_once() -> None:
    key, other = OneTimeKey(), OneTimeKey()
    assert not key.opened("")
    assert not key.opened(key._session), "no session is open before the key is used"
    for wrong in ("", key.text[:-1], f"{key.text}2", other.text, "ö", "\ud800"):
        assert key.spend(wrong) is None
    session = key.spend(key.text)
    assert session is not None
    assert key.opened(session)
    assert key.spend(key.text) is None
    assert key.opened(session), "a second try does not end the session"
    assert not key.opened(other.spend(other.text) or "")
    assert not key.opened("\ud800")


@pytest.mark.parametrize("typed", [str.upper, lambda key: key.replace("-", ""), lambda key: f" {key} "])
def test_a_key_may_be_typed_by_hand(typed: Callable[[str], str]) -> None:
    key = OneTimeKey()
    assert key.spend(typed(key.text)) is not None


def test_keys_have_no_letters_that_are_taken_for_others_and_never_come_twice() -> None:
    made = [OneTimeKey().text for _ in range(200)]
    assert len(set(made)) == 200
    assert not set("".join(made)) & set("il1o0")
    assert {len(each) for each in made} == {24}


def test_keys_and_sessions_are_compared_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    compared = []

    def compare(one: bytes, other: bytes) -> bool:
        compared.append((one, other))
        return one == other

    monkeypatch.setattr(secrets, "compare_digest", compare)
    key = OneTimeKey()
    session = key.spend(key.text)
    assert session is not None
    key.spend("wrong")
    key.opened("wrong")
    bare = key.text.replace("-", "").encode()
    assert compared == [(bare, bare), (b"wrong", bare), (b"wrong", session.encode())]
