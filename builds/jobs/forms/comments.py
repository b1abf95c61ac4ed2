"""What somebody has to say of a job."""

from django import forms

from builds.work.models.comment import MOST


class CommentForm(forms.Form):
    text = forms.CharField(label="Comment", max_length=MOST, widget=forms.Textarea({"rows": 2}))
