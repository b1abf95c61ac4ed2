"""The command loads the demo garage once."""

from io import StringIO

from django.core.management import call_command

from garage.models import Garage


def test_the_command_loads_once_when_empty(db, now):
    call_command("demo", "--if-empty", stdout=StringIO())
    call_command("demo", "--if-empty", stdout=StringIO())
    assert Garage.objects.count() == 1
