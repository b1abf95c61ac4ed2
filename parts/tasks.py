"""What the worker beside the server does for the garage and its shelf together."""

from django_tasks import task

from garage import clock
from garage.actions import backup
from garage.actions.daily_backup import tidy
from garage.actions.refused import Refused
from garage.engine.sizes import size_words
from parts.actions.snapshot import proof


@task()
def make_backup(daily: bool) -> dict[str, object]:
    """One that is whole is said with its size; what is wrong is said in the words of the command."""
    try:
        made = backup.make(None, prove=proof, secrets=False, at=clock.now(), daily=daily)
    except Refused as refused:
        return {"whole": False, "said": str(refused)}
    if made.faults:
        return {"whole": False, "said": made.faults_words}
    if daily:
        tidy()
    return {"whole": True, "said": f"{made.manifest.rows} rows, {size_words(made.bytes)}."}
