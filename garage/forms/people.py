"""Forms about people and skills."""

from typing import Any, ClassVar

from django import forms

from garage.access import refuse_identity
from garage.actions.people import IDENTITY, CarLimits, is_elsewhere
from garage.forms.account import TAKEN
from garage.forms.edits import EditForm
from garage.forms.hours import SHORT_WEEK, WeekFields
from garage.models import Garage, Membership, Person, Skill, Vehicle

ROLES = {
    "owner": "owner: changes everything",
    "helper": "helper: works on jobs, keeps own hours",
    "viewer": "viewer: only looks",
}


class PersonForm(EditForm, WeekFields):
    """Whoever is new may say at once when he is in; later the week has a form of its own."""

    lines: ClassVar = SHORT_WEEK

    name = forms.CharField(max_length=60, help_text="what the others call this person")
    surname = forms.CharField(max_length=60, required=False, help_text="never leaves the garage")
    email = forms.EmailField(
        label="E-mail",
        max_length=254,
        required=False,
        help_text="only to sign in; nobody needs to",
    )
    role = forms.ChoiceField(choices=list(ROLES.items()), initial="helper", widget=forms.RadioSelect)
    works = forms.BooleanField(label="Works on the cars", required=False, initial=True, help_text="counts in the plan")
    may_sign = forms.BooleanField(
        label="May sign",
        required=False,
        help_text="looks at what others worked on, on every car, and signs",
    )
    some_cars = forms.BooleanField(
        label="Works only on some cars",
        required=False,
        help_text="on those ticked, and on none that comes later",
    )
    cars = forms.ModelMultipleChoiceField(
        label="Works on", queryset=Vehicle.objects.none(), required=False, widget=forms.CheckboxSelectMultiple
    )
    some_donors = forms.BooleanField(
        label="Pulls parts only from some cars",
        required=False,
        help_text="for another car or the shelf; none ticked is from none",
    )
    donors = forms.ModelMultipleChoiceField(
        label="Pulls parts from", queryset=Vehicle.objects.none(), required=False, widget=forms.CheckboxSelectMultiple
    )
    skills = forms.ModelMultipleChoiceField(
        queryset=Skill.objects.none(), required=False, widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, *args: Any, garage: Garage, member: Membership | None = None, **kwargs: Any) -> None:
        self.garage, self.member = garage, member
        if member:
            person = member.person
            kwargs["initial"] = {
                "name": person.name,
                "surname": person.surname,
                "email": person.email,
                "role": member.role,
                "works": member.works,
                "may_sign": member.may_sign,
                "skills": member.skills.all(),
                "some_cars": not member.every_car,
                "cars": member.cars.all(),
                "some_donors": not member.every_donor,
                "donors": member.donors.all(),
            }
        super().__init__(*args, edits=member is not None, **kwargs)
        if member is None:
            self.add_week([])
        self.fields["skills"].queryset = Skill.objects.in_garage(garage)
        for name in ("cars", "donors"):
            self.fields[name].queryset = Vehicle.objects.in_garage(garage).kept()
        refusal = refuse_identity(member, is_elsewhere(member)) if member else None
        if refusal:
            for field in IDENTITY:
                self.fields[field].disabled = True
            self.fields["name"].help_text = refusal

    def told(self) -> dict[str, Any]:
        """What the actions take, the limits of the cars as one."""
        told = dict(self.cleaned_data)
        if self.member:
            del told["week"]
        limits = {f"every_{one}": not told.pop(f"some_{one}s") for one in ("car", "donor")}
        return {"cars": CarLimits(**limits, cars=told.pop("cars"), donors=told.pop("donors")), **told}

    def clean_cars(self) -> Any:
        return self._ticked("cars")

    def clean_donors(self) -> Any:
        return self._ticked("donors")

    def _ticked(self, name: str) -> Any:
        """Cars are ticked where they are a limit, and nowhere else."""
        if self.cleaned_data[name] and not self.cleaned_data.get(f"some_{name}"):
            label = self.fields[f"some_{name}"].label
            raise forms.ValidationError(f"Tick “{label}” as well, or none of these.")
        return self.cleaned_data[name]

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Membership.objects.in_garage(self.garage).active().filter(person__name__iexact=name)
        if self.member:
            others = others.exclude(pk=self.member.pk)
        if others.exists():
            raise forms.ValidationError(f"Somebody here is called {name} already: tell the two apart.")
        return name

    def clean_email(self) -> str | None:
        email = self.cleaned_data["email"].lower() or None
        others = Person.objects.filter(email__iexact=email) if email else Person.objects.none()
        if self.member:
            others = others.exclude(pk=self.member.person_id)
        else:  # whoever left this garage, and is in no other, may come back
            left = Membership.objects.in_garage(self.garage).gone().values("person")
            active = Membership.objects.active().values("person")
            others = others.exclude(pk__in=left) | others.filter(pk__in=active)
        if others.exists():
            raise forms.ValidationError(TAKEN)
        return email


class SkillForm(forms.Form):
    name = forms.CharField(label="New skill", max_length=40)

    def __init__(self, *args: Any, garage: Garage, **kwargs: Any) -> None:
        self.garage = garage
        super().__init__(*args, **kwargs)

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        if Skill.objects.in_garage(self.garage).filter(name__iexact=name).exists():
            raise forms.ValidationError(f"{name} is a skill already.")
        return name
