"""A person: someone who works on the cars, whether or not he signs in."""

from typing import Any, Self

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models

from garage.models.bounds import text_within


class PersonQuerySet(models.QuerySet["Person"]):
    def active(self) -> Self:
        return self.filter(is_active=True)

    def called(self, words: str) -> Self:
        """By e-mail or by name, whatever the case."""
        return self.filter(models.Q(email__iexact=words) | models.Q(name__iexact=words))


class PersonManager(BaseUserManager["Person"]):
    def get_by_natural_key(self, username: str | None) -> "Person":
        return self.get(email=(username or "").strip().lower())

    def create_user(self, name: str, email: str | None = None, password: str | None = None, **more: Any) -> "Person":
        person = self.model(name=name, email=(email or "").strip().lower() or None, **more)
        person.set_password(password)
        person.save()
        return person


class Person(AbstractBaseUser):
    """`name` is what the others call him; the surname never leaves the garage."""

    name = models.CharField(max_length=60)
    surname = models.CharField(max_length=60, blank=True)
    email = models.EmailField(max_length=254, null=True, blank=True, unique=True)
    is_active = models.BooleanField(default=True)
    scheme = models.CharField(max_length=5, blank=True, default="")
    # Sessions that began before this moment have ended.
    sessions_from = models.DateTimeField(null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    USERNAME_FIELD = "email"
    objects = PersonManager.from_queryset(PersonQuerySet)()

    class Meta:
        constraints = [
            text_within("person", "name", 60, least=1),
            text_within("person", "surname", 60),
            text_within("person", "scheme", 5),
        ]

    def __str__(self) -> str:
        return self.name
