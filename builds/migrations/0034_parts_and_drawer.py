"""What a garage's own recipes listed as parts and its drawer has stands as that: only the rest is bought for a job."""

from django.db import migrations

# As the recipes that came with the program said it; common practice, no source.
DRAWER = frozenset(
    """
    assembly grease for brakes · body filler · brake cleaner · brake fluid of the kind in the system · bush
    grease · cable · cable and lugs · cable of the right size · cavity wax · cleaner of the adhesive's own
    system · clips · contact grease · coolant · coolant mix · cutting wire · degreaser · differential oil ·
    dowels · driver ballast · dye penetrant set · epoxy primer · filler rod that suits the steel · filler that
    suits the steel · fire blanket · foam strip · fresh fluid of the kind already in the system · fuel caps ·
    fuse · fuse and holder · fuses · gearbox oil · grommets · heat-shrink · high-tensile screws · hose clips ·
    labels · line caps · lock-stop spacers · marking paste · masking · masking tape · modelling clay · mount
    bolts · new bolts where the maker asks for them · new caliper bolts where the maker asks for them · new
    crush washers · new nuts and split pins · new sealing rings · new seals and crush washers · new self-locking
    nuts · new split pins · oil · oil sample bottles · panel wipe · paper · penetrating oil · pipe caps · plugs
    for every open pipe · rags · relay · resistor if the maker asks for one · rivets · rubber mounts · seam
    sealer · seam sealer that goes under it wet · setting blocks · sheet · sheet steel · shims · signs · sleeve
    · split pins · star washers · steering fluid of the maker's kind · tack cloth · tape · terminal covers ·
    terminals · thread lock · ties · topcoat · topcoat and hardener · trim clips · valves · vent hose · weights
    · weld-through primer · wire
    """.replace("\n    ", " ").strip().split(" · ")
)


def part(apps, schema_editor):
    """Parts that lie in every drawer go there; a recipe that was told so already is left as it is."""
    for own in apps.get_model("builds", "OwnRecipe").objects.using(schema_editor.connection.alias):
        for job in own.body.get("jobs", ()):
            listed = job.get("parts", ())
            lies = [line for line in listed if line in DRAWER]
            if lies and "drawer" not in job:
                job["parts"] = [line for line in listed if line not in DRAWER]
                job["drawer"] = lies
        own.save(update_fields=["body"])


def join(apps, schema_editor):
    for own in apps.get_model("builds", "OwnRecipe").objects.using(schema_editor.connection.alias):
        for job in own.body.get("jobs", ()):
            job["parts"] = [*job.get("parts", ()), *job.pop("drawer", ())]
        own.save(update_fields=["body"])


class Migration(migrations.Migration):
    dependencies = [("builds", "0033_what_was_seen")]
    operations = [migrations.RunPython(part, join)]
