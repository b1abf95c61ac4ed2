"""The demo garage is loaded once, by the command or by somebody who has no garage yet."""

from io import StringIO

from django.core.management import call_command

from garage.models import Garage, Person
from tests.conftest import Browserless


def test_the_command_loads_once_when_empty(db, now):
    call_command("demo", "--if-empty", stdout=StringIO())
    call_command("demo", "--if-empty", stdout=StringIO())
    assert Garage.objects.count() == 1


def test_somebody_without_a_garage_loads_it_and_owns_it(db, now):
    person = Person.objects.create_user("Ines")
    client = Browserless()
    client.force_login(person)
    assert client.get("/")["Location"] == "/first-run/"
    assert client.press("/demo/").status_code == 303
    assert person.memberships.get().role == "owner"
    page = client.get("/").content.decode()
    assert "Heron" in page
