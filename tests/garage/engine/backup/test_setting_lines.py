"""Settings as lines: those that are set, secrets only when asked for."""

import shlex

import pytest

from garage.engine.backup.setting_lines import setting_lines, without_password

NAMES = ["DATA_DIR", "DATABASE_URL", "SECRET_KEY", "SECRET_KEY_FALLBACKS", "HTTPS", "PUBLIC_URL"]
SET = {
    "DATA_DIR": "/srv/the garage",
    "DATABASE_URL": "postgres://ines:pa55@db:5432/garage?sslpassword=pa56",
    "SECRET_KEY": "k1",
    "SECRET_KEY_FALLBACKS": "k0",
    "HTTPS": " ",
    "PATH": "/bin",
}


def test_what_is_set_is_written_as_a_shell_reads_it():
    lines = setting_lines(NAMES, SET, secrets=True)
    assert lines.splitlines()[0] == "DATA_DIR='/srv/the garage'"
    read = dict(line.split("=", 1) for line in shlex.split(lines))
    assert read == {name: SET[name] for name in ("DATA_DIR", "DATABASE_URL", "SECRET_KEY", "SECRET_KEY_FALLBACKS")}


def test_without_secrets_no_key_and_no_password_is_in_it():
    lines = setting_lines(NAMES, SET, secrets=False)
    assert lines.splitlines()[1:] == ["DATABASE_URL=postgres://ines@db:5432/garage"]
    assert not any(secret in lines for secret in ("pa55", "pa56", "k1", "k0"))


@pytest.mark.parametrize(
    ("address", "plain"),
    [
        ("sqlite:///", "sqlite:///"),
        ("sqlite:////srv/garage.sqlite3", "sqlite:////srv/garage.sqlite3"),
        ("postgres://db/garage", "postgres://db/garage"),
        ("postgres://a%40b:p%3Aw@[::1]:5432/garage", "postgres://a%40b@[::1]:5432/garage"),
    ],
)
def test_an_address_without_its_password(address, plain):
    assert without_password(address) == plain
