"""A form that has other forms in it, sent and answered as one."""

from collections.abc import Iterator, Sequence

from django import forms


class FormWithin(forms.Form):
    """What is wrong with one of the forms `within` is wrong with this one; each is drawn where it stands.

    Each form within has a prefix, or fields of names that this one has not.
    """

    @property
    def within(self) -> Sequence[forms.BaseForm]:
        return ()

    @property
    def own(self) -> list[forms.BoundField]:
        return list(super().__iter__())

    def __iter__(self) -> Iterator[forms.BoundField]:
        yield from super().__iter__()
        for form in self.within:
            yield from form

    def full_clean(self) -> None:
        super().full_clean()
        if not self.is_bound:
            return
        for form in self.within:
            for name, errors in form.errors.items():
                self.errors[form.add_prefix(name)] = errors

    def put(self, sentence: str, field: str) -> None:
        """A refusal at its field where that is one of its own, else over the form."""
        self.add_error(field if field in self.fields else None, sentence)
