"""The forms of one's own account."""

from typing import Any

from django import forms
from django.contrib.auth.password_validation import validate_password

from garage.forms.edits import EditForm
from garage.models import Person
from garage.passwords import LONGEST

TAKEN = "This e-mail cannot be used here: write another."
SCHEMES = [("", "as this device has it"), ("light", "light"), ("dark", "dark, for the night")]


def password_field(label: str, autocomplete: str, **more: Any) -> forms.CharField:
    return forms.CharField(
        label=label,
        max_length=LONGEST,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": autocomplete}),
        **more,
    )


class AccountForm(EditForm, forms.ModelForm):
    scheme = forms.ChoiceField(label="Light or dark", choices=SCHEMES, required=False, widget=forms.RadioSelect)

    class Meta:
        model = Person
        fields = ["name", "surname", "scheme"]
        help_texts = {"name": "what the others call you", "surname": "seen in this garage only"}


class SignInSettingsForm(forms.Form):
    """E-mail and password; whoever has a password says it first."""

    email = forms.EmailField(
        label="E-mail", max_length=254, widget=forms.EmailInput(attrs={"autocomplete": "username"})
    )

    def __init__(self, *args: Any, person: Person, **kwargs: Any) -> None:
        self.person = person
        super().__init__(*args, initial={"email": person.email}, **kwargs)
        if person.has_usable_password():
            self.fields["current"] = password_field("Password now", "current-password")
        self.fields["password"] = password_field(
            "New password",
            "new-password",
            required=not person.has_usable_password(),
            help_text="10 characters or more; spaces count",
        )

    def clean_email(self) -> str:
        email: str = self.cleaned_data["email"].lower()
        if Person.objects.exclude(pk=self.person.pk).filter(email__iexact=email).exists():
            raise forms.ValidationError(TAKEN)
        return email

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        if password:
            validate_password(password, self.person)
        return password
