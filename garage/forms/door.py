"""The sign-in form."""

from django import forms

from garage.passwords import LONGEST


class SignInForm(forms.Form):
    email = forms.CharField(
        label="E-mail",
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "username"}),
    )
    password = forms.CharField(
        max_length=LONGEST,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )

    def too_long(self) -> bool:
        return self.has_error("password", "max_length") or self.has_error("email", "max_length")
