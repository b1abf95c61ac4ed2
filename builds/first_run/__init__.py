"""The first page of somebody who is in no garage yet: his garage, and what a first plan rests on, in one form."""
